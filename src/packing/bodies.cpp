#include "packing/bodies.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace placer::packing {

namespace {

constexpr double kInf = std::numeric_limits<double>::infinity();

Point unit(Point p) {
  const double length = std::sqrt(dot(p, p));
  return length > 0 ? Point{p.x / length, p.y / length} : Point{1, 0};
}

}  // namespace

Turn turn_of(double radians) {
  // Quarter turns taken off in two parts (the second holds what the first lost), then the series
  // on [-pi/4, pi/4].
  const double quarters = std::floor(radians * (2 / kPi) + 0.5);
  const double r =
      (radians - quarters * 1.57079632673412561417e+00) - quarters * 6.07710050650619224932e-11;
  const double z = r * r;
  double s = 1.0 / 6227020800.0 - z / 1307674368000.0;
  s = -1.0 / 39916800.0 + z * s;
  s = 1.0 / 362880.0 + z * s;
  s = -1.0 / 5040.0 + z * s;
  s = 1.0 / 120.0 + z * s;
  s = -1.0 / 6.0 + z * s;
  s = r + r * z * s;
  double c = 1.0 / 479001600.0 - z * (1.0 / 87178291200.0 - z / 20922789888000.0);
  c = -1.0 / 3628800.0 + z * c;
  c = 1.0 / 40320.0 + z * c;
  c = -1.0 / 720.0 + z * c;
  c = 1.0 / 24.0 + z * c;
  c = 1.0 - 0.5 * z + z * z * c;
  switch (static_cast<long long>(quarters) & 3) {
    case 0:
      return {c, s};
    case 1:
      return {-s, c};
    case 2:
      return {-c, -s};
    default:
      return {s, -c};
  }
}

void Solid::add_polygon(const std::vector<Point>& ccw) {
  const std::size_t n = ccw.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Point edge = ccw[(i + 1) % n] - ccw[i];
    corners.push_back(ccw[i]);
    normals.push_back(unit({edge.y, -edge.x}));
  }
  starts.push_back(static_cast<int>(corners.size()));
}

Touch touch(const Ball& a, const Ball& b) {
  const Point v = b.c - a.c;
  const double length = std::sqrt(dot(v, v));
  const Point n = length > 0 ? Point{v.x / length, v.y / length} : Point{1, 0};
  return {length - a.r - b.r, n, a.c + a.r * n};
}

Touch touch(const Point* corners, const Point* normals, int n, const Ball& b) {
  int best = 0;
  double most = -kInf;
  for (int i = 0; i < n; ++i) {
    const double d = dot(normals[i], b.c - corners[i]);
    if (d > most) {
      most = d;
      best = i;
    }
  }
  const Point normal = normals[best];
  const int next = best + 1 == n ? 0 : best + 1;
  if (most > 0) {
    const Point edge{-normal.y, normal.x};
    const bool before = dot(edge, b.c - corners[best]) < 0;
    const bool after = dot(edge, b.c - corners[next]) > 0;
    if (before || after) {
      const Point corner = corners[before ? best : next];
      return touch(Ball{corner, 0}, b);
    }
  }
  return {most - b.r, normal, b.c - most * normal};
}

