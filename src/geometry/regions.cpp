// Areas beside and inside one another, with exact arcs: shelves, walls and what may not be near.
#include <limits>

#include "geometry/edges.h"
#include "geometry/plane.h"
#include "placer/geometry/shape.h"

namespace placer {
namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();

double deepest(const edges::Area& a, const edges::Area& b) {
  double deepest = -kInfinity;
  for (const Point& p : edges::telling_points(a, b)) deepest = std::max(deepest, b.depth(p));
  return deepest;
}

double gap(const edges::Area& a, const edges::Area& b) {
  const double overlap = std::max(deepest(a, b), deepest(b, a));
  return overlap > 0 ? -overlap : edges::least_distance(a, b);
}

}  // namespace

double gap(const Region& a, const Region& b) { return gap(edges::area_of(a), edges::area_of(b)); }

double gap(const Footprint& shape, const Region& region) {
  const edges::Area area = edges::area_of(region);
  double least = kInfinity;
  for (const Disc& disc : shape.discs) least = std::min(least, gap(edges::area_of(disc), area));
  for (const Outline& part : shape.outlines) {
    least = std::min(least, gap(edges::area_of(part), area));
  }
  return least;
}

double inset(const Region& inner, const Region& outer) {
  const edges::Area a = edges::area_of(inner);
  const edges::Area b = edges::area_of(outer);
  double shallowest = kInfinity;
  for (const Point& p : edges::telling_points(a, b)) {
    shallowest = std::min(shallowest, b.depth(p));
  }
  return shallowest < 0 ? shallowest : edges::least_distance(a, b);
}

}  // namespace placer
