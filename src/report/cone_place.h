/// @file cone_place.h
/// Packs of witness cones as the plan sets them: what drawings, keys and lists say of each.
#pragma once

#include <string>
#include <vector>

#include "placer/report/report.h"

namespace placer::report {

/// A pack on a shelf. Kiln coordinates.
struct ConePlace {
  const KeepOut* hole = nullptr;
  Point eye;  ///< where the hole goes through the wall
  Footprint pack;
  Point middle;  ///< of the pack
  bool seen = true;
};

/// Those that stand on a level; one that two holes look at is there for each.
std::vector<ConePlace> cones_on(const Batch& batch, const Level& level);

/// For a key: "cone pack, seen from the spy hole".
std::string cone_words(const ConePlace& place);

/// How many packs a load wants: those that it sets and those that it has no room for.
int packs_for(const Batch& batch, const KilnLoad& load);

/// Where the load's packs go: "to left, shelf 2, in sight of the spy hole"; why one is out of sight
/// or has no room. "" when the plan sets none and misses none.
std::string where_cones_go(const Subject& subject, const KilnLoad& load);

}  // namespace placer::report
