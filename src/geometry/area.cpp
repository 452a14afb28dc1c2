// Areas of unions, by walking round their boundary (Green's theorem): arcs stay arcs, so the
// figures are exact but for rounding.
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <vector>

#include "geometry/crossings.h"
#include "geometry/plane.h"
#include "placer/geometry/shape.h"

namespace placer {
namespace {

using plane::cross;
using plane::dot;

constexpr double kPi = std::numbers::pi;
/// Boundaries nearer than this, in mm, run on top of each other.
constexpr double kSame = 1e-9;
/// Where a stretch of boundary between two meetings is looked at. Not in its middle only: there it
/// may just touch another boundary, as a circle does the side of the square round it.
constexpr std::array<double, 3> kLooks{0.5, 0.37, 0.71};

// A stretch of boundary between two meetings with others, seen at each of kLooks.
struct Look {
  Point at;
  Point heading;  // a unit vector
};
using Stretch = std::array<Look, kLooks.size()>;

enum class Lie { outside, along, along_backwards, inside };

Lie lies(const Look& look, const Disc& disc) {
  const double depth = disc.radius - plane::length(look.at - disc.centre);
  if (std::abs(depth) > kSame) return depth > 0 ? Lie::inside : Lie::outside;
  return cross(look.at - disc.centre, look.heading) > 0 ? Lie::along : Lie::along_backwards;
}

Lie lies(const Look& look, const Outline& outline) {
  const double depth = inset(look.at, outline);
  if (std::abs(depth) > kSame) return depth > 0 ? Lie::inside : Lie::outside;
  Lie lie = Lie::along_backwards;
  plane::each_edge(outline, [&](Point from, Point to) {
    const bool here = plane::square_distance(look.at, from, to) <= kSame * kSame;
    if (here && dot(to - from, look.heading) > 0) lie = Lie::along;
  });
  return lie;
}

// Is the stretch inside the part, or on top of its boundary all the way? Of boundaries on top of
// each other, the one of the last part counts: `first` says that the stretch's own comes sooner.
template <typename Part>
bool covers(const Part& part, const Stretch& stretch, bool first) {
  const auto is = [&part](Lie lie) {
    return [&part, lie](const Look& look) { return lies(look, part) == lie; };
  };
  if (std::ranges::any_of(stretch, is(Lie::inside))) return true;
  return first && std::ranges::all_of(stretch, is(Lie::along));
}

// Everything but one part of a shape, as the boundary of that part meets it. Discs come before
// outlines.
class Others {
 public:
  Others(const Footprint& shape, std::size_t part) : shape_{shape}, part_{part} {}

  bool cover(const Stretch& stretch) const {
    const std::size_t discs = shape_.discs.size();
    for (std::size_t i = 0; i < discs; ++i) {
      if (i != part_ && covers(shape_.discs[i], stretch, part_ < i)) return true;
    }
    for (std::size_t i = 0; i < shape_.outlines.size(); ++i) {
      if (discs + i != part_ && covers(shape_.outlines[i], stretch, part_ < discs + i)) return true;
    }
    return false;
  }

