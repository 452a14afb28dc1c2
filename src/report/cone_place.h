/// @file cone_place.h
/// Where a pack of witness cones can stand: in sight of a spy hole and clear of all that is set.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "placer/report/report.h"

namespace placer::report {

/// Three cones in a pat of clay, the broad side to the eye.
/// @source common practice, no source: a pat about as long as a hand is wide, cones 64 mm tall
constexpr double kPackLong = 80, kPackDeep = 30;  ///< mm
constexpr double kPackHigh = 75;                  ///< mm

/// One for each spy hole.
struct ConePlace {
  const KeepOut* hole = nullptr;
  Point eye;                         ///< where the hole goes through the wall, kiln coordinates
  std::optional<std::size_t> level;  ///< the shelf it is for, index into load.levels
  std::optional<Footprint> pack;     ///< where it stands, kiln coordinates; none: see trouble
  Point middle;                      ///< of the pack
  std::string trouble;               ///< why there is no place, one plain clause
  int instead_of = 0;  ///< number of the piece on that shelf in whose stead a pack would stand
};

/// Empty when the kiln has no spy hole, or has places of its own for cones among its keep-outs.
std::vector<ConePlace> cone_places(const Batch& batch, const KilnLoad& load);

/// Those that stand on this level, or have no room there.
std::vector<const ConePlace*> cones_on(const KilnLoad& load, const Level& level,
                                       const std::vector<ConePlace>& cones);

/// True when the studio file itself keeps a place clear for cones.
bool keeps_cone_places(const Kiln& kiln);

/// The trouble of a place that is none and what to do about it, one sentence or two.
std::string trouble_words(const ConePlace& place);

/// "left, shelf 2": nothing when no place was found.
std::string where_words(const Subject& subject, const KilnLoad& load, const ConePlace& place);

}  // namespace placer::report
