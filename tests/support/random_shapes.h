/// @file random_shapes.h
/// Shapes for property tests, from a seed.
#pragma once

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "placer/base/random.h"
#include "placer/geometry/shape.h"

namespace placer::support {

inline Point random_point(Random& random, double within) {
  const double x = random.uniform(-within, within);
  return {x, random.uniform(-within, within)};
}

/// Corners at rising angles, each `low` to `high` of `size` from the middle.
inline Outline random_star(Random& random, int corners, double size, double low, double high) {
  std::vector<double> angles;
  for (int i = 0; i < corners; ++i) {
    angles.push_back((i + random.uniform(0.05, 0.95)) * 2 * std::numbers::pi / corners);
  }
  const Point middle = random_point(random, size);
  Outline outline;
  for (const double angle : angles) {
    const double r = size * random.uniform(low, high);
    outline.corners.push_back(middle + Point{r * std::cos(angle), r * std::sin(angle)});
  }
  return outline;
}

inline Outline random_convex(Random& random, double size) {
  return convex_hull(
      {{}, {random_star(random, 3 + static_cast<int>(random.below(9)), size, 0.4, 1)}});
}

/// Simple, usually with notches.
inline Outline random_notched(Random& random, double size, int corners = 0) {
  if (corners == 0) corners = 5 + static_cast<int>(random.below(12));
  return random_star(random, corners, size, 0.25, 1);
}

/// A disc with up to three handles, or a few convex parts.
inline Footprint random_piece(Random& random, double size) {
  Footprint shape;
  if (random.below(4) == 0) {
    for (std::uint64_t i = random.below(3) + 1; i > 0; --i) {
      shape.outlines.push_back(random_convex(random, size));
    }
    return shape;
  }
  const double r = random.uniform(0.3, 1) * size;
  shape.discs.push_back({{0, 0}, r});
  const double half = random.uniform(0.05, 0.3) * r;
  for (std::uint64_t i = random.below(4); i > 0; --i) {
    const double long_way = r * random.uniform(1.05, 1.8);
    const double turn = random.uniform(0, 360);
    shape.outlines.push_back(placed(rectangle({0, -half}, {long_way, half}), {{0, 0}, turn}));
  }
  return shape;
}

inline Placement random_placement(Random& random, double within) {
  const Point at = random_point(random, within);
  return {at, random.uniform(-720, 720)};
}

inline Footprint random_placed(Random& random, double size, double within) {
  const Footprint piece = random_piece(random, size);
  return placed(piece, random_placement(random, within));
}

}  // namespace placer::support
