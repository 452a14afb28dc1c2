#include "geometry/edges.h"

#include <algorithm>
#include <array>
#include <limits>
#include <numbers>
#include <stdexcept>

#include "geometry/crossings.h"
#include "geometry/plane.h"

namespace placer::edges {
namespace {

using plane::cross;

constexpr double kTurn = 2 * std::numbers::pi;
constexpr double kInfinity = std::numeric_limits<double>::infinity();
/// Nearer to a boundary than this, in mm, a point says nothing about which side it is on.
constexpr double kTouching = 1e-9;
/// Where a stretch between two meetings is looked at. Not in its middle only: there it may just
/// touch the other boundary, as an arc does the side of the square round it.
constexpr std::array<double, 3> kLooks{0.5, 0.37, 0.71};

Way straight(Point from, Point to) { return {from, to, false, {}, false, 0, 0}; }

Way whole_circle(const Disc& disc) {
  const Point start = disc.centre + Point{disc.radius, 0};
  return {start, start, true, disc, true, 0, kTurn};
}

Point on_circle(const Disc& disc, double angle) {
  return disc.centre + disc.radius * Point{std::cos(angle), std::sin(angle)};
}

// Does the arc pass the direction in which p lies from its centre?
bool passes(const Way& arc, Point p) {
  if (arc.whole) return true;
  const Point first = arc.from - arc.disc.centre;
  const Point last = arc.to - arc.disc.centre;
  const Point v = p - arc.disc.centre;
  if (arc.sweep <= std::numbers::pi) return cross(first, v) >= 0 && cross(v, last) >= 0;
  return !(cross(last, v) > 0 && cross(v, first) > 0);
}

double distance(Point p, const Way& way) {
  if (!way.arc) return std::sqrt(plane::square_distance(p, way.from, way.to));
  const double from_centre = plane::length(p - way.disc.centre);
  if (passes(way, p)) return std::abs(from_centre - way.disc.radius);
  return std::min(plane::length(p - way.from), plane::length(p - way.to));
}

double straight_to_arc(const Way& line, const Way& arc) {
  std::vector<double> cuts;
  plane::meet_circle(line.from, line.to, arc.disc, cuts);
  for (const double t : cuts) {
    if (passes(arc, at(line, t))) return 0;
  }
  const Point along = line.to - line.from;
  const double t = plane::dot(arc.disc.centre - line.from, along) / plane::square(along);
  return t > 0 && t < 1 ? distance(line.from + t * along, arc) : kInfinity;
}

double arc_to_arc(const Way& a, const Way& b) {
  std::vector<double> angles;
  plane::meet_other_circle(a.disc, b.disc, angles);
  for (const double angle : angles) {
    const Point p = on_circle(a.disc, angle);
    if (passes(a, p) && passes(b, p)) return 0;
  }
  const Point between = b.disc.centre - a.disc.centre;
  const double apart = plane::length(between);
  if (apart == 0) return kInfinity;  // one centre: the ends of the arcs decide
  double least = kInfinity;
  for (const double side : {1.0, -1.0}) {
    const Point p = a.disc.centre + (side * a.disc.radius / apart) * between;
    if (passes(a, p)) least = std::min(least, distance(p, b));
  }
  return least;
}

bool straight_ways_cross(const Way& a, const Way& b) {
  std::vector<double> on_a;
  std::vector<double> on_b;
  plane::meet_line(a.from, a.to, b.from, b.to, on_a);
  plane::meet_line(b.from, b.to, a.from, a.to, on_b);
  return !on_a.empty() && !on_b.empty();
}

// Fractions of `way` at which it meets the other, or the line or circle that the other is part of.
void meetings(const Way& way, const Way& other, std::vector<double>& cuts) {
  if (!way.arc && !other.arc) plane::meet_line(way.from, way.to, other.from, other.to, cuts);
  if (!way.arc && other.arc) plane::meet_circle(way.from, way.to, other.disc, cuts);
  if (!way.arc) return;
  std::vector<double> angles;
  if (other.arc) {
    plane::meet_other_circle(way.disc, other.disc, angles);
  } else {
    plane::meet_way(way.disc, other.from, other.to, angles);
  }
  for (const double angle : angles) {
    const double run = std::fmod(std::fmod(angle - way.start, kTurn) + kTurn, kTurn);
    if (run < way.sweep) cuts.push_back(run / way.sweep);
  }
}

std::vector<Way> straight_ways(const Outline& outline) {
  std::vector<Way> ways;
  plane::each_edge(outline, [&](Point from, Point to) {
    if (from != to) ways.push_back(straight(from, to));
  });
  return ways;
}

// The parts of the outline's edges inside the circle.
void add_chords(const Outline& outline, const Disc& round, std::vector<Way>& ways) {
  for (const Way& way : straight_ways(outline)) {
    std::vector<double> cuts{0};
    plane::meet_circle(way.from, way.to, round, cuts);
    cuts.push_back(1);
    for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
      const Point middle = at(way, (cuts[i] + cuts[i + 1]) / 2);
      const bool inside = plane::length(middle - round.centre) < round.radius - kTouching;
      if (inside) ways.push_back(straight(at(way, cuts[i]), at(way, cuts[i + 1])));
    }
  }
}

bool arc_is_inside(const Way& arc, const Outline& outline) {
  return std::ranges::any_of(
      kLooks, [&](double look) { return inset(at(arc, look), outline) > kTouching; });
}

// The arcs of the circle inside the outline.
void add_arcs(const Outline& outline, const Disc& round, std::vector<Way>& ways) {
  std::vector<double> angles;
  plane::each_edge(outline,
                   [&](Point from, Point to) { plane::meet_way(round, from, to, angles); });
  if (angles.empty()) {
    if (arc_is_inside(whole_circle(round), outline)) ways.push_back(whole_circle(round));
    return;
  }
  std::ranges::sort(angles);
  angles.push_back(angles.front() + kTurn);
  for (std::size_t i = 0; i + 1 < angles.size(); ++i) {
    const Way arc{
        on_circle(round, angles[i]), on_circle(round, angles[i + 1]), true, round, false, angles[i],
        angles[i + 1] - angles[i]};
    if (arc.sweep > 0 && arc_is_inside(arc, outline)) ways.push_back(arc);
  }
}

}  // namespace

