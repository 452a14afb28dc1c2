// Questions about rings that a general library answers: is it simple, what is its hull. The only
// file that sees Boost.Geometry; nothing here decides a distance.
#include <algorithm>
#include <boost/geometry/algorithms/convex_hull.hpp>
#include <boost/geometry/algorithms/is_valid.hpp>
#include <boost/geometry/geometries/geometries.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/strategies/strategies.hpp>
#include <cmath>

#include "placer/geometry/shape.h"

namespace placer {
namespace {

namespace bg = boost::geometry;
using Corner = bg::model::d2::point_xy<double>;
using Ring = bg::model::ring<Corner, false, false>;  // counter-clockwise and open, as Outline is

bool is_finite(Point p) { return std::isfinite(p.x) && std::isfinite(p.y); }

/// Two corners on one another, next to each other in the ring.
bool stands_still(const std::vector<Point>& corners) {
  for (std::size_t i = 0; i < corners.size(); ++i) {
    if (corners[i] == corners[(i + 1) % corners.size()]) return true;
  }
  return false;
}

}  // namespace

bool is_simple(const Outline& outline) {
  const auto& corners = outline.corners;
  if (corners.size() < 3 || !std::ranges::all_of(corners, is_finite)) return false;
  if (stands_still(corners)) return false;  // Boost lets doubled corners pass
  Ring ring;
  for (const Point p : corners) ring.push_back({p.x, p.y});
  if (signed_area(outline) < 0) std::ranges::reverse(ring);
  return bg::is_valid(ring);
}

Outline convex_hull(const Footprint& shape, double sagitta) {
  bg::model::multi_point<Corner> points;
  for (const Disc& disc : shape.discs) {
    for (const Point p : edge_polygon(Region{{}, disc, {}}, sagitta).corners) {
      bg::append(points, Corner{p.x, p.y});
    }
  }
  for (const Outline& outline : shape.outlines) {
    for (const Point p : outline.corners) bg::append(points, Corner{p.x, p.y});
  }
  Ring ring;
  bg::convex_hull(points, ring);
  Outline hull;
  for (const Corner& corner : ring) hull.corners.push_back({corner.x(), corner.y()});
  return hull;
}

}  // namespace placer
