#include "loading/hand_rows.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "loading/index.h"
#include "placer/packing/packing.h"

namespace placer::loading {
namespace {

constexpr double kFull = 0.95;  // of the ground: fuller shelves have no room for plain rows
constexpr int kTraces = 400;    // steps along one row

/// The things of one sort and stack, in the order of the level.
struct Group {
  std::vector<int> things;
  double deep = 0;
  double tall_or_wide = 0;
};

std::vector<Group> groups_of(const Bench& bench) {
  std::vector<Group> groups;
  for (int i = 0; i < bench.size(); ++i) {
    const Thing& thing = at(bench.things(), i);
    const auto known = std::find_if(groups.begin(), groups.end(), [&](const Group& group) {
      const Thing& first = at(bench.things(), group.things.front());
      return first.sort == thing.sort && first.reach == thing.reach;
    });
    if (known != groups.end()) {
      known->things.push_back(i);
    } else {
      groups.push_back({{i}, 0, thing.reach});
    }
  }
  std::stable_sort(groups.begin(), groups.end(),
                   [](const Group& a, const Group& b) { return a.tall_or_wide > b.tall_or_wide; });
  return groups;
}

/// One try: the same turn for all that may be turned.
class Rows {
 public:
  Rows(Bench bench, double turn)
      : bench_{std::move(bench)}, turn_{turn}, away_(static_cast<std::size_t>(bench_.size()), 1) {}

  bool set(const std::vector<Group>& groups) {
    near_ = bench_.box().high.y;
    for (const Group& group : groups) {
      std::size_t next = 0;
      while (next < group.things.size()) {
        const std::size_t before = next;
        if (!set_row(group, next)) return false;
        if (next == before) return false;
      }
    }
    return true;
  }
  Bench bench() && { return std::move(bench_); }

 private:
  double turn_of(int i) const {
    const auto& turns = bench_.turns(i);
    if (!turns.empty()) return turns.front();
    return at(bench_.things(), i).round ? 0 : turn_;
  }

  /// The first whole millimetre from `x` on where the thing may stand in the row.
  std::optional<double> free_from(int i, double x, double y) const {
    for (int step = 0; step < kTraces && x <= bench_.box().high.x; ++step) {
      const double off = bench_.short_by(i, {{x, y}, turn_of(i)}, away_);
      if (off <= 0) return x;
      x += std::max(1.0, std::floor(off));
    }
    return std::nullopt;
  }

  /// Places of as many of the group as the row at `y` takes.
  std::vector<double> row_at(const Group& group, std::size_t next, double y) {
    std::vector<double> places;
    double x = std::ceil(bench_.box().low.x);
    std::vector<int> put;
    for (std::size_t k = next; k < group.things.size(); ++k) {
      const int i = group.things[k];
      const auto free = free_from(i, x, y);
      if (!free) break;
      places.push_back(*free);
      bench_.put(i, {{*free, y}, turn_of(i)});
      at(away_, i) = 0;
      put.push_back(i);
      x = *free + 1;
    }
    for (const int i : put) at(away_, i) = 1;
    return places;
  }

  /// The farthest row that still takes some, or one a little nearer that takes more.
  bool set_row(const Group& group, std::size_t& next) {
    const Thing& first = at(bench_.things(), group.things[next]);
    const Box box = bounding_box(placed(first.shape, {{}, turn_of(group.things[next])}));
    const double step = std::max(3.0, std::floor(first.reach / 4));
    std::vector<double> best;
    double best_y = 0;
    int looks = 0;
    for (double y = std::floor(near_ - box.high.y); y + box.low.y >= bench_.box().low.y - 1;
         y -= best.empty() ? 3 : step) {
      std::vector<double> here = row_at(group, next, y);
      if (here.size() > best.size()) {
        best = std::move(here);
        best_y = y;
      }
      if (!best.empty() && ++looks >= 4) break;
      if (best.size() + next == group.things.size()) break;
    }
    if (best.empty()) return false;
    for (const double x : best) {
      const int i = group.things[next++];
      bench_.put(i, {{x, best_y}, turn_of(i)});
      at(away_, i) = 0;
    }
    near_ = best_y;  // the next row may reach between these
    return true;
  }

  Bench bench_;
  double turn_;
  std::vector<char> away_;  ///< not set yet
  double near_ = 0;
};

}  // namespace

namespace {

void flip(Outline& outline) {
  for (Point& p : outline.corners) p.y = -p.y;
  std::reverse(outline.corners.begin(), outline.corners.end());
}

Footprint flipped(Footprint shape) {
  for (Disc& disc : shape.discs) disc.centre.y = -disc.centre.y;
  for (Outline& outline : shape.outlines) flip(outline);
  return shape;
}

/// Far for near: the engine fills rows from the near side, a person from the far one.
Region flipped(Region region) {
  flip(region.outline);
  if (region.round) region.round->centre.y = -region.round->centre.y;
  for (Footprint& keep_out : region.keep_outs) keep_out = flipped(keep_out);
  return region;
}

}  // namespace

bool set_in_close_rows(Bench& bench) {
  const auto& things = bench.things();
  if (things.size() < 2) return false;
  for (const Thing& thing : things) {
    if (thing.fixed || thing.sort != things[0].sort || thing.reach != things[0].reach) return false;
  }
  packing::Problem problem;
  problem.region = flipped(bench.region());
  problem.gap = bench.gap_alike();
  packing::Item item;
  item.shape = flipped(things[0].shape);
  item.count = bench.size();
  for (const double turn : bench.turns(0)) item.turns_deg.push_back(-turn);
  problem.items = {item};
  packing::Packing rows = packing::in_rows(problem);
  if (count_of(rows.places) < bench.size()) return false;
  for (packing::Place& place : rows.places) {
    place.at = {{place.at.at.x, -place.at.at.y}, 0.0 - place.at.turn_deg};
  }
  Bench set = bench;
  for (int i = 0; i < bench.size(); ++i) set.put(i, at(rows.places, i).at);
  for (int i = 0; i < bench.size(); ++i) {
    if (!set.may_stand(i, at(rows.places, i).at)) return false;
  }
  bench = std::move(set);
  return true;
}

bool set_in_rows(Bench& bench) {
  double used = 0;
  for (const Thing& thing : bench.things()) {
    if (thing.fixed) return false;
    used += ground_used(thing.shape, bench.gap());
  }
  if (used > kFull * bench.ground()) return false;
  std::vector<Group> groups = groups_of(bench);
  const bool turned = std::any_of(bench.things().begin(), bench.things().end(),
                                  [](const Thing& thing) { return !thing.round; });
  for (const double turn : {0.0, 45.0, 60.0, 90.0, 315.0}) {
    for (int order = 0; order < (groups.size() > 1 ? 2 : 1); ++order) {
      Rows rows{bench, turn};
      if (rows.set(groups)) {
        bench = std::move(rows).bench();
        return true;
      }
      std::reverse(groups.begin(), groups.end());
    }
    if (!turned) break;
  }
  return false;
}

}  // namespace placer::loading
