#include "packing/relax.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace placer::packing {

namespace {

constexpr double kInf = std::numeric_limits<double>::infinity();

std::size_t at(int i) { return static_cast<std::size_t>(i); }

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
  const double turn = turner_[at(i)] < 0 ? turn_[at(i)] : v_[at(turner_[at(i)])] / lever_of(i);
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
    v_[at(turner_[at(i)])] = pose.turn * lever_of(i);
  }
  turn_[at(i)] = pose.turn;
  listed_ = false;
}

double Relaxer::relax(int iterations, double enough) {
  return descent_.run(*this, v_, iterations, enough, 0.5 * least_reach_);
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

}  // namespace placer::packing
