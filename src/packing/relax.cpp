#include "packing/relax.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace placer::packing {

namespace {

constexpr double kInf = std::numeric_limits<double>::infinity();

std::size_t at(int i) { return static_cast<std::size_t>(i); }

/// Four sums side by side: the order of adding is fixed and the compiler may still go four wide.
double inner(const double* a, const double* b, std::size_t n) {
  double s0 = 0;
  double s1 = 0;
  double s2 = 0;
  double s3 = 0;
  std::size_t i = 0;
  for (; i + 4 <= n; i += 4) {
    s0 += a[i] * b[i];
    s1 += a[i + 1] * b[i + 1];
    s2 += a[i + 2] * b[i + 2];
    s3 += a[i + 3] * b[i + 3];
  }
  for (; i < n; ++i) s0 += a[i] * b[i];
  return (s0 + s1) + (s2 + s3);
}

void add_scaled(double* a, double k, const double* b, std::size_t n) {
  for (std::size_t i = 0; i < n; ++i) a[i] += k * b[i];
}

/// A turn's variable is the way that the piece's rim goes, so that it weighs like the others.
double lever(const Kind& kind) { return 0.7 * kind.reach; }

}  // namespace

std::vector<Relaxer::Part> Relaxer::parts_of(const Solid& solid) {
  std::vector<Part> parts;
  for (int k = 0; k < solid.polygons(); ++k) {
    Part part;
    part.first = solid.starts[at(k)];
    part.count = solid.starts[at(k) + 1] - part.first;
    Point low{kInf, kInf};
    Point high{-kInf, -kInf};
    for (int i = part.first; i < part.first + part.count; ++i) {
      const Point p = solid.corners[at(i)];
      low = {std::min(low.x, p.x), std::min(low.y, p.y)};
      high = {std::max(high.x, p.x), std::max(high.y, p.y)};
    }
    part.mid = 0.5 * (low + high);
    for (int i = part.first; i < part.first + part.count; ++i) {
      const Point v = solid.corners[at(i)] - part.mid;
      part.reach = std::max(part.reach, std::sqrt(dot(v, v)));
    }
    parts.push_back(part);
  }
  return parts;
}

Relaxer::Body Relaxer::make_body(const Solid& solid, const std::vector<Part>& parts, double reach,
                                 bool plain) {
  Body body;
  body.solid = &solid;
  body.parts = &parts;
  body.balls = static_cast<int>(set_balls_.size());
  body.corners = static_cast<int>(set_corners_.size());
  body.mids = static_cast<int>(set_mids_.size());
  body.reach = reach;
  body.plain = plain;
  set_balls_.resize(set_balls_.size() + solid.balls.size());
  set_corners_.resize(set_corners_.size() + solid.corners.size());
  set_normals_.resize(set_normals_.size() + solid.corners.size());
  set_mids_.resize(set_mids_.size() + parts.size());
  return body;
}

Relaxer::Relaxer(const std::vector<Kind>& kinds, const Scene& scene, double slack)
    : kinds_{&kinds}, scene_{&scene}, slack_{slack} {
  least_reach_ = kInf;
  for (const Kind& kind : kinds) {
    kind_parts_.push_back(parts_of(kind.solid));
    least_reach_ = std::min(least_reach_, kind.reach);
  }
  for (const Obstacle& obstacle : scene.obstacles) {
    obstacle_parts_.push_back(parts_of(obstacle.solid));
  }
  for (std::size_t i = 0; i < scene.obstacles.size(); ++i) {
    const Obstacle& obstacle = scene.obstacles[i];
    obstacles_.push_back(make_body(obstacle.solid, obstacle_parts_[i], obstacle.reach, false));
    place_body(obstacles_.back(), {0, 0}, {});
  }
  for (std::size_t k = 0; k < kinds.size(); ++k) {
    trials_.push_back(make_body(kinds[k].solid, kind_parts_[k], kinds[k].reach, kinds[k].round));
  }
  fixed_balls_ = set_balls_.size();
  fixed_corners_ = set_corners_.size();
  fixed_mids_ = set_mids_.size();
  skin_ = 0.25 * least_reach_;
}

