#include "packing/equal.h"

#include <algorithm>
#include <atomic>
#include <memory>

#include "packing/hop.h"

namespace placer::packing {

namespace {

/// Each kind without its handles: its largest disc alone.
std::vector<Kind> bodies_of(const std::vector<Kind>& kinds) {
  std::vector<Kind> bodies = kinds;
  for (Kind& kind : bodies) {
    if (kind.solid.balls.empty()) continue;
    const Ball body = *std::max_element(kind.solid.balls.begin(), kind.solid.balls.end(),
                                        [](const Ball& a, const Ball& b) { return a.r < b.r; });
    kind.solid = Solid{};
    kind.solid.balls.push_back({{0, 0}, body.r});
    kind.reach = body.r;
    kind.round = true;
    kind.free = false;
  }
  return bodies;
}

/// One try after another to set exactly `target` pieces of kind 0.
class Settling {
 public:
  Settling(const std::vector<Kind>& kinds, const Scene& scene, std::uint64_t seed)
      : kinds_{&kinds},
        bodies_{bodies_of(kinds)},
        hopper_{kinds, scene, seed},
        body_hopper_{bodies_, scene, seed + 77} {}
  Settling(const Settling&) = delete;
  Settling& operator=(const Settling&) = delete;

  bool settle(const std::vector<Pose>& known, int target, std::uint64_t steps,
              const Budget& budget);
  std::vector<Pose> poses() const { return hopper_.relaxer.poses(); }
  std::uint64_t work() const { return hopper_.relaxer.work() + body_hopper_.relaxer.work(); }

 private:
  void begin(const std::vector<Pose>& known, int target, int attempt);
  bool begin_with_bodies(int target, std::uint64_t end);
  bool has_handles() const { return (*kinds_)[0].free && bodies_[0].round; }

  const std::vector<Kind>* kinds_;
  std::vector<Kind> bodies_;
  Hopper hopper_;
  Hopper body_hopper_;
};

/// The bodies alone are settled from anywhere, then the handles turned to where there is room.
/// @return false when not even the bodies came near to settling
bool Settling::begin_with_bodies(int target, std::uint64_t end) {
  constexpr double kNear = 5;  // mm²
  std::vector<Pose> poses;
  for (int i = 0; i < target; ++i) poses.push_back(body_hopper_.random_pose(0));
  body_hopper_.relaxer.set(poses);
  const double e = body_hopper_.relaxer.relax(300, kSettled);
  const std::uint64_t others = hopper_.relaxer.work();
  if (body_hopper_.settle(e, 20, end - std::min(end, others)) > kNear) return false;
  poses = body_hopper_.relaxer.poses();
  for (Pose& pose : poses) pose.turn = hopper_.random.uniform(0, 2 * kPi);
  hopper_.relaxer.set(poses);
  hopper_.turn_each(2);
  return true;
}

void Settling::begin(const std::vector<Pose>& known, int target, int attempt) {
  std::vector<Pose> poses;
  if (attempt % 3 != 2) poses = known;
  if (attempt >= 3) {  // shaken loose
    const double reach = (*kinds_)[0].reach;
    for (Pose& pose : poses) {
      pose.x += hopper_.random.uniform(-0.5, 0.5) * reach;
      pose.y += hopper_.random.uniform(-0.5, 0.5) * reach;
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
  const int patience = has_handles() ? 10 + target / 3 : 20 + target;
  for (int attempt = 0; work() < end && !budget.stopped(); ++attempt) {
    if (has_handles() && attempt % 16 != 0) {
      if (!begin_with_bodies(target, end)) continue;
    } else {
      begin(known, target, attempt);
    }
    const double e = hopper_.relaxer.relax(300, kSettled);
    const std::uint64_t others = body_hopper_.relaxer.work();
    if (hopper_.settle(e, patience, end - std::min(end, others)) <= kSettled) return true;
  }
  return false;
}

}  // namespace

std::vector<Pose> more_pieces(const std::vector<Kind>& kinds, const Scene& scene,
                              std::vector<Pose> seed, int known_most, const Budget& budget) {
  Settling first{kinds, scene, 2 * budget.seed + 1};
  auto second = std::make_unique<Settling>(kinds, scene, 2 * budget.seed + 2);
  std::uint64_t spent = 0;
  while (static_cast<int>(seed.size()) < known_most && spent < budget.steps && !budget.stopped()) {
    const int target = static_cast<int>(seed.size()) + 1;
    const std::uint64_t half = (budget.steps - spent) / 2;
    const std::uint64_t before_first = first.work();
    const std::uint64_t before_second = second->work();
    std::atomic<bool> first_has_it{false};
    bool second_has_it = false;
    Budget second_budget = budget;
    second_budget.stop = [&] { return first_has_it.load() || budget.stopped(); };
    both(
        budget.threads, [&] { first_has_it = first.settle(seed, target, half, budget); },
        [&] { second_has_it = second->settle(seed, target, half, second_budget); });
    spent += first.work() - before_first;
    if (first_has_it) {  // whatever the second did does not count
      seed = first.poses();
      second = std::make_unique<Settling>(kinds, scene, 2 * budget.seed + 7919 * seed.size());
      continue;
    }
    spent += second->work() - before_second;
    if (!second_has_it) break;
    seed = second->poses();
  }
  return seed;
}

}  // namespace placer::packing
