// Energies: what every shortage of distance weighs, and which way it pushes.
#include <algorithm>
#include <cmath>
#include <limits>

#include "packing/relax.h"

namespace placer::packing {

namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

Touch reversed(Touch t) {
  t.n = {-t.n.x, -t.n.y};
  return t;
}

bool within(Point a, Point b, double far) {
  const Point v = b - a;
  return dot(v, v) < far * far;
}

}  // namespace

double Relaxer::edge_energy_ball(Point where, const Ball& ball, Pull* pull) const {
  double e = 0;
  const auto press = [&](double over, Point n) {
    e += over * over;
    if (pull != nullptr) pull->push(2 * over, n, ball.c - where);
  };
  for (const Wall& wall : scene_->walls) {
    const double over = dot(wall.n, ball.c) + ball.r + slack_ - wall.b;
    if (over > 0) press(over, wall.n);
  }
  if (scene_->round) {
    const Point v = ball.c - scene_->centre;
    const double room = scene_->radius - ball.r - slack_;
    const double d2 = dot(v, v);
    if (room < 0 || d2 > room * room) {
      const double d = std::sqrt(d2);
      if (d > 0)
        press(d - room, {v.x / d, v.y / d});
      else if (room < 0)
        e += room * room;
    }
  }
  return e;
}

double Relaxer::edge_energy_corners(Point where, const Body& body, Pull* pull) {
  double e = 0;
  const auto press = [&](double over, Point n, Point corner) {
    e += over * over;
    if (pull != nullptr) pull->push(2 * over, n, corner - where);
  };
  const std::size_t count = body.solid->corners.size();
  const Point* corners = &set_corners_[at(body.corners)];
  for (const Wall& wall : scene_->walls) {
    if (dot(wall.n, where) + body.reach + slack_ <= wall.b) continue;
    for (std::size_t k = 0; k < count; ++k) {
      const double over = dot(wall.n, corners[k]) + slack_ - wall.b;
      if (over > 0) press(over, wall.n, corners[k]);
    }
  }
  if (!scene_->round) return e;
  const double room = scene_->radius - slack_;
  const Point v = where - scene_->centre;
  const double inner = room - body.reach;
  if (inner > 0 && dot(v, v) <= inner * inner) return e;
  for (std::size_t k = 0; k < count; ++k) {
    const Point w = corners[k] - scene_->centre;
    const double d2 = dot(w, w);
    if (room > 0 && d2 <= room * room) continue;
    const double d = std::sqrt(d2);
    if (d > 0) press(d - room, {w.x / d, w.y / d}, corners[k]);
  }
  return e;
}

double Relaxer::edge_energy(int i, Pull* pull) {
  const Body& body = body_[at(i)];
  const Point where = centre(i);
  double e = 0;
  for (std::size_t k = 0; k < body.solid->balls.size(); ++k) {
    e += edge_energy_ball(where, set_balls_[at(body.balls) + k], pull);
  }
  if (!body.solid->corners.empty()) e += edge_energy_corners(where, body, pull);
  return e;
}

/// Adds up what one pair of pieces lacks.
struct Relaxer::Press {
  double clear;
  Point at_a, at_b;
  Pull* pa;
  Pull* pb;
  double energy = 0;

  /// @param t from the first piece to the second
  void operator()(const Touch& t) {
    const double over = clear - t.d;
    if (over <= 0) return;
    energy += over * over;
    if (pa != nullptr) pa->push(2 * over, t.n, t.at - at_a);
    if (pb != nullptr) pb->push(-2 * over, t.n, t.at - at_b);
  }
};

double Relaxer::pair_energy(const Body& a, const Body& b, Point at_a, Point at_b, double clear,
                            Pull* pa, Pull* pb) {
  Press press{clear, at_a, at_b, pa, pb};
  for (std::size_t i = 0; i < a.solid->balls.size(); ++i) {
    const Ball& ball = set_balls_[at(a.balls) + i];
    for (std::size_t j = 0; j < b.solid->balls.size(); ++j) {
      const Ball& other = set_balls_[at(b.balls) + j];
      if (within(ball.c, other.c, ball.r + other.r + clear)) press(touch(ball, other));
    }
    for (std::size_t k = 0; k < b.parts->size(); ++k) {
      if (near_part(b, k, ball, clear)) press(reversed(touch_part(b, k, ball)));
    }
  }
  for (std::size_t k = 0; k < a.parts->size(); ++k) {
    for (std::size_t j = 0; j < b.solid->balls.size(); ++j) {
      const Ball& ball = set_balls_[at(b.balls) + j];
      if (near_part(a, k, ball, clear)) press(touch_part(a, k, ball));
    }
    const Ball round{set_mids_[at(a.mids) + k], (*a.parts)[k].reach};
    for (std::size_t m = 0; m < b.parts->size(); ++m) {
      if (near_part(b, m, round, clear)) press(touch_parts(a, k, b, m));
    }
  }
  return press.energy;
}

