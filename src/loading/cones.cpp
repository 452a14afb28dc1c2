#include "loading/cones.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "loading/cone_moves.h"
#include "loading/index.h"
#include "placer/model/cone_place.h"

namespace placer::loading {
namespace {

/// mm: holes no farther apart may look at one pack.
constexpr double kBeside = 200;

struct Where {
  int level = 0;  ///< index into KilnLoad::levels
  ConePack pack;
};

std::optional<Where> pack_of(const KilnLoad& load, int hole) {
  for (int i = 0; i < count_of(load.levels); ++i) {
    for (const ConePack& pack : at(load.levels, i).cones) {
      if (pack.spy_hole == hole) return Where{i, pack};
    }
  }
  return std::nullopt;
}

void take_away(KilnLoad& load, int hole) {
  for (Level& level : load.levels) {
    std::erase_if(level.cones, [&](const ConePack& pack) { return pack.spy_hole == hole; });
  }
}

/// The free spot nearest to the hole on the first of the shelves in its sight that has any.
std::optional<Where> free_spot(const Batch& batch, const KilnLoad& load, int hole) {
  for (const int level : levels_in_sight(batch, load, hole)) {
    const auto place = free_cone_spot(batch, load, level, hole, true);
    if (place) return Where{level, {hole, *place, true}};
  }
  return std::nullopt;
}

/// The pack of a hole beside this one, if this one looks at it as well.
std::optional<Where> shared(const Batch& batch, const KilnLoad& load, int hole) {
  const auto eye = [&](int i) { return eye_of(at(batch.kiln.keep_outs, i), batch.kiln); };
  for (const int level : levels_in_sight(batch, load, hole)) {
    for (const ConePack& pack : at(load.levels, level).cones) {
      const Point apart = eye(pack.spy_hole) - eye(hole);
      if (!pack.seen || std::hypot(apart.x, apart.y) > kBeside) continue;
      if (!is_seen(batch, load, level, hole, pack.place)) continue;
      return Where{level, {hole, pack.place, true}};
    }
  }
  return std::nullopt;
}

void set(const Where& where, KilnLoad& load) {
  at(load.levels, where.level).cones.push_back(where.pack);
}

/// Out of sight: where another hole's pack is to be found anyway, or on a free spot.
std::optional<Where> out_of_sight(const Batch& batch, const KilnLoad& load, int hole) {
  for (const int level : levels_for_cones(batch, load, hole)) {
    const auto& there = at(load.levels, level).cones;
    if (!there.empty()) return Where{level, {hole, there.front().place, false}};
    const auto place = free_cone_spot(batch, load, level, hole, false);
    if (place) return Where{level, {hole, *place, false}};
  }
  return std::nullopt;
}

void say_why_none(const Batch& batch, int hole, KilnLoad& load) {
  const bool low = levels_for_cones(batch, load, hole).empty();
  load.no_cones.push_back(
      {hole, low ? fmt::format("No shelf of this load has the {:.0f} mm of room over it that cones "
                               "need.",
                               kPackHigh)
                 : fmt::format("No shelf of this load has a free spot of {:.0f} x {:.0f} mm for "
                               "cones.",
                               kPackLong, kPackDeep)});
}

bool make_room(const Job& job, const Kept& kept, const Wanted& wanted, Looks& looks,
               std::vector<KilnLoad>& loads) {
  auto change = room_made(job, kept, loads, wanted, looks);
  if (!change) return false;
  for (auto& [number, changed] : change->loads) at(loads, number) = std::move(changed);
  return true;
}

/// False when there is no spot in sight and none can be made.
bool set_in_sight(const Job& job, const Kept& kept, int index, int hole, Looks& looks,
                  std::vector<KilnLoad>& loads) {
  const Batch& batch = *job.batch;
  KilnLoad& load = at(loads, index);
  if (const auto there = pack_of(load, hole)) {
    // It was set before; what was set since may hide it.
    for (ConePack& pack : at(load.levels, there->level).cones) {
      if (pack.spy_hole == hole) pack.seen = is_seen(batch, load, there->level, hole, pack.place);
    }
    return true;
  }
  auto spot = shared(batch, load, hole);
  if (!spot) spot = free_spot(batch, load, hole);
  if (spot) set(*spot, load);
  return spot || make_room(job, kept, {index, hole, true}, looks, loads);
}

void set_anywhere(const Job& job, const Kept& kept, int index, int hole, Looks& looks,
                  std::vector<KilnLoad>& loads) {
  const Batch& batch = *job.batch;
  KilnLoad& load = at(loads, index);
  if (const auto hidden = out_of_sight(batch, load, hole)) return set(*hidden, load);
  if (make_room(job, kept, {index, hole, false}, looks, loads)) return;
  say_why_none(batch, hole, load);
}

}  // namespace

void set_cones(const Job& job, const Kept& kept, std::vector<KilnLoad>& loads) {
  const std::vector<int> holes = holes_for_cones(job.batch->kiln);
  Looks looks;
  for (int i = 0; i < count_of(loads); ++i) {
    std::vector<int> hidden;  // what is seen by any hole has the first choice
    for (const int hole : holes) {
      if (!set_in_sight(job, kept, i, hole, looks, loads)) hidden.push_back(hole);
    }
    for (const int hole : hidden) set_anywhere(job, kept, i, hole, looks, loads);
  }
}

void set_cones_beside(const Batch& batch, KilnLoad& load) {
  load.no_cones.clear();
  std::vector<int> hidden;
  for (const int hole : holes_for_cones(batch.kiln)) {
    const auto before = pack_of(load, hole);
    if (before && before->pack.seen) continue;
    take_away(load, hole);
    auto spot = shared(batch, load, hole);
    if (!spot) spot = free_spot(batch, load, hole);
    if (!spot) spot = before;
    if (spot) {
      set(*spot, load);
    } else {
      hidden.push_back(hole);
    }
  }
  for (const int hole : hidden) {
    if (const auto spot = out_of_sight(batch, load, hole)) {
      set(*spot, load);
    } else {
      say_why_none(batch, hole, load);
    }
  }
}

}  // namespace placer::loading
