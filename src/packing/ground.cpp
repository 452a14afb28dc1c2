#include "packing/ground.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace placer::packing {

namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

bool meet(const Rect& a, const Rect& b) {
  return a.x0 < b.x1 - kEven && b.x0 < a.x1 - kEven && a.y0 < b.y1 - kEven && b.y0 < a.y1 - kEven;
}

bool holds(const Rect& a, const Rect& b) {
  return a.x0 <= b.x0 + kEven && a.y0 <= b.y0 + kEven && a.x1 >= b.x1 - kEven &&
         a.y1 >= b.y1 - kEven;
}

}  // namespace

// What is left on one side of the taken ground runs along that side, so only a rectangle that
// touches the same side can hold it.
void FreeGround::offer(const Rect& rect, Side side) {
  if (rect.width() < kEven || rect.depth() < kEven) return;
  for (const Rect& other : beside_[side]) {
    if (holds(other, rect)) return;
  }
  std::vector<Rect>& fresh = fresh_[side];
  for (std::size_t i = 0; i < fresh.size();) {
    if (holds(fresh[i], rect)) return;
    if (holds(rect, fresh[i])) {
      fresh[i] = fresh.back();
      fresh.pop_back();
    } else {
      ++i;
    }
  }
  fresh.push_back(rect);
}

void FreeGround::take(const Rect& taken) {
  for (int side = 0; side < 4; ++side) {
    beside_[side].clear();
    fresh_[side].clear();
  }
  cut_.clear();
  std::size_t kept = 0;
  for (const Rect& r : free_) {
    if (meet(r, taken)) {
      cut_.push_back(r);
      continue;
    }
    free_[kept++] = r;
    if (std::abs(r.x1 - taken.x0) < kEven) beside_[left].push_back(r);
    if (std::abs(r.x0 - taken.x1) < kEven) beside_[right].push_back(r);
    if (std::abs(r.y1 - taken.y0) < kEven) beside_[front].push_back(r);
    if (std::abs(r.y0 - taken.y1) < kEven) beside_[back].push_back(r);
  }
  free_.resize(kept);
  for (const Rect& r : cut_) {
    if (taken.x0 > r.x0) offer({r.x0, r.y0, taken.x0, r.y1}, left);
    if (taken.x1 < r.x1) offer({taken.x1, r.y0, r.x1, r.y1}, right);
    if (taken.y0 > r.y0) offer({r.x0, r.y0, r.x1, taken.y0}, front);
    if (taken.y1 < r.y1) offer({r.x0, taken.y1, r.x1, r.y1}, back);
  }
  for (const std::vector<Rect>& fresh : fresh_) {
    free_.insert(free_.end(), fresh.begin(), fresh.end());
  }
}

/// A disc by nested rectangles whose corners lie just outside it; a polygon by its own box.
void Cover::add_obstacle(const Obstacle& obstacle, double clear) {
  constexpr int kSteps = 4;
  for (const Ball& ball : obstacle.solid.balls) {
    const double r = ball.r + clear;
    for (int i = 0; i < kSteps; ++i) {
      const double wide = r * turn_of(i * kPi / 2 / kSteps).c;
      const double deep = r * turn_of((i + 1) * kPi / 2 / kSteps).s;
      rects_.push_back({ball.c.x - wide, ball.c.y - deep, ball.c.x + wide, ball.c.y + deep});
    }
  }
  for (std::size_t k = 0; k + 1 < obstacle.solid.starts.size(); ++k) {
    constexpr double inf = std::numeric_limits<double>::infinity();
    Rect box{inf, inf, -inf, -inf};
    for (auto i = at(obstacle.solid.starts[k]); i < at(obstacle.solid.starts[k + 1]); ++i) {
      const Point p = obstacle.solid.corners[i];
      box = {std::min(box.x0, p.x), std::min(box.y0, p.y), std::max(box.x1, p.x),
             std::max(box.y1, p.y)};
    }
    rects_.push_back({box.x0 - clear, box.y0 - clear, box.x1 + clear, box.y1 + clear});
  }
}

constexpr int kStrips = 24;

void Cover::add_walls() {
  whole_ = {scene_->low.x, scene_->low.y, scene_->high.x, scene_->high.y};
  const double far = 2 * (whole_.width() + whole_.depth());
  const Rect box = whole_;
  for (const Wall& wall : scene_->walls) {
    if (std::abs(wall.n.y) < kEven) {
      if (wall.n.x > 0) whole_.x1 = std::min(whole_.x1, wall.b / wall.n.x);
      if (wall.n.x < 0) whole_.x0 = std::max(whole_.x0, wall.b / wall.n.x);
      continue;
    }
    if (std::abs(wall.n.x) < kEven) {
      if (wall.n.y > 0) whole_.y1 = std::min(whole_.y1, wall.b / wall.n.y);
      if (wall.n.y < 0) whole_.y0 = std::max(whole_.y0, wall.b / wall.n.y);
      continue;
    }
    for (int i = 0; i < kStrips; ++i) {
      const double x0 = box.x0 + box.width() * i / kStrips;
      const double x1 = box.x0 + box.width() * (i + 1) / kStrips;
      const double worst = wall.n.x > 0 ? x1 : x0;
      const double y = (wall.b - wall.n.x * worst) / wall.n.y;
      if (wall.n.y > 0 && y < box.y1) rects_.push_back({x0, y, x1, y + far});
      if (wall.n.y < 0 && y > box.y0) rects_.push_back({x0, y - far, x1, y});
    }
  }
}

void Cover::add_rim() {
  const double r = scene_->radius;
  const Point c = scene_->centre;
  whole_ = {std::max(whole_.x0, c.x - r), std::max(whole_.y0, c.y - r),
            std::min(whole_.x1, c.x + r), std::min(whole_.y1, c.y + r)};
  for (int i = 0; i < kStrips; ++i) {
    const double x0 = -r + 2 * r * i / kStrips;
    const double x1 = -r + 2 * r * (i + 1) / kStrips;
    const double worst = std::max(std::abs(x0), std::abs(x1));
    const double y = std::sqrt(std::max(0.0, r * r - worst * worst));
    rects_.push_back({c.x + x0, c.y + y, c.x + x1, c.y + 2 * r});
    rects_.push_back({c.x + x0, c.y - 2 * r, c.x + x1, c.y - y});
  }
}

}  // namespace placer::packing
