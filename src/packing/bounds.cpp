#include "packing/bounds.h"

#include <algorithm>
#include <cmath>

namespace placer::packing {

namespace {

constexpr double kSafety = 1e-7;    // mm, on the side of too much
constexpr double kAreaSlip = 2e-4;  // geometry's areas are good to 1e-4
constexpr int kTangents = 720;

/// The part of a convex polygon with n·p <= b.
std::vector<Point> clipped(const std::vector<Point>& corners, Point n, double b) {
  std::vector<Point> kept;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const Point p = corners[i];
    const Point q = corners[(i + 1) % corners.size()];
    const double dp = dot(n, p) - b;
    const double dq = dot(n, q) - b;
    if (dp <= 0) kept.push_back(p);
    if ((dp < 0 && dq > 0) || (dp > 0 && dq < 0)) kept.push_back(p + (dp / (dp - dq)) * (q - p));
  }
  return kept;
}

/// The region's hull moved in by `inset` (out, if negative), drawn round it where it is curved.
std::vector<Point> hull_inside(const Scene& scene, double inset) {
  std::vector<Point> hull;
  if (scene.round) {
    const double radius = scene.radius - inset + kSafety;
    if (radius < 0) return {};
    const double corner = radius / turn_of(kPi / kTangents).c;  // where two tangents meet
    for (int i = 0; i < kTangents; ++i) {
      const Turn turn = turn_of((2 * i + 1) * kPi / kTangents);
      hull.push_back(scene.centre + corner * Point{turn.c, turn.s});
    }
  } else {
    const Point out{scene.high.x - scene.low.x + 2 * std::abs(inset) + 10,
                    scene.high.y - scene.low.y + 2 * std::abs(inset) + 10};
    const Point low = scene.low - out;
    const Point high = scene.high + out;
    hull = {low, {high.x, low.y}, high, {low.x, high.y}};
  }
  for (const Wall& wall : scene.walls) {
    hull = clipped(hull, wall.n, wall.b - inset + kSafety);
  }
  return hull;
}

double area_of(const std::vector<Point>& corners) {
  double twice = 0;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    twice += cross(corners[i] - corners[0], corners[(i + 1) % corners.size()] - corners[0]);
  }
  return twice / 2;
}

double perimeter_of(const std::vector<Point>& corners) {
  double length = 0;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const Point v = corners[(i + 1) % corners.size()] - corners[i];
    length += std::sqrt(dot(v, v));
  }
  return length;
}

/// Oler: points of a convex set of area A and perimeter P, no two nearer than d, are at most
/// 2 A / (sqrt(3) d²) + P / (2 d) + 1. Here the points are the middles of each piece's largest
/// disc; keep-outs and notches are left out of it, which can only make the bound larger.
double most_discs(double radius, double halo, const Scene& scene) {
  const std::vector<Point> middles = hull_inside(scene, radius);
  if (middles.empty()) return 0;
  const double d = 2 * (radius + halo) + scene.gap;
  const double area = std::max(0.0, area_of(middles));
  return 2 / std::sqrt(3.0) * area / (d * d) + perimeter_of(middles) / (2 * d) + 1;
}

/// A convex outline grown by `by`, drawn inside its round corners.
Outline grown(const Outline& outline, double by) {
  Solid solid;
  std::vector<Point> corners = outline.corners;
  if (signed_area(outline) < 0) std::reverse(corners.begin(), corners.end());
  solid.add_polygon(corners);
  constexpr int kFan = 6;
  Outline big;
  const std::size_t n = corners.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Point before = solid.normals[(i + n - 1) % n];
    const Point after = solid.normals[i];
    for (int k = 0; k <= kFan; ++k) {
      Point v = (1.0 - k / double{kFan}) * before + (k / double{kFan}) * after;
      const double length = std::sqrt(dot(v, v));
      if (length > 1e-3) big.corners.push_back(corners[i] + (by / length) * v);
    }
  }
  return big;
}

}  // namespace

double grown_area(const Item& item, double gap) {
  const double by = gap / 2 + item.halo;
  Footprint big;
  for (const Disc& disc : item.shape.discs) big.discs.push_back({disc.centre, disc.radius + by});
  for (const Outline& outline : item.shape.outlines) {
    if (by > 0 && is_convex(outline)) {
      big.outlines.push_back(grown(outline, by));
    } else {
      big.outlines.push_back(outline);
    }
  }
  const bool exact = big.discs.size() + big.outlines.size() == 1;
  return area(big) * (exact ? 1 - 1e-9 : 1 - kAreaSlip);
}

double ground(const Problem& problem, const Scene& scene) {
  // Walls and disc of the scene have the edge gap taken off already; half a gap of each piece may
  // hang over that line.
  double halo = 0;
  for (const Item& item : problem.items) halo = std::max(halo, item.halo);
  const double out = scene.gap / 2 + halo;
  const double hull = area_of(hull_inside(scene, -out));
  if (out >= problem.edge_gap) {
    // Keep-outs and notches take their ground from the region itself.
    const std::vector<Point> bare = hull_inside(scene, -problem.edge_gap);
    const double hidden = area_of(bare) - scene.area * (1 + kAreaSlip);
    if (hidden > 0) return std::max(0.0, hull - hidden);
  }
  return std::max(0.0, hull);
}

int most_of(const Item& item, const Kind& kind, const Problem& problem, const Scene& scene) {
  double largest = kind.core;
  for (const Ball& ball : kind.solid.balls) largest = std::max(largest, ball.r);
  double most = kind.count;
  if (largest > 0) most = std::min(most, std::floor(most_discs(largest, kind.halo, scene)));
  most = std::min(most, std::floor(ground(problem, scene) / grown_area(item, scene.gap)));
  return static_cast<int>(most);
}

}  // namespace placer::packing
