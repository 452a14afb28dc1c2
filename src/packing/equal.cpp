#include "packing/equal.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <memory>

#include "packing/disc_hop.h"
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

std::vector<Point> middles_of(const std::vector<Pose>& poses) {
  std::vector<Point> middles;
  for (const Pose& pose : poses) middles.push_back({pose.x, pose.y});
  return middles;
}

std::vector<Pose> poses_at(const std::vector<Point>& middles) {
  std::vector<Pose> poses;
  for (const Point p : middles) poses.push_back({0, p.x, p.y, 0});
  return poses;
}

/// Hexagonal rows of discs to start from.
class Lattices {
 public:
  Lattices(const Kind& body, const Scene& scene) : body_{&body}, scene_{&scene} {}
  /// At any angle and offset, drawn out or pressed together by up to `stretch`, the rim a little
  /// over the edge: the fullest of a few.
  std::vector<Point> any(double stretch, Random& random) const;
  std::uint64_t cost() const;

 private:
  bool nearly_inside(Point p, double radius) const;
  double pitch() const { return 2 * (body_->reach + body_->halo) + scene_->gap; }
  int half() const;

  const Kind* body_;
  const Scene* scene_;
};

int Lattices::half() const {
  const Point wide = scene_->high - scene_->low;
  return static_cast<int>(std::sqrt(dot(wide, wide)) / pitch()) + 1;
}

std::uint64_t Lattices::cost() const { return static_cast<std::uint64_t>(100 * half() * half()); }

std::vector<Point> Lattices::any(double stretch, Random& random) const {
  const Point middle = 0.5 * (scene_->low + scene_->high);
  std::vector<Point> best;
  const int tries = stretch > 0 ? 3 : 16;
  for (int k = 0; k < tries; ++k) {
    const bool straight = random.uniform() < 0.6;
    const Turn turn =
        turn_of(straight ? (random.uniform() < 0.5 ? 0 : kPi / 2) : random.uniform(0, kPi / 3));
    const double along = pitch() * random.uniform(1 - stretch, 1 + stretch);
    const double rise = pitch() * kRowRise * random.uniform(1 - stretch, 1 + stretch);
    const Point origin{random.uniform(0, pitch()), random.uniform(0, pitch())};
    std::vector<Point> points;
    for (int j = -half(); j <= half(); ++j) {
      for (int i = -half(); i <= half(); ++i) {
        const double lean = j % 2 == 0 ? 0 : along / 2;
        const Point p = middle + turn(origin + Point{i * along + lean, j * rise});
        if (nearly_inside(p, 0.9 * body_->reach)) points.push_back(p);
      }
    }
    if (points.size() > best.size()) best = std::move(points);
  }
  return best;
}

bool Lattices::nearly_inside(Point p, double radius) const {
  for (const Wall& wall : scene_->walls) {
    if (dot(wall.n, p) + radius > wall.b) return false;
  }
  const Point v = p - scene_->centre;
  return !scene_->round || std::sqrt(dot(v, v)) + radius <= scene_->radius;
}

/// Taken out by chance until no more than `most` are left.
template <class Some>
void thin_out(std::vector<Some>& all, int most, Random& random) {
  while (static_cast<int>(all.size()) > most) {
    all[random.below(all.size())] = all.back();
    all.pop_back();
  }
}

void shake(std::vector<Pose>& poses, double loose, Random& random) {
  for (Pose& pose : poses) {
    pose.x += random.uniform(-loose, loose);
    pose.y += random.uniform(-loose, loose);
  }
}

/// One try after another to set exactly `target` pieces of kind 0.
class Settling {
 public:
  Settling(const std::vector<Kind>& kinds, const Scene& scene, std::uint64_t seed)
      : kinds_{&kinds},
        bodies_{bodies_of(kinds)},
        lattices_{bodies_[0], scene},
        hopper_{kinds, scene, seed} {
    if (has_handles()) body_hopper_ = std::make_unique<DiscHopper>(bodies_[0], scene, seed + 77);
  }
  Settling(const Settling&) = delete;
  Settling& operator=(const Settling&) = delete;

  bool settle(const std::vector<Pose>& known, int target, std::uint64_t steps,
              const Budget& budget);
  std::vector<Pose> poses() const { return hopper_.relaxer.poses(); }
  std::uint64_t work() const { return hopper_.relaxer.work() + body_work(); }

 private:
  void begin(const std::vector<Pose>& known, int target, int attempt);
  bool begin_with_bodies(int target, std::uint64_t end);
  bool has_handles() const { return (*kinds_)[0].free && bodies_[0].round; }
  std::uint64_t body_work() const { return body_hopper_ ? body_hopper_->discs.work() : 0; }

  const std::vector<Kind>* kinds_;
  std::vector<Kind> bodies_;
  Lattices lattices_;
  Hopper hopper_;
  std::unique_ptr<DiscHopper> body_hopper_;
};

/// The bodies alone are settled from anywhere, then the handles turned to where there is room.
/// @return false when not even the bodies came near to settling
bool Settling::begin_with_bodies(int target, std::uint64_t end) {
  constexpr double kNear = 5;  // mm²
  std::vector<Point> middles;
  for (int i = 0; i < target; ++i) middles.push_back(body_hopper_->anywhere());
  const double e = body_hopper_->begin(middles, target);
  const std::uint64_t others = hopper_.relaxer.work();
  if (body_hopper_->settle(e, 20, end - std::min(end, others)) > kNear) return false;
  std::vector<Pose> poses = poses_at(body_hopper_->discs.middles());
  for (Pose& pose : poses) pose.turn = hopper_.random.uniform(0, 2 * kPi);
  hopper_.relaxer.set(poses);
  hopper_.turn_each(2);
  return true;
}

