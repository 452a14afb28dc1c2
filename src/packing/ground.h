/// @file ground.h
/// Free ground for rectangles that lie square.
#pragma once

#include <vector>

#include "packing/bodies.h"

namespace placer::packing {

constexpr double kEven = 1e-9;  // mm: sizes this near are the same

struct Rect {
  double x0, y0, x1, y1;
  double width() const { return x1 - x0; }
  double depth() const { return y1 - y0; }
};

/// The free ground as the largest rectangles in it. Everything is grown by the gap on its right and
/// back, so that pieces set edge to edge keep it.
class FreeGround {
 public:
  void reset(const Rect& whole) { free_ = {whole}; }
  void take(const Rect& taken);
  const std::vector<Rect>& rects() const { return free_; }
  void copy(const FreeGround& other) { free_ = other.free_; }

 private:
  enum Side { left, right, front, back };
  void offer(const Rect& rect, Side side);
  std::vector<Rect> free_, cut_;
  std::vector<Rect> beside_[4];  ///< free already and touching that side of what is being taken
  std::vector<Rect> fresh_[4];
};

/// Ground that no rectangle may lie on, covered by rectangles (in true coordinates).
class Cover {
 public:
  Cover(const Scene& scene, double halo) : scene_{&scene} {
    for (const Obstacle& obstacle : scene.obstacles) {
      add_obstacle(obstacle, obstacle.clearance + (obstacle.halo ? halo : 0));
    }
    add_walls();
    if (scene.round) add_rim();
  }
  const std::vector<Rect>& rects() const { return rects_; }
  const Rect& whole() const { return whole_; }

 private:
  void add_obstacle(const Obstacle& obstacle, double clear);
  void add_walls();
  void add_rim();

  const Scene* scene_;
  std::vector<Rect> rects_;
  Rect whole_{};
};

}  // namespace placer::packing
