// Areas of unions, by walking round their boundary (Green's theorem): arcs stay arcs, so the
// figures are exact but for rounding.
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <vector>

#include "geometry/overlay.h"
#include "geometry/plane.h"
#include "placer/geometry/shape.h"

namespace placer {
namespace {

using plane::cross;
using plane::dot;

constexpr double kPi = std::numbers::pi;
/// Boundaries nearer than this, in mm, run on top of each other.
constexpr double kSame = 1e-9;

// Where the line from a to b meets a circle, as fractions of the way; nothing when it misses.
void meet_circle(Point a, Point b, const Disc& disc, std::vector<double>& cuts) {
  const Point along = b - a;
  const Point off = a - disc.centre;
  const double span = plane::square(along);
  const double half = dot(off, along) / span;
  const double inside = half * half - (plane::square(off) - disc.radius * disc.radius) / span;
  if (inside <= 0) return;
  const double root = std::sqrt(inside);
  for (const double t : {-half - root, -half + root}) {
    if (t > 0 && t < 1) cuts.push_back(t);
  }
}

void meet_line(Point a, Point b, Point c, Point d, std::vector<double>& cuts) {
  const double side_a = cross(d - c, a - c);
  const double side_b = cross(d - c, b - c);
  if ((side_a > 0) != (side_b > 0)) cuts.push_back(side_a / (side_a - side_b));
}

bool covered_by_disc(Point p, const Disc& disc) {
  return plane::length(p - disc.centre) < disc.radius - kSame;
}

// Everything but one part of a shape, as the boundary of that part meets it.
class Others {
 public:
  Others(const Footprint& shape, std::size_t disc, std::size_t outline)
      : shape_{shape}, disc_{disc}, outline_{outline} {}

  // Is the boundary at p, running along `heading` (a unit vector), inside the union of the others?
  // Of boundaries that run on top of each other the same way, the last part's counts.
  bool cover(Point p, Point heading) const {
    for (std::size_t i = 0; i < shape_.discs.size(); ++i) {
      if (i != disc_ && disc_covers(i, p, heading)) return true;
    }
    for (std::size_t i = 0; i < shape_.outlines.size(); ++i) {
      if (i != outline_ && outline_covers(i, p, heading)) return true;
    }
    return false;
  }

 private:
  bool disc_covers(std::size_t i, Point p, Point heading) const {
    const Disc& disc = shape_.discs[i];
    if (covered_by_disc(p, disc)) return true;
    if (plane::length(p - disc.centre) > disc.radius + kSame) return false;
    const bool same_way = cross(p - disc.centre, heading) > 0;
    return disc_ < shape_.discs.size() && i > disc_ && same_way;
  }

  bool outline_covers(std::size_t i, Point p, Point heading) const {
    const double depth = inset(p, shape_.outlines[i]);
    if (depth > kSame) return true;
    if (depth < -kSame || outline_ >= shape_.outlines.size() || i < outline_) return false;
    bool same_way = false;
    plane::each_edge(shape_.outlines[i], [&](Point from, Point to) {
      if (plane::square_distance(p, from, to) <= kSame * kSame) {
        same_way = same_way || dot(to - from, heading) > 0;
      }
    });
    return same_way;
  }

