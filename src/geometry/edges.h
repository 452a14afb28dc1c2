/// @file edges.h
/// The edge of an area as straight ways and arcs, and distances between these. No arc is drawn as
/// chords, so distances are exact.
#pragma once

#include <functional>
#include <vector>

#include "placer/geometry/shape.h"

namespace placer::edges {

/// A straight way from one point to another, or an arc of a circle run through counter-clockwise.
struct Way {
  Point from, to;
  bool arc = false;
  Disc disc;           ///< of an arc
  bool whole = false;  ///< the whole circle
  double start = 0;    ///< of an arc: the angle at `from`, radians
  double sweep = 0;    ///< of an arc: the angle run through, radians, > 0
};

Point at(const Way& way, double fraction);
double distance(const Way& a, const Way& b);

/// A solid area: its edge, and how deep inside it a point is (negative outside).
struct Area {
  std::vector<Way> ways;
  std::function<double(Point)> depth;
};

/// Keep-outs do not count. @throws std::invalid_argument when the region has no edge.
Area area_of(const Region& region);
Area area_of(const Disc& disc);
Area area_of(const Outline& outline);

/// The points of a's edge that tell how a and b lie to each other: the ends of its ways, and some
/// within each stretch between two meetings with b's edge.
std::vector<Point> telling_points(const Area& a, const Area& b);
double least_distance(const Area& a, const Area& b);

}  // namespace placer::edges
