/// @file bodies.h
/// The engine's own exact primitives: balls (discs) and convex polygons, kept flat so that the
/// inner loops allocate nothing. Lengths in mm, angles in radians.
#pragma once

#include <vector>

#include "placer/packing/packing.h"

namespace placer::packing {

inline double dot(Point a, Point b) { return a.x * b.x + a.y * b.y; }
inline double cross(Point a, Point b) { return a.x * b.y - a.y * b.x; }

/// What double rounding does to rows that fit to the last digit, mm: shortages up to this count as
/// none. A thousand times finer than any outside check.
constexpr double kRounding = 1e-9;

constexpr double kPi = 3.14159265358979323846;

/// A direction as cosine and sine.
struct Turn {
  double c = 1, s = 0;
  Point operator()(Point p) const { return {c * p.x - s * p.y, s * p.x + c * p.y}; }
};

/// Cosine and sine from +, - and * alone, so that they are the same on every machine.
/// Good to 1e-15 for |radians| < 1e5.
Turn turn_of(double radians);

struct Ball {
  Point c;
  double r = 0;
};

/// A union of balls and convex polygons. Polygon k has the corners [starts[k], starts[k+1]) in
/// counter-clockwise order; normals[i] is the outward unit normal of the edge from corner i on.
struct Solid {
  std::vector<Ball> balls;
  std::vector<Point> corners;
  std::vector<Point> normals;
  std::vector<int> starts{0};
  int polygons() const { return static_cast<int>(starts.size()) - 1; }
  void add_polygon(const std::vector<Point>& ccw);
};

/// One kind of piece, its origin moved to the middle of its largest disc (or of its box).
struct Kind {
  Solid solid;
  Point shift;       ///< the engine's origin, in the coordinates of the item's own shape
  double reach = 0;  ///< radius about the engine's origin that holds all of it
  double core = 0;   ///< radius of a disc about the origin that is all inside it; 0 = unknown
  double area = 0;   ///< mm²
  double value = 0;  ///< of one
  double halo = 0;
  int count = 0;
  bool round = false;         ///< one ball about the origin: turning changes nothing
  bool free = false;          ///< any turn
  std::vector<double> turns;  ///< radians; at least one, also for free turning (seeds)
};

/// Where a piece is; `turn` in radians about the engine's origin.
struct Pose {
  int kind = 0;
  double x = 0, y = 0, turn = 0;
};

/// n·p <= b inside; the edge gap is already taken off.
struct Wall {
  Point n;
  double b = 0;
};

/// What stands in the way: a solid in region coordinates and the clearance that it asks for.
struct Obstacle {
  Solid solid;
  double clearance = 0;
  bool halo = true;  ///< the piece's own halo is added (not for the notches of the edge)
  Point centre;      ///< of a circle that holds it
  double reach = 0;
};

struct Scene {
  std::vector<Wall> walls;  ///< of the outline's hull
  bool round = false;
  Point centre;
  double radius = 0;  ///< less the edge gap
  std::vector<Obstacle> obstacles;
  Point low, high;  ///< a box that holds the region
  double gap = 0;
  double area = 0;  ///< of the region less the keep-outs, mm²
};

/// Signed distance (negative: depth) with the way out: moving the second by +n opens it.
struct Touch {
  double d = 0;
  Point n;
  Point at;
};

Touch touch(const Ball& a, const Ball& b);
/// From the polygon (n corners) to the ball.
Touch touch(const Point* corners, const Point* normals, int n, const Ball& b);
Touch touch(const Point* ca, const Point* na, int a, const Point* cb, const Point* nb, int b);

Kind kind_of(const Item& item);
Scene scene_of(const Problem& problem);

/// The solid set in place.
void set_solid(const Solid& solid, const Pose& pose, Solid& out);

/// Whether a piece in its pose stays inside the edge. @param set the piece's solid there.
bool inside_edge(const Kind& kind, const Pose& pose, const Solid& set, const Scene& scene);
/// Least distance of two set solids.
double distance(const Solid& a, const Solid& b);
/// Whether that is `least` or more; sooner told than how far they are apart.
bool apart(const Solid& a, const Solid& b, double least);
/// Whether a piece in its pose keeps clear of all obstacles. @param set the piece's solid there.
bool clear_of_obstacles(const Kind& kind, const Pose& pose, const Solid& set, const Scene& scene);

Place place_of(const Kind& kind, const Pose& pose);
Pose pose_of(const Kind& kind, const Place& place);

}  // namespace placer::packing
