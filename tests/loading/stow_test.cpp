// Shelves filled before any kiln is thought of, then stowed: open ones, that leave no room for
// posts, are the top ones of their columns and no more than there are loads.
#include "loading/stow.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "loading/index.h"
#include "loading/patterns.h"
#include "loading/studios.h"

namespace placer::loading {
namespace {

constexpr int kFewerThan = 8;  // loads

std::vector<Tier> spread(const Job& job, double height_share) {
  std::vector<int> left;
  Recipe recipe;
  for (const Sort& sort : job.sorts) left.push_back(sort.count);
  recipe.price.assign(job.sorts.size(), 1);
  return tiers_by_patterns(job, left, recipe, height_share, nullptr, kFewerThan);
}

/// The gap from the level's pieces to the posts that stand on it, less what is asked; mm.
double room_at_posts(const Job& job, const KilnLoad& load, const Level& level) {
  double least = 1e9;
  for (const PlacedPiece& piece : level.pieces) {
    for (const PlacedPost& post : level.posts) {
      least = std::min(least, gap(ground(*job.batch, load, piece), ground(*job.batch, post)));
    }
  }
  return least - job.clearances.gap.mm();
}

int open_in(const std::vector<Tier>& tiers, int column) {
  return static_cast<int>(std::count_if(tiers.begin(), tiers.end(), [&](const Tier& tier) {
    return tier.open && tier.site->column == column;
  }));
}

TEST_CASE("shelves without room for posts are the top ones") {
  int open = 0;
  for (const std::uint64_t seed : {4U, 5U, 7U, 9U, 10U}) {
    const Batch batch = studios::studio(seed, 6, 120);
    const Job job = job_of(batch, 0);
    const std::vector<Tier> tiers = spread(job, 1);
    REQUIRE_FALSE(tiers.empty());
    for (int column = 0; column < count_of(job.columns); ++column) {
      CHECK(open_in(tiers, column) < kFewerThan);
      open += open_in(tiers, column);
    }
    const auto loads = stow(job, tiers, count_of(tiers));
    REQUIRE(loads);
    int pieces = 0;
    for (const KilnLoad& load : *loads) {
      for (const Level& level : load.levels) {
        pieces += count_of(level.pieces);
        CHECK(room_at_posts(job, load, level) >= -1e-6);
      }
    }
    CHECK(pieces == studios::pieces_of(batch));
  }
  CHECK(open > 0);
}

TEST_CASE("two shelves without room for posts do not share a column") {
  const Batch batch = studios::studio(5, 6, 120);  // one column of full round shelves
  const Job job = job_of(batch, 0);
  std::vector<Tier> tiers = spread(job, 1);
  const auto low = std::min_element(tiers.begin(), tiers.end(), [](const Tier& a, const Tier& b) {
    return a.tallest < b.tallest;
  });
  std::vector<Tier> two(2, *low);
  for (Tier& tier : two) tier.open = false;
  CHECK(stow(job, two, 1));
  two.front().open = true;
  CHECK(stow(job, two, 1));
  two.back().open = true;
  CHECK_FALSE(stow(job, two, 1));
  CHECK(stow(job, two, 2));
}

}  // namespace
}  // namespace placer::loading