Point at(const Way& way, double fraction) {
  if (way.arc) return on_circle(way.disc, way.start + fraction * way.sweep);
  return way.from + fraction * (way.to - way.from);
}

double distance(const Way& a, const Way& b) {
  double least =
      std::min({distance(a.from, b), distance(a.to, b), distance(b.from, a), distance(b.to, a)});
  if (a.arc && b.arc) return std::min(least, arc_to_arc(a, b));
  if (a.arc) return std::min(least, straight_to_arc(b, a));
  if (b.arc) return std::min(least, straight_to_arc(a, b));
  return straight_ways_cross(a, b) ? 0 : least;
}

Area area_of(const Disc& disc) {
  return {{whole_circle(disc)},
          [disc](Point p) { return disc.radius - plane::length(p - disc.centre); }};
}

Area area_of(const Outline& outline) {
  return {straight_ways(outline), [outline](Point p) { return inset(p, outline); }};
}

Area area_of(const Region& region) {
  if (!region.round) {
    if (region.outline.corners.empty()) throw std::invalid_argument{"the region has no edge"};
    return area_of(region.outline);
  }
  if (region.outline.corners.empty()) return area_of(*region.round);
  Area area;
  add_chords(region.outline, *region.round, area.ways);
  add_arcs(region.outline, *region.round, area.ways);
  area.depth = [outline = region.outline, round = *region.round](Point p) {
    return std::min(inset(p, outline), round.radius - plane::length(p - round.centre));
  };
  return area;
}

std::vector<Point> telling_points(const Area& a, const Area& b) {
  std::vector<Point> points;
  std::vector<double> cuts;
  for (const Way& way : a.ways) {
    cuts = {0, 1};
    for (const Way& other : b.ways) meetings(way, other, cuts);
    std::ranges::sort(cuts);
    points.push_back(way.from);
    for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
      for (const double look : kLooks) {
        points.push_back(at(way, cuts[i] + look * (cuts[i + 1] - cuts[i])));
      }
    }
  }
  return points;
}

double least_distance(const Area& a, const Area& b) {
  double least = kInfinity;
  for (const Way& way : a.ways) {
    for (const Way& other : b.ways) least = std::min(least, distance(way, other));
  }
  return least;
}

}  // namespace placer::edges