namespace {

struct Axis {
  double d = -kInf;
  int edge = 0;
  int corner = 0;
};

/// The best separating edge of a: the nearest corner of b goes round with the edge's normal.
Axis best_axis(const Point* ca, const Point* na, int a, const Point* cb, int b) {
  Axis best;
  int j = 0;
  double low = dot(na[0], cb[0]);
  for (int k = 1; k < b; ++k) {
    const double d = dot(na[0], cb[k]);
    if (d < low) {
      low = d;
      j = k;
    }
  }
  for (int i = 0; i < a; ++i) {
    double here = dot(na[i], cb[j]);
    for (int steps = 0; steps < b; ++steps) {
      const int k = j + 1 == b ? 0 : j + 1;
      const double d = dot(na[i], cb[k]);
      if (d > here) break;
      here = d;
      j = k;
    }
    const double d = here - dot(na[i], ca[i]);
    if (d > best.d) best = {d, i, j};
  }
  return best;
}

/// Nearest point of the segment from a to b.
Point nearest(Point a, Point b, Point p) {
  const Point v = b - a;
  const double t = dot(p - a, v) / dot(v, v);
  return a + std::clamp(t, 0.0, 1.0) * v;
}

/// Two polygons apart, the nearest pair near corner j of b but off the edge i of a: the nearest of
/// that edge and both edges at the corner (parallel edges tie, so one corner is not enough).
Touch at_corner(const Point* ca, int a, int i, const Point* cb, int b, int j) {
  const Point from = ca[i];
  const Point to = ca[i + 1 == a ? 0 : i + 1];
  Point near_a = from;
  Point near_b = cb[j];
  double least = kInf;
  const auto offer = [&](Point pa, Point pb) {
    const double d = dot(pb - pa, pb - pa);
    if (d >= least) return;
    least = d;
    near_a = pa;
    near_b = pb;
  };
  const Point ends[3] = {cb[j == 0 ? b - 1 : j - 1], cb[j], cb[j + 1 == b ? 0 : j + 1]};
  for (const Point end : ends) offer(nearest(from, to, end), end);
  for (int k = 0; k < 2; ++k) {
    offer(from, nearest(ends[k], ends[k + 1], from));
    offer(to, nearest(ends[k], ends[k + 1], to));
  }
  return touch(Ball{near_a, 0}, Ball{near_b, 0});
}

Touch from_axis(const Axis& axis, const Point* ca, const Point* na, int a, const Point* cb, int b) {
  const Point normal = na[axis.edge];
  const Point corner = cb[axis.corner];
  const int next = axis.edge + 1 == a ? 0 : axis.edge + 1;
  if (axis.d > 0) {
    const Point edge{-normal.y, normal.x};
    const bool before = dot(edge, corner - ca[axis.edge]) < 0;
    const bool after = dot(edge, corner - ca[next]) > 0;
    if (before || after) return at_corner(ca, a, axis.edge, cb, b, axis.corner);
  }
  return {axis.d, normal, corner};
}

}  // namespace

// For convex a and b the depth or distance is the largest separation over the normals of both; when
// it is positive the true nearest pair lies on that edge or on the corner it runs into.
Touch touch(const Point* ca, const Point* na, int a, const Point* cb, const Point* nb, int b) {
  const Axis of_a = best_axis(ca, na, a, cb, b);
  const Axis of_b = best_axis(cb, nb, b, ca, a);
  if (of_a.d >= of_b.d) return from_axis(of_a, ca, na, a, cb, b);
  Touch t = from_axis(of_b, cb, nb, b, ca, a);
  t.n = {-t.n.x, -t.n.y};
  return t;
}

void set_solid(const Solid& solid, const Pose& pose, Solid& out) {
  const Turn turn = turn_of(pose.turn);
  const Point at{pose.x, pose.y};
  out.balls.resize(solid.balls.size());
  out.corners.resize(solid.corners.size());
  out.normals.resize(solid.normals.size());
  out.starts = solid.starts;
  for (std::size_t i = 0; i < solid.balls.size(); ++i) {
    out.balls[i] = {at + turn(solid.balls[i].c), solid.balls[i].r};
  }
  for (std::size_t i = 0; i < solid.corners.size(); ++i) {
    out.corners[i] = at + turn(solid.corners[i]);
    out.normals[i] = turn(solid.normals[i]);
  }
}