void Relaxer::place_body(const Body& body, Point where, Turn turn) {
  const Solid& solid = *body.solid;
  for (std::size_t i = 0; i < solid.balls.size(); ++i) {
    set_balls_[at(body.balls) + i] = {where + turn(solid.balls[i].c), solid.balls[i].r};
  }
  for (std::size_t i = 0; i < solid.corners.size(); ++i) {
    set_corners_[at(body.corners) + i] = where + turn(solid.corners[i]);
    set_normals_[at(body.corners) + i] = turn(solid.normals[i]);
  }
  for (std::size_t i = 0; i < body.parts->size(); ++i) {
    set_mids_[at(body.mids) + i] = where + turn((*body.parts)[i].mid);
  }
}

void Relaxer::lay_out() {
  set_balls_.resize(fixed_balls_);
  set_corners_.resize(fixed_corners_);
  set_normals_.resize(fixed_corners_);
  set_mids_.resize(fixed_mids_);
  body_.clear();
  for (const int k : kind_) {
    const Kind& kind = (*kinds_)[at(k)];
    body_.push_back(make_body(kind.solid, kind_parts_[at(k)], kind.reach, kind.round));
    body_.back().core = kind.core;
  }
  listed_ = false;
}

void Relaxer::set(const std::vector<Pose>& poses) {
  const std::size_t n = poses.size();
  kind_.resize(n);
  turn_.resize(n);
  turner_.resize(n);
  variables_ = static_cast<int>(2 * n);
  for (std::size_t i = 0; i < n; ++i) {
    kind_[i] = poses[i].kind;
    turn_[i] = poses[i].turn;
    turner_[i] = (*kinds_)[at(kind_[i])].free ? variables_++ : -1;
  }
  v_.resize(at(variables_));
  for (std::size_t i = 0; i < n; ++i) {
    v_[2 * i] = poses[i].x;
    v_[2 * i + 1] = poses[i].y;
    if (turner_[i] >= 0) v_[at(turner_[i])] = poses[i].turn * lever((*kinds_)[at(kind_[i])]);
  }
  lay_out();
}

Point Relaxer::centre(int i) const { return {v_[2 * at(i)], v_[2 * at(i) + 1]}; }

Pose Relaxer::pose(int i) const {
  const double turn = turner_[at(i)] < 0
                          ? turn_[at(i)]
                          : v_[at(turner_[at(i)])] / lever((*kinds_)[at(kind_[at(i)])]);
  return {kind_[at(i)], v_[2 * at(i)], v_[2 * at(i) + 1], turn};
}

std::vector<Pose> Relaxer::poses() const {
  std::vector<Pose> all;
  all.reserve(kind_.size());
  for (int i = 0; i < size(); ++i) all.push_back(pose(i));
  return all;
}

void Relaxer::move(int i, const Pose& pose) {
  v_[2 * at(i)] = pose.x;
  v_[2 * at(i) + 1] = pose.y;
  if (turner_[at(i)] >= 0) {
    v_[at(turner_[at(i)])] = pose.turn * lever((*kinds_)[at(kind_[at(i)])]);
  }
  turn_[at(i)] = pose.turn;
  listed_ = false;
}

void Relaxer::add(const Pose& pose) {
  std::vector<Pose> all = poses();
  all.push_back(pose);
  set(all);
}

void Relaxer::remove(int i) {
  std::vector<Pose> all = poses();
  all[at(i)] = all.back();
  all.pop_back();
  set(all);
}

