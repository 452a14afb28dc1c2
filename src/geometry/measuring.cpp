// Extents of shapes, and whether outlines are sound.
#include <cmath>
#include <limits>
#include <stdexcept>

#include "geometry/plane.h"
#include "placer/geometry/shape.h"

namespace placer {
namespace {

using plane::cross;
using plane::dot;

constexpr double kInfinity = std::numeric_limits<double>::infinity();
/// Corners and edges nearer than this, in mm, count as touching.
constexpr double kTouching = 1e-9;

struct Extent {
  Box box{{kInfinity, kInfinity}, {-kInfinity, -kInfinity}};

  void hold(Point p, double margin = 0) {
    box.low = {std::min(box.low.x, p.x - margin), std::min(box.low.y, p.y - margin)};
    box.high = {std::max(box.high.x, p.x + margin), std::max(box.high.y, p.y + margin)};
  }
};

Box around(const Outline& outline) {
  Extent extent;
  for (const Point& corner : outline.corners) extent.hold(corner);
  return extent.box;
}

bool cross_or_touch(Point a, Point b, Point c, Point d) {
  const double side_c = cross(b - a, c - a);
  const double side_d = cross(b - a, d - a);
  const double side_a = cross(d - c, a - c);
  const double side_b = cross(d - c, b - c);
  const bool crossing = (side_c > 0) != (side_d > 0) && (side_a > 0) != (side_b > 0);
  if (crossing && side_c != 0 && side_d != 0 && side_a != 0 && side_b != 0) return true;
  const double nearest =
      std::min({plane::square_distance(a, c, d), plane::square_distance(b, c, d),
                plane::square_distance(c, a, b), plane::square_distance(d, a, b)});
  return nearest <= kTouching * kTouching;
}

bool all_finite(const Outline& outline) {
  for (const Point& corner : outline.corners) {
    if (!std::isfinite(corner.x) || !std::isfinite(corner.y)) return false;
  }
  return true;
}

// Two edges that share the corner b: the second must not run back along the first.
bool folds_back(Point a, Point b, Point c) {
  return plane::square_distance(c, a, b) <= kTouching * kTouching ||
         plane::square_distance(a, b, c) <= kTouching * kTouching;
}

}  // namespace

Box bounding_box(const Footprint& shape) {
  Extent extent;
  for (const Disc& disc : shape.discs) extent.hold(disc.centre, disc.radius);
  for (const Outline& outline : shape.outlines) {
    for (const Point& corner : outline.corners) extent.hold(corner);
  }
  return extent.box;
}

Box bounding_box(const Region& region) {
  const bool edged = !region.outline.corners.empty();
  if (!edged && !region.round) throw std::invalid_argument{"bounding_box: the region has no edge"};
  if (!region.round) return around(region.outline);
  Extent round;
  round.hold(region.round->centre, region.round->radius);
  if (!edged) return round.box;
  const Box straight = around(region.outline);
  return {
      {std::max(straight.low.x, round.box.low.x), std::max(straight.low.y, round.box.low.y)},
      {std::min(straight.high.x, round.box.high.x), std::min(straight.high.y, round.box.high.y)}};
}

double reach(const Footprint& shape) {
  double reach = 0;
  for (const Disc& disc : shape.discs) {
    reach = std::max(reach, plane::length(disc.centre) + disc.radius);
  }
  double squared = 0;
  for (const Outline& outline : shape.outlines) {
    for (const Point& corner : outline.corners) squared = std::max(squared, plane::square(corner));
  }
  return std::max(reach, std::sqrt(squared));
}

double signed_area(const Outline& outline) {
  if (outline.corners.empty()) return 0;
  const Point origin = outline.corners.front();  // keeps far-off outlines accurate
  double twice = 0;
  plane::each_edge(outline,
                   [&](Point from, Point to) { twice += cross(from - origin, to - origin); });
  return twice / 2;
}

bool is_convex(const Outline& outline) {
  const auto& corners = outline.corners;
  const std::size_t n = corners.size();
  if (n < 3) return false;
  double turned = 0;  // a star turns left at every corner too, but more than once round
  for (std::size_t i = 0; i < n; ++i) {
    const Point in = corners[(i + 1) % n] - corners[i];
    const Point out = corners[(i + 2) % n] - corners[(i + 1) % n];
    const double left = cross(in, out);
    const double slack = 1e-12 * plane::length(in) * plane::length(out);
    if (left < -slack || (left <= slack && dot(in, out) < 0)) return false;
    turned += std::atan2(left, dot(in, out));
  }
  return turned < 7;  // one turn is 6.28 radians, two are 12.57
}

bool is_simple(const Outline& outline) {
  const auto& corners = outline.corners;
  const std::size_t n = corners.size();
  if (n < 3 || !all_finite(outline)) return false;
  for (std::size_t i = 0; i < n; ++i) {
    const Point a = corners[i];
    const Point b = corners[(i + 1) % n];
    if (folds_back(a, b, corners[(i + 2) % n])) return false;
    for (std::size_t j = i + 2; j < n; ++j) {
      if (i == 0 && j == n - 1) continue;  // neighbours round the end
      if (cross_or_touch(a, b, corners[j], corners[(j + 1) % n])) return false;
    }
  }
  return signed_area(outline) != 0;
}

}  // namespace placer
