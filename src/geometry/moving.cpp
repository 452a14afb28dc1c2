// Turning, moving and scaling shapes.
#include <cmath>
#include <numbers>

#include "placer/geometry/shape.h"

namespace placer {
namespace {

// cos and sin of an angle of at most 45°, by their series: the same digits on every machine,
// which the mathematics library does not promise. The first term left out is below 1e-18.
Point small_direction(double radians) {
  const double q = radians * radians;
  double cosine = 1;
  double sine = 1;
  for (int k = 10; k >= 1; --k) {
    cosine = 1 - cosine * q / ((2 * k - 1) * (2 * k));
    sine = 1 - sine * q / ((2 * k) * (2 * k + 1));
  }
  return {cosine, sine * radians};
}

Point turned(Point p, Point direction) {
  return {p.x * direction.x - p.y * direction.y, p.x * direction.y + p.y * direction.x};
}

Outline moved(Outline outline, Point direction, Point by) {
  for (Point& corner : outline.corners) corner = turned(corner, direction) + by;
  return outline;
}

Footprint moved(Footprint shape, Point direction, Point by) {
  for (Disc& disc : shape.discs) disc.centre = turned(disc.centre, direction) + by;
  for (Outline& outline : shape.outlines) outline = moved(std::move(outline), direction, by);
  return shape;
}

}  // namespace

Point direction(double turn_deg) {
  const double quarters = std::nearbyint(turn_deg / 90);
  const Point small = small_direction((turn_deg - 90 * quarters) * (std::numbers::pi / 180));
  switch (static_cast<int>(quarters - 4 * std::floor(quarters / 4))) {
    case 0:
      return small;
    case 1:
      return {0.0 - small.y, small.x};  // 0 and not -0 at a quarter turn
    case 2:
      return {-small.x, 0.0 - small.y};
    default:
      return {small.y, 0.0 - small.x};
  }
}

Point placed(Point p, const Placement& where) {
  return turned(p, direction(where.turn_deg)) + where.at;
}

Disc placed(const Disc& disc, const Placement& where) {
  return {placed(disc.centre, where), disc.radius};
}

Outline placed(const Outline& outline, const Placement& where) {
  return moved(outline, direction(where.turn_deg), where.at);
}

Footprint placed(const Footprint& shape, const Placement& where) {
  return moved(shape, direction(where.turn_deg), where.at);
}

Region placed(const Region& region, const Placement& where) {
  const Point turn = direction(where.turn_deg);
  Region result{moved(region.outline, turn, where.at), region.round, {}};
  if (result.round) result.round->centre = turned(result.round->centre, turn) + where.at;
  for (const Footprint& keep_out : region.keep_outs) {
    result.keep_outs.push_back(moved(keep_out, turn, where.at));
  }
  return result;
}

Outline scaled(const Outline& outline, double factor) {
  Outline result = outline;
  for (Point& corner : result.corners) corner = factor * corner;
  return result;
}

Footprint scaled(const Footprint& shape, double factor) {
  Footprint result = shape;
  for (Disc& disc : result.discs) disc = {factor * disc.centre, factor * disc.radius};
  for (Outline& outline : result.outlines) outline = scaled(outline, factor);
  return result;
}

}  // namespace placer