namespace {

/// Gives the distance of each two parts of the solids to `part`, those that cost least first, until
/// it says false.
template <class Part>
void each_distance(const Solid& a, const Solid& b, Part part) {
  for (const Ball& ball : a.balls) {
    for (const Ball& other : b.balls) {
      if (!part(touch(ball, other).d)) return;
    }
  }
  for (int side = 0; side < 2; ++side) {
    const Solid& balls = side == 0 ? a : b;
    const Solid& polygons = side == 0 ? b : a;
    for (std::size_t k = 0; k + 1 < polygons.starts.size(); ++k) {
      const auto from = static_cast<std::size_t>(polygons.starts[k]);
      const int n = polygons.starts[k + 1] - polygons.starts[k];
      for (const Ball& ball : balls.balls) {
        if (!part(touch(&polygons.corners[from], &polygons.normals[from], n, ball).d)) return;
      }
    }
  }
  for (std::size_t k = 0; k + 1 < a.starts.size(); ++k) {
    const auto f = static_cast<std::size_t>(a.starts[k]);
    for (std::size_t m = 0; m + 1 < b.starts.size(); ++m) {
      const auto g = static_cast<std::size_t>(b.starts[m]);
      if (!part(touch(&a.corners[f], &a.normals[f], a.starts[k + 1] - a.starts[k], &b.corners[g],
                      &b.normals[g], b.starts[m + 1] - b.starts[m])
                    .d))
        return;
    }
  }
}

}  // namespace

double distance(const Solid& a, const Solid& b) {
  double least = kInf;
  each_distance(a, b, [&](double d) {
    least = std::min(least, d);
    return true;
  });
  return least;
}

bool apart(const Solid& a, const Solid& b, double least) {
  bool apart = true;
  each_distance(a, b, [&](double d) { return apart = d >= least; });
  return apart;
}

namespace {

bool inside_wall(const Solid& set, const Wall& wall) {
  const double reach = wall.b + kRounding;
  for (const Ball& ball : set.balls) {
    if (dot(wall.n, ball.c) + ball.r > reach) return false;
  }
  return std::all_of(set.corners.begin(), set.corners.end(),
                     [&](Point corner) { return dot(wall.n, corner) <= reach; });
}

bool inside_round(const Solid& set, Point centre, double radius) {
  for (const Ball& ball : set.balls) {
    const Point v = ball.c - centre;
    const double room = radius - ball.r;
    if (room < 0 || dot(v, v) > room * room) return false;
  }
  return std::all_of(set.corners.begin(), set.corners.end(), [&](Point corner) {
    const Point v = corner - centre;
    return dot(v, v) <= radius * radius;
  });
}

}  // namespace

bool inside_edge(const Kind& kind, const Pose& pose, const Solid& set, const Scene& scene) {
  const Point at{pose.x, pose.y};
  for (const Wall& wall : scene.walls) {
    if (dot(wall.n, at) + kind.reach > wall.b && !inside_wall(set, wall)) return false;
  }
  if (!scene.round) return true;
  const Point v = at - scene.centre;
  const double room = scene.radius - kind.reach;
  if (room > 0 && dot(v, v) <= room * room) return true;
  return inside_round(set, scene.centre, scene.radius + kRounding);
}

bool clear_of_obstacles(const Kind& kind, const Pose& pose, const Solid& set, const Scene& scene) {
  return std::all_of(scene.obstacles.begin(), scene.obstacles.end(), [&](const Obstacle& obstacle) {
    const double asked = obstacle.clearance + (obstacle.halo ? kind.halo : 0) - kRounding;
    const Point v{pose.x - obstacle.centre.x, pose.y - obstacle.centre.y};
    const double far = kind.reach + obstacle.reach + asked;
    if (far > 0 && dot(v, v) >= far * far) return true;
    return apart(set, obstacle.solid, asked);
  });
}

Place place_of(const Kind& kind, const Pose& pose) {
  const Point moved = turn_of(pose.turn)(kind.shift);
  Place place;
  place.item = pose.kind;
  place.at.at = {pose.x - moved.x, pose.y - moved.y};
  place.at.turn_deg = pose.turn * (180 / kPi);
  return place;
}

Pose pose_of(const Kind& kind, const Place& place) {
  const double turn = place.at.turn_deg * (kPi / 180);
  const Point moved = turn_of(turn)(kind.shift);
  return {place.item, place.at.at.x + moved.x, place.at.at.y + moved.y, turn};
}

}  // namespace placer::packing
