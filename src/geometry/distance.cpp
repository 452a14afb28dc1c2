// Distances between shapes, in closed form for each pair of parts and without allocation: packing
// asks for them by the million.
#include <limits>

#include "geometry/plane.h"
#include "placer/geometry/shape.h"

namespace placer {
namespace {

using plane::cross;
using plane::dot;

constexpr double kInfinity = std::numeric_limits<double>::infinity();

// The largest distance by which an edge of `a` has all of `b` in front of it; negative when none
// has: then the shallowest of the overlaps seen along the edges' normals.
double separation(const Outline& a, const Outline& b) {
  double most = -kInfinity;
  plane::each_edge(a, [&](Point from, Point to) {
    const Point along = to - from;
    double deepest = kInfinity;
    for (const Point& corner : b.corners) {
      deepest = std::min(deepest, -cross(along, corner - from));
    }
    const double span = plane::length(along);
    if (span > 0) most = std::max(most, deepest / span);
  });
  return most;
}

double least_square_distance(const Outline& corners_of, const Outline& edges_of) {
  double least = kInfinity;
  plane::each_edge(edges_of, [&](Point from, Point to) {
    for (const Point& corner : corners_of.corners) {
      least = std::min(least, plane::square_distance(corner, from, to));
    }
  });
  return least;
}

// The gap, or any number from `limit` on when it is no less than that: their separation, which is
// cheaper, is never more than the gap.
double gap_below(const Outline& a, const Outline& b, double limit) {
  const double apart = std::max(separation(a, b), separation(b, a));
  if (apart <= 0 || apart >= limit) return apart;
  return std::sqrt(std::min(least_square_distance(a, b), least_square_distance(b, a)));
}

}  // namespace

double gap(const Disc& a, const Disc& b) {
  return plane::length(a.centre - b.centre) - (a.radius + b.radius);
}

double gap(const Disc& a, const Outline& convex) {
  double nearest = kInfinity;  // squared, to the boundary
  bool inside = true;
  plane::each_edge(convex, [&](Point from, Point to) {
    if (cross(to - from, a.centre - from) < 0) inside = false;
    nearest = std::min(nearest, plane::square_distance(a.centre, from, to));
  });
  const double distance = std::sqrt(nearest);
  return (inside ? -distance : distance) - a.radius;
}

double gap(const Outline& convex_a, const Outline& convex_b) {
  return gap_below(convex_a, convex_b, kInfinity);
}

double gap(const Footprint& a, const Footprint& b) {
  double least = kInfinity;
  for (const Disc& disc : a.discs) {
    for (const Disc& other : b.discs) least = std::min(least, gap(disc, other));
    for (const Outline& other : b.outlines) least = std::min(least, gap(disc, other));
  }
  for (const Outline& outline : a.outlines) {
    for (const Disc& other : b.discs) least = std::min(least, gap(other, outline));
    for (const Outline& other : b.outlines) {
      least = std::min(least, gap_below(outline, other, least));
    }
  }
  return least;
}

double keep_out_gap(const Footprint& shape, const Region& region) {
  double least = kInfinity;
  for (const Footprint& keep_out : region.keep_outs) least = std::min(least, gap(shape, keep_out));
  return least;
}

}  // namespace placer
