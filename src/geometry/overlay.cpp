#include "geometry/overlay.h"

#include <boost/geometry.hpp>
#include <boost/geometry/geometries/multi_polygon.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>
#include <cmath>
#include <numbers>

namespace placer::overlay {
namespace {

namespace bg = boost::geometry;
using Corner = bg::model::d2::point_xy<double>;
using Polygon = bg::model::polygon<Corner>;
using Polygons = bg::model::multi_polygon<Polygon>;

/// Sides of the polygon that stands for a circle where only its area matters.
constexpr int kSides = 720;

Polygons as_polygons(const Outline& outline) {
  Polygon polygon;
  for (const Point& corner : outline.corners)
    bg::append(polygon.outer(), Corner{corner.x, corner.y});
  bg::correct(polygon);  // clockwise and closed, as Boost wants it
  return {polygon};
}

// A polygon of the disc's own area, half inside and half outside its circle.
Polygons as_polygons(const Disc& disc) {
  const double step = 2 * std::numbers::pi / kSides;
  const double corner_radius = disc.radius * std::sqrt(step / std::sin(step));
  Outline outline;
  for (int i = 0; i < kSides; ++i) {
    outline.corners.push_back(disc.centre + corner_radius * direction(i * 360.0 / kSides));
  }
  return as_polygons(outline);
}

Polygons edge_of(const Region& region) {
  if (region.outline.corners.empty()) return as_polygons(*region.round);
  if (!region.round) return as_polygons(region.outline);
  Polygons both;
  bg::intersection(as_polygons(region.outline), as_polygons(*region.round), both);
  return both;
}

Polygons without(const Polygons& ground, const Polygons& taken) {
  Polygons left;
  bg::difference(ground, taken, left);
  return left;
}

}  // namespace

double area_less_keep_outs(const Region& region) {
  Polygons left = edge_of(region);
  for (const Footprint& keep_out : region.keep_outs) {
    for (const Disc& disc : keep_out.discs) left = without(left, as_polygons(disc));
    for (const Outline& outline : keep_out.outlines) left = without(left, as_polygons(outline));
  }
  return bg::area(left);
}

Outline cut_to(const Outline& outline, const Outline& convex) {
  Polygons pieces;
  bg::intersection(as_polygons(outline), as_polygons(convex), pieces);
  Outline largest;
  double most = 0;
  for (const Polygon& piece : pieces) {
    if (bg::area(piece) <= most) continue;
    most = bg::area(piece);
    largest.corners.clear();
    for (std::size_t i = piece.outer().size() - 1; i > 0; --i) {
      largest.corners.push_back({piece.outer()[i].x(), piece.outer()[i].y()});
    }
  }
  return largest;
}

}  // namespace placer::overlay