  const Footprint& shape_;
  std::size_t disc_, outline_;
};

// Twice the integral of x dy - y dx over the parts of an edge that the others leave bare.
double bare_edge(Point a, Point b, const Footprint& shape, const Others& others) {
  std::vector<double> cuts{0, 1};
  for (const Disc& disc : shape.discs) meet_circle(a, b, disc, cuts);
  for (const Outline& outline : shape.outlines) {
    plane::each_edge(outline, [&](Point c, Point d) { meet_line(a, b, c, d, cuts); });
  }
  std::ranges::sort(cuts);
  const Point along = b - a;
  const double span = plane::length(along);
  double bare = 0;
  for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
    const double middle = (cuts[i] + cuts[i + 1]) / 2;
    if (!others.cover(a + middle * along, (1 / span) * along)) bare += cuts[i + 1] - cuts[i];
  }
  return bare * cross(a, b);
}

void meet_other_circle(const Disc& disc, const Disc& other, std::vector<double>& angles) {
  const Point to = other.centre - disc.centre;
  const double apart = plane::length(to);
  if (apart == 0) return;
  const double cosine = (apart * apart + disc.radius * disc.radius - other.radius * other.radius) /
                        (2 * apart * disc.radius);
  if (std::abs(cosine) >= 1) return;
  const double heading = std::atan2(to.y, to.x);
  angles.push_back(heading - std::acos(cosine));
  angles.push_back(heading + std::acos(cosine));
}

double bare_arcs(const Disc& disc, const Footprint& shape, const Others& others) {
  std::vector<double> angles{-kPi, kPi};
  for (const Disc& other : shape.discs) meet_other_circle(disc, other, angles);
  std::vector<double> cuts;
  for (const Outline& outline : shape.outlines) {
    plane::each_edge(outline, [&](Point from, Point to) {
      cuts.clear();
      meet_circle(from, to, disc, cuts);
      for (const double t : cuts) {
        const Point at = from + t * (to - from) - disc.centre;
        angles.push_back(std::atan2(at.y, at.x));
      }
    });
  }
  for (double& angle : angles) angle = std::remainder(angle, 2 * kPi);
  angles.insert(angles.end(), {-kPi, kPi});
  std::ranges::sort(angles);
  const Point c = disc.centre;
  const double r = disc.radius;
  double twice = 0;
  for (std::size_t i = 0; i + 1 < angles.size(); ++i) {
    const double from = angles[i];
    const double to = angles[i + 1];
    const Point out{std::cos((from + to) / 2), std::sin((from + to) / 2)};
    if (to <= from || others.cover(c + r * out, {-out.y, out.x})) continue;
    twice += r * r * (to - from) +
             r * (c.x * (std::sin(to) - std::sin(from)) - c.y * (std::cos(to) - std::cos(from)));
  }
  return twice;
}

// Twice the area of the part of the triangle (centre, a, b) that lies in the disc, signed.
double slice(Point a, Point b, double r) {
  std::vector<double> cuts{0};
  meet_circle(a, b, {{0, 0}, r}, cuts);
  cuts.push_back(1);
  double twice = 0;
  for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
    const Point from = a + cuts[i] * (b - a);
    const Point to = a + cuts[i + 1] * (b - a);
    const bool chord = plane::length(0.5 * (from + to)) < r;
    twice += chord ? cross(from, to) : r * r * std::atan2(cross(from, to), dot(from, to));
  }
  return twice;
}

double shared_area(const Outline& outline, const Disc& disc) {
  double twice = 0;
  plane::each_edge(outline, [&](Point from, Point to) {
    if (from != to) twice += slice(from - disc.centre, to - disc.centre, disc.radius);
  });
  return twice / 2;
}

double edge_area(const Region& region) {
  if (region.outline.corners.empty()) return kPi * region.round->radius * region.round->radius;
  if (!region.round) return signed_area(region.outline);
  return shared_area(region.outline, *region.round);
}

Footprint together(const std::vector<Footprint>& shapes) {
  Footprint all;
  for (const Footprint& shape : shapes) {
    all.discs.insert(all.discs.end(), shape.discs.begin(), shape.discs.end());
    all.outlines.insert(all.outlines.end(), shape.outlines.begin(), shape.outlines.end());
  }
  return all;
}

}  // namespace

double area(const Footprint& shape) {
  const std::size_t no_disc = shape.discs.size();
  const std::size_t no_outline = shape.outlines.size();
  if (no_outline == 0 && no_disc == 1) return kPi * shape.discs[0].radius * shape.discs[0].radius;
  double twice = 0;
  for (std::size_t i = 0; i < no_disc; ++i) {
    twice += bare_arcs(shape.discs[i], shape, Others{shape, i, no_outline});
  }
  for (std::size_t i = 0; i < no_outline; ++i) {
    const Others others{shape, no_disc, i};
    plane::each_edge(shape.outlines[i], [&](Point from, Point to) {
      if (from != to) twice += bare_edge(from, to, shape, others);
    });
  }
  return twice / 2;
}

double area(const Region& region) {
  if (region.outline.corners.empty() && !region.round) {
    throw std::invalid_argument{"area: the region has no edge"};
  }
  const Footprint kept_out = together(region.keep_outs);
  if (kept_out.discs.empty() && kept_out.outlines.empty()) return edge_area(region);
  if (inset(kept_out, region) >= 0) return edge_area(region) - area(kept_out);
  return overlay::area_less_keep_outs(region);
}

}  // namespace placer
