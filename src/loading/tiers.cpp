#include "loading/tiers.h"

#include <algorithm>

#include "loading/index.h"

namespace placer::loading {
namespace {

Length height_of(const Job& job, const Standing& one) {
  return at(at(job.sorts, one.sort).stacks, one.stack - 1).height;
}

/// Height of the tallest stack that a level of the sort's own would be made for.
Length clear_for(const Job& job, int s, int left) {
  const auto& stacks = at(job.sorts, s).stacks;
  const int most = std::min(at(job.best_stack, s), left);
  Length clear;
  for (int n = 1; n <= most; ++n) clear = std::max(clear, at(stacks, n - 1).height);
  return clear;
}

}  // namespace

std::vector<Row> rows_of(const Job& job, bool open) {
  std::vector<Row> rows;
  for (int c = 0; c < count_of(job.columns); ++c) {
    const Site* site = usual_site(job, c);
    if (site != nullptr) rows.push_back({site, room_at_any_height(job, *site, open), open, 0, 0});
  }
  return rows;
}

double column_taken(const Job& job, const Row& row, Length tallest) {
  const double least = (tallest + job.clearances.air).mm();
  const double shelf = at(job.batch->kiln.shelves, row.site->shelf).thickness.mm();
  if (row.open) return shelf + tallest.mm();
  for (const PostHeight& posts : job.heights) {
    if (posts.height.mm() >= least) return shelf + posts.height.mm();
  }
  return shelf + least;
}

Length tallest_of(const Job& job, const Filled& filled) {
  Length tallest;
  for (const Standing& one : filled.set) tallest = std::max(tallest, height_of(job, one));
  return tallest;
}

bool any_level_will_do(const Job& job, const Kept& kept) {
  const auto free = [](const Sort& sort) {
    const Wishes& wishes = sort.wishes;
    return !wishes.zone && !wishes.level && !wishes.pinned && !wishes.first_firing &&
           !wishes.must_go && wishes.set.empty();
  };
  // What only pieces must keep clear of is kept clear at every height.
  const auto harmless = [&](const KeepOut& keep_out) {
    const bool always = keep_out.to <= keep_out.from ||
                        (keep_out.from <= Length{} && keep_out.to >= job.batch->kiln.height);
    return always || !keep_out.shelves_too;
  };
  const auto& keep_outs = job.batch->kiln.keep_outs;
  const auto across = [](char needs) { return needs != 0; };
  return kept.empty() && std::none_of(job.needs_bridge.begin(), job.needs_bridge.end(), across) &&
         std::all_of(job.sorts.begin(), job.sorts.end(), free) &&
         std::all_of(keep_outs.begin(), keep_outs.end(), harmless);
}

std::vector<Tier> tiers_of(const Job& job, const std::vector<int>& left, const Recipe& recipe,
                           const std::function<bool()>& stop) {
  Supply supply{left, recipe.price, std::vector<char>(left.size(), 0)};
  std::vector<Row> rows = rows_of(job);
  std::vector<Tier> tiers;
  for (;;) {
    Length clear;
    for (int s = 0; s < count_of(left); ++s) {
      if (at(supply.left, s) > 0) clear = std::max(clear, clear_for(job, s, at(supply.left, s)));
    }
    if (clear <= Length{}) return tiers;
    if (stop && stop()) return {};
    std::stable_sort(rows.begin(), rows.end(), [](const Row& a, const Row& b) {
      return std::pair(a.tiers, a.used) < std::pair(b.tiers, b.used);
    });
    Tier tier;
    for (Row& row : rows) {
      row.room.clear = clear;
      tier.filled = fill(job, supply, row.room, recipe.care);
      if (tier.filled.set.empty()) continue;
      tier.site = row.site;
      tier.tallest = tallest_of(job, tier.filled);
      for (const Standing& one : tier.filled.set) at(supply.left, one.sort) -= one.stack;
      ++row.tiers;
      row.used += column_taken(job, row, tier.tallest);
      break;
    }
    if (tier.filled.set.empty()) return {};
    tiers.push_back(std::move(tier));
  }
}

}  // namespace placer::loading
