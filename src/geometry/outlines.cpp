// Outlines made from other shapes: convex parts, hulls, and edges with their arcs drawn as chords.
#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <stdexcept>

#include "geometry/edges.h"
#include "geometry/plane.h"
#include "placer/geometry/shape.h"

namespace placer {
namespace {

using plane::cross;
using Ring = std::vector<Point>;

// How many straight pieces leave an arc by at most `sagitta`, inside or out.
int pieces_of(const edges::Way& arc, double sagitta) {
  if (!(sagitta > 0)) throw std::invalid_argument{"the sagitta of a chord must be positive"};
  // A chord leaves by r (1 - cos h), a tangent by r (1/cos h - 1): a little more.
  const double half_step = std::max(std::acos(1 / (1 + sagitta / arc.disc.radius)), 1e-3);
  const int pieces = std::max(1, static_cast<int>(std::ceil(arc.sweep / 2 / half_step)));
  return arc.whole ? (pieces + 3) / 4 * 4 : pieces;  // a circle is touched on the axes
}

// The way without its last point, arcs drawn straight.
void draw(const edges::Way& way, double sagitta, ArcsAs arcs, Ring& ring) {
  if (!way.whole || arcs == ArcsAs::chords) ring.push_back(way.from);
  if (!way.arc) return;
  const int pieces = pieces_of(way, sagitta);
  for (int i = 1; arcs == ArcsAs::chords && i < pieces; ++i) {
    ring.push_back(edges::at(way, static_cast<double>(i) / pieces));
  }
  const double outwards = 1 / std::cos(way.sweep / pieces / 2);
  for (int i = 0; arcs == ArcsAs::tangents && i < pieces; ++i) {
    const Point on_arc = edges::at(way, (i + 0.5) / pieces);
    ring.push_back(way.disc.centre + outwards * (on_arc - way.disc.centre));
  }
}

// The ways end to end, as far as they go on from the first; they are taken out.
std::vector<edges::Way> chain(std::vector<edges::Way>& ways) {
  constexpr double kSamePoint = 1e-5;
  std::vector<edges::Way> chain;
  auto next = ways.begin();
  while (next != ways.end()) {
    const Point end = next->to;
    chain.push_back(*next);
    ways.erase(next);
    next = std::ranges::find_if(
        ways, [end](const edges::Way& way) { return plane::length(way.from - end) < kSamePoint; });
  }
  return chain;
}

bool in_triangle(Point p, Point a, Point b, Point c) {
  return cross(b - a, p - a) >= 0 && cross(c - b, p - b) >= 0 && cross(a - c, p - c) >= 0;
}

// Can the corner at `i` be cut off, leaving the rest simple?
bool is_ear(const Ring& ring, std::size_t i) {
  const std::size_t n = ring.size();
  const Point a = ring[(i + n - 1) % n];
  const Point b = ring[i];
  const Point c = ring[(i + 1) % n];
  if (cross(b - a, c - b) <= 0) return false;
  for (const Point& p : ring) {
    if (p != a && p != b && p != c && in_triangle(p, a, b, c)) return false;
  }
  return true;
}

std::vector<Outline> triangles(Ring ring) {
  std::vector<Outline> cut;
  while (ring.size() > 3) {
    std::size_t ear = 0;
    while (ear < ring.size() && !is_ear(ring, ear)) ++ear;
    if (ear == ring.size()) {  // only corners on straight edges are left over by rounding
      ear = 0;
      while (ear + 1 < ring.size() && cross(ring[ear] - ring[(ear + ring.size() - 1) % ring.size()],
                                            ring[ear + 1] - ring[ear]) < 0) {
        ++ear;
      }
    }
    const std::size_t n = ring.size();
    const Outline triangle{{ring[(ear + n - 1) % n], ring[ear], ring[(ear + 1) % n]}};
    if (signed_area(triangle) > 0) cut.push_back(triangle);
    ring.erase(ring.begin() + static_cast<std::ptrdiff_t>(ear));
  }
  if (signed_area({ring}) > 0) cut.push_back({ring});
  return cut;
}

// The two joined along a shared edge, if they share one and the whole is convex.
std::optional<Outline> joined(const Outline& a, const Outline& b) {
  const std::size_t n = a.corners.size();
  const std::size_t m = b.corners.size();
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < m; ++j) {
      if (a.corners[i] != b.corners[(j + 1) % m] || a.corners[(i + 1) % n] != b.corners[j]) {
        continue;
      }
      Outline whole;
      for (std::size_t k = 1; k <= n; ++k) whole.corners.push_back(a.corners[(i + k) % n]);
      for (std::size_t k = 2; k < m; ++k) whole.corners.push_back(b.corners[(j + k) % m]);
      if (is_convex(whole)) return whole;
    }
  }
  return std::nullopt;
}

// Joins any two parts while the whole stays convex.
// @source S. Hertel, K. Mehlhorn, "Fast triangulation of simple polygons", FCT 1983
void join_parts(std::vector<Outline>& parts) {
  for (std::size_t i = 0; i < parts.size(); ++i) {
    for (std::size_t j = i + 1; j < parts.size(); ++j) {
      if (std::optional<Outline> whole = joined(parts[i], parts[j])) {
        parts[i] = *std::move(whole);
        parts.erase(parts.begin() + static_cast<std::ptrdiff_t>(j));
        j = i;
      }
    }
  }
}

}  // namespace

std::vector<Outline> convex_parts(const Outline& outline) {
  if (!is_simple(outline)) throw std::invalid_argument{"convex_parts: the outline is not simple"};
  Ring ring = outline.corners;
  if (signed_area(outline) < 0) std::ranges::reverse(ring);
  if (is_convex({ring})) return {{ring}};
  std::vector<Outline> parts = triangles(std::move(ring));
  join_parts(parts);
  return parts;
}

Outline edge_polygon(const Region& region, double sagitta, ArcsAs arcs) {
  if (!region.round && !region.outline.corners.empty()) return region.outline;
  std::vector<edges::Way> ways = edges::area_of(region).ways;
  std::erase_if(ways, [](const edges::Way& way) {
    return !way.whole && plane::length(way.to - way.from) < 1e-6;
  });
  Outline largest;  // an outline that is notched may leave several pieces of the round
  while (!ways.empty()) {
    Outline piece;
    for (const edges::Way& way : chain(ways)) draw(way, sagitta, arcs, piece.corners);
    if (signed_area(piece) > signed_area(largest)) largest = piece;
  }
  return largest;
}

}  // namespace placer
