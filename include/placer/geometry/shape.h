/// @file shape.h
/// Shapes in the plane. Coordinates are doubles in mm, x to the right and y to the back as seen by
/// a person at the kiln; angles are degrees counter-clockwise.
#pragma once

#include <optional>
#include <vector>

namespace placer {

struct Point {
  double x = 0, y = 0;  ///< mm
  friend constexpr bool operator==(Point, Point) = default;
  friend constexpr Point operator+(Point a, Point b) { return {a.x + b.x, a.y + b.y}; }
  friend constexpr Point operator-(Point a, Point b) { return {a.x - b.x, a.y - b.y}; }
  friend constexpr Point operator*(double k, Point a) { return {k * a.x, k * a.y}; }
};

struct Disc {
  Point centre;
  double radius = 0;  ///< mm, > 0
};

/// A simple polygon: corners counter-clockwise, n >= 3, not closed (last != first).
struct Outline {
  std::vector<Point> corners;
};

/// Ground covered, seen from above, about its own origin: the union of its discs and outlines.
/// At least one part. A mug is a disc and a rectangle (its handle) that runs from the origin to
/// the handle's reach; circles stay circles.
struct Footprint {
  std::vector<Disc> discs;
  std::vector<Outline> outlines;  ///< each convex; a notched pot is several of them
};

/// Where a shape is set: turned counter-clockwise about its origin, then moved.
struct Placement {
  Point at;
  double turn_deg = 0;
  friend constexpr bool operator==(Placement, Placement) = default;
};

/// An area to stand on: the part of the plane inside `outline` (everywhere, if it has no corners)
/// and inside `round` (if given), less the keep-outs. A round shelf has only `round`; a half-round
/// one has `round` and a rectangle that cuts it at the flat side. The outline may be notched.
struct Region {
  Outline outline;
  std::optional<Disc> round;
  std::vector<Footprint> keep_outs;  ///< in the region's own coordinates
};

struct Box {
  Point low, high;
};

// --- making shapes -------------------------------------------------------------------------
Outline rectangle(double width, double depth);            ///< centred on the origin
Outline rectangle(Point low, Point high);                 ///< corners given
Outline regular_polygon(int sides, double across_flats);  ///< centred, a flat side in front
/// An ellipse as a polygon *around* it (never inside): `sides` tangents, so the outline is too
/// large by at most the larger half-axis x (1/cos(pi/sides) - 1): 0.11 mm at 200 mm and 96 sides.
Outline oval(double width, double depth, int sides = 96);
/// The half disc y >= 0 (flat side in front), origin at the middle of the flat side.
Region half_disc(double diameter);

// --- moving and measuring ------------------------------------------------------------------
/// (cos, sin) of an angle in degrees, to the last digit or two and the same on every machine;
/// exact for whole quarter turns.
Point direction(double turn_deg);
Point placed(Point p, const Placement& where);
Disc placed(const Disc& disc, const Placement& where);
Outline placed(const Outline& outline, const Placement& where);
Footprint placed(const Footprint& shape, const Placement& where);
/// Keep-outs move along.
Region placed(const Region& region, const Placement& where);
Outline scaled(const Outline& outline, double factor);
Footprint scaled(const Footprint& shape, double factor);

Box bounding_box(const Footprint& shape);
/// Of the region's edge; keep-outs do not count. @throws std::invalid_argument if unbounded.
Box bounding_box(const Region& region);
/// Radius of the smallest circle about the *origin* that holds the shape.
double reach(const Footprint& shape);
/// Signed area of an outline in mm²: > 0 when the corners run counter-clockwise.
double signed_area(const Outline& outline);
/// Area of the union in mm², arcs exact. An outline may be notched here.
double area(const Footprint& shape);
/// Area inside the edge less what the keep-outs cover of it, in mm², arcs exact.
/// @throws std::invalid_argument if unbounded.
double area(const Region& region);
bool is_convex(const Outline& outline);
/// Simple (no edge crosses or touches another), at least three corners, finite, not of zero area.
bool is_simple(const Outline& outline);
/// A simple outline cut into convex parts whose union it is (any number of corners up to 200).
std::vector<Outline> convex_parts(const Outline& outline);
enum class ArcsAs {
  chords,    ///< inside the arc
  tangents,  ///< round it
};
/// The region's edge as one polygon that leaves its arcs by at most `sagitta` mm, inwards (chords)
/// or outwards (tangents). Keep-outs are not cut out. @throws std::invalid_argument if unbounded.
Outline edge_polygon(const Region& region, double sagitta = 0.01, ArcsAs arcs = ArcsAs::chords);
/// Arcs become chords that leave them by at most `sagitta` mm.
Outline convex_hull(const Footprint& shape, double sagitta = 0.01);

// --- distances -----------------------------------------------------------------------------
/// Least distance between two shapes already set in place, in mm; 0 when they touch, negative when
/// they overlap (then at least as deep as the deepest pair of parts). Closed form for each pair of
/// parts. Law: gap(a, b) == gap(b, a).
double gap(const Footprint& a, const Footprint& b);
double gap(const Disc& a, const Disc& b);
double gap(const Disc& a, const Outline& convex);
double gap(const Outline& convex_a, const Outline& convex_b);
/// Least distance from the shape to the region's edge, measured inwards: >= 0 when it is wholly
/// inside, negative when some part sticks out. Keep-outs do not count.
double inset(const Footprint& shape, const Region& region);
/// Least gap from the shape to any keep-out of the region; +infinity when there is none.
double keep_out_gap(const Footprint& shape, const Region& region);
/// Least distance between two solid areas, in mm, arcs exact; 0 when they touch, negative when they
/// overlap (then a depth found on one of their edges, not the deepest). Keep-outs do not count.
/// For shelves and walls: it allocates. @throws std::invalid_argument when a region has no edge.
double gap(const Region& a, const Region& b);
double gap(const Footprint& shape, const Region& region);
/// Least distance from one region's edge to that of the region round it, >= 0 when it is wholly
/// inside, negative when some part sticks out. As exact, and as slow, as the two above.
double inset(const Region& inner, const Region& outer);
/// Distance from a point to an outline's boundary, positive inside.
double inset(Point p, const Outline& outline);

}  // namespace placer
