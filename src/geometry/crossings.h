/// @file crossings.h
/// Where lines and circles meet.
#pragma once

#include <vector>

#include "geometry/plane.h"
#include "placer/geometry/shape.h"

namespace placer::plane {

/// Adds where the line from a to b meets a circle, as fractions of the way from -slack to 1 +
/// slack, both left out.
inline void meet_circle(Point a, Point b, const Disc& disc, std::vector<double>& cuts,
                        double slack = 0) {
  const Point along = b - a;
  const Point off = a - disc.centre;
  const double span = square(along);
  const double half = dot(off, along) / span;
  const double inside = half * half - (square(off) - disc.radius * disc.radius) / span;
  if (inside <= 0) return;
  const double root = std::sqrt(inside);
  for (const double t : {-half - root, -half + root}) {
    if (t > -slack && t < 1 + slack) cuts.push_back(t);
  }
}

/// Adds where the way from a to b meets the whole line through c and d, as a fraction of it.
inline void meet_line(Point a, Point b, Point c, Point d, std::vector<double>& cuts) {
  const double side_a = cross(d - c, a - c);
  const double side_b = cross(d - c, b - c);
  if ((side_a > 0) != (side_b > 0)) cuts.push_back(side_a / (side_a - side_b));
}

/// Adds the angles, in radians, at which one circle meets another.
inline void meet_other_circle(const Disc& disc, const Disc& other, std::vector<double>& angles) {
  const Point to = other.centre - disc.centre;
  const double apart = length(to);
  if (apart == 0) return;
  const double cosine = (apart * apart + disc.radius * disc.radius - other.radius * other.radius) /
                        (2 * apart * disc.radius);
  if (std::abs(cosine) >= 1) return;
  const double heading = std::atan2(to.y, to.x);
  angles.push_back(heading - std::acos(cosine));
  angles.push_back(heading + std::acos(cosine));
}

/// Adds the angles, in radians, at which a circle meets the way from a to b, its ends included: a
/// corner may lie on the circle.
inline void meet_way(const Disc& disc, Point a, Point b, std::vector<double>& angles) {
  std::vector<double> cuts;
  meet_circle(a, b, disc, cuts, 1e-9);
  for (const double t : cuts) {
    const Point at = a + t * (b - a) - disc.centre;
    angles.push_back(std::atan2(at.y, at.x));
  }
}

}  // namespace placer::plane
