/// @file cone_spots.h
/// Spots of one shelf tried for a cone pack.
#pragma once

#include <cmath>
#include <optional>
#include <utility>

#include "report/cone_place.h"

namespace placer::report {

constexpr double kLeastSeen = 15;  // mm of the cones' height that the hole must look at
constexpr double kLeastGap = 5;    // mm to pieces and posts, even where pieces may touch

/// From low to high, mm over the floor.
struct Band {
  double low = 0, high = 0;
};

/// Heights that a spy hole is open to.
Band looks_at(const KeepOut& hole, const Kiln& kiln);
/// Heights that cones have on a shelf.
Band cones_on(const Level& level);

inline double away(Point a, Point b) { return std::hypot(a.x - b.x, a.y - b.y); }

/// The free spot nearest the hole and the pack on it; `gone`: a piece of the level thought away.
std::optional<std::pair<Point, Footprint>> nearest_spot(const Batch& batch, const KilnLoad& load,
                                                        const Level& level, const ConePlace& place,
                                                        const PlacedPiece* gone = nullptr);

}  // namespace placer::report