double Relaxer::asked(int a, int b) const {
  const Kind& kind = (*kinds_)[at(kind_[at(a)])];
  if (b < size()) {
    return scene_->gap + kind.halo + (*kinds_)[at(kind_[at(b)])].halo + slack_;
  }
  const Obstacle& obstacle = scene_->obstacles[at(b - size())];
  return obstacle.clearance + (obstacle.halo ? kind.halo : 0) + slack_;
}

void Relaxer::list_pairs() {
  pairs_.clear();
  const int n = size();
  const auto offer = [&](int a, int b, double ask) {
    const double far = body_[at(a)].reach + body_[at(b)].reach + ask;
    const Point v = centre(b) - centre(a);
    if (dot(v, v) < (far + skin_) * (far + skin_)) pairs_.push_back({a, b, ask, far * far});
  };
  if (n <= 90) {
    for (int a = 0; a < n; ++a) {
      for (int b = a + 1; b < n; ++b) offer(a, b, asked(a, b));
    }
    work_ += static_cast<std::uint64_t>(n) * static_cast<std::uint64_t>(n);
  } else {
    list_near_cells();
  }
  for (int a = 0; a < n; ++a) {
    for (std::size_t o = 0; o < obstacles_.size(); ++o) {
      const int b = n + static_cast<int>(o);
      const double ask = asked(a, b);
      const double far = body_[at(a)].reach + obstacles_[o].reach + ask;
      const Point v = scene_->obstacles[o].centre - centre(a);
      if (dot(v, v) < (far + skin_) * (far + skin_)) pairs_.push_back({a, b, ask, far * far});
    }
  }
  listed_at_ = v_;
  listed_ = true;
}

void Relaxer::list_near_cells() {
  const int n = size();
  double reach = 0;
  double halo = 0;
  for (int i = 0; i < n; ++i) {
    reach = std::max(reach, body_[at(i)].reach);
    halo = std::max(halo, (*kinds_)[at(kind_[at(i)])].halo);
  }
  const double cell = 2 * reach + scene_->gap + 2 * halo + slack_ + skin_;
  const int wide = std::clamp(static_cast<int>((scene_->high.x - scene_->low.x) / cell), 1, 400);
  const int deep = std::clamp(static_cast<int>((scene_->high.y - scene_->low.y) / cell), 1, 400);
  const auto slot = [](double v, double low, double high, int count) {
    return std::clamp(static_cast<int>((v - low) / (high - low) * count), 0, count - 1);
  };
  cell_head_.assign(at(wide * deep), -1);
  cell_next_.assign(at(n), -1);
  for (int a = 0; a < n; ++a) {
    const Point p = centre(a);
    const int cx = slot(p.x, scene_->low.x, scene_->high.x, wide);
    const int cy = slot(p.y, scene_->low.y, scene_->high.y, deep);
    for (int y = std::max(cy - 1, 0); y <= std::min(cy + 1, deep - 1); ++y) {
      for (int x = std::max(cx - 1, 0); x <= std::min(cx + 1, wide - 1); ++x) {
        for (int b = cell_head_[at(y * wide + x)]; b >= 0; b = cell_next_[at(b)]) {
          const double ask = asked(b, a);
          const double far = body_[at(a)].reach + body_[at(b)].reach + ask;
          const Point v = centre(b) - p;
          if (dot(v, v) < (far + skin_) * (far + skin_)) pairs_.push_back({b, a, ask, far * far});
        }
      }
    }
    cell_next_[at(a)] = cell_head_[at(cy * wide + cx)];
    cell_head_[at(cy * wide + cx)] = a;
  }
  work_ += 60 * static_cast<std::uint64_t>(n);
}

bool Relaxer::list_is_stale() const {
  if (!listed_) return true;
  const double limit = 0.25 * skin_ * skin_;
  for (std::size_t i = 0; i < kind_.size(); ++i) {
    const double dx = v_[2 * i] - listed_at_[2 * i];
    const double dy = v_[2 * i + 1] - listed_at_[2 * i + 1];
    if (dx * dx + dy * dy > limit) return true;
  }
  return false;
}