/// From what is known first, then by turns from anywhere, from some lattice and from what is known,
/// shaken loose.
void Settling::begin(const std::vector<Pose>& known, int target, int attempt) {
  std::vector<Pose> poses;
  if (attempt == 0) {
    poses = known;
  } else if (bodies_[0].round && (target > kCrowd || attempt % 3 == 2)) {
    poses = poses_at(lattices_.any(target > kCrowd ? 0 : 0.06, hopper_.random));
    hopper_.relaxer.add_work(lattices_.cost());
    thin_out(poses, target, hopper_.random);
    if ((*kinds_)[0].free) {
      for (Pose& pose : poses) pose.turn = hopper_.random.uniform(0, 2 * kPi);
    }
  } else if (attempt % 3 == 0) {
    poses = known;
    shake(poses, 0.5 * (*kinds_)[0].reach, hopper_.random);
  } else {
    for (int i = 0; i < target; ++i) poses.push_back(hopper_.random_pose(0));
  }
  hopper_.relaxer.set(poses);
  while (hopper_.relaxer.size() < target) hopper_.insert(0);
}

int patience_for(int target) { return 10 + target * 2 / 5; }

bool Settling::settle(const std::vector<Pose>& known, int target, std::uint64_t steps,
                      const Budget& budget) {
  const std::uint64_t end = work() + steps;
  for (int attempt = 0; work() < end && !budget.stopped(); ++attempt) {
    if (has_handles() && attempt % 16 != 0) {
      if (!begin_with_bodies(target, end)) continue;
    } else {
      begin(known, target, attempt);
    }
    const double e = hopper_.relaxer.relax(300, kSettled);
    const std::uint64_t mine = end - std::min(end, body_work());
    if (hopper_.settle(e, patience_for(target), mine) <= kSettled) return true;
  }
  return false;
}

/// The same for discs.
class DiscSettling {
 public:
  DiscSettling(const std::vector<Kind>& kinds, const Scene& scene, std::uint64_t seed)
      : kind_{&kinds[0]}, lattices_{kinds[0], scene}, hopper_{kinds[0], scene, seed} {}

  bool settle(const std::vector<Pose>& known, int target, std::uint64_t steps,
              const Budget& budget);
  std::vector<Pose> poses() const { return poses_at(hopper_.discs.middles()); }
  std::uint64_t work() const { return hopper_.discs.work(); }

 private:
  std::vector<Point> begin(const std::vector<Pose>& known, int target, int attempt);

  const Kind* kind_;
  Lattices lattices_;
  DiscHopper hopper_;
};

std::vector<Point> DiscSettling::begin(const std::vector<Pose>& known, int target, int attempt) {
  if (attempt == 0) return middles_of(known);
  if (target > kCrowd || attempt % 3 == 2) {
    std::vector<Point> middles = lattices_.any(target > kCrowd ? 0 : 0.06, hopper_.random);
    hopper_.discs.add_work(lattices_.cost());
    thin_out(middles, target, hopper_.random);
    return middles;
  }
  if (attempt % 3 == 0) {
    std::vector<Pose> shaken = known;
    shake(shaken, 0.5 * kind_->reach, hopper_.random);
    return middles_of(shaken);
  }
  std::vector<Point> middles;
  for (int i = 0; i < target; ++i) middles.push_back(hopper_.anywhere());
  return middles;
}

bool DiscSettling::settle(const std::vector<Pose>& known, int target, std::uint64_t steps,
                          const Budget& budget) {
  const std::uint64_t end = work() + steps;
  for (int attempt = 0; work() < end && !budget.stopped(); ++attempt) {
    const double e = hopper_.begin(begin(known, target, attempt), target);
    if (hopper_.settle(e, patience_for(target), end) <= kSettled) return true;
  }
  return false;
}

/// One piece more at a time, by two that try at once.
template <class Trying>
std::vector<Pose> one_by_one(const std::vector<Kind>& kinds, const Scene& scene,
                             std::vector<Pose> seed, int known_most, const Budget& budget) {
  Trying first{kinds, scene, 2 * budget.seed + 1};
  auto second = std::make_unique<Trying>(kinds, scene, 2 * budget.seed + 2);
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
      second = std::make_unique<Trying>(kinds, scene, 2 * budget.seed + 7919 * seed.size());
      continue;
    }
    spent += second->work() - before_second;
    if (!second_has_it) break;
    seed = second->poses();
  }
  return seed;
}

}  // namespace

// Each stage is what a search with less effort does, so that more effort never finds fewer.
std::vector<Pose> more_pieces(const std::vector<Kind>& kinds, const Scene& scene,
                              std::vector<Pose> seed, int known_most, const Budget& budget) {
  Budget stage = budget;
  std::uint64_t before = 0;
  for (const std::uint64_t steps : budget.stages()) {
    stage.steps = steps - before;
    before = steps;
    if (static_cast<int>(seed.size()) >= known_most) break;
    seed = kinds[0].round
               ? one_by_one<DiscSettling>(kinds, scene, std::move(seed), known_most, stage)
               : one_by_one<Settling>(kinds, scene, std::move(seed), known_most, stage);
    stage.seed += 1'000'003;
  }
  return seed;
}

}  // namespace placer::packing
