#include "packing/finish.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <utility>

#include "packing/relax.h"
#include "packing/standing.h"

namespace placer::packing {

namespace {

constexpr double kInf = std::numeric_limits<double>::infinity();

bool all_stand(const std::vector<Kind>& kinds, const Scene& scene, const std::vector<Pose>& poses) {
  Standing standing{kinds, scene};
  for (const Pose& pose : poses) {
    if (!standing.free_for(pose)) return false;
    standing.add(pose);
  }
  return true;
}

/// On whole millimetres and degrees, as the caller will read them.
Pose snapped(const Kind& kind, const Pose& pose) {
  Place place = place_of(kind, pose);
  place.at.at = {std::round(place.at.at.x), std::round(place.at.at.y)};
  if (kind.free) place.at.turn_deg = std::round(place.at.turn_deg);
  return pose_of(kind, place);
}

std::vector<Pose> snapped(const std::vector<Kind>& kinds, const std::vector<Pose>& poses) {
  std::vector<Pose> all;
  for (const Pose& pose : poses) {
    all.push_back(snapped(kinds[static_cast<std::size_t>(pose.kind)], pose));
  }
  return all;
}

/// How many of the freely turning pieces can look the one way `turn`, each tried in order.
std::vector<Pose> turned_to(const std::vector<Kind>& kinds, const Scene& scene,
                            std::vector<Pose> poses, double turn, int& agreeing) {
  Relaxer relaxer{kinds, scene, 0};
  relaxer.set(poses);
  relaxer.energy();
  agreeing = 0;
  for (int i = 0; i < relaxer.size(); ++i) {
    Pose pose = relaxer.pose(i);
    if (!kinds[static_cast<std::size_t>(pose.kind)].free) continue;
    pose.turn = turn;
    if (relaxer.strain_at(pose, i, kInf) > 0) continue;
    relaxer.move(i, pose);
    relaxer.energy();
    ++agreeing;
  }
  return relaxer.poses();
}

std::vector<Pose> one_way(const std::vector<Kind>& kinds, const Scene& scene,
                          const std::vector<Pose>& poses) {
  std::vector<Pose> best = poses;
  int most = 0;
  for (int k = 0; k < 8; ++k) {
    int agreeing = 0;
    std::vector<Pose> turned = turned_to(kinds, scene, poses, k * kPi / 4, agreeing);
    if (agreeing <= most) continue;
    most = agreeing;
    best = std::move(turned);
  }
  return best;
}

}  // namespace

std::vector<Pose> tidied(const std::vector<Kind>& kinds, const Scene& scene,
                         const std::vector<Pose>& poses) {
  if (poses.empty()) return poses;
  const bool turning = std::any_of(poses.begin(), poses.end(), [&](const Pose& pose) {
    return kinds[static_cast<std::size_t>(pose.kind)].free;
  });
  const auto tidy = [&](const std::vector<Pose>& from) {
    return turning && poses.size() <= 200 ? one_way(kinds, scene, from) : from;
  };
  std::vector<Pose> best = tidy(poses);
  if (turning && !all_stand(kinds, scene, best)) best = poses;
  const std::vector<Pose> plain = snapped(kinds, best);
  if (all_stand(kinds, scene, plain)) return plain;
  std::vector<Kind> stiff = kinds;  // turned no more
  for (Kind& kind : stiff) kind.free = false;
  for (const double slack : {5.0, 1.5, 0.8}) {  // pushed a little apart, whole numbers may do
    Relaxer relaxer{stiff, scene, slack};
    relaxer.set(plain);
    relaxer.relax(150, 1e-4);
    const std::vector<Pose> apart = snapped(kinds, relaxer.poses());
    if (all_stand(kinds, scene, apart)) return apart;
  }
  return best;
}

namespace {

/// Pieces near one another, by cells as wide as the farthest that two can be too near.
class Near {
 public:
  Near(const Problem& problem, const std::vector<Kind>& kinds, std::size_t pieces) {
    constexpr std::size_t kFew = 300;  // few enough to look at every pair
    if (pieces <= kFew) cell_ = 1e9;
    for (const Kind& kind : kinds) {
      const double off = std::sqrt(dot(kind.shift, kind.shift));
      cell_ = std::max(cell_, 2 * (kind.reach + off + kind.halo) + problem.gap);
    }
  }
  template <class Look>
  void each(Point at, Look look) const {
    const auto [x, y] = cell(at);
    for (int i = x - 1; i <= x + 1; ++i) {
      for (int j = y - 1; j <= y + 1; ++j) {
        const auto found = cells_.find({i, j});
        if (found == cells_.end()) continue;
        for (const std::size_t k : found->second) look(k);
      }
    }
  }
  void add(Point at, std::size_t k) { cells_[cell(at)].push_back(k); }

