#include "packing/hop.h"

#include <algorithm>
#include <limits>

namespace placer::packing {

Pose Hopper::random_pose(int index) {
  const Kind& kind = (*kinds_)[static_cast<std::size_t>(index)];
  Pose pose{index, random.uniform(scene_->low.x, scene_->high.x),
            random.uniform(scene_->low.y, scene_->high.y), 0};
  pose.turn = kind.free ? random.uniform(0, 2 * kPi) : kind.turns[random.below(kind.turns.size())];
  return pose;
}

void Hopper::insert(int kind) {
  double least = 0;
  relaxer.add(relaxer.emptiest(kind, -1, samples(), random, least));
}

void Hopper::turn_each(int sweeps) {
  constexpr int kTurns = 24;
  for (int i = 0; i < sweeps * relaxer.size(); ++i) {
    const int piece = i % relaxer.size();
    relaxer.energy();  // all others set in place
    Pose best = relaxer.pose(piece);
    double least = relaxer.strain_at(best, piece, std::numeric_limits<double>::infinity());
    Pose turned = best;
    for (int k = 0; k < kTurns; ++k) {
      turned.turn = k * (2 * kPi / kTurns);
      const double strain = relaxer.strain_at(turned, piece, least);
      if (strain >= least) continue;
      least = strain;
      best = turned;
    }
    relaxer.move(piece, best);
  }
}

/// The most strained by chance: each strain counts for half to all of itself.
int Hopper::strained_piece() {
  const std::vector<double>& strain = relaxer.strain();
  int worst = 0;
  double most = -1;
  for (int i = 0; i < relaxer.size(); ++i) {
    const double s = strain[static_cast<std::size_t>(i)] * random.uniform(0.5, 1);
    if (i != last_moved_ && s > most) {
      most = s;
      worst = i;
    }
  }
  last_moved_ = worst;
  return worst;
}

void Hopper::change(int piece) {
  const Pose pose = relaxer.pose(piece);
  if (kinds_->size() > 1 && random.uniform() < 0.25) {
    const int other = static_cast<int>(random.below(static_cast<std::uint64_t>(relaxer.size())));
    const Pose there = relaxer.pose(other);
    if (there.kind != pose.kind) {
      relaxer.move(piece, {pose.kind, there.x, there.y, pose.turn});
      relaxer.move(other, {there.kind, pose.x, pose.y, there.turn});
      return;
    }
  }
  double least = 0;
  relaxer.move(piece, relaxer.emptiest(pose.kind, piece, samples(), random, least));
}

double Hopper::hop(double e) {
  const std::vector<Pose> before = relaxer.poses();
  change(strained_piece());
  const double after = relaxer.relax(200, kSettled);
  if (after < e || random.uniform() < 0.01) return after;
  relaxer.set(before);
  return e;
}

double Hopper::settle(double e, int patience, std::uint64_t end) {
  double best = e;
  for (int since = 0; e > kSettled && since < patience && relaxer.work() < end; ++since) {
    e = hop(e);
    if (e < 0.999 * best) {
      best = e;
      since = 0;
    }
  }
  return e;
}

}  // namespace placer::packing
