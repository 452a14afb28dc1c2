#include "packing/rows.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "packing/mixed.h"

namespace placer::packing {

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
    return apart(a, b, asked);
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
    (apart(a, b, asked) ? high : low) = mid;
  }
  return high;
}

struct Lattice {
  double pitch = 0;  ///< from piece to piece in a row
  double lean = 0;   ///< how far each row is shifted against the one before
  double rise = 0;   ///< from row to row
  double turn = 0;   ///< of the pieces against the rows
};

/// Rows are drawn apart until no two of the pieces near one another clash (a handle may reach past
/// its neighbour).
void open_up(Lattice& lattice, const Kind& kind, double asked) {
  Solid a;
  Solid b;
  set_solid(kind.solid, {0, 0, 0, lattice.turn}, a);
  const auto clash = [&] {
    for (int j = 0; j <= 2; ++j) {
      for (int i = -3; i <= 3; ++i) {
        if (j == 0 && i <= 0) continue;
        set_solid(kind.solid,
                  {0, i * lattice.pitch + j * lattice.lean, j * lattice.rise, lattice.turn}, b);
        if (!apart(a, b, asked - 0.1 * kRounding)) return true;
      }
    }
    return false;
  };
  for (int tries = 0; tries < 100 && clash(); ++tries) lattice.rise += 0.03 * kind.reach;
}

struct Span {
  double low, high;
};

/// How far the region reaches along `u` (the edge gap taken off where a straight edge ends it).
Span span_along(const Scene& scene, Point u) {
  Span span{1e300, -1e300};
  for (const double x : {scene.low.x, scene.high.x}) {
    for (const double y : {scene.low.y, scene.high.y}) {
      span = {std::min(span.low, dot(u, {x, y})), std::max(span.high, dot(u, {x, y}))};
    }
  }
  if (scene.round) {
    const double c = dot(u, scene.centre);
    span = {std::max(span.low, c - scene.radius), std::min(span.high, c + scene.radius)};
  }
  for (const Wall& wall : scene.walls) {
    if (dot(wall.n, u) > 1 - 1e-12) span.high = std::min(span.high, wall.b);
    if (dot(wall.n, u) < -1 + 1e-12) span.low = std::max(span.low, -wall.b);
  }
  return span;
}

/// How far the piece reaches along `u` from its origin.
Span reach_along(const Solid& set, Point u) {
  Span span{1e300, -1e300};
  const auto stretch = [&](Point p, double r) {
    span = {std::min(span.low, dot(u, p) - r), std::max(span.high, dot(u, p) + r)};
  };
  for (const Ball& ball : set.balls) stretch(ball.c, ball.r);
  for (const Point corner : set.corners) stretch(corner, 0);
  return span;
}

/// Where the first row or column may lie: against either end of the region, and in between.
std::vector<double> offsets(Span region, Span piece, double step, int between) {
  const double front = region.low - piece.low;
  const double back = region.high - piece.high;
  std::vector<double> all{front, back, (front + back) / 2, (front + back + step) / 2};
  for (int k = 1; k < between; ++k) all.push_back(front + k * step / between);
  return all;
}

/// One kind set in rows at some angle.
class RowSetter {
 public:
  RowSetter(const Kind& kind, const Scene& scene, int kind_index)
      : kind_{&kind}, scene_{&scene}, index_{kind_index} {}
  void try_lattice(const Lattice& lattice, double angle);
  Found take() { return std::move(best_); }

 private:
  Found fill(const Lattice& lattice, double angle, Point origin) const;
  bool stands(const Pose& pose) const;

  const Kind* kind_;
  const Scene* scene_;
  int index_;
  mutable Solid trial_;
  Found best_;
};

bool RowSetter::stands(const Pose& pose) const {
  if (pose.x < scene_->low.x - kind_->reach || pose.x > scene_->high.x + kind_->reach ||
      pose.y < scene_->low.y - kind_->reach || pose.y > scene_->high.y + kind_->reach) {
    return false;
  }
  set_solid(kind_->solid, pose, trial_);
  return inside_edge(*kind_, pose, trial_, *scene_) &&
         clear_of_obstacles(*kind_, pose, trial_, *scene_);
}