 private:
  std::pair<int, int> cell(Point at) const {
    return {static_cast<int>(std::floor(at.x / cell_)), static_cast<int>(std::floor(at.y / cell_))};
  }
  double cell_ = 1;
  std::map<std::pair<int, int>, std::vector<std::size_t>> cells_;
};

Point middle_of(const Kind& kind, const Place& place) {
  const Pose pose = pose_of(kind, place);
  return {pose.x, pose.y};
}

}  // namespace

Packing finished(const Problem& problem, const std::vector<Kind>& kinds,
                 const std::vector<Pose>& poses) {
  Packing packing;
  packing.least_gap = kInf;
  std::vector<Footprint> set;
  Near near{problem, kinds, poses.size()};
  for (const Pose& pose : poses) {
    const auto k = static_cast<std::size_t>(pose.kind);
    const Place place = place_of(kinds[k], pose);
    const Footprint shape = placed(problem.items[k].shape, place.at);
    double least = std::min(inset(shape, problem.region) - problem.edge_gap,
                            keep_out_gap(shape, problem.region) - problem.gap - kinds[k].halo);
    near.each(place.at.at, [&](std::size_t j) {
      const Kind& other = kinds[static_cast<std::size_t>(packing.places[j].item)];
      const double halo = other.halo;
      const Point there = middle_of(other, packing.places[j]);
      const Point v = there - Point{pose.x, pose.y};
      const double far = kinds[k].reach + other.reach + problem.gap + kinds[k].halo + halo +
                         std::max(0.0, std::min(least, 1e6));
      if (dot(v, v) > far * far) return;
      least = std::min(least, gap(shape, set[j]) - problem.gap - kinds[k].halo - halo);
    });
    if (least < -kRounding) continue;
    packing.least_gap = std::min(packing.least_gap, std::max(0.0, least));
    packing.places.push_back(place);
    packing.value += kinds[k].value;
    near.add(place.at.at, set.size());
    set.push_back(shape);
  }
  return packing;
}

std::string pattern_of(const std::vector<int>& rows) {
  if (rows.empty()) return "";
  const std::string first = std::to_string(rows[0]);
  if (rows.size() == 1) return "1 row of " + first;
  const auto even = [&](std::size_t from) {
    for (std::size_t i = from; i < rows.size(); i += 2) {
      if (rows[i] != rows[from]) return false;
    }
    return true;
  };
  if (even(0) && even(1)) {
    if (rows[0] == rows[1]) return std::to_string(rows.size()) + " rows of " + first;
    if (rows.size() > 2) {
      return "rows of " + first + " and " + std::to_string(rows[1]) + " by turns";
    }
  }
  constexpr std::size_t kTold = 12;
  if (rows.size() > kTold) {
    const auto [least, most] = std::minmax_element(rows.begin(), rows.end());
    return std::to_string(rows.size()) + " rows of " + std::to_string(*least) + " to " +
           std::to_string(*most);
  }
  std::string all = "rows of ";
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (i > 0) all += i + 1 == rows.size() ? " and " : ", ";
    all += std::to_string(rows[i]);
  }
  return all;
}

}  // namespace placer::packing
