// From the caller's problem to the engine's own shapes, refusing what makes no sense.
#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>
#include <string>

#include "packing/bodies.h"

namespace placer::packing {

namespace {

constexpr double kFarthest = 1e7;  // mm; beyond ten kilometres a double has no micrometres left

std::string number(double v) {
  std::string text = std::to_string(v);
  if (text.find('.') == std::string::npos) return text;
  while (text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text;
}

[[noreturn]] void refuse(const std::string& what, double value, const std::string& wanted) {
  throw std::invalid_argument{what + " is " + number(value) + ": it must be " + wanted};
}

void check_at_least_zero(const std::string& what, double value) {
  if (!std::isfinite(value) || value < 0 || value > kFarthest) {
    refuse(what, value, "0 or more mm");
  }
}

void check_point(const std::string& what, Point p) {
  for (const double v : {p.x, p.y}) {
    if (!std::isfinite(v) || std::abs(v) > kFarthest) refuse(what, v, "an ordinary length in mm");
  }
}

void check_disc(const std::string& what, const Disc& disc) {
  check_point(what + ": the disc's centre", disc.centre);
  if (!std::isfinite(disc.radius) || disc.radius <= 0 || disc.radius > kFarthest) {
    refuse(what + ": the disc's radius", disc.radius, "more than 0 mm");
  }
}

/// Counter-clockwise and checked.
Outline checked(const std::string& what, Outline outline) {
  for (const Point p : outline.corners) check_point(what + ": a corner", p);
  if (outline.corners.size() < 3 || !is_simple(outline)) {
    throw std::invalid_argument{what + ": the outline of " +
                                std::to_string(outline.corners.size()) +
                                " corners crosses or touches itself, or has no area"};
  }
  if (signed_area(outline) < 0) std::reverse(outline.corners.begin(), outline.corners.end());
  return outline;
}

/// Corners on a straight line (or nearly) are dropped: their edges have no direction of their own.
std::vector<Point> without_flats(const std::vector<Point>& corners) {
  std::vector<Point> kept;
  const std::size_t n = corners.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Point before = kept.empty() ? corners[(i + n - 1) % n] : kept.back();
    const Point a = corners[i] - before;
    const Point b = corners[(i + 1) % n] - corners[i];
    if (cross(a, b) > 0) kept.push_back(corners[i]);
  }
  return kept.size() >= 3 ? kept : corners;
}

void add_outline(const std::string& what, const Outline& raw, Point shift, Solid& solid) {
  const Outline outline = checked(what, raw);
  const std::vector<Outline> parts =
      is_convex(outline) ? std::vector<Outline>{outline} : convex_parts(outline);
  for (const Outline& part : parts) {
    std::vector<Point> corners = without_flats(part.corners);
    for (Point& p : corners) p = p - shift;
    solid.add_polygon(corners);
  }
}

Solid solid_of(const std::string& what, const Footprint& shape, Point shift) {
  if (shape.discs.empty() && shape.outlines.empty()) {
    throw std::invalid_argument{what + ": the shape has no parts"};
  }
  Solid solid;
  for (const Disc& disc : shape.discs) {
    check_disc(what, disc);
    solid.balls.push_back({disc.centre - shift, disc.radius});
  }
  for (const Outline& outline : shape.outlines) add_outline(what, outline, shift, solid);
  return solid;
}

double reach_of(const Solid& solid, Point centre) {
  double far = 0;
  for (const Ball& ball : solid.balls) {
    const Point v = ball.c - centre;
    far = std::max(far, std::sqrt(dot(v, v)) + ball.r);
  }
  for (const Point corner : solid.corners) {
    const Point v = corner - centre;
    far = std::max(far, std::sqrt(dot(v, v)));
  }
  return far;
}

Point middle(const Solid& solid) {
  constexpr double inf = std::numeric_limits<double>::infinity();
  Point low{inf, inf};
  Point high{-inf, -inf};
  const auto stretch = [&](Point p, double r) {
    low = {std::min(low.x, p.x - r), std::min(low.y, p.y - r)};
    high = {std::max(high.x, p.x + r), std::max(high.y, p.y + r)};
  };
  for (const Ball& ball : solid.balls) stretch(ball.c, ball.r);
  for (const Point corner : solid.corners) stretch(corner, 0);
  return {(low.x + high.x) / 2, (low.y + high.y) / 2};
}

Point origin_of(const Solid& solid) {
  const Ball* largest = nullptr;
  for (const Ball& ball : solid.balls) {
    if (largest == nullptr || ball.r > largest->r) largest = &ball;
  }
  return largest != nullptr ? largest->c : middle(solid);
}

/// Radius of the largest disc about the origin inside one of the parts; 0 when there is none.
double core_of(const Solid& solid) {
  double core = 0;
  for (const Ball& ball : solid.balls) {
    core = std::max(core, ball.r - std::sqrt(dot(ball.c, ball.c)));
  }
  for (std::size_t k = 0; k + 1 < solid.starts.size(); ++k) {
    double inside = std::numeric_limits<double>::infinity();
    for (auto i = static_cast<std::size_t>(solid.starts[k]);
         i < static_cast<std::size_t>(solid.starts[k + 1]); ++i) {
      inside = std::min(inside, dot(solid.normals[i], solid.corners[i]));
    }
    core = std::max(core, inside);
  }
  return core;
}

void add_keep_outs(const Problem& problem, Scene& scene) {
  int i = 0;
  for (const Footprint& keep_out : problem.region.keep_outs) {
    Obstacle obstacle;
    obstacle.solid = solid_of("keep-out " + std::to_string(++i), keep_out, {});
    obstacle.clearance = problem.gap;
    scene.obstacles.push_back(std::move(obstacle));
  }
}

/// The corners of the convex hull, as indices into the outline in its own order.
std::vector<std::size_t> hull_of(const std::vector<Point>& corners) {
  const std::size_t n = corners.size();
  std::size_t first = 0;
  for (std::size_t i = 1; i < n; ++i) {
    const Point p = corners[i];
    const Point q = corners[first];
    if (p.x < q.x || (p.x == q.x && p.y < q.y)) first = i;
  }
  std::vector<std::size_t> hull;  // Graham's walk works, as a simple outline is already in order
  std::vector<std::size_t> at{first};
  std::size_t i = first;
  do {  // gift wrapping: n is small
    std::size_t next = (i + 1) % n;
    for (std::size_t k = 0; k < n; ++k) {
      const double side = cross(corners[next] - corners[i], corners[k] - corners[i]);
      const Point to_k = corners[k] - corners[i];
      const Point to_next = corners[next] - corners[i];
      if (side < 0 || (side == 0 && dot(to_k, to_k) > dot(to_next, to_next))) next = k;
    }
    hull.push_back(i);
    i = next;
  } while (i != first && hull.size() <= n);
  return hull;
}

/// Each notch of the outline stands in the way as a convex keep-out that asks for the edge gap.
void add_notches(const Outline& outline, const std::vector<std::size_t>& hull, double edge_gap,
                 Scene& scene) {
  const std::size_t n = outline.corners.size();
  for (std::size_t h = 0; h < hull.size(); ++h) {
    const std::size_t from = hull[h];
    const std::size_t to = hull[(h + 1) % hull.size()];
    Outline notch;
    for (std::size_t i = from;; i = (i + 1) % n) {
      notch.corners.push_back(outline.corners[i]);
      if (i == to) break;
    }
    if (notch.corners.size() < 3) continue;
    std::reverse(notch.corners.begin(), notch.corners.end());
    if (!is_simple(notch)) continue;  // corners on one line: no area, the wall does it
    Obstacle obstacle;
    add_outline("the region", notch, {}, obstacle.solid);
    obstacle.clearance = edge_gap;
    obstacle.halo = false;
    scene.obstacles.push_back(std::move(obstacle));
  }
}

void add_walls(const Problem& problem, Scene& scene) {
  if (problem.region.outline.corners.empty()) return;
  const Outline outline = checked("the region", problem.region.outline);
  const std::vector<std::size_t> hull = hull_of(outline.corners);
  Solid edge;
  std::vector<Point> corners;
  for (const std::size_t i : hull) corners.push_back(outline.corners[i]);
  edge.add_polygon(without_flats(corners));
  for (std::size_t i = 0; i < edge.corners.size(); ++i) {
    const Point n = edge.normals[i];
    scene.walls.push_back({n, dot(n, edge.corners[i]) - problem.edge_gap});
  }
  if (hull.size() < outline.corners.size()) {
    add_notches(outline, hull, problem.edge_gap, scene);
  }
}

}  // namespace

Kind kind_of(const Item& item) {
  const std::string what = "the piece";
  if (item.count < 0) refuse("the piece's count", item.count, "0 or more");
  if (!std::isfinite(item.value) || item.value < 0) {
    refuse("the piece's value", item.value, "0 or more");
  }
  check_at_least_zero("the piece's halo", item.halo);
  Kind kind;
  kind.shift = origin_of(solid_of(what, item.shape, {}));
  kind.solid = solid_of(what, item.shape, kind.shift);
  kind.reach = reach_of(kind.solid, {});
  kind.core = core_of(kind.solid);
  kind.area = area(item.shape);
  kind.value = item.value > 0 ? item.value : kind.area;
  kind.halo = item.halo;
  kind.count = item.count;
  kind.round = kind.solid.balls.size() == 1 && kind.solid.corners.empty();
  kind.free = item.turns_deg.empty() && !kind.round;
  for (const double turn : item.turns_deg) {
    if (!std::isfinite(turn) || std::abs(turn) > 1e6) refuse("a turn", turn, "an angle in degrees");
    if (!kind.round || kind.turns.empty()) kind.turns.push_back(turn * (kPi / 180));
  }
  if (kind.turns.empty()) kind.turns.push_back(0);
  return kind;
}

Scene scene_of(const Problem& problem) {
  check_at_least_zero("the gap", problem.gap);
  check_at_least_zero("the edge gap", problem.edge_gap);
  Scene scene;
  scene.gap = problem.gap;
  if (problem.region.round) {
    check_disc("the region", *problem.region.round);
    scene.round = true;
    scene.centre = problem.region.round->centre;
    scene.radius = problem.region.round->radius - problem.edge_gap;
  } else if (problem.region.outline.corners.empty()) {
    throw std::invalid_argument{"the region has no edge: neither an outline nor a disc"};
  }
  add_walls(problem, scene);
  add_keep_outs(problem, scene);
  for (Obstacle& obstacle : scene.obstacles) {
    obstacle.centre = middle(obstacle.solid);
    obstacle.reach = reach_of(obstacle.solid, obstacle.centre);
  }
  const Box box = bounding_box(problem.region);
  scene.low = box.low;
  scene.high = box.high;
  scene.area = area(problem.region);
  return scene;
}

}  // namespace placer::packing
