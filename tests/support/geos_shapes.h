/// @file geos_shapes.h
/// Shapes handed to GEOS, a geometry library that the program itself does not use: an outside
/// opinion on distances, containment and areas. Circles stay circles: a disc is a point whose
/// radius is taken off the distance. Only areas use circles drawn as polygons.
#pragma once

#include <geos_c.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <memory>
#include <numbers>
#include <stdexcept>
#include <vector>

#include "placer/geometry/shape.h"

namespace placer::oracle {

inline GEOSContextHandle_t geos() {
  static const std::unique_ptr<GEOSContextHandle_HS, decltype(&GEOS_finish_r)> context{
      GEOS_init_r(), GEOS_finish_r};
  return context.get();
}

struct DestroyGeometry {
  void operator()(GEOSGeometry* geometry) const { GEOSGeom_destroy_r(geos(), geometry); }
};
using Geometry = std::unique_ptr<GEOSGeometry, DestroyGeometry>;

inline Geometry owned(GEOSGeometry* geometry) {
  if (geometry == nullptr) throw std::runtime_error{"GEOS could not make a geometry"};
  return Geometry{geometry};
}

inline bool yes(char answer) {
  if (answer == 2) throw std::runtime_error{"GEOS could not answer"};
  return answer == 1;
}

inline Geometry point(Point p) { return owned(GEOSGeom_createPointFromXY_r(geos(), p.x, p.y)); }

inline Geometry polygon(const Outline& outline) {
  const auto n = static_cast<unsigned>(outline.corners.size());
  GEOSCoordSequence* corners = GEOSCoordSeq_create_r(geos(), n + 1, 2);
  for (unsigned i = 0; i <= n; ++i) {
    const Point p = outline.corners[i % n];
    GEOSCoordSeq_setXY_r(geos(), corners, i, p.x, p.y);
  }
  GEOSGeometry* ring = GEOSGeom_createLinearRing_r(geos(), corners);
  return owned(GEOSGeom_createPolygon_r(geos(), ring, nullptr, 0));
}

constexpr int kSides = 2048;  ///< of a polygon drawn for a circle

/// A polygon with the area of the disc; its boundary is off by at most 3.3/sides² of the radius:
/// 1e-6 with 2048 sides.
inline Geometry round_polygon(const Disc& disc, int sides = kSides) {
  const double step = 2 * std::numbers::pi / sides;
  const double r = disc.radius * std::sqrt(step / std::sin(step));
  Outline outline;
  for (int i = 0; i < sides; ++i) {
    outline.corners.push_back(
        {disc.centre.x + r * std::cos(i * step), disc.centre.y + r * std::sin(i * step)});
  }
  return polygon(outline);
}

inline double distance(const Geometry& a, const Geometry& b) {
  double distance = 0;
  if (GEOSDistance_r(geos(), a.get(), b.get(), &distance) == 0) {
    throw std::runtime_error{"GEOS could not measure a distance"};
  }
  return distance;
}

inline double area(const Geometry& a) {
  double area = 0;
  if (GEOSArea_r(geos(), a.get(), &area) == 0) {
    throw std::runtime_error{"GEOS could not measure an area"};
  }
  return area;
}

inline Geometry joined(const Geometry& a, const Geometry& b) {
  return owned(GEOSUnion_r(geos(), a.get(), b.get()));
}
inline Geometry shared(const Geometry& a, const Geometry& b) {
  return owned(GEOSIntersection_r(geos(), a.get(), b.get()));
}
inline Geometry without(const Geometry& a, const Geometry& b) {
  return owned(GEOSDifference_r(geos(), a.get(), b.get()));
}
inline bool covers(const Geometry& a, const Geometry& b) {
  return yes(GEOSCovers_r(geos(), a.get(), b.get()));
}
inline bool overlap(const Geometry& a, const Geometry& b) { return area(shared(a, b)) > 0; }
inline bool is_valid(const Geometry& a) { return yes(GEOSisValid_r(geos(), a.get())); }

/// The union of the parts, circles drawn as polygons.
inline Geometry ground(const Footprint& shape, int sides = kSides) {
  Geometry all = owned(GEOSGeom_createEmptyPolygon_r(geos()));
  for (const Disc& disc : shape.discs) all = joined(all, round_polygon(disc, sides));
  for (const Outline& outline : shape.outlines) all = joined(all, polygon(outline));
  return all;
}

inline Geometry ground(const Region& region, int sides = kSides) {
  Geometry all = region.round ? round_polygon(*region.round, sides) : polygon(region.outline);
  if (region.round && !region.outline.corners.empty()) all = shared(all, polygon(region.outline));
  for (const Footprint& keep_out : region.keep_outs) all = without(all, ground(keep_out, sides));
  return all;
}

/// Least distance between two shapes; 0 or less when they touch or overlap.
inline double gap(const Footprint& a, const Footprint& b) {
  double least = std::numeric_limits<double>::infinity();
  const auto hold = [&least](double distance) { least = std::min(least, distance); };
  for (const Disc& disc : a.discs) {
    const Geometry middle = point(disc.centre);
    for (const Disc& other : b.discs) {
      hold(distance(middle, point(other.centre)) - disc.radius - other.radius);
    }
    for (const Outline& other : b.outlines) hold(distance(middle, polygon(other)) - disc.radius);
  }
  for (const Outline& outline : a.outlines) {
    const Geometry mine = polygon(outline);
    for (const Disc& other : b.discs) hold(distance(point(other.centre), mine) - other.radius);
    for (const Outline& other : b.outlines) hold(distance(mine, polygon(other)));
  }
  return least;
}

/// How far inside an outline a shape is; negative, but no measure, when some of it is outside.
inline double inset(const Footprint& shape, const Outline& outline) {
  const Geometry inside = polygon(outline);
  const Geometry boundary = owned(GEOSBoundary_r(geos(), inside.get()));
  double least = std::numeric_limits<double>::infinity();
  for (const Disc& disc : shape.discs) {
    const Geometry middle = point(disc.centre);
    const double to_edge = distance(middle, boundary);
    least = std::min(least, (covers(inside, middle) ? to_edge : -to_edge) - disc.radius);
  }
  for (const Outline& part : shape.outlines) {
    const Geometry mine = polygon(part);
    if (covers(inside, mine)) {
      least = std::min(least, distance(mine, boundary));
    } else {
      least = std::min(least, -area(without(mine, inside)));
    }
  }
  return least;
}

inline double inset(const Footprint& shape, const Disc& round) {
  const Geometry middle = point(round.centre);
  double least = std::numeric_limits<double>::infinity();
  for (const Disc& disc : shape.discs) {
    least = std::min(least, round.radius - distance(middle, point(disc.centre)) - disc.radius);
  }
  for (const Outline& part : shape.outlines) {
    double farthest = 0;  // of the corners
    GEOSHausdorffDistance_r(geos(), polygon(part).get(), middle.get(), &farthest);
    least = std::min(least, round.radius - farthest);
  }
  return least;
}

/// As above, to the edge of a region; keep-outs do not count.
inline double inset(const Footprint& shape, const Region& region) {
  double least = std::numeric_limits<double>::infinity();
  if (region.round) least = std::min(least, inset(shape, *region.round));
  if (!region.outline.corners.empty()) least = std::min(least, inset(shape, region.outline));
  return least;
}

}  // namespace placer::oracle
