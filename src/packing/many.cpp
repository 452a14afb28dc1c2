#include "packing/many.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "packing/boxes.h"
#include "packing/columns.h"
#include "packing/mixed.h"

namespace placer::packing {

namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

class Spreading {
 public:
  Spreading(std::vector<Kind> kinds, const std::vector<Scene>& scenes, const Budget& budget);
  void fill();
  void concentrate();
  void start(std::vector<std::vector<Pose>> regions) { regions_ = std::move(regions); }
  std::size_t regions() const { return regions_.size(); }
  std::vector<std::vector<Pose>> take() { return std::move(regions_); }

 private:
  const Scene& scene(std::size_t region) const {
    return (*scenes_)[std::min(region, scenes_->size() - 1)];
  }
  std::uint64_t fair_share() const;
  double regions_needed() const;
  std::vector<Pose> fill_one(std::size_t region, const std::vector<int>& supply, std::uint64_t seed,
                             std::uint64_t steps, std::uint64_t& spent) const;
  std::vector<Pose> boxes_from(std::size_t region, const std::vector<int>& supply,
                               std::uint64_t seed, std::uint64_t steps, std::uint64_t& spent) const;
  void work_over(std::size_t first, std::vector<int>& pool, std::uint64_t seed, std::uint64_t steps,
                 std::uint64_t& spent);
  std::uint64_t next_seed() { return budget_.seed * 1'000'003 + ++seeds_; }

  std::vector<Kind> kinds_;
  const std::vector<Scene>* scenes_;
  Budget budget_;
  std::uint64_t spent_ = 0;
  std::uint64_t seeds_ = 0;
  bool boxes_ = false;  ///< all are rectangles that may lie square
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
  boxes_ = all_boxes(kinds_);
}

double Spreading::regions_needed() const {
  double need = 0;
  for (std::size_t k = 0; k < kinds_.size(); ++k) {
    need += left_[k] * room_of(kinds_[k], (*scenes_)[0].gap);
  }
  return need / std::max(scene(regions_.size()).area, 1.0);
}

/// Of the steps for filling, what one region may use: by the room it has of the room still needed.
std::uint64_t Spreading::fair_share() const {
  const double part = std::min(1.0, 1 / std::max(regions_needed(), 0.01));
  const auto whole = static_cast<double>(budget_.steps) * 0.6 - static_cast<double>(spent_);
  return static_cast<std::uint64_t>(std::max(0.0, whole * part * 0.85));
}

std::vector<Pose> Spreading::fill_one(std::size_t region, const std::vector<int>& supply,
                                      std::uint64_t seed, std::uint64_t steps,
                                      std::uint64_t& spent) const {
  std::vector<Pose> start;
  std::vector<int> left = supply;
  std::uint64_t on_boxes = 0;
  if (boxes_) start = boxes_from(region, supply, seed, steps, on_boxes);
  for (const Pose& pose : start) --left[at(pose.kind)];
  const std::uint64_t end = boxes_ ? steps / 10 : steps;
  Mixing mixing{kinds_, scene(region), seed};
  mixing.start(start, left);
  mixing.fill(std::max<std::uint64_t>(end, 1'000'000));
  mixing.improve(end, budget_);
  spent = mixing.work() + on_boxes;
  return mixing.best();
}

/// The most valuable rectangles of the supply that lie square.
std::vector<Pose> Spreading::boxes_from(std::size_t region, const std::vector<int>& supply,
                                        std::uint64_t seed, std::uint64_t steps,
                                        std::uint64_t& spent) const {
  std::vector<Kind> kinds = kinds_;
  for (std::size_t k = 0; k < kinds.size(); ++k) kinds[k].count = supply[k];
  Budget budget = budget_;
  budget.steps = steps;
  budget.seed = seed;
  return most_boxes(kinds, scene(region), budget, spent);
}

bool none(const std::vector<int>& supply) {
  return std::all_of(supply.begin(), supply.end(), [](int n) { return n == 0; });
}

/// Every kind dealt out in two; odd ones go to each side by turns.
std::vector<int> dealt(const std::vector<int>& supply, int side) {
  std::vector<int> part;
  int turn = side;
  for (const int n : supply) {
    part.push_back(n / 2 + (n % 2 == 1 && turn % 2 == 0 ? 1 : 0));
    if (n % 2 == 1) ++turn;
  }
  return part;
}

/// Two regions at a time, each from half of what is left, while there is plenty.
void Spreading::fill() {
  while (!none(left_)) {
    const std::size_t region = regions_.size();
    const std::uint64_t steps = fair_share();
    const std::uint64_t seeds[2] = {next_seed(), next_seed()};
    std::vector<Pose> poses[2];
    std::uint64_t spent[2] = {0, 0};
    if (regions_needed() > 3) {
      both(
          budget_.threads,
          [&] { poses[0] = fill_one(region, dealt(left_, 0), seeds[0], steps, spent[0]); },
          [&] { poses[1] = fill_one(region + 1, dealt(left_, 1), seeds[1], steps, spent[1]); });
    } else {
      poses[0] = fill_one(region, left_, seeds[0], steps, spent[0]);
    }
    spent_ += spent[0] + spent[1];
    if (poses[0].empty() && poses[1].empty() && region + 1 >= scenes_->size()) return;
    for (std::vector<Pose>& found : poses) {
      if (&found == &poses[1] && found.empty()) continue;
      for (const Pose& pose : found) --left_[at(pose.kind)];
      regions_.push_back(std::move(found));
    }
  }
}

/// Exchanges between every second region, from `first` down, and one half of the pool.
void Spreading::work_over(std::size_t first, std::vector<int>& pool, std::uint64_t seed,
                          std::uint64_t steps, std::uint64_t& spent) {
  for (std::size_t r = first; r < regions_.size() && !none(pool); r -= 2) {
    std::vector<Pose> start = regions_[r];
    for (const Pose& pose : start) ++pool[at(pose.kind)];
    if (boxes_) {
      std::vector<Pose> found = boxes_from(r, pool, seed + r, steps, spent);
      if (value_of(kinds_, found) > value_of(kinds_, start)) start = std::move(found);
    }
    for (const Pose& pose : start) --pool[at(pose.kind)];
    const std::uint64_t end = boxes_ ? steps / 10 : steps;
    Mixing mixing{kinds_, scene(r), seed + r};
    mixing.start(start, pool);
    mixing.fill(end);
    mixing.improve(end, budget_);
    spent += mixing.work();
    for (const Pose& pose : start) ++pool[at(pose.kind)];
    regions_[r] = mixing.best();
    for (const Pose& pose : regions_[r]) --pool[at(pose.kind)];
    if (r < 2 || budget_.stopped()) break;
  }
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
    std::vector<int> halves[2] = {dealt(pool, 0), dealt(pool, 1)};
    if (others == 1) halves[0] = pool;
    const std::uint64_t seeds[2] = {next_seed(), next_seed()};
    std::uint64_t spent[2] = {0, 0};
    both(
        budget_.threads, [&] { work_over(others - 1, halves[0], seeds[0], steps, spent[0]); },
        [&] {
          if (others > 1) work_over(others - 2, halves[1], seeds[1], steps, spent[1]);
        });
    spent_ += spent[0] + spent[1] + 1;
    pool = halves[0];
    if (others > 1) {
      for (std::size_t k = 0; k < pool.size(); ++k) pool[k] += halves[1][k];
    }
    if (none(pool)) {
      regions_.pop_back();
      continue;
    }
    // What is left over must stand on the last region again.
    std::uint64_t again = 0;
    std::vector<Pose> last = fill_one(others, pool, next_seed(), steps, again);
    spent_ += again;
    for (const Pose& pose : last) --pool[at(pose.kind)];
    if (none(pool)) {
      regions_.back() = std::move(last);
    } else {
      regions_ = before;
    }
  }
}

