#include "packing/equal.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "packing/relax.h"

namespace placer::packing {

namespace {

constexpr double kSlack = 1.5e-6;   // mm kept in hand, so that no rounding makes a gap short
constexpr double kSettled = 1e-12;  // mm²: then no single distance lacks more than the slack

/// One try after another to set exactly `target` pieces of kind 0.
class Settling {
 public:
  Settling(const std::vector<Kind>& kinds, const Scene& scene, std::uint64_t seed)
      : kinds_{&kinds}, scene_{&scene}, relaxer_{kinds, scene, kSlack}, random_{seed} {}

  bool settle(const std::vector<Pose>& known, int target, std::uint64_t steps,
              const Budget& budget);
  std::vector<Pose> poses() const { return relaxer_.poses(); }
  std::uint64_t work() const { return relaxer_.work(); }

 private:
  void begin(const std::vector<Pose>& known, int target, int attempt);
  Pose random_pose();
  double hop(double e);
  int samples() const { return 60 + 2 * relaxer_.size(); }

  const std::vector<Kind>* kinds_;
  const Scene* scene_;
  Relaxer relaxer_;
  Random random_;
  int last_moved_ = -1;
};

Pose Settling::random_pose() {
  const Kind& kind = (*kinds_)[0];
  Pose pose{0, random_.uniform(scene_->low.x, scene_->high.x),
            random_.uniform(scene_->low.y, scene_->high.y), 0};
  pose.turn =
      kind.free ? random_.uniform(0, 2 * kPi) : kind.turns[random_.below(kind.turns.size())];
  return pose;
}

void Settling::begin(const std::vector<Pose>& known, int target, int attempt) {
  std::vector<Pose> poses;
  if (attempt % 3 != 2) poses = known;
  if (attempt >= 3) {  // shaken loose
    for (Pose& pose : poses) {
      pose.x += random_.uniform(-0.5, 0.5) * (*kinds_)[0].reach;
      pose.y += random_.uniform(-0.5, 0.5) * (*kinds_)[0].reach;
    }
  }
  if (poses.empty()) {
    for (int i = 0; i < target; ++i) poses.push_back(random_pose());
  }
  relaxer_.set(poses);
  while (relaxer_.size() < target) {
    double least = 0;
    relaxer_.add(relaxer_.emptiest(0, -1, samples(), random_, least));
  }
}

/// The most strained piece is taken out and set where there is most room. @return the energy
double Settling::hop(double e) {
  const std::vector<Pose> before = relaxer_.poses();
  const std::vector<double>& strain = relaxer_.strain();
  int worst = -1;
  double most = -1;
  for (int i = 0; i < relaxer_.size(); ++i) {
    const double s = strain[static_cast<std::size_t>(i)] * random_.uniform(0.5, 1);
    if (i != last_moved_ && s > most) {
      most = s;
      worst = i;
    }
  }
  if (worst < 0) worst = 0;
  last_moved_ = worst;
  double least = 0;
  relaxer_.move(worst, relaxer_.emptiest(0, worst, samples(), random_, least));
  const double after = relaxer_.relax(200, kSettled);
  if (after < e * 1.02 || random_.uniform() < 0.03) return after;
  relaxer_.set(before);
  return e;
}

bool Settling::settle(const std::vector<Pose>& known, int target, std::uint64_t steps,
                      const Budget& budget) {
  const std::uint64_t end = relaxer_.work() + steps;
  for (int attempt = 0; relaxer_.work() < end; ++attempt) {
    begin(known, target, attempt);
    double e = relaxer_.relax(300, kSettled);
    double best = e;
    int since = 0;
    const int patience = 20 + target;
    while (e > kSettled && since < patience && relaxer_.work() < end) {
      if (budget.stopped()) return false;
      e = hop(e);
      ++since;
      if (e < 0.999 * best) {
        best = e;
        since = 0;
      }
    }
    if (e <= kSettled) return true;
  }
  return false;
}

}  // namespace

std::vector<Pose> more_pieces(const std::vector<Kind>& kinds, const Scene& scene,
                              std::vector<Pose> seed, int known_most, const Budget& budget) {
  Settling settling{kinds, scene, budget.seed + 1};
  while (static_cast<int>(seed.size()) < known_most && settling.work() < budget.steps &&
         !budget.stopped()) {
    const int target = static_cast<int>(seed.size()) + 1;
    if (!settling.settle(seed, target, budget.steps - settling.work(), budget)) break;
    seed = settling.poses();
  }
  return seed;
}

}  // namespace placer::packing
