#include "packing/many.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "packing/mixed.h"

namespace placer::packing {

namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

class Spreading {
 public:
  Spreading(std::vector<Kind> kinds, const std::vector<Scene>& scenes, const Budget& budget);
  void fill();
  void concentrate();
  std::vector<std::vector<Pose>> take() { return std::move(regions_); }

 private:
  const Scene& scene(std::size_t region) const {
    return (*scenes_)[std::min(region, scenes_->size() - 1)];
  }
  std::uint64_t fair_share() const;
  std::vector<Pose> fill_one(std::size_t region, std::uint64_t steps);
  bool work_over(std::size_t region, std::vector<int>& pool, std::uint64_t steps);
  std::uint64_t next_seed() { return budget_.seed * 1'000'003 + ++seeds_; }

  std::vector<Kind> kinds_;
  const std::vector<Scene>* scenes_;
  Budget budget_;
  std::uint64_t spent_ = 0;
  std::uint64_t seeds_ = 0;
  std::vector<int> left_;
  std::vector<std::vector<Pose>> regions_;
};

/// Larger pieces are worth more than their room: they are the harder ones to find a place for.
Spreading::Spreading(std::vector<Kind> kinds, const std::vector<Scene>& scenes,
                     const Budget& budget)
    : kinds_{std::move(kinds)}, scenes_{&scenes}, budget_{budget} {
  for (Kind& kind : kinds_) {
    left_.push_back(kind.count);
    const double room = room_of(kind, scenes[0].gap);
    kind.value = room * std::sqrt(std::sqrt(std::sqrt(room)));
  }
}

/// Of the steps for filling, what one region may use: by the room it has of the room still needed.
std::uint64_t Spreading::fair_share() const {
  double need = 0;
  for (std::size_t k = 0; k < kinds_.size(); ++k) {
    need += left_[k] * room_of(kinds_[k], (*scenes_)[0].gap);
  }
  const double part = std::min(1.0, scene(regions_.size()).area / std::max(need, 1.0));
  const auto whole = static_cast<double>(budget_.steps) * 0.6 - static_cast<double>(spent_);
  return static_cast<std::uint64_t>(std::max(0.0, whole * part * 0.85));
}

std::vector<Pose> Spreading::fill_one(std::size_t region, std::uint64_t steps) {
  Mixing mixing{kinds_, scene(region), next_seed()};
  mixing.start({}, left_);
  mixing.fill(std::max<std::uint64_t>(steps, 1'000'000));
  mixing.improve(steps, budget_);
  spent_ += mixing.work();
  return mixing.best();
}

void Spreading::fill() {
  while (std::any_of(left_.begin(), left_.end(), [](int n) { return n > 0; })) {
    const std::size_t region = regions_.size();
    std::vector<Pose> poses = fill_one(region, fair_share());
    if (poses.empty() && region + 1 >= scenes_->size()) return;  // the rest fits nowhere
    for (const Pose& pose : poses) --left_[at(pose.kind)];
    regions_.push_back(std::move(poses));
  }
}

/// Exchanges between one region and the pool. @return true when the pool has shrunk to nothing
bool Spreading::work_over(std::size_t region, std::vector<int>& pool, std::uint64_t steps) {
  Mixing mixing{kinds_, scene(region), next_seed()};
  mixing.start(regions_[region], pool);
  mixing.fill(steps);
  mixing.improve(steps, budget_);
  spent_ += mixing.work();
  for (const Pose& pose : regions_[region]) ++pool[at(pose.kind)];
  regions_[region] = mixing.best();
  for (const Pose& pose : regions_[region]) --pool[at(pose.kind)];
  return std::all_of(pool.begin(), pool.end(), [](int n) { return n == 0; });
}

/// The last region's pieces are offered to all the others, again and again.
void Spreading::concentrate() {
  while (regions_.size() > 1 && spent_ < budget_.steps && !budget_.stopped()) {
    std::vector<int> pool(kinds_.size());
    for (const Pose& pose : regions_.back()) ++pool[at(pose.kind)];
    const std::vector<std::vector<Pose>> before = regions_;
    const std::size_t others = regions_.size() - 1;
    const std::uint64_t steps =
        std::max<std::uint64_t>((budget_.steps - spent_) / (3 * others), 2'000'000);
    bool emptied = false;
    for (std::size_t r = others; r-- > 0 && spent_ < budget_.steps && !emptied;) {
      emptied = work_over(r, pool, steps);
    }
    if (emptied) {
      regions_.pop_back();
      continue;
    }
    // What is left over must stand on the last region again.
    left_ = pool;
    std::vector<Pose> last = fill_one(others, steps);
    for (const Pose& pose : last) --pool[at(pose.kind)];
    if (std::any_of(pool.begin(), pool.end(), [](int n) { return n > 0; })) {
      regions_ = before;
    } else {
      regions_.back() = std::move(last);
    }
  }
}

}  // namespace

std::vector<std::vector<Pose>> over_regions(std::vector<Kind> kinds,
                                            const std::vector<Scene>& scenes,
                                            const Budget& budget) {
  Spreading spreading{std::move(kinds), scenes, budget};
  spreading.fill();
  spreading.concentrate();
  return spreading.take();
}

}  // namespace placer::packing
