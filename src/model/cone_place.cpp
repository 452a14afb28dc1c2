// What a spy hole looks at.
#include "placer/model/cone_place.h"

#include <algorithm>
#include <cmath>

namespace placer {
namespace {

constexpr double kSameDistance = 50;  // mm: columns no farther than that are as near as the nearest

bool says(const KeepOut& keep_out, const char* word) {
  std::string what = keep_out.what;
  for (char& c : what) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return what.find(word) != std::string::npos;
}

double away(Point a, Point b) { return std::hypot(a.x - b.x, a.y - b.y); }

/// The middle of its roomiest part.
Point middle_of(const Footprint& area) {
  Disc best;
  for (const Disc& disc : area.discs) {
    if (disc.radius > best.radius) best = disc;
  }
  for (const Outline& outline : area.outlines) {
    Point middle;
    for (const Point corner : outline.corners) middle = middle + corner;
    middle = (1.0 / static_cast<double>(outline.corners.size())) * middle;
    const double radius = std::abs(inset(middle, outline));
    if (radius > best.radius) best = {middle, radius};
  }
  return best.centre;
}

Point nearest_on_edge(Point p, const Outline& edge) {
  Point best;
  double least = 1e300;
  for (std::size_t i = 0; i < edge.corners.size(); ++i) {
    const Point a = edge.corners[i];
    const Point along = edge.corners[(i + 1) % edge.corners.size()] - a;
    const double length = along.x * along.x + along.y * along.y;
    const Point to = p - a;
    const double part =
        length > 0 ? std::clamp((to.x * along.x + to.y * along.y) / length, 0.0, 1.0) : 0;
    const Point foot = a + part * along;
    if (away(p, foot) < least) {
      least = away(p, foot);
      best = foot;
    }
  }
  return best;
}

struct Candidate {
  int level = 0;
  double away = 0;  ///< of the shelf from the eye, seen from above
  double off = 0;   ///< of the cones' middle from what the hole looks at
  bool seen = false;
};

/// Shelves with room for cones, in the load's order; and how far the nearest of all is away.
std::vector<Candidate> candidates(const Batch& batch, const KilnLoad& load, int index,
                                  double& least) {
  const KeepOut& hole = batch.kiln.keep_outs.at(static_cast<std::size_t>(index));
  const Band looks = looks_at(hole, batch.kiln);
  const Footprint eye{{{eye_of(hole, batch.kiln), 0.1}}, {}};
  std::vector<Candidate> all;
  least = 1e300;
  for (std::size_t i = 0; i < load.levels.size(); ++i) {
    const Level& level = load.levels[i];
    Candidate one;
    one.level = static_cast<int>(i);
    one.away = std::max(gap(eye, ground(batch, level)), 0.0);
    least = std::min(least, one.away);
    if (level.clear_height.mm() < kPackHigh) continue;
    const double middle = level.shelf_top.mm() + kPackHigh / 2;
    one.off = std::abs(middle - std::clamp(middle, looks.low, looks.high));
    const Band hides = hides_between(hole, batch.kiln, level);
    one.seen = hides.high > hides.low;
    all.push_back(one);
  }
  return all;
}

std::vector<int> levels_of(const std::vector<Candidate>& all) {
  std::vector<int> levels;
  for (const Candidate& one : all) levels.push_back(one.level);
  return levels;
}

}  // namespace

bool is_spy_hole(const KeepOut& keep_out) {
  return says(keep_out, "spy") || says(keep_out, "peep");
}

bool is_for_cones(const KeepOut& keep_out) {
  return !is_spy_hole(keep_out) && says(keep_out, "cone");
}

bool keeps_cone_places(const Kiln& kiln) {
  return std::any_of(kiln.keep_outs.begin(), kiln.keep_outs.end(), is_for_cones);
}

std::vector<int> holes_for_cones(const Kiln& kiln) {
  std::vector<int> holes;
  if (keeps_cone_places(kiln)) return holes;
  for (std::size_t i = 0; i < kiln.keep_outs.size(); ++i) {
    if (is_spy_hole(kiln.keep_outs[i])) holes.push_back(static_cast<int>(i));
  }
  return holes;
}

Band looks_at(const KeepOut& hole, const Kiln& kiln) {
  if (hole.to <= hole.from) return {0, kiln.height.mm()};
  return {hole.from.mm(), hole.to.mm()};
}

Band cones_on(const Level& level) {
  return {level.shelf_top.mm(), level.shelf_top.mm() + kPackHigh};
}

Band hides_between(const KeepOut& hole, const Kiln& kiln, const Level& level) {
  const Band looks = looks_at(hole, kiln);
  const Band cones = cones_on(level);
  const double low = std::max(looks.low, cones.low);
  const double high = std::min(looks.high, cones.high);
  if (high - low < kLeastSeen) return {};
  // Over what stands before them there must be as much to see.
  return {std::clamp(high - kLeastSeen, low, low + kLeastSeen), cones.high};
}

Point eye_of(const KeepOut& hole, const Kiln& kiln) {
  const Point middle = middle_of(hole.area);
  const Region& chamber = kiln.chamber;
  if (chamber.round && chamber.outline.corners.empty()) {
    const Point out = middle - chamber.round->centre;
    const double length = std::hypot(out.x, out.y);
    if (length > 0) return chamber.round->centre + (chamber.round->radius / length) * out;
  }
  return nearest_on_edge(middle, edge_polygon(chamber, 0.1));
}

Footprint pack_at(const Placement& place) {
  return placed(Footprint{{}, {rectangle(kPackLong, kPackDeep)}}, place);
}

Outline line_of_sight(Point eye, const Placement& pack) {
  const Point half = kPackLong / 2 * direction(pack.turn_deg);
  Outline sight{{eye, pack.at - half, pack.at + half}};
  if (signed_area(sight) < 0) std::swap(sight.corners[1], sight.corners[2]);
  return sight;
}

std::vector<int> levels_in_sight(const Batch& batch, const KilnLoad& load, int hole) {
  double least = 0;
  std::vector<Candidate> all = candidates(batch, load, hole, least);
  std::erase_if(
      all, [&](const Candidate& one) { return !one.seen || one.away > least + kSameDistance; });
  std::stable_sort(all.begin(), all.end(),
                   [](const Candidate& a, const Candidate& b) { return a.off < b.off; });
  return levels_of(all);
}

std::vector<int> levels_for_cones(const Batch& batch, const KilnLoad& load, int hole) {
  double least = 0;
  std::vector<Candidate> all = candidates(batch, load, hole, least);
  std::stable_sort(all.begin(), all.end(), [&](const Candidate& a, const Candidate& b) {
    const bool far_a = a.away > least + kSameDistance;
    const bool far_b = b.away > least + kSameDistance;
    return far_a != far_b ? far_b : a.off < b.off;
  });
  return levels_of(all);
}

}  // namespace placer
