/// @file plane.h
/// Arithmetic of points, shared by the .cpp files of this module.
#pragma once

#include <algorithm>
#include <cmath>

#include "placer/geometry/shape.h"

namespace placer::plane {

inline double dot(Point a, Point b) { return a.x * b.x + a.y * b.y; }
inline double cross(Point a, Point b) { return a.x * b.y - a.y * b.x; }
inline double square(Point a) { return dot(a, a); }
/// Square root and not hypot: it is correctly rounded, so it is the same everywhere.
inline double length(Point a) { return std::sqrt(square(a)); }

/// Squared distance from a point to the segment from a to b.
inline double square_distance(Point p, Point a, Point b) {
  const Point along = b - a;
  const double span = square(along);
  if (span == 0) return square(p - a);
  const double t = std::clamp(dot(p - a, along) / span, 0.0, 1.0);
  return square(p - (a + t * along));
}

/// Calls `visit(from, to)` for each edge, in order.
template <typename Visit>
void each_edge(const Outline& outline, Visit visit) {
  if (outline.corners.empty()) return;
  Point from = outline.corners.back();
  for (const Point& to : outline.corners) {
    visit(from, to);
    from = to;
  }
}

}  // namespace placer::plane
