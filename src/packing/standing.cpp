#include "packing/standing.h"

#include <algorithm>
#include <cmath>

namespace placer::packing {

Standing::Standing(const std::vector<Kind>& kinds, const Scene& scene)
    : kinds_{&kinds}, scene_{&scene} {
  for (const Kind& kind : kinds) {
    cell_ = std::max(cell_, 2 * (kind.reach + kind.halo) + scene.gap);
  }
  constexpr int kMost = 500;
  columns_ = std::clamp(static_cast<int>((scene.high.x - scene.low.x) / cell_), 1, kMost);
  rows_ = std::clamp(static_cast<int>((scene.high.y - scene.low.y) / cell_), 1, kMost);
  cells_.resize(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_));
}

int Standing::column(double x) const {
  const double part = (x - scene_->low.x) / (scene_->high.x - scene_->low.x);
  return static_cast<int>(std::clamp(part * columns_, 0.0, columns_ - 1.0));
}

int Standing::row(double y) const {
  const double part = (y - scene_->low.y) / (scene_->high.y - scene_->low.y);
  return static_cast<int>(std::clamp(part * rows_, 0.0, rows_ - 1.0));
}

double Standing::clear_from(int index, Point at) const {
  const Kind& kind = (*kinds_)[static_cast<std::size_t>(index)];
  if (kind.core <= 0) return at.x;
  const double beyond = std::nextafter(at.x, at.x + 1);
  for (const Wall& wall : scene_->walls) {
    if (dot(wall.n, at) + kind.core > wall.b + kRounding) return beyond;
  }
  if (scene_->round) {
    const Point v = at - scene_->centre;
    const double room = scene_->radius + kRounding - kind.core;
    if (room < 0 || dot(v, v) > room * room) return beyond;
  }
  const int x = column(at.x);
  const int y = row(at.y);
  for (int r = std::max(y - 1, 0); r <= std::min(y + 1, rows_ - 1); ++r) {
    for (int c = std::max(x - 1, 0); c <= std::min(x + 1, columns_ - 1); ++c) {
      for (const int i : cells_[static_cast<std::size_t>(r * columns_ + c)]) {
        const Pose& there = poses_[static_cast<std::size_t>(i)];
        const Kind& other = (*kinds_)[static_cast<std::size_t>(there.kind)];
        const double near =
            kind.core + other.core + scene_->gap + kind.halo + other.halo - kRounding;
        const Point v{at.x - there.x, at.y - there.y};
        if (other.core <= 0 || dot(v, v) >= near * near) continue;
        return std::max(beyond, there.x + std::sqrt(near * near - v.y * v.y) - kRounding);
      }
    }
  }
  return at.x;
}

bool Standing::free_for(const Pose& pose) {
  const Kind& kind = (*kinds_)[static_cast<std::size_t>(pose.kind)];
  set_solid(kind.solid, pose, trial_);
  if (!inside_edge(kind, pose, trial_, *scene_)) return false;
  if (!clear_of_obstacles(kind, pose, trial_, *scene_)) return false;
  const int x = column(pose.x);
  const int y = row(pose.y);
  for (int r = std::max(y - 1, 0); r <= std::min(y + 1, rows_ - 1); ++r) {
    for (int c = std::max(x - 1, 0); c <= std::min(x + 1, columns_ - 1); ++c) {
      for (const int i : cells_[static_cast<std::size_t>(r * columns_ + c)]) {
        const Pose& there = poses_[static_cast<std::size_t>(i)];
        const Kind& other = (*kinds_)[static_cast<std::size_t>(there.kind)];
        const double asked = scene_->gap + kind.halo + other.halo;
        const Point v{pose.x - there.x, pose.y - there.y};
        const double far = kind.reach + other.reach + asked;
        if (dot(v, v) >= far * far) continue;
        if (!apart(trial_, set_[static_cast<std::size_t>(i)], asked - kRounding)) return false;
      }
    }
  }
  return true;
}

void Standing::add(const Pose& pose) {
  cells_[static_cast<std::size_t>(row(pose.y) * columns_ + column(pose.x))].push_back(
      static_cast<int>(poses_.size()));
  poses_.push_back(pose);
  set_.emplace_back();
  set_solid((*kinds_)[static_cast<std::size_t>(pose.kind)].solid, pose, set_.back());
}

}  // namespace placer::packing
