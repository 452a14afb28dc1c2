#include "packing/columns.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "packing/boxes.h"
#include "packing/equal.h"
#include "packing/mixed.h"
#include "packing/shares.h"

namespace placer::packing {

namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

std::vector<int> counts_of(const std::vector<Pose>& poses, std::size_t kinds) {
  std::vector<int> counts(kinds);
  for (const Pose& pose : poses) ++counts[at(pose.kind)];
  return counts;
}

class Patterns {
 public:
  Patterns(const std::vector<Kind>& kinds, const Scene& scene,
           const std::vector<std::vector<Pose>>& known, std::vector<std::vector<Pose>>& library);
  void search(const Budget& budget);
  /// Whole regions for all of the supply, what is too much left out.
  std::vector<std::vector<Pose>> regions() const;

 private:
  void add(const std::vector<Pose>& poses);
  std::size_t best_worth() const;
  double worth_of(const std::vector<int>& counts) const;
  bool find_one(const Budget& budget);
  std::vector<Pose> more_worth(const std::vector<Kind>& priced, const std::vector<Pose>& seed,
                               const Budget& budget) const;

  const std::vector<Kind>* kinds_;
  const Scene* scene_;
  std::vector<std::vector<Pose>>* library_;
  std::vector<int> asked_;
  std::vector<std::vector<Pose>> poses_;
  std::vector<std::vector<int>> counts_;
  Shares shares_;
};

Patterns::Patterns(const std::vector<Kind>& kinds, const Scene& scene,
                   const std::vector<std::vector<Pose>>& known,
                   std::vector<std::vector<Pose>>& library)
    : kinds_{&kinds}, scene_{&scene}, library_{&library}, asked_(kinds.size()) {
  for (const std::vector<Pose>& poses : known) {
    add(poses);
    for (std::size_t k = 0; k < asked_.size(); ++k) asked_[k] += counts_.back()[k];
  }
  for (const std::vector<Pose>& poses : library) add(poses);
  shares_ = shares_of(counts_, asked_);
}

void Patterns::add(const std::vector<Pose>& poses) {
  poses_.push_back(poses);
  counts_.push_back(counts_of(poses, kinds_->size()));
}

double Patterns::worth_of(const std::vector<int>& counts) const {
  double worth = 0;
  for (std::size_t k = 0; k < counts.size(); ++k) worth += counts[k] * shares_.worth[k];
  return worth;
}

/// Of the patterns in use the most used.
std::size_t Patterns::best_worth() const {
  return static_cast<std::size_t>(std::max_element(shares_.uses.begin(), shares_.uses.end()) -
                                  shares_.uses.begin());
}

std::vector<Pose> Patterns::more_worth(const std::vector<Kind>& priced,
                                       const std::vector<Pose>& seed, const Budget& budget) const {
  if (all_boxes(priced)) {
    std::uint64_t spent = 0;
    return most_boxes(priced, *scene_, budget, spent);
  }
  if (priced.size() == 1) return more_pieces(priced, *scene_, seed, asked_[0], budget);
  return more_value(priced, *scene_, seed, budget);
}

/// @return whether a pattern worth more than 1 was found
bool Patterns::find_one(const Budget& budget) {
  std::vector<Kind> priced = *kinds_;
  for (std::size_t k = 0; k < priced.size(); ++k) {
    priced[k].value = std::max(shares_.worth[k], 1e-6);
    priced[k].count = asked_[k];
  }
  const std::vector<Pose>& seed = poses_[best_worth()];
  const std::vector<Pose> found = more_worth(priced, seed, budget);
  const std::vector<int> counts = counts_of(found, priced.size());
  if (worth_of(counts) < 1 + 1e-6) return false;
  add(found);
  library_->push_back(found);
  shares_ = shares_of(counts_, asked_);
  return true;
}

/// Short searches first; longer ones when those find nothing.
void Patterns::search(const Budget& budget) {
  Budget one = budget;
  one.lesser.clear();
  one.steps = std::min(kQuickSteps / 2, budget.steps / 12);
  std::uint64_t spent = 0;
  int failures = 0;
  while (spent + one.steps <= budget.steps && one.steps > 0 && !budget.stopped()) {
    one.seed += 7919;
    failures = find_one(one) ? 0 : failures + 1;
    spent += one.steps;
    if (failures < 4) continue;
    failures = 0;
    one.steps = std::min(2 * one.steps, budget.steps / 8);
  }
}

/// Every pattern as often as it goes in whole; what is left is shared out again; when no pattern
/// goes in whole, the most used is taken once.
std::vector<std::vector<Pose>> Patterns::regions() const {
  std::vector<std::vector<Pose>> all;
  std::vector<int> left = asked_;
  const auto take = [&](std::size_t p) {
    std::vector<Pose> poses;
    for (const Pose& pose : poses_[p]) {
      if (left[at(pose.kind)] == 0) continue;
      --left[at(pose.kind)];
      poses.push_back(pose);
    }
    if (!poses.empty()) all.push_back(std::move(poses));
  };
  while (std::any_of(left.begin(), left.end(), [](int n) { return n > 0; })) {
    const Shares shares = shares_of(counts_, left);
    bool whole = false;
    for (std::size_t p = 0; p < counts_.size(); ++p) {
      for (int i = 0; i < static_cast<int>(shares.uses[p] + 1e-7); ++i) {
        take(p);
        whole = true;
      }
    }
    if (whole) continue;
    take(static_cast<std::size_t>(std::max_element(shares.uses.begin(), shares.uses.end()) -
                                  shares.uses.begin()));
  }
  return all;
}

}  // namespace

bool suits_patterns(const std::vector<Kind>& kinds, std::size_t regions) {
  constexpr std::size_t kFewKinds = 12;
  constexpr std::size_t kManyRegions = 6;
  return kinds.size() <= kFewKinds && regions >= std::max(kManyRegions, 3 * kinds.size());
}

std::vector<std::vector<Pose>> by_patterns(const std::vector<Kind>& kinds, const Scene& scene,
                                           const std::vector<std::vector<Pose>>& known,
                                           std::vector<std::vector<Pose>>& library,
                                           const Budget& budget) {
  Patterns patterns{kinds, scene, known, library};
  patterns.search(budget);
  std::vector<std::vector<Pose>> found = patterns.regions();
  return found.size() < known.size() ? found : known;
}

}  // namespace placer::packing
