// How far inside a region a shape lies.
#include <limits>

#include "geometry/plane.h"
#include "placer/geometry/shape.h"

namespace placer {
namespace {

using plane::cross;

constexpr double kInfinity = std::numeric_limits<double>::infinity();

// Every corner turns left or goes straight on. Enough for an outline that is known to be simple,
// and cheaper than is_convex().
bool turns_left_only(const Outline& outline) {
  const auto& corners = outline.corners;
  Point before = corners[corners.size() - 2];
  Point here = corners.back();
  for (const Point& next : corners) {
    if (cross(here - before, next - here) < 0) return false;
    before = here;
    here = next;
  }
  return true;
}

double inset_in_round(const Footprint& shape, const Disc& round) {
  double least = kInfinity;
  for (const Disc& disc : shape.discs) {
    least =
        std::min(least, round.radius - (plane::length(disc.centre - round.centre) + disc.radius));
  }
  double farthest = -kInfinity;
  for (const Outline& outline : shape.outlines) {
    for (const Point& corner : outline.corners) {
      farthest = std::max(farthest, plane::square(corner - round.centre));
    }
  }
  if (farthest >= 0) least = std::min(least, round.radius - std::sqrt(farthest));
  return least;
}

// Inside a convex outline the nearest edge's line decides for every part.
double inset_in_convex(const Footprint& shape, const Outline& edge) {
  double least = kInfinity;
  plane::each_edge(edge, [&](Point from, Point to) {
    const Point along = to - from;
    const double span = plane::length(along);
    if (span == 0) return;
    double shallowest = kInfinity;  // times span
    for (const Outline& outline : shape.outlines) {
      for (const Point& corner : outline.corners) {
        shallowest = std::min(shallowest, cross(along, corner - from));
      }
    }
    least = std::min(least, shallowest / span);
    for (const Disc& disc : shape.discs) {
      least = std::min(least, cross(along, disc.centre - from) / span - disc.radius);
    }
  });
  return least;
}

double square_distance(Point a, Point b, Point c, Point d) {
  return std::min(std::min(plane::square_distance(a, c, d), plane::square_distance(b, c, d)),
                  std::min(plane::square_distance(c, a, b), plane::square_distance(d, a, b)));
}

// How deep the segment from a to b runs through the inside of a convex part; <= 0 when it does not.
double depth_of_cut(Point a, Point b, const Outline& part) {
  double enters = 0;
  double leaves = 1;
  bool misses = false;
  plane::each_edge(part, [&](Point from, Point to) {
    const Point along = to - from;
    const double at_a = cross(along, a - from);
    const double at_b = cross(along, b - from);
    if (at_a <= 0 && at_b <= 0) misses = true;
    if (at_a < 0 && at_b > 0) enters = std::max(enters, at_a / (at_a - at_b));
    if (at_a > 0 && at_b < 0) leaves = std::min(leaves, at_a / (at_a - at_b));
  });
  if (misses || enters >= leaves) return 0;
  double deepest = 0;
  for (const double t : {enters, (enters + leaves) / 2, leaves}) {
    deepest = std::max(deepest, inset(a + t * (b - a), part));
  }
  return deepest;
}

// A convex part in an outline that may be notched. It is inside when no edge of the outline runs
// through it and its corners are inside; then the nearest pair of edges tells how far.
double inset_in_notched(const Outline& part, const Outline& edge) {
  double deepest_cut = 0;
  plane::each_edge(edge, [&](Point from, Point to) {
    deepest_cut = std::max(deepest_cut, depth_of_cut(from, to, part));
  });
  double least = kInfinity;
  for (const Point& corner : part.corners) least = std::min(least, inset(corner, edge));
  if (least < 0 || deepest_cut > 0) return std::min(least, -deepest_cut);
  double nearest = kInfinity;
  plane::each_edge(edge, [&](Point from, Point to) {
    plane::each_edge(part, [&](Point start, Point end) {
      nearest = std::min(nearest, square_distance(from, to, start, end));
    });
  });
  return std::sqrt(nearest);
}

}  // namespace

double inset(Point p, const Outline& outline) {
  double nearest = kInfinity;  // squared
  bool inside = false;
  plane::each_edge(outline, [&](Point from, Point to) {
    nearest = std::min(nearest, plane::square_distance(p, from, to));
    // A ray to the right crosses the edge; an edge owns its lower end but not its upper one.
    if ((from.y > p.y) != (to.y > p.y)) {
      const double side = cross(to - from, p - from);
      if ((side > 0) == (to.y > from.y)) inside = !inside;
    }
  });
  const double distance = std::sqrt(nearest);
  return inside ? distance : -distance;
}

double inset(const Footprint& shape, const Region& region) {
  double least = kInfinity;
  if (region.round) least = inset_in_round(shape, *region.round);
  const Outline& edge = region.outline;
  if (edge.corners.size() < 3) return least;
  if (turns_left_only(edge)) return std::min(least, inset_in_convex(shape, edge));
  for (const Disc& disc : shape.discs) {
    least = std::min(least, inset(disc.centre, edge) - disc.radius);
  }
  for (const Outline& part : shape.outlines) {
    least = std::min(least, inset_in_notched(part, edge));
  }
  return least;
}

}  // namespace placer
