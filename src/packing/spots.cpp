// Where there is most room for one piece more.
#include <algorithm>
#include <cmath>
#include <limits>

#include "packing/relax.h"

namespace placer::packing {

namespace {

constexpr double kInf = std::numeric_limits<double>::infinity();

std::size_t at(int i) { return static_cast<std::size_t>(i); }

}  // namespace

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
