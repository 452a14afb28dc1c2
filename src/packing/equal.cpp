#include "packing/equal.h"

#include "packing/hop.h"

namespace placer::packing {

namespace {

/// One try after another to set exactly `target` pieces of kind 0.
class Settling {
 public:
  Settling(const std::vector<Kind>& kinds, const Scene& scene, std::uint64_t seed)
      : reach_{kinds[0].reach}, hopper_{kinds, scene, seed} {}

  bool settle(const std::vector<Pose>& known, int target, std::uint64_t steps,
              const Budget& budget);
  std::vector<Pose> poses() const { return hopper_.relaxer.poses(); }
  std::uint64_t work() const { return hopper_.relaxer.work(); }

 private:
  void begin(const std::vector<Pose>& known, int target, int attempt);

  double reach_;
  Hopper hopper_;
};

void Settling::begin(const std::vector<Pose>& known, int target, int attempt) {
  std::vector<Pose> poses;
  if (attempt % 3 != 2) poses = known;
  if (attempt >= 3) {  // shaken loose
    for (Pose& pose : poses) {
      pose.x += hopper_.random.uniform(-0.5, 0.5) * reach_;
      pose.y += hopper_.random.uniform(-0.5, 0.5) * reach_;
    }
  }
  if (poses.empty()) {
    for (int i = 0; i < target; ++i) poses.push_back(hopper_.random_pose(0));
  }
  hopper_.relaxer.set(poses);
  while (hopper_.relaxer.size() < target) hopper_.insert(0);
}

bool Settling::settle(const std::vector<Pose>& known, int target, std::uint64_t steps,
                      const Budget& budget) {
  const std::uint64_t end = work() + steps;
  for (int attempt = 0; work() < end && !budget.stopped(); ++attempt) {
    begin(known, target, attempt);
    const double e = hopper_.relaxer.relax(300, kSettled);
    if (hopper_.settle(e, 20 + target, end) <= kSettled) return true;
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
