// Making shapes.
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "placer/geometry/shape.h"

namespace placer {
namespace {

void require_positive(double value, const char* what) {
  if (!std::isfinite(value) || value <= 0) throw std::invalid_argument{what};
}

}  // namespace

Outline rectangle(double width, double depth) {
  require_positive(width, "rectangle: the width must be a positive number");
  require_positive(depth, "rectangle: the depth must be a positive number");
  return rectangle({-width / 2, -depth / 2}, {width / 2, depth / 2});
}

Outline rectangle(Point low, Point high) {
  require_positive(high.x - low.x, "rectangle: the right side must be right of the left side");
  require_positive(high.y - low.y, "rectangle: the back must be behind the front");
  return {{low, {high.x, low.y}, high, {low.x, high.y}}};
}

Outline regular_polygon(int sides, double across_flats) {
  if (sides < 3) throw std::invalid_argument{"regular_polygon: needs at least three sides"};
  require_positive(across_flats, "regular_polygon: the width must be a positive number");
  // The flat side in front has its middle at -90°, so its right-hand corner is half a step on.
  const double step = 360.0 / sides;
  const double corner_radius = across_flats / 2 / direction(step / 2).x;
  Outline outline;
  for (int i = 0; i < sides; ++i) {
    outline.corners.push_back(corner_radius * direction(-90 + step / 2 + i * step));
  }
  return outline;
}

Outline oval(double width, double depth, int sides) {
  if (sides < 3) throw std::invalid_argument{"oval: needs at least three sides"};
  require_positive(width, "oval: the width must be a positive number");
  require_positive(depth, "oval: the depth must be a positive number");
  // A polygon around the unit circle, stretched: tangents stay tangents.
  Outline outline = regular_polygon(sides, 2);
  for (Point& corner : outline.corners) {
    corner = {corner.x * width / 2, corner.y * depth / 2};
  }
  return outline;
}

Region half_disc(double diameter) {
  require_positive(diameter, "half_disc: the diameter must be a positive number");
  const double r = diameter / 2;
  return {rectangle({-r, 0}, {r, r}), Disc{{0, 0}, r}, {}};
}

}  // namespace placer