bool Relaxer::near_part(const Body& body, std::size_t k, const Ball& ball, double clear) const {
  return within(set_mids_[at(body.mids) + k], ball.c, (*body.parts)[k].reach + ball.r + clear);
}

Touch Relaxer::touch_part(const Body& body, std::size_t k, const Ball& ball) {
  const Part& part = (*body.parts)[k];
  const std::size_t from = at(body.corners + part.first);
  work_ += 12 + 3 * static_cast<std::uint64_t>(part.count);
  return touch(&set_corners_[from], &set_normals_[from], part.count, ball);
}

Touch Relaxer::touch_parts(const Body& a, std::size_t k, const Body& b, std::size_t m) {
  const Part& part = (*a.parts)[k];
  const Part& other = (*b.parts)[m];
  const std::size_t from = at(a.corners + part.first);
  const std::size_t to = at(b.corners + other.first);
  work_ += 20 + 6 * static_cast<std::uint64_t>(part.count + other.count);
  return touch(&set_corners_[from], &set_normals_[from], part.count, &set_corners_[to],
               &set_normals_[to], other.count);
}

/// Two discs about their origins, already known to be near.
double Relaxer::disc_energy(const Pair& pair, Point between, double d2) {
  const double d = std::sqrt(d2);
  const double over = body_[at(pair.a)].reach + body_[at(pair.b)].reach + pair.asked - d;
  const double f = d > 0 ? 2 * over / d : 2 * over;
  const Point push{f * (d > 0 ? between.x : 1), f * between.y};
  pull_[at(pair.a)].x += push.x;
  pull_[at(pair.a)].y += push.y;
  pull_[at(pair.b)].x -= push.x;
  pull_[at(pair.b)].y -= push.y;
  return over * over;
}

double Relaxer::listed_energy(const Pair& pair) {
  const int n = size();
  const Body& a = body_[at(pair.a)];
  const Point pa = centre(pair.a);
  if (pair.b >= n) {
    const Body& obstacle = obstacles_[at(pair.b - n)];
    return pair_energy(a, obstacle, pa, {}, pair.asked, &pull_[at(pair.a)], nullptr);
  }
  const Point pb = centre(pair.b);
  const Point between = pb - pa;
  const double d2 = dot(between, between);
  if (d2 >= pair.far2) return 0;
  const Body& b = body_[at(pair.b)];
  if (a.plain && b.plain) return disc_energy(pair, between, d2);
  return pair_energy(a, b, pa, pb, pair.asked, &pull_[at(pair.a)], &pull_[at(pair.b)]);
}

double Relaxer::evaluate(double* g) {
  const int n = size();
  if (list_is_stale()) list_pairs();
  pull_.assign(kind_.size(), {});
  double e = 0;
  for (int i = 0; i < n; ++i) {
    const Body& body = body_[at(i)];
    if (body.plain) {
      set_balls_[at(body.balls)] = {centre(i), body.reach};
    } else {
      place_body(body, centre(i), turn_of(pose(i).turn));
      work_ += 20 + 4 * static_cast<std::uint64_t>(body.solid->corners.size());
    }
    const double here = edge_energy(i, &pull_[at(i)]);
    if (count_strain_) strain_[at(i)] += here;
    e += here;
  }
  for (const Pair& pair : pairs_) {
    const double here = listed_energy(pair);
    e += here;
    if (!count_strain_) continue;
    strain_[at(pair.a)] += here;
    if (pair.b < n) strain_[at(pair.b)] += here;
  }
  work_ += 7 * pairs_.size() + 15 * static_cast<std::uint64_t>(n);
  if (g == nullptr) return e;
  for (int i = 0; i < n; ++i) {
    g[2 * i] = pull_[at(i)].x;
    g[2 * i + 1] = pull_[at(i)].y;
    if (turner_[at(i)] >= 0) g[turner_[at(i)]] = pull_[at(i)].turn / lever_of(i);
  }
  return e;
}

double Relaxer::energy() { return evaluate(nullptr); }

const std::vector<double>& Relaxer::strain() {
  strain_.assign(kind_.size(), 0);
  count_strain_ = true;
  energy();
  count_strain_ = false;
  return strain_;
}

}  // namespace placer::packing
