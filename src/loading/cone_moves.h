/// @file cone_moves.h
/// Pieces that make room for a pack of cones: each set elsewhere.
#pragma once

#include <optional>
#include <utility>
#include <vector>

#include "loading/job.h"
#include "loading/setting.h"
#include "placer/model/load_plan.h"

namespace placer::loading {

/// Loads of a firing as they become, each with its index, and how much was changed in all.
struct Change {
  std::vector<std::pair<int, KilnLoad>> loads;
  double cost = 0;
};

/// What a firing's packs may take in all: a batch of many loads is not searched for ever.
struct Looks {
  int left = 100000;  ///< places that one piece is tried at
  int shelves = 24;   ///< whole shelves set anew
};

/// A hole of one of the loads.
struct Wanted {
  int load = 0;      ///< index
  int hole = 0;      ///< index into Kiln::keep_outs
  bool seen = true;  ///< false: a spot out of its sight will do
};

/// Room made for the pack of a hole in a load of the firing, on one of the shelves that it looks at
/// best, or out of its sight on one near to it; the pack set there. What stands in its way goes
/// elsewhere: on the same shelf, in rows round it, on another shelf, in a later load; the cheapest
/// of what was tried. Pieces that were set before the plan began or that are pinned stay where they
/// are, and those that must go, that belong to a set or that wish for that level stay on their
/// shelf. nullopt when nothing helps.
std::optional<Change> room_made(const Job& job, const Kept& kept,
                                const std::vector<KilnLoad>& loads, const Wanted& wanted,
                                Looks& looks);

}  // namespace placer::loading