Found RowSetter::fill(const Lattice& lattice, double angle, Point origin) const {
  Found found;
  found.orderly = true;
  const Turn turn = turn_of(angle);
  const Span across = span_along(*scene_, turn({1, 0}));
  const Span up = span_along(*scene_, turn({0, 1}));
  const double reach = kind_->reach;
  const int first_row = static_cast<int>(std::floor((up.low - reach - origin.y) / lattice.rise));
  const int last_row = static_cast<int>(std::ceil((up.high + reach - origin.y) / lattice.rise));
  for (int j = first_row; j <= last_row; ++j) {
    const double y = origin.y + j * lattice.rise;
    double start = origin.x + std::remainder(j * lattice.lean, lattice.pitch);
    start += std::floor((across.low - start) / lattice.pitch) * lattice.pitch;
    int in_row = 0;
    for (int i = 0; start + i * lattice.pitch <= across.high + reach; ++i) {
      const Point p = turn({start + i * lattice.pitch, y});
      const Pose pose{index_, p.x, p.y, lattice.turn + angle};
      if (!stands(pose)) continue;
      found.poses.push_back(pose);
      ++in_row;
    }
    if (in_row > 0) found.rows.push_back(in_row);
  }
  return found;
}

void RowSetter::try_lattice(const Lattice& lattice, double angle) {
  const Turn turn = turn_of(angle);
  Solid set;
  set_solid(kind_->solid, {index_, 0, 0, lattice.turn + angle}, set);
  // A few hundred discs gain from a finer look; thousands need none.
  const double pieces = scene_->area / kind_->area;
  const int between = pieces > 2000 ? 1 : pieces > 150 && kind_->round ? 16 : 4;
  const Point x = turn({1, 0});
  const Point y = turn({0, 1});
  for (const double up :
       offsets(span_along(*scene_, y), reach_along(set, y), lattice.rise, between)) {
    for (const double across :
         offsets(span_along(*scene_, x), reach_along(set, x), lattice.pitch, between)) {
      Found found = fill(lattice, angle, {across, up});
      if (found.poses.size() > best_.poses.size()) best_ = std::move(found);
    }
  }
}

/// No more than there are: the last rows give theirs up.
void keep_first(Found& found, int limit) {
  while (static_cast<int>(found.poses.size()) > limit) {
    found.poses.pop_back();
    if (--found.rows.back() == 0) found.rows.pop_back();
  }
}

}  // namespace

Found best_rows(const Kind& kind, const Scene& scene, int kind_index, int limit) {
  const double asked = scene.gap + 2 * kind.halo;
  std::vector<double> turns = kind.turns;
  if (kind.free) {
    turns.clear();
    for (int k = 0; k < 8; ++k) turns.push_back(k * kPi / 4);
  }
  RowSetter setter{kind, scene, kind_index};
  for (const double turn : turns) {
    const double pitch = row_pitch(kind, turn, asked);
    const double square = std::max(clear_rise(kind, turn, 0, asked), 0.01 * kind.reach);
    const double by_turns = std::max({clear_rise(kind, turn, pitch / 2, asked),
                                      clear_rise(kind, turn, -pitch / 2, asked), square / 2});
    for (Lattice lattice : {Lattice{pitch, 0, square, turn}, {pitch, pitch / 2, by_turns, turn}}) {
      open_up(lattice, kind, asked);
      setter.try_lattice(lattice, 0);
      // Rows from front to back: the pieces turn with them, so only if they may.
      if (kind.round || kind.free) setter.try_lattice(lattice, kPi / 2);
    }
  }
  Found best = setter.take();
  keep_first(best, limit);
  return best;
}

namespace {

/// Each kind in turn, every piece at the first free place from front to back.
std::vector<Pose> filled_in_order(const std::vector<Kind>& kinds, const Scene& scene,
                                  const std::vector<int>& order) {
  Standing standing{kinds, scene};
  for (const int k : order) {
    const Kind& kind = kinds[static_cast<std::size_t>(k)];
    const double step = std::max(kind.reach / 8, (scene.high.x - scene.low.x) / 1500);
    int left = kind.count;
    for (double y = scene.low.y; y <= scene.high.y && left > 0; y += step) {
      double clear = scene.low.x;
      for (double x = scene.low.x; x <= scene.high.x && left > 0; x += step) {
        if (x < clear) continue;
        clear = standing.clear_from(k, {x, y});
        if (clear > x) continue;
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

}  // namespace

std::vector<Pose> plain_fill(const std::vector<Kind>& kinds, const Scene& scene) {
  const std::vector<Pose> large_first = filled_in_order(kinds, scene, largest_first(kinds, scene));
  if (worth_its_area(kinds)) return large_first;
  const std::vector<Pose> dear_first = filled_in_order(kinds, scene, dearest_first(kinds, scene));
  return value_of(kinds, dear_first) > value_of(kinds, large_first) ? dear_first : large_first;
}

}  // namespace placer::packing