double Relaxer::edge_energy_ball(Point where, const Ball& ball, Pull* pull) const {
  double e = 0;
  const auto press = [&](double over, Point n) {
    e += over * over;
    if (pull == nullptr) return;
    pull->x += 2 * over * n.x;
    pull->y += 2 * over * n.y;
    const Point arm = ball.c - where;
    pull->turn += 2 * over * (arm.x * n.y - arm.y * n.x);
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
    if (pull == nullptr) return;
    pull->x += 2 * over * n.x;
    pull->y += 2 * over * n.y;
    const Point arm = corner - where;
    pull->turn += 2 * over * (arm.x * n.y - arm.y * n.x);
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

double Relaxer::pair_energy(const Body& a, const Body& b, Point at_a, Point at_b, double clear,
                            Pull* pa, Pull* pb) {
  double e = 0;
  const auto press = [&](const Touch& t) {
    const double over = clear - t.d;
    if (over <= 0) return;
    e += over * over;
    const double f = 2 * over;
    if (pa != nullptr) {
      pa->x += f * t.n.x;
      pa->y += f * t.n.y;
      const Point arm = t.at - at_a;
      pa->turn += f * (arm.x * t.n.y - arm.y * t.n.x);
    }
    if (pb != nullptr) {
      pb->x -= f * t.n.x;
      pb->y -= f * t.n.y;
      const Point arm = t.at - at_b;
      pb->turn -= f * (arm.x * t.n.y - arm.y * t.n.x);
    }
  };
  const std::size_t balls_a = a.solid->balls.size();
  const std::size_t balls_b = b.solid->balls.size();
  for (std::size_t i = 0; i < balls_a; ++i) {
    const Ball& ball = set_balls_[at(a.balls) + i];
    for (std::size_t j = 0; j < balls_b; ++j) {
      const Ball& other = set_balls_[at(b.balls) + j];
      const Point v = other.c - ball.c;
      const double far = ball.r + other.r + clear;
      if (dot(v, v) < far * far) press(touch(ball, other));
    }
    for (std::size_t k = 0; k < b.parts->size(); ++k) {
      const Part& part = (*b.parts)[k];
      const Point v = set_mids_[at(b.mids) + k] - ball.c;
      const double far = ball.r + part.reach + clear;
      if (dot(v, v) >= far * far) continue;
      const std::size_t from = at(b.corners + part.first);
      Touch t = touch(&set_corners_[from], &set_normals_[from], part.count, ball);
      t.n = {-t.n.x, -t.n.y};
      press(t);
      work_ += 12 + 3 * static_cast<std::uint64_t>(part.count);
    }
  }
  for (std::size_t k = 0; k < a.parts->size(); ++k) {
    const Part& part = (*a.parts)[k];
    const Point mid = set_mids_[at(a.mids) + k];
    const std::size_t from = at(a.corners + part.first);
    for (std::size_t j = 0; j < balls_b; ++j) {
      const Ball& ball = set_balls_[at(b.balls) + j];
      const Point v = ball.c - mid;
      const double far = ball.r + part.reach + clear;
      if (dot(v, v) >= far * far) continue;
      press(touch(&set_corners_[from], &set_normals_[from], part.count, ball));
      work_ += 12 + 3 * static_cast<std::uint64_t>(part.count);
    }
    for (std::size_t m = 0; m < b.parts->size(); ++m) {
      const Part& other = (*b.parts)[m];
      const Point v = set_mids_[at(b.mids) + m] - mid;
      const double far = other.reach + part.reach + clear;
      if (dot(v, v) >= far * far) continue;
      const std::size_t to = at(b.corners + other.first);
      press(touch(&set_corners_[from], &set_normals_[from], part.count, &set_corners_[to],
                  &set_normals_[to], other.count));
      work_ += 20 + 6 * static_cast<std::uint64_t>(part.count + other.count);
    }
  }
  return e;
}

double Relaxer::evaluate(double* g) {
  const int n = size();
  if (list_is_stale()) list_pairs();
  pull_.assign(kind_.size(), {});
  for (int i = 0; i < n; ++i) {
    const Body& body = body_[at(i)];
    if (body.plain) {
      set_balls_[at(body.balls)] = {centre(i), body.reach};
    } else {
      place_body(body, centre(i), turn_of(pose(i).turn));
      work_ += 20 + 4 * static_cast<std::uint64_t>(body.solid->corners.size());
    }
  }
  double e = 0;
  for (int i = 0; i < n; ++i) {
    const double here = edge_energy(i, &pull_[at(i)]);
    if (count_strain_) strain_[at(i)] += here;
    e += here;
  }
  for (const Pair& pair : pairs_) {
    const Body& a = body_[at(pair.a)];
    if (pair.b >= n) {
      const double here = pair_energy(a, obstacles_[at(pair.b - n)], centre(pair.a), {}, pair.asked,
                                      &pull_[at(pair.a)], nullptr);
      if (count_strain_) strain_[at(pair.a)] += here;
      e += here;
      continue;
    }
    const Point pa = centre(pair.a);
    const Point pb = centre(pair.b);
    const Point between = pb - pa;
    const double d2 = dot(between, between);
    if (d2 >= pair.far2) continue;
    const Body& b = body_[at(pair.b)];
    double here = 0;
    if (a.plain && b.plain) {
      const double d = std::sqrt(d2);
      const double over = a.reach + b.reach + pair.asked - d;
      here = over * over;
      const double f = d > 0 ? 2 * over / d : 2 * over;
      const Point push{f * (d > 0 ? between.x : 1), f * between.y};
      pull_[at(pair.a)].x += push.x;
      pull_[at(pair.a)].y += push.y;
      pull_[at(pair.b)].x -= push.x;
      pull_[at(pair.b)].y -= push.y;
    } else {
      here = pair_energy(a, b, pa, pb, pair.asked, &pull_[at(pair.a)], &pull_[at(pair.b)]);
    }
    if (count_strain_) {
      strain_[at(pair.a)] += here;
      strain_[at(pair.b)] += here;
    }
    e += here;
  }
  work_ += 7 * pairs_.size() + 15 * static_cast<std::uint64_t>(n);
  if (g == nullptr) return e;
  for (int i = 0; i < n; ++i) {
    g[2 * i] = pull_[at(i)].x;
    g[2 * i + 1] = pull_[at(i)].y;
    if (turner_[at(i)] >= 0) {
      g[turner_[at(i)]] = pull_[at(i)].turn / lever((*kinds_)[at(kind_[at(i)])]);
    }
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

// d_ becomes -H g by the two loops of L-BFGS over the last `stored` steps.
void Relaxer::direction(int stored) {
  const std::size_t n = at(variables_);
  double alpha[kMemory];
  for (std::size_t i = 0; i < n; ++i) d_[i] = -g_[i];
  for (int k = 0; k < stored; ++k) {
    const int m = (newest_ - k + kMemory) % kMemory;
    alpha[m] = inner(steps_[m].data(), d_.data(), n) * inverse_[m];
    add_scaled(d_.data(), -alpha[m], changes_[m].data(), n);
  }
  double scale = 0.2;  // a contact's own curvature is 2, and a piece has several
  if (stored > 0) {
    const double* y = changes_[newest_].data();
    scale = 1 / (inverse_[newest_] * inner(y, y, n));
  }
  for (std::size_t i = 0; i < n; ++i) d_[i] *= scale;
  for (int k = stored - 1; k >= 0; --k) {
    const int m = (newest_ - k + kMemory) % kMemory;
    const double beta = alpha[m] - inner(changes_[m].data(), d_.data(), n) * inverse_[m];
    add_scaled(d_.data(), beta, steps_[m].data(), n);
  }
  work_ += 3 * n * static_cast<std::uint64_t>(stored + 1);
}

bool Relaxer::line_search(double& energy, double slope) {
  const std::size_t n = at(variables_);
  double longest = 0;
  for (std::size_t i = 0; i < n; ++i) longest = std::max(longest, std::abs(d_[i]));
  double step = 1;
  if (longest > 0.5 * least_reach_) step = 0.5 * least_reach_ / longest;
  from_ = v_;
  for (int tries = 0; tries < 12; ++tries) {
    for (std::size_t i = 0; i < n; ++i) v_[i] = from_[i] + step * d_[i];
    const double e = evaluate(next_g_.data());
    if (e <= energy + 1e-4 * step * slope) {
      energy = e;
      return true;
    }
    const double curved = -slope * step * step / (2 * (e - energy - slope * step));
    step = std::clamp(curved, 0.1 * step, 0.6 * step);
  }
  v_ = from_;
  listed_ = false;  // what is set in place is the last trial
  return false;
}

double Relaxer::relax(int iterations, double enough) {
  const std::size_t n = at(variables_);
  g_.resize(n);
  next_g_.resize(n);
  d_.resize(n);
  for (int m = 0; m < kMemory; ++m) {
    steps_[m].resize(n);
    changes_[m].resize(n);
  }
  int stored = 0;
  double e = evaluate(g_.data());
  double mark = e;
  for (int it = 1; it <= iterations && e > enough; ++it) {
    if (inner(g_.data(), g_.data(), n) < 1e-4 * e) break;  // every push is met by another: jammed
    if (it % 8 == 0) {
      if (e > 0.9 * mark) break;
      mark = e;
    }
    direction(stored);
    const double slope = inner(g_.data(), d_.data(), n);
    if (slope >= 0) {
      if (stored == 0) break;
      stored = 0;
      continue;
    }
    if (!line_search(e, slope)) {
      if (stored == 0) break;
      stored = 0;
      evaluate(g_.data());
      continue;
    }
    const int slot = stored == 0 ? 0 : (newest_ + 1) % kMemory;
    for (std::size_t i = 0; i < n; ++i) {
      steps_[slot][i] = v_[i] - from_[i];
      changes_[slot][i] = next_g_[i] - g_[i];
    }
    const double sy = inner(steps_[slot].data(), changes_[slot].data(), n);
    g_.swap(next_g_);
    if (sy > 1e-18) {
      newest_ = slot;
      inverse_[slot] = 1 / sy;
      stored = std::min(stored + 1, kMemory);
    }
  }
  return e;
}

double Relaxer::one_energy(const Body& body, int kind, Point where, int except, double cap,
                           Pull* pull) {
  double e = 0;
  for (std::size_t k = 0; k < body.solid->balls.size(); ++k) {
    e += edge_energy_ball(where, set_balls_[at(body.balls) + k], pull);
  }
  if (!body.solid->corners.empty()) e += edge_energy_corners(where, body, pull);
  const double halo = (*kinds_)[at(kind)].halo;
  const int n = size();
  for (int j = 0; j < n && e < cap; ++j) {
    if (j == except) continue;
    const double clear = scene_->gap + halo + (*kinds_)[at(kind_[at(j)])].halo + slack_;
    const Body& other = body_[at(j)];
    const Point v = centre(j) - where;
    const double far = body.reach + other.reach + clear;
    if (dot(v, v) < far * far) {
      e += pair_energy(body, other, where, centre(j), clear, pull, nullptr);
    }
  }
  for (std::size_t o = 0; o < obstacles_.size() && e < cap; ++o) {
    const Obstacle& obstacle = scene_->obstacles[o];
    const double clear = obstacle.clearance + (obstacle.halo ? halo : 0) + slack_;
    const Point v = obstacle.centre - where;
    const double far = body.reach + obstacle.reach + clear;
    if (dot(v, v) < far * far)
      e += pair_energy(body, obstacles_[o], where, {}, clear, pull, nullptr);
  }
  work_ += 2 * static_cast<std::uint64_t>(n) + 80;
  return e;
}

/// What the disc inside the piece alone would add, against the discs inside the others: never more
/// than the whole, and cheap.
double Relaxer::core_strain(const Pose& pose, int except, double cap) {
  const Kind& kind = (*kinds_)[at(pose.kind)];
  const Point where{pose.x, pose.y};
  double e = edge_energy_ball(where, {where, kind.core}, nullptr);
  const double clear = scene_->gap + kind.halo + slack_ + kind.core;
  const int n = size();
  work_ += static_cast<std::uint64_t>(n) + 25;
  for (int j = 0; j < n && e < cap; ++j) {
    const Point v = centre(j) - where;
    const double far = clear + body_[at(j)].core;
    const double d2 = dot(v, v);
    if (d2 >= far * far || j == except) continue;
    const double over = far - std::sqrt(d2);
    e += over * over;
  }
  return e;
}

double Relaxer::strain_at(const Pose& pose, int except, double cap) {
  const double least = core_strain(pose, except, cap);
  if (least >= cap) return least;
  const Body& body = trials_[at(pose.kind)];
  place_body(body, {pose.x, pose.y}, body.plain ? Turn{} : turn_of(pose.turn));
  return one_energy(body, pose.kind, {pose.x, pose.y}, except, cap, nullptr);
}

/// A few careful steps downhill for one piece alone.
double Relaxer::slide(Pose& pose, int except, int steps) {
  const Body& body = trials_[at(pose.kind)];
  const Kind& kind = (*kinds_)[at(pose.kind)];
  Pose trial = pose;
  double best = kInf;
  for (int i = 0; i < steps; ++i) {
    place_body(body, {trial.x, trial.y}, body.plain ? Turn{} : turn_of(trial.turn));
    Pull pull;
    const double e = one_energy(body, trial.kind, {trial.x, trial.y}, except, kInf, &pull);
    if (e < best) {
      best = e;
      pose = trial;
    }
    if (e == 0) break;
    trial.x -= 0.25 * pull.x;
    trial.y -= 0.25 * pull.y;
    if (kind.free) trial.turn -= 0.25 * pull.turn / (lever(kind) * lever(kind));
  }
  return best;
}

Pose Relaxer::emptiest(int kind_index, int except, int samples, Random& random, double& least) {
  if (list_is_stale()) energy();  // sets every piece in place
  constexpr int kKept = 3;
  const Kind& kind = (*kinds_)[at(kind_index)];
  Pose kept[kKept];
  double strains[kKept];
  std::fill(strains, strains + kKept, kInf);
  for (int i = 0; i < samples; ++i) {
    Pose pose{kind_index, random.uniform(scene_->low.x, scene_->high.x),
              random.uniform(scene_->low.y, scene_->high.y), 0};
    pose.turn =
        kind.free ? random.uniform(0, 2 * kPi) : kind.turns[random.below(kind.turns.size())];
    const double e = strain_at(pose, except, strains[kKept - 1]);
    if (e >= strains[kKept - 1]) continue;
    int k = kKept - 1;
    for (; k > 0 && e < strains[k - 1]; --k) {
      kept[k] = kept[k - 1];
      strains[k] = strains[k - 1];
    }
    kept[k] = pose;
    strains[k] = e;
  }
  least = kInf;
  Pose best = kept[0];
  for (int k = 0; k < kKept && strains[k] < kInf; ++k) {
    Pose pose = kept[k];
    const double e = slide(pose, except, 8);
    if (e < least) {
      least = e;
      best = pose;
    }
  }
  return best;
}

}  // namespace placer::packing
