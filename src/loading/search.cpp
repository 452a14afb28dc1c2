#include "loading/search.h"

#include <algorithm>
#include <numeric>
#include <thread>
#include <tuple>

#include "loading/even.h"
#include "loading/index.h"
#include "loading/sets.h"
#include "placer/base/random.h"

namespace placer::loading {
namespace {

double worth_of(const Job& job, const std::vector<int>& pieces) {
  double worth = 0;
  for (int s = 0; s < count_of(pieces); ++s) worth += at(pieces, s) * at(job.worth, s);
  return worth;
}

Attempt attempt(const Job& job, const std::vector<int>& left, const Kept& kept,
                const Recipe& recipe) {
  Attempt attempt;
  Supply supply;
  supply.left = left;
  supply.price = recipe.price;
  for (const Sort& sort : job.sorts) supply.pinned.push_back(sort.wishes.pinned ? 1 : 0);
  const auto more = [&] {
    return std::any_of(supply.left.begin(), supply.left.end(), [](int n) { return n > 0; });
  };
  for (int round = 1; more(); ++round) {
    const double before = worth_of(job, supply.left);
    KilnLoad load = set_load_of_sets(job, recipe, round, round == 1 ? kept : Kept{}, supply);
    if (load.levels.empty()) break;
    attempt.last = before - worth_of(job, supply.left);
    attempt.shelves += count_of(load.levels);
    attempt.uneven += unevenness(job, load);
    attempt.loads.push_back(std::move(load));
  }
  attempt.left = supply.left;
  attempt.unset = worth_of(job, supply.left);
  return attempt;
}

/// Better: less left out, fewer firings, fewer shelves in columns alike, an emptier last firing.
bool better(const Attempt& a, const Attempt& b) {
  const auto rank = [](const Attempt& x) {
    return std::tuple(x.unset, count_of(x.loads), x.shelves + x.uneven / 2, x.uneven, x.last);
  };
  return rank(a) < rank(b);
}

std::vector<double> usual_prices(const Job& job) {
  std::vector<double> price;
  for (const Sort& sort : job.sorts) price.push_back(sort.wishes.must_go ? 30 : 1);
  return price;
}

double tallest(const Job& job) {
  double tallest = 1;
  for (const Sort& sort : job.sorts) tallest = std::max(tallest, sort.height().mm());
  return tallest;
}

/// The ways to go about it, the likeliest first; each is its own and needs no other's outcome.
Recipe recipe(const Job& job, int number, std::uint64_t steps) {
  Recipe recipe;
  recipe.price = usual_prices(job);
  recipe.care = {steps, job.batch->seed, nullptr};
  recipe.tallest_first = number % 3 == 1;
  recipe.in_turn = number % 4 == 0;
  recipe.looks = number < 2 ? 2 : 5;
  const int columns = count_of(job.columns);
  recipe.first_column = columns > 0 ? number / 3 % columns : 0;
  Random random{job.batch->seed * 7919 + static_cast<std::uint64_t>(number)};
  for (int s = 0; s < count_of(job.sorts) && number >= 2; ++s) {
    const double tall = at(job.sorts, s).height().mm() / tallest(job);
    if (number == 2) at(recipe.price, s) *= 1 + 0.5 * tall;
    if (number > 2) at(recipe.price, s) *= random.uniform(0.8, 1.3);
  }
  return recipe;
}

struct Effortful {
  int ways = 1;
  std::uint64_t steps = 0;  ///< for each shelf
};

/// How many ways and how much care, so that a batch of any size is done in its time.
Effortful effort_for(const Job& job, const std::vector<int>& left, Effort effort) {
  double ground = 1;
  double shelf = 1;
  for (int s = 0; s < count_of(left); ++s) {
    const Sort& sort = at(job.sorts, s);
    ground += at(left, s) * ground_used(sort.stacks.back().footprint, job.clearances.gap.mm()) /
              count_of(sort.stacks);
  }
  for (const auto& sites : job.columns) {
    if (!sites.empty()) shelf = std::max(shelf, area(sites.front().ground));
  }
  const double levels = std::max(1.0, ground / shelf / 0.75);
  Effortful much;
  if (effort == Effort::thorough) {
    much.ways = std::clamp(static_cast<int>(1500 / levels), 8, 60);
    much.steps = static_cast<std::uint64_t>(std::clamp(1e10 / levels, 2e6, 2e8));
  } else {
    const double budget = effort == Effort::quick ? 0.2 : 1;
    much.ways = std::clamp(static_cast<int>(120 * budget / levels), levels < 60 ? 4 : 1, 8);
    much.steps = static_cast<std::uint64_t>(std::clamp(1.5e8 * budget / levels, 1e6, 1e7));
  }
  return much;
}

/// Ways [0, n) side by side; the answers do not depend on the threads.
std::vector<Attempt> attempts(const Job& job, const std::vector<int>& left, const Kept& kept,
                              const std::vector<Recipe>& recipes, int threads) {
  std::vector<Attempt> all(recipes.size());
  const auto work = [&](std::size_t from, std::size_t step) {
    Memory memory;
    for (std::size_t i = from; i < recipes.size(); i += step) {
      Recipe with_memory = recipes[i];
      with_memory.care.memory = &memory;
      all[i] = attempt(job, left, kept, with_memory);
    }
  };
  if (threads < 2 || recipes.size() < 2) {
    work(0, 1);
  } else {
    const std::jthread other{[&] { work(1, 2); }};
    work(0, 2);
  }
  return all;
}

}  // namespace

Attempt best_attempt(const Job& job, const std::vector<int>& left, const Kept& kept,
                     const Search& search) {
  const Effortful much = effort_for(job, left, search.effort);
  Attempt best;
  bool first = true;
  const auto consider = [&](std::vector<Attempt> all) {
    for (Attempt& one : all) {
      if (first || better(one, best)) best = std::move(one);
      first = false;
    }
  };
  const auto good = [&] { return best.unset == 0 && count_of(best.loads) <= search.fewest; };
  const auto ways = [&](int from, int to, std::uint64_t steps) {
    std::vector<Recipe> recipes;
    for (int i = from; i < to; ++i) recipes.push_back(recipe(job, i, steps));
    consider(attempts(job, left, kept, recipes, search.threads));
  };
  const int begin = std::min(2, much.ways);
  ways(0, begin, 0);
  if (good()) return best;
  ways(begin, much.ways, 0);
  if (good() || search.effort == Effort::quick || (search.stop && search.stop())) return best;
  ways(0, search.effort == Effort::thorough ? much.ways : begin, much.steps);
  return best;
}

}  // namespace placer::loading
