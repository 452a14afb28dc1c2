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

}  // namespace placer