 private:
  const Footprint& shape_;
  std::size_t part_;
};

// Twice the integral of x dy - y dx over the parts of an edge that the others leave bare.
double bare_edge(Point a, Point b, const Footprint& shape, const Others& others) {
  std::vector<double> cuts{0, 1};
  for (const Disc& disc : shape.discs) plane::meet_circle(a, b, disc, cuts);
  for (const Outline& outline : shape.outlines) {
    plane::each_edge(outline, [&](Point c, Point d) { plane::meet_line(a, b, c, d, cuts); });
  }
  std::ranges::sort(cuts);
  const Point along = b - a;
  const Point heading = (1 / plane::length(along)) * along;
  double bare = 0;
  for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
    const double run = cuts[i + 1] - cuts[i];
    Stretch stretch;
    std::ranges::transform(kLooks, stretch.begin(), [&](double look) {
      return Look{a + (cuts[i] + look * run) * along, heading};
    });
    if (!others.cover(stretch)) bare += run;
  }
  return bare * cross(a, b);
}

std::vector<double> angles_met(const Disc& disc, const Footprint& shape) {
  std::vector<double> angles;
  for (const Disc& other : shape.discs) plane::meet_other_circle(disc, other, angles);
  for (const Outline& outline : shape.outlines) {
    plane::each_edge(outline,
                     [&](Point from, Point to) { plane::meet_way(disc, from, to, angles); });
  }
  for (double& angle : angles) angle = std::remainder(angle, 2 * kPi);
  angles.insert(angles.end(), {-kPi, kPi});
  std::ranges::sort(angles);
  return angles;
}

double bare_arcs(const Disc& disc, const Footprint& shape, const Others& others) {
  const std::vector<double> angles = angles_met(disc, shape);
  const Point c = disc.centre;
  const double r = disc.radius;
  double twice = 0;
  for (std::size_t i = 0; i + 1 < angles.size(); ++i) {
    const double from = angles[i];
    const double to = angles[i + 1];
    if (to <= from) continue;
    Stretch stretch;
    std::ranges::transform(kLooks, stretch.begin(), [&](double look) {
      const double angle = from + look * (to - from);
      const Point out{std::cos(angle), std::sin(angle)};
      return Look{c + r * out, {-out.y, out.x}};
    });
    if (others.cover(stretch)) continue;
    twice += r * r * (to - from) +
             r * (c.x * (std::sin(to) - std::sin(from)) - c.y * (std::cos(to) - std::cos(from)));
  }
  return twice;
}

// Twice the area of the part of the triangle (centre, a, b) that lies in the disc, signed.
double slice(Point a, Point b, double r) {
  std::vector<double> cuts{0};
  plane::meet_circle(a, b, {{0, 0}, r}, cuts);
  cuts.push_back(1);
  double twice = 0;
  for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
    const Point from = a + cuts[i] * (b - a);
    const Point to = a + cuts[i + 1] * (b - a);
    const bool chord = plane::length(0.5 * (from + to)) < r - kSame;
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

void add(Footprint& to, const Footprint& shape) {
  to.discs.insert(to.discs.end(), shape.discs.begin(), shape.discs.end());
  to.outlines.insert(to.outlines.end(), shape.outlines.begin(), shape.outlines.end());
}

Footprint together(Footprint shape, const Footprint& more) {
  add(shape, more);
  return shape;
}

bool boxes_meet(const Box& a, const Box& b) {
  return a.low.x <= b.high.x + kSame && b.low.x <= a.high.x + kSame &&
         a.low.y <= b.high.y + kSame && b.low.y <= a.high.y + kSame;
}

// Shapes whose boxes meet as one, so that no two of the answers have anything in common.
std::vector<Footprint> clusters(const std::vector<Footprint>& shapes) {
  std::vector<Footprint> clusters;
  for (const Footprint& shape : shapes) {
    if (shape.discs.empty() && shape.outlines.empty()) continue;
    Footprint all = shape;
    for (std::size_t i = 0; i < clusters.size();) {
      if (!boxes_meet(bounding_box(clusters[i]), bounding_box(all))) {
        ++i;
        continue;
      }
      add(all, clusters[i]);
      clusters.erase(clusters.begin() + static_cast<std::ptrdiff_t>(i));
      i = 0;  // what has grown may meet one that was passed
    }
    clusters.push_back(std::move(all));
  }
  return clusters;
}

// Of the keep-out's area, what lies in the region's edge: A and K share A + K - A∪K, and what A and
// B share with K is (A + K - A∪K) + (B + K - B∪K) - (A∪B + K - A∪B∪K).
double shared_area(const Region& region, const Footprint& keep_out) {
  const double whole = area(keep_out);
  const auto shared = [&](const Footprint& edge) {
    return area(edge) + whole - area(together(edge, keep_out));
  };
  Footprint straight;
  Footprint round;
  if (!region.outline.corners.empty()) straight.outlines = {region.outline};
  if (region.round) round.discs = {*region.round};
  if (straight.outlines.empty()) return shared(round);
  if (round.discs.empty()) return shared(straight);
  return shared(straight) + shared(round) - shared(together(straight, round));
}

}  // namespace

double area(const Footprint& shape) {
  const std::size_t discs = shape.discs.size();
  if (shape.outlines.empty() && discs == 1)
    return kPi * shape.discs[0].radius * shape.discs[0].radius;
  double twice = 0;
  for (std::size_t i = 0; i < discs; ++i) {
    twice += bare_arcs(shape.discs[i], shape, Others{shape, i});
  }
  for (std::size_t i = 0; i < shape.outlines.size(); ++i) {
    const Others others{shape, discs + i};
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
  double left = edge_area(region);
  for (const Footprint& keep_out : clusters(region.keep_outs)) {
    left -= inset(keep_out, region) >= 0 ? area(keep_out) : shared_area(region, keep_out);
  }
  return left;
}

}  // namespace placer
