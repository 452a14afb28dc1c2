#include "packing/equal.h"

#include <atomic>

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
  Settling first{kinds, scene, 2 * budget.seed + 1};
  Settling second{kinds, scene, 2 * budget.seed + 2};
  std::uint64_t spent = 0;
  while (static_cast<int>(seed.size()) < known_most && spent < budget.steps && !budget.stopped()) {
    const int target = static_cast<int>(seed.size()) + 1;
    const std::uint64_t half = (budget.steps - spent) / 2;
    const std::uint64_t before_first = first.work();
    const std::uint64_t before_second = second.work();
    std::atomic<bool> first_has_it{false};
    bool second_has_it = false;
    Budget second_budget = budget;
    second_budget.stop = [&] { return first_has_it.load() || budget.stopped(); };
    both(
        budget.threads, [&] { first_has_it = first.settle(seed, target, half, budget); },
        [&] { second_has_it = second.settle(seed, target, half, second_budget); });
    spent += first.work() - before_first;
    if (first_has_it) {  // whatever the second did does not count
      seed = first.poses();
      second = Settling{kinds, scene, 2 * budget.seed + 2 + 7919 * seed.size()};
      continue;
    }
    spent += second.work() - before_second;
    if (!second_has_it) break;
    seed = second.poses();
  }
  return seed;
}

}  // namespace placer::packing
