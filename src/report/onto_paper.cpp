#include "report/onto_paper.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "report/hatching.h"

namespace placer::report {
namespace {

std::vector<Point> around(const Disc& disc, double step) {
  const int count = std::max(24, static_cast<int>(2 * std::numbers::pi * disc.radius / step));
  std::vector<Point> points;
  for (int i = 0; i < count; ++i) {
    const double turn = 2 * std::numbers::pi * i / count;
    points.push_back(disc.centre + disc.radius * Point{std::cos(turn), std::sin(turn)});
  }
  return points;
}

std::vector<Point> around(const Outline& outline, double step) {
  std::vector<Point> points;
  for (std::size_t i = 0; i < outline.corners.size(); ++i) {
    const Point from = outline.corners[i];
    const Point edge = outline.corners[(i + 1) % outline.corners.size()] - from;
    const int count = std::max(1, static_cast<int>(std::hypot(edge.x, edge.y) / step));
    for (int k = 0; k < count; ++k)
      points.push_back(from + (static_cast<double>(k) / count) * edge);
  }
  return points;
}

// `others`: the shape without the part whose edge this is.
void add_runs(std::vector<std::vector<Point>>& runs, const std::vector<Point>& edge,
              const Footprint& others) {
  std::vector<Point> run;
  for (std::size_t i = 0; i <= edge.size(); ++i) {
    const Point from = edge[i % edge.size()];
    const Point to = edge[(i + 1) % edge.size()];
    if (i < edge.size() && parts_inside(others, from, to).empty()) {
      if (run.empty()) run.push_back(from);
      run.push_back(to);
    } else if (!run.empty()) {
      runs.push_back(std::move(run));
      run.clear();
    }
  }
}

bool holds(const Room& room, Point p) {
  return p.x >= room.left && p.x <= room.right && p.y >= room.top && p.y <= room.bottom;
}

// The part of a run that lies in the room.
void add_inside(Page& page, const std::vector<Point>& run, const Room& room, const Pen& pen) {
  std::vector<Point> part;
  const auto finish = [&] {
    if (part.size() > 1) page.marks.emplace_back(Path{part, false, pen, Fill::none});
    part.clear();
  };
  for (const Point p : run) {
    if (holds(room, p)) {
      part.push_back(p);
    } else {
      finish();
    }
  }
  finish();
}

double cross(Point a, Point b) { return a.x * b.y - a.y * b.x; }

bool holds(const Outline& convex, Point p) {
  const double sign = signed_area(convex) >= 0 ? 1 : -1;
  for (std::size_t i = 0; i < convex.corners.size(); ++i) {
    const Point corner = convex.corners[i];
    const Point edge = convex.corners[(i + 1) % convex.corners.size()] - corner;
    if (sign * cross(edge, p - corner) < 0) return false;
  }
  return true;
}

// `but`: the outline that does not count.
bool covered(const Footprint& shape, const Outline* but, Point p) {
  return std::any_of(shape.discs.begin(), shape.discs.end(),
                     [&](const Disc& d) {
                       return std::hypot(p.x - d.centre.x, p.y - d.centre.y) <= d.radius;
                     }) ||
         std::any_of(shape.outlines.begin(), shape.outlines.end(),
                     [&](const Outline& o) { return &o != but && holds(o, p); });
}

/// Towards the inside of an edge, one mm long.
Point inward(Point edge, double sign) {
  const double length = std::max(std::hypot(edge.x, edge.y), 1e-9);
  return (sign / length) * Point{-edge.y, edge.x};
}

// How far each edge moves inwards: not at all where other parts of the shape cover its outer side.
std::vector<double> moves(const Footprint& shape, const Outline& outline, double by, double sign) {
  constexpr double kOutside = 0.02;
  std::vector<double> all;
  for (std::size_t i = 0; i < outline.corners.size(); ++i) {
    const Point a = outline.corners[i];
    const Point b = outline.corners[(i + 1) % outline.corners.size()];
    const Point out = -kOutside * inward(b - a, sign);
    const bool hidden = covered(shape, &outline, a + out) && covered(shape, &outline, b + out) &&
                        covered(shape, &outline, 0.5 * (a + b) + out);
    all.push_back(hidden ? 0 : by);
  }
  return all;
}

// A convex part of a shape without a rim of `by` mm.
Outline shrunk(const Footprint& shape, const Outline& outline, double by) {
  const double sign = signed_area(outline) >= 0 ? 1 : -1;
  const std::size_t count = outline.corners.size();
  const std::vector<double> by_edge = moves(shape, outline, by, sign);
  Outline small;
  for (std::size_t i = 0; i < count; ++i) {
    const Point corner = outline.corners[i];
    const Point before = inward(corner - outline.corners[(i + count - 1) % count], sign);
    const Point after = inward(outline.corners[(i + 1) % count] - corner, sign);
    const double d = by_edge[(i + count - 1) % count];
    const double e = by_edge[i];
    const double turn = cross(before, after);
    if (std::abs(turn) < 1e-3) {
      small.corners.push_back(corner + 0.5 * (d * before + e * after));
    } else {
      // The point at distance d inside the one edge and e inside the other.
      const Point move = (1 / turn) * Point{d * after.y - e * before.y, e * before.x - d * after.x};
      small.corners.push_back(corner + move);
    }
  }
  return small;
}

}  // namespace

Point OntoPaper::operator()(Point p) const {
  return {origin.x + (p.x - far_left.x) / scale, origin.y + (far_left.y - p.y) / scale};
}

Outline OntoPaper::operator()(Outline outline) const {
  for (Point& corner : outline.corners) corner = (*this)(corner);
  return outline;
}

Footprint OntoPaper::operator()(const Footprint& shape) const {
  Footprint out;
  for (const Disc& d : shape.discs) out.discs.push_back({(*this)(d.centre), d.radius / scale});
  for (const Outline& outline : shape.outlines) out.outlines.push_back((*this)(outline));
  return out;
}

// Heavy lines first, then white (or black) over what lies inside: no cutting of shapes is needed.
void draw_union(Page& page, const Footprint& shape, double line, Fill fill) {
  const Pen pen{2 * line, {}};
  const Pen none{0, {}};
  for (const Disc& d : shape.discs) {
    page.marks.emplace_back(Circle{d.centre, d.radius, pen, Fill::none});
  }
  for (const Outline& o : shape.outlines) {
    page.marks.emplace_back(Path{o.corners, true, pen, Fill::none});
  }
  for (const Disc& d : shape.discs) {
    page.marks.emplace_back(Circle{d.centre, d.radius, none, fill});
  }
  for (const Outline& o : shape.outlines) {
    page.marks.emplace_back(Path{o.corners, true, none, fill});
  }
}

void draw_inside(Page& page, const Footprint& shape, double line) {
  const Pen none{0, {}};
  for (const Disc& d : shape.discs) {
    page.marks.emplace_back(Circle{d.centre, d.radius, none, Fill::black});
  }
  for (const Outline& o : shape.outlines) {
    page.marks.emplace_back(Path{o.corners, true, none, Fill::black});
  }
  for (const Disc& d : shape.discs) {
    page.marks.emplace_back(Circle{d.centre, std::max(d.radius - line, 0.05), none, Fill::white});
  }
  for (const Outline& o : shape.outlines) {
    page.marks.emplace_back(Path{shrunk(shape, o, line).corners, true, none, Fill::white});
  }
}

std::vector<std::vector<Point>> edge_runs(const Footprint& shape, double step) {
  std::vector<std::vector<Point>> runs;
  for (std::size_t i = 0; i < shape.discs.size(); ++i) {
    Footprint others = shape;
    others.discs.erase(others.discs.begin() + static_cast<std::ptrdiff_t>(i));
    add_runs(runs, around(shape.discs[i], step), others);
  }
  for (std::size_t i = 0; i < shape.outlines.size(); ++i) {
    Footprint others = shape;
    others.outlines.erase(others.outlines.begin() + static_cast<std::ptrdiff_t>(i));
    add_runs(runs, around(shape.outlines[i], step), others);
  }
  return runs;
}

void draw_dashed_ring(Page& page, const Footprint& shape, const Room& room) {
  for (const auto& run : edge_runs(shape, 0.4)) {
    add_inside(page, run, room, Pen{0.35, {1.6, 1.2}});
  }
}

void draw_thin(Page& page, const Footprint& shape) {
  for (const auto& run : edge_runs(shape, 1)) {
    page.marks.emplace_back(Path{run, false, Pen{0.25, {}}, Fill::none});
  }
}

Disc roomiest(const Footprint& shape) {
  Disc best;
  for (const Disc& disc : shape.discs) {
    if (disc.radius > best.radius) best = disc;
  }
  for (const Outline& outline : shape.outlines) {
    Point middle;
    for (const Point corner : outline.corners) middle = middle + corner;
    middle = (1.0 / static_cast<double>(outline.corners.size())) * middle;
    const double radius = std::abs(inset(middle, outline));
    if (radius > best.radius) best = {middle, radius};
  }
  return best;
}

}  // namespace placer::report
