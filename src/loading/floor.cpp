#include "loading/floor.h"

#include <algorithm>
#include <cmath>

#include "loading/index.h"

namespace placer::loading {
namespace {

constexpr double kPi = 3.14159265358979323846;
constexpr int kTangents = 360;
constexpr double kSure = 1e-6;    // mm, on the side of too much
constexpr double kNoBend = 1e-6;  // rad
constexpr double kSliver = 5e-4;  // of the radius: what a line cuts off may be left on the floor
constexpr double kFar = 20000;    // mm

double dot(Point a, Point b) { return a.x * b.x + a.y * b.y; }
double cross(Point a, Point b) { return a.x * b.y - a.y * b.x; }

Outline cut(const Outline& outline, Point n, double reach) {
  Outline kept;
  for (std::size_t i = 0; i < outline.corners.size(); ++i) {
    const Point p = outline.corners[i];
    const Point q = outline.corners[(i + 1) % outline.corners.size()];
    const double at_p = dot(n, p) - reach;
    const double at_q = dot(n, q) - reach;
    if (at_p <= 0) kept.corners.push_back(p);
    if ((at_p < 0 && at_q > 0) || (at_p > 0 && at_q < 0)) {
      kept.corners.push_back(p + (at_p / (at_p - at_q)) * (q - p));
    }
  }
  return kept;
}

/// All that lies on the inner side of the lines and in the disc, moved in by `inset`.
Outline drawn(const Floor& floor, double inset) {
  Outline edge;
  if (floor.round) {
    const double radius = floor.round->radius - inset + kSure;
    if (radius <= 0) return {};
    const double corner = radius / std::cos(kPi / kTangents);
    for (int i = 0; i < kTangents; ++i) {
      edge.corners.push_back(floor.round->centre +
                             corner * direction((2 * i + 1) * 180.0 / kTangents));
    }
  } else {
    edge = rectangle(Point{-kFar, -kFar}, Point{kFar, kFar});
  }
  for (std::size_t i = 0; i < floor.normals.size(); ++i) {
    edge = cut(edge, floor.normals[i], floor.reaches[i] - inset + kSure);
  }
  return edge.corners.size() < 3 ? Outline{} : edge;
}

/// Where the edge turns, and how far it is from one corner to the next.
void find_corners(Floor& floor) {
  const std::vector<Point>& p = floor.edge.corners;
  const std::size_t n = p.size();
  std::vector<std::size_t> corners;
  for (std::size_t i = 0; i < n; ++i) {
    const Point a = p[i] - p[(i + n - 1) % n];
    const Point b = p[(i + 1) % n] - p[i];
    const double turn = std::atan2(cross(a, b), dot(a, b));
    const bool along_arc = floor.round && std::abs(turn - 2 * kPi / kTangents) < kNoBend;
    if (turn < kNoBend || along_arc) continue;
    floor.least_turn = corners.empty() ? turn : std::min(floor.least_turn, turn);
    floor.most_turn = std::max(floor.most_turn, turn);
    corners.push_back(i);
  }
  floor.corners = count_of(corners);
  for (std::size_t k = 0; k < corners.size(); ++k) {
    double length = 0;
    const std::size_t last = corners[(k + 1) % corners.size()];
    std::size_t pieces = 0;
    for (std::size_t i = corners[k]; i != last || pieces == 0; i = (i + 1) % n, ++pieces) {
      const Point v = p[(i + 1) % n] - p[i];
      length += std::sqrt(dot(v, v));
    }
    floor.lines += pieces > 1 ? 0 : 1;
    double& least = pieces > 1 ? floor.arc : floor.straight;
    least = least > 0 ? std::min(least, length) : length;
  }
}

void measure(Floor& floor) {
  floor.edge = drawn(floor, 0);
  if (floor.edge.corners.empty()) return;
  floor.area = signed_area(floor.edge);
  floor.perimeter = perimeter_of(floor.edge);
  find_corners(floor);
  const Box box = bounding_box(Footprint{{}, {floor.edge}});
  floor.around = {0.5 * (box.low + box.high), 0};
  for (const Point p : floor.edge.corners) {
    const Point v = p - floor.around.centre;
    floor.around.radius = std::max(floor.around.radius, std::sqrt(dot(v, v)) + kSure);
  }
  if (!floor.round) return;
  if (floor.round->radius < floor.around.radius) floor.around = *floor.round;
  for (std::size_t i = 0; i < floor.normals.size(); ++i) {
    const double beyond = floor.reaches[i] - dot(floor.normals[i], floor.round->centre);
    if (beyond < floor.round->radius) floor.beyond = std::max(floor.beyond, beyond);
  }
}

}  // namespace

double perimeter_of(const Outline& outline) {
  double around = 0;
  for (std::size_t i = 0; i < outline.corners.size(); ++i) {
    const Point v = outline.corners[(i + 1) % outline.corners.size()] - outline.corners[i];
    around += std::sqrt(dot(v, v));
  }
  return around;
}

Floor floor_of(const Site& site, double halo) {
  Floor floor;
  floor.round = site.ground.round;
  if (floor.round) floor.round->radius += kChord + halo;
  if (!site.ground.outline.corners.empty()) {
    const Outline hull = is_convex(site.ground.outline)
                             ? site.ground.outline
                             : convex_hull({{}, convex_parts(site.ground.outline)});
    for (std::size_t i = 0; i < hull.corners.size(); ++i) {
      const Point a = hull.corners[i];
      const Point along = hull.corners[(i + 1) % hull.corners.size()] - a;
      const double length = std::sqrt(dot(along, along));
      if (length < 1e-9) continue;
      const Point n{along.y / length, -along.x / length};
      const double reach = dot(n, a) + halo;
      if (floor.round && reach - dot(n, floor.round->centre) > (1 - kSliver) * floor.round->radius)
        continue;
      floor.normals.push_back(n);
      floor.reaches.push_back(reach);
    }
  }
  measure(floor);
  return floor;
}

std::optional<Floor> mirrored(const Floor& floor) {
  if (!floor.round || floor.normals.empty()) return std::nullopt;
  double least = kFar;
  for (std::size_t i = 0; i < floor.normals.size(); ++i) {
    least = std::min(least, floor.reaches[i] - dot(floor.normals[i], floor.round->centre));
  }
  Floor both;
  both.round = Disc{{0, 0}, floor.round->radius + std::max(0.0, least)};
  measure(both);
  return both;
}

Outline middles_on(const Floor& floor, double radius) { return drawn(floor, radius); }

bool lies_on(const Floor& inner, const Floor& outer) {
  if (outer.round) {
    const auto inside = [&](Point p) {
      return dot(p - outer.round->centre, p - outer.round->centre) <=
             (outer.round->radius + 0.05) * (outer.round->radius + 0.05);
    };
    if (!std::all_of(inner.edge.corners.begin(), inner.edge.corners.end(), inside)) return false;
  }
  for (std::size_t i = 0; i < outer.normals.size(); ++i) {
    for (const Point p : inner.edge.corners) {
      if (dot(outer.normals[i], p) > outer.reaches[i] + 1e-3) return false;
    }
  }
  return true;
}

}  // namespace placer::loading
