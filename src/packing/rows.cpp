#include "packing/rows.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "packing/finish.h"

namespace placer::packing {

bool Standing::free_for(const Pose& pose) {
  const Kind& kind = (*kinds_)[static_cast<std::size_t>(pose.kind)];
  set_solid(kind.solid, pose, trial_);
  if (edge_shortage(trial_, *scene_) > kRounding) return false;
  if (obstacle_shortage(trial_, kind.halo, *scene_) > kRounding) return false;
  for (std::size_t i = 0; i < poses_.size(); ++i) {
    const Kind& other = (*kinds_)[static_cast<std::size_t>(poses_[i].kind)];
    const double asked = scene_->gap + kind.halo + other.halo;
    const Point v{pose.x - poses_[i].x, pose.y - poses_[i].y};
    const double far = kind.reach + other.reach + asked;
    if (dot(v, v) >= far * far) continue;
    if (distance(trial_, set_[i]) < asked - kRounding) return false;
  }
  return true;
}

void Standing::add(const Pose& pose) {
  poses_.push_back(pose);
  set_.emplace_back();
  set_solid((*kinds_)[static_cast<std::size_t>(pose.kind)].solid, pose, set_.back());
}

namespace {

/// Two equally turned pieces, the second moved by `across` from the first in x: how far apart in y?
double clear_rise(const Kind& kind, double turn, double across, double asked) {
  Solid a;
  Solid b;
  set_solid(kind.solid, {0, 0, 0, turn}, a);
  double low = 0;
  double high = 2 * kind.reach + asked;
  const auto clear = [&](double rise) {
    set_solid(kind.solid, {0, across, rise, turn}, b);
    return distance(a, b) >= asked;
  };
  if (clear(0)) return 0;
  for (int i = 0; i < 60; ++i) {
    const double mid = (low + high) / 2;
    (clear(mid) ? high : low) = mid;
  }
  return high;
}

/// Least pitch of equally turned pieces in one row along x.
double row_pitch(const Kind& kind, double turn, double asked) {
  if (kind.round) return 2 * kind.solid.balls[0].r + asked;
  Solid a;
  Solid b;
  set_solid(kind.solid, {0, 0, 0, turn}, a);
  double low = 0;
  double high = 2 * kind.reach + asked;
  for (int i = 0; i < 60; ++i) {
    const double mid = (low + high) / 2;
    set_solid(kind.solid, {0, mid, 0, turn}, b);
    (distance(a, b) >= asked ? high : low) = mid;
  }
  return high;
}

struct Lattice {
  Point along;  ///< from piece to piece in a row
  Point up;     ///< from row to row
  double turn = 0;
  double angle = 0;  ///< of the rows against x
};

Found fill_lattice(const Lattice& lattice, Point origin, const Kind& kind, const Scene& scene,
                   int kind_index) {
  Found found;
  const Turn turn = turn_of(lattice.angle);
  const double width = scene.high.x - scene.low.x;
  const double depth = scene.high.y - scene.low.y;
  const double far = std::sqrt(width * width + depth * depth);
  const int rows = static_cast<int>(far / lattice.up.y) + 1;
  const int cols = static_cast<int>(far / lattice.along.x) + 2;
  const Point middle = 0.5 * (scene.low + scene.high);
  Solid trial;
  for (int j = -rows; j <= rows; ++j) {
    int in_row = 0;
    const double lean = j * lattice.up.x;
    const double back = std::floor(lean / lattice.along.x) * lattice.along.x;
    for (int i = -cols; i <= cols; ++i) {
      const Point local{origin.x + i * lattice.along.x + lean - back, origin.y + j * lattice.up.y};
      const Point p = middle + turn(local);
      if (p.x < scene.low.x || p.x > scene.high.x || p.y < scene.low.y || p.y > scene.high.y) {
        continue;
      }
      const Pose pose{kind_index, p.x, p.y, lattice.turn + lattice.angle};
      set_solid(kind.solid, pose, trial);
      if (edge_shortage(trial, scene) > kRounding) continue;
      if (obstacle_shortage(trial, kind.halo, scene) > kRounding) continue;
      found.poses.push_back(pose);
      ++in_row;
    }
    if (in_row > 0) found.rows.push_back(in_row);
  }
  found.orderly = true;
  return found;
}

}  // namespace

Found best_rows(const Kind& kind, const Scene& scene, int kind_index, int limit) {
  Found best;
  const double asked = scene.gap + 2 * kind.halo;
  std::vector<double> turns = kind.turns;
  if (kind.free) {
    turns.clear();
    for (int k = 0; k < 8; ++k) turns.push_back(k * kPi / 4);
  }
  for (const double turn : turns) {
    const double pitch = row_pitch(kind, turn, asked);
    const double square = std::max(clear_rise(kind, turn, 0, asked), 1e-6);
    const double hex = std::max({clear_rise(kind, turn, pitch / 2, asked),
                                 clear_rise(kind, turn, -pitch / 2, asked), square / 2});
    for (const Lattice& lattice : {Lattice{{pitch, 0}, {0, square}, turn, 0},
                                   Lattice{{pitch, 0}, {pitch / 2, hex}, turn, 0}}) {
      for (int k = 0; k < 36; ++k) {
        const Point origin{(k % 6) * pitch / 6, (k / 6) * lattice.up.y / 6};
        for (int side = 0; side < (kind.round || kind.free ? 2 : 1); ++side) {
          Lattice turned = lattice;
          turned.angle = side * kPi / 2;
          Found found = fill_lattice(turned, origin, kind, scene, kind_index);
          if (found.poses.size() > best.poses.size()) best = std::move(found);
        }
      }
    }
  }
  if (best.poses.size() > static_cast<std::size_t>(limit)) {
    best.poses.resize(static_cast<std::size_t>(limit));
  }
  return best;
}

std::vector<Pose> plain_fill(const std::vector<Kind>& kinds, const Scene& scene) {
  std::vector<int> order(kinds.size());
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
    return kinds[static_cast<std::size_t>(a)].area > kinds[static_cast<std::size_t>(b)].area;
  });
  Standing standing{kinds, scene};
  for (const int k : order) {
    const Kind& kind = kinds[static_cast<std::size_t>(k)];
    const double step = std::max(kind.reach / 8, (scene.high.x - scene.low.x) / 400);
    int left = kind.count;
    for (double y = scene.low.y; y <= scene.high.y && left > 0; y += step) {
      for (double x = scene.low.x; x <= scene.high.x && left > 0; x += step) {
        for (const double turn : kind.turns) {
          const Pose pose{k, x, y, turn};
          if (!standing.free_for(pose)) continue;
          standing.add(pose);
          --left;
          break;
        }
      }
    }
  }
  return standing.poses();
}

}  // namespace placer::packing
