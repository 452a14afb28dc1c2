#include "packing/equal.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <memory>

#include "packing/hop.h"

namespace placer::packing {

namespace {

constexpr double kRowRise = 0.86602540378443864676;  // sqrt(3) / 2
constexpr int kCrowd = 100;                          // pieces: lattices beat chance from here

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
        scene_{&scene},
        hopper_{kinds, scene, seed},
        body_hopper_{bodies_, scene, seed + 77} {}
  Settling(const Settling&) = delete;
  Settling& operator=(const Settling&) = delete;

  bool settle(const std::vector<Pose>& known, int target, std::uint64_t steps,
              const Budget& budget);
  std::vector<Pose> poses() const { return hopper_.relaxer.poses(); }
  std::uint64_t work() const { return hopper_.relaxer.work() + body_hopper_.relaxer.work(); }

 private:
  std::vector<Pose> any_lattice(double stretch);
  bool nearly_inside(Point p, double radius) const;
  void begin(const std::vector<Pose>& known, int target, int attempt);
  bool begin_with_bodies(int target, std::uint64_t end);
  bool has_handles() const { return (*kinds_)[0].free && bodies_[0].round; }

  const std::vector<Kind>* kinds_;
  std::vector<Kind> bodies_;
  const Scene* scene_;
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

/// Hexagonal rows at any angle and offset, drawn out or pressed together by up to `stretch`, the
/// rim a little over the edge: the fullest of a few.
std::vector<Pose> Settling::any_lattice(double stretch) {
  const Kind& kind = (*kinds_)[0];
  const double pitch = 2 * (kind.reach + kind.halo) + scene_->gap;
  const Point wide = scene_->high - scene_->low;
  const Point middle = 0.5 * (scene_->low + scene_->high);
  const int half = static_cast<int>(std::sqrt(dot(wide, wide)) / pitch) + 1;
  std::vector<Pose> best;
  const int tries = stretch > 0 ? 3 : 16;
  for (int k = 0; k < tries; ++k) {
    const bool straight = hopper_.random.uniform() < 0.6;
    const Turn turn = turn_of(straight ? (hopper_.random.uniform() < 0.5 ? 0 : kPi / 2)
                                       : hopper_.random.uniform(0, kPi / 3));
    const double along = pitch * hopper_.random.uniform(1 - stretch, 1 + stretch);
    const double rise = pitch * kRowRise * hopper_.random.uniform(1 - stretch, 1 + stretch);
    const Point origin{hopper_.random.uniform(0, pitch), hopper_.random.uniform(0, pitch)};
    std::vector<Pose> poses;
    for (int j = -half; j <= half; ++j) {
      for (int i = -half; i <= half; ++i) {
        const double lean = j % 2 == 0 ? 0 : along / 2;
        const Point p = middle + turn(origin + Point{i * along + lean, j * rise});
        if (nearly_inside(p, 0.9 * kind.reach)) poses.push_back({0, p.x, p.y, 0});
      }
    }
    if (poses.size() > best.size()) best = std::move(poses);
  }
  hopper_.relaxer.add_work(static_cast<std::uint64_t>(tries * 10 * half * half));
  return best;
}

bool Settling::nearly_inside(Point p, double radius) const {
  for (const Wall& wall : scene_->walls) {
    if (dot(wall.n, p) + radius > wall.b) return false;
  }
  const Point v = p - scene_->centre;
  return !scene_->round || std::sqrt(dot(v, v)) + radius <= scene_->radius;
}

/// From what is known first, then by turns from anywhere, from some lattice and from what is known,
/// shaken loose.
void Settling::begin(const std::vector<Pose>& known, int target, int attempt) {
  std::vector<Pose> poses;
  if (attempt == 0) {
    poses = known;
  } else if (bodies_[0].round && (target > kCrowd || attempt % 3 == 2)) {
    poses = any_lattice(target > kCrowd ? 0 : 0.06);
    while (static_cast<int>(poses.size()) > target) {
      poses[hopper_.random.below(poses.size())] = poses.back();
      poses.pop_back();
    }
    if ((*kinds_)[0].free) {
      for (Pose& pose : poses) pose.turn = hopper_.random.uniform(0, 2 * kPi);
    }
  } else if (attempt % 3 == 0) {
    const double loose = 0.5 * (*kinds_)[0].reach;
    poses = known;
    for (Pose& pose : poses) {
      pose.x += hopper_.random.uniform(-loose, loose);
      pose.y += hopper_.random.uniform(-loose, loose);
    }
  } else {
    for (int i = 0; i < target; ++i) poses.push_back(hopper_.random_pose(0));
  }
  hopper_.relaxer.set(poses);
  while (hopper_.relaxer.size() < target) hopper_.insert(0);
}

bool Settling::settle(const std::vector<Pose>& known, int target, std::uint64_t steps,
                      const Budget& budget) {
  const std::uint64_t end = work() + steps;
  const int patience = 10 + target * 2 / 5;
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