using Regions = std::vector<std::vector<Pose>>;

Regions afresh(const std::vector<Kind>& kinds, const std::vector<Scene>& scenes,
               const Budget& budget) {
  Spreading spreading{kinds, scenes, budget};
  spreading.fill();
  if (scenes.size() > 1 || !suits_patterns(kinds, spreading.regions())) spreading.concentrate();
  return spreading.take();
}

Regions concentrated(const std::vector<Kind>& kinds, const std::vector<Scene>& scenes,
                     Regions regions, const Budget& budget) {
  Spreading spreading{kinds, scenes, budget};
  spreading.start(std::move(regions));
  spreading.concentrate();
  return spreading.take();
}

std::size_t pieces_on(const Regions& regions) {
  std::size_t pieces = 0;
  for (const std::vector<Pose>& poses : regions) pieces += poses.size();
  return pieces;
}

/// More pieces, then fewer regions, then fewer on the last.
bool better(const Regions& a, const Regions& b) {
  if (pieces_on(a) != pieces_on(b)) return pieces_on(a) > pieces_on(b);
  if (a.size() != b.size()) return a.size() < b.size();
  return !a.empty() && a.back().size() < b.back().size();
}

/// What more steps make of a known answer (and of the patterns of `library`): patterns if they
/// suit, else another start, and then the last region offered to the others again.
Regions improved(const std::vector<Kind>& kinds, const std::vector<Scene>& scenes,
                 const Regions& known, Regions& library, const Budget& budget) {
  Budget part = budget;
  Regions best = known;
  if (scenes.size() == 1 && suits_patterns(kinds, known.size())) {
    part.steps = budget.steps * 7 / 10;
    best = by_patterns(kinds, scenes[0], known, library, part);
  } else {
    part.steps = budget.steps * 6 / 10;
    Regions other = afresh(kinds, scenes, part);
    if (better(other, best)) best = std::move(other);
  }
  part.steps = budget.steps - part.steps;
  Regions other = concentrated(kinds, scenes, best, part);
  return better(other, best) ? other : best;
}

}  // namespace

// Each stage goes on from what a search with less effort finds, so that more is never worse.
std::vector<std::vector<Pose>> over_regions(std::vector<Kind> kinds,
                                            const std::vector<Scene>& scenes,
                                            const Budget& budget) {
  Budget stage = budget;
  std::uint64_t before = 0;
  Regions best;
  Regions library;
  for (const std::uint64_t steps : budget.stages()) {
    stage.steps = steps - before;
    if (before == 0) {
      best = afresh(kinds, scenes, stage);
      stage.steps = scenes.size() == 1 && suits_patterns(kinds, best.size()) ? steps * 4 / 10 : 0;
    }
    if (stage.steps > 0) best = improved(kinds, scenes, best, library, stage);
    before = steps;
    stage.seed += 1'000'003;
  }
  return best;
}

}  // namespace placer::packing
