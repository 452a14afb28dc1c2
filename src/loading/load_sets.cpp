#include "loading/load_sets.h"

#include <algorithm>
#include <numeric>

#include "loading/index.h"

namespace placer::loading {
namespace {

constexpr int kShelf = 64;  // cost of one, against a level more in one column than another
constexpr int kNever = 1 << 29;

Pieces less(const Pieces& a, const Pieces& b) {
  Pieces rest = a;
  for (int s = 0; s < count_of(rest); ++s) at(rest, s) = std::max(0, at(rest, s) - at(b, s));
  return rest;
}

bool none(const Pieces& pieces) {
  return std::all_of(pieces.begin(), pieces.end(), [](int n) { return n == 0; });
}

}  // namespace

LoadSets::LoadSets(const std::vector<LoadShape>& shapes, ShelfSets& sets, const Pieces& left,
                   int looks)
    : sets_{&sets}, left_{left}, looks_{looks} {
  find_loads(shapes);
}

std::vector<Pieces> LoadSets::sums(const std::vector<Pieces>& a, const std::vector<Pieces>& b) {
  std::vector<Pieces> all;
  looks_ -= count_of(a) * count_of(b);
  if (tired()) return a;  // less than there may be
  for (const Pieces& one : a) {
    for (const Pieces& other : b) {
      Pieces sum = one;
      for (int s = 0; s < count_of(sum); ++s)
        at(sum, s) = std::min(at(sum, s) + at(other, s), at(left_, s));
      all.push_back(std::move(sum));
    }
  }
  all = fullest_of(std::move(all));
  looks_ -= count_of(all) * count_of(all) / 8;
  return all;
}

const std::vector<Pieces>& LoadSets::held_by(const std::vector<Storey>& storeys, int from) {
  std::vector<int> key;
  for (int i = from; i < count_of(storeys); ++i) {
    const Storey& storey = at(storeys, i);
    key.insert(key.end(), {storey.kind, storey.open ? 1 : 0, storey.ceiling});
  }
  const auto known = held_.find(key);
  if (known != held_.end()) return known->second;
  std::vector<Pieces> held{Pieces(left_.size())};
  if (from < count_of(storeys)) {
    held = sums(held_by(storeys, from + 1), sets_->fullest(at(storeys, from)));
  }
  return held_.emplace(key, std::move(held)).first->second;
}

void LoadSets::find_loads(const std::vector<LoadShape>& shapes) {
  for (int i = 0; i < count_of(shapes) && !tired(); ++i) {
    const LoadShape& shape = at(shapes, i);
    for (const Pieces& holds : held_by(shape.storeys, 0)) {
      loads_.push_back({holds, i, shape.shelves() * kShelf + shape.uneven});
    }
    // As many shelves or more, and all stands already: there is nothing to gain.
    if (!loads_.empty() && loads_.back().holds == left_) break;
  }
  keep_useful();
  most_.assign(left_.size(), 0);
  for (const LoadSet& load : loads_) {
    for (int s = 0; s < count_of(left_); ++s)
      at(most_, s) = std::max(at(most_, s), at(load.holds, s));
  }
}

/// What a dearer load holds must be more somewhere.
void LoadSets::keep_useful() {
  std::stable_sort(loads_.begin(), loads_.end(), [](const LoadSet& a, const LoadSet& b) {
    return a.cost != b.cost ? a.cost < b.cost : a.holds > b.holds;
  });
  std::vector<LoadSet> kept;
  for (LoadSet& one : loads_) {
    looks_ -= count_of(kept) / 4;
    const bool covered = std::any_of(kept.begin(), kept.end(), [&](const LoadSet& other) {
      return covers(other.holds, one.holds);
    });
    if (!covered) kept.push_back(std::move(one));
  }
  loads_ = std::move(kept);
}

std::vector<const LoadSet*> LoadSets::share(int fewest, int most) {
  for (int loads = std::max(1, fewest); loads <= most && !tired(); ++loads) {
    if (least(left_, loads).cost >= kNever) continue;
    std::vector<const LoadSet*> shared;
    Pieces rest = left_;
    for (int more = loads; !none(rest); --more) {
      shared.push_back(&at(loads_, least(rest, more).load));
      rest = less(rest, shared.back()->holds);
    }
    return shared;
  }
  return {};
}

bool LoadSets::enough(const Pieces& rest, int loads) const {
  for (int s = 0; s < count_of(rest); ++s) {
    if (at(rest, s) > loads * at(most_, s)) return false;
  }
  return true;
}

LoadSets::Share LoadSets::least(const Pieces& rest, int loads) {
  if (loads == 0 || !enough(rest, loads)) return {kNever, -1};
  std::vector<int> key = rest;
  key.push_back(loads);
  const auto known = known_.find(key);
  if (known != known_.end()) return known->second;
  const Share best = least_among(rest, loads);
  known_[key] = best;
  return best;
}

/// One of the loads takes its share, or more, of the sort that is hardest to set.
LoadSets::Share LoadSets::least_among(const Pieces& rest, int loads) {
  int hardest = 0;
  double share = -1;
  for (int s = 0; s < count_of(rest); ++s) {
    if (at(rest, s) == 0) continue;
    const double here = static_cast<double>(at(rest, s)) / at(most_, s);
    if (here > share) hardest = s;
    share = std::max(share, here);
  }
  const int part = (at(rest, hardest) + loads - 1) / loads;
  Share best{kNever, -1};
  for (int i = 0; i < count_of(loads_); ++i) {
    const LoadSet& load = at(loads_, i);
    if (load.cost >= best.cost || (looks_ -= 1) <= 0) break;
    if (at(load.holds, hardest) < part) continue;
    const Pieces after = less(rest, load.holds);
    const int cost = none(after) ? load.cost : load.cost + least(after, loads - 1).cost;
    if (cost < best.cost) best = {cost, i};
  }
  return best;
}

std::vector<Pieces> LoadSets::spread(const LoadShape& shape, const Pieces& pieces) {
  std::vector<Pieces> levels;
  Pieces rest = pieces;
  for (int i = 0; i < shape.shelves(); ++i) {
    const std::vector<Pieces>& others = held_by(shape.storeys, i + 1);
    const Pieces* best = nullptr;
    int least_sorts = kNever;
    for (const Pieces& set : sets_->fullest(at(shape.storeys, i))) {
      const Pieces after = less(rest, set);
      const bool does = std::any_of(others.begin(), others.end(),
                                    [&](const Pieces& other) { return covers(other, after); });
      int sorts = 0;
      for (int s = 0; s < count_of(set); ++s) sorts += std::min(at(set, s), at(rest, s)) > 0;
      if (!does || sorts >= least_sorts) continue;
      best = &set;
      least_sorts = sorts;
    }
    if (best == nullptr) return {};
    levels.push_back(*best);
    rest = less(rest, *best);
  }
  return none(rest) ? levels : std::vector<Pieces>{};
}

}  // namespace placer::loading
