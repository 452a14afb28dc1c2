#include "loading/search.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <thread>

#include "loading/attempts.h"
#include "loading/bridges.h"
#include "loading/index.h"
#include "loading/patterns.h"
#include "loading/small.h"
#include "loading/tiers.h"
#include "placer/base/random.h"

namespace placer::loading {
namespace {

constexpr int kFewShelves = 5;
constexpr double kManyLevels = 150;  // from here on one way takes long enough
constexpr double kFewPlaces = 8;     // times the price, where only some levels will do
constexpr std::array<double, 4> kBridgesAt{0, 1, 0, 0.5};  // of the height, ways in turn

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

/// The ways to go about it load after load, the likeliest first; each is its own and needs no
/// other's outcome.
Recipe recipe(const Job& job, int number, std::uint64_t steps) {
  Recipe recipe;
  recipe.price = usual_prices(job);
  recipe.care.steps = steps;
  recipe.care.seed = job.batch->seed;
  recipe.tallest_first = number % 3 == 1;
  recipe.in_turn = number % 4 == 0;
  recipe.bridge_at = at(kBridgesAt, number % count_of(kBridgesAt));
  recipe.looks = number < 2 ? 2 : number < 4 ? 3 : 5;
  const int columns = count_of(job.columns);
  recipe.first_column = columns > 0 ? number / 3 % columns : 0;
  Random random{job.batch->seed * 7919 + static_cast<std::uint64_t>(number)};
  for (int s = 0; s < count_of(job.sorts) && number >= 2; ++s) {
    const double tall = at(job.sorts, s).height().mm() / tallest(job);
    if (number == 2) at(recipe.price, s) *= 1 + 0.5 * tall;
    if (number > 2) at(recipe.price, s) *= random.uniform(0.8, 1.3);
    const Wishes& wishes = at(job.sorts, s).wishes;
    if (number % 2 == 0 && (wishes.zone || wishes.level)) at(recipe.price, s) *= kFewPlaces;
  }
  return recipe;
}

/// The ways to go about it shelf after shelf: how much more, or less, tall pieces are wanted than
/// their height of column is worth; later some chance.
Recipe tier_recipe(const Job& job, int number, std::uint64_t steps) {
  constexpr std::array<double, 4> kPowers{0, -1, 0.5, 1};  // -1: shelves run out before height
  Recipe recipe;
  recipe.price = usual_prices(job);
  recipe.care.steps = steps;
  recipe.care.seed = job.batch->seed;
  recipe.care.both = true;
  Random random{job.batch->seed * 7907 + static_cast<std::uint64_t>(number)};
  for (int s = 0; s < count_of(job.sorts); ++s) {
    const double tall = at(job.level_height, s) / tallest(job);
    at(recipe.price, s) *= std::pow(tall, at(kPowers, number % count_of(kPowers)));
    if (number >= count_of(kPowers)) at(recipe.price, s) *= random.uniform(0.85, 1.18);
  }
  return recipe;
}

/// Shelves that the batch fills, roughly.
double levels_of(const Job& job, const std::vector<int>& left) {
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
  return std::max(1.0, ground / shelf / 0.75);
}

/// Load after load, also with bridges that nothing needs; shelf after shelf, the tallest first; all
/// shelves at once; or, of a small batch, all ways there are.
enum class By { loads, across, tiers, patterns, all_ways };

/// One batch of ways that are tried side by side.
struct Round {
  By by = By::loads;
  int from = 0, to = 0;
  std::uint64_t steps = 0;  ///< for each shelf
};

/// Whether one load can't take all for its weight: what a load holds is then no matter of shelves
/// alone.
bool mass_divides(const Job& job, const std::vector<int>& left) {
  double kg = 0;
  for (int s = 0; s < count_of(left); ++s) {
    kg += at(left, s) * at(job.sorts, s).stacks.front().mass.kg();
  }
  return kg > most_in_load_kg(job.batch->kiln);
}

/// All rounds of an effort, in order; those of less effort first. Sizes depend on the batch, so
/// that any is done in its time.
std::vector<Round> rounds_of(const Job& job, const std::vector<int>& left, bool any_level,
                             const Search& search) {
  const double levels = levels_of(job, left);
  if (levels > kManyLevels) {
    return {{By::loads, 0, 1, 0},
            any_level ? Round{By::patterns, 0, 2, 0} : Round{By::loads, 1, 2, 0}};
  }
  const auto ways = [&](double many, int least, int most) {
    return std::clamp(static_cast<int>(many / levels), least, most);
  };
  const auto steps = [&](double many, double least, double most) {
    return static_cast<std::uint64_t>(std::clamp(many / levels, least, most));
  };
  std::vector<Round> rounds{{By::loads, 0, 1, 0}};
  if (search.brief) return rounds;
  rounds.push_back({By::loads, 1, 2, 0});
  if (any_level && !mass_divides(job, left)) rounds.push_back({By::all_ways, 0, 1, 0});
  if (any_level) {
    rounds.push_back({By::tiers, 0, 1, 0});
    rounds.push_back({By::patterns, 0, 3, 0});
    rounds.push_back({By::loads, 2, ways(15, 2, 8), 0});
  } else {
    rounds.push_back({By::loads, 2, ways(25, 4, 10), 0});
  }
  const bool across = usable_bridge(job) != nullptr;
  if (across) rounds.push_back({By::across, 0, 4, 0});
  if (search.effort == Effort::quick) return rounds;
  if (any_level) {
    rounds.push_back({By::tiers, 0, ways(60, 1, 2), steps(6e7, 1e6, 4e6)});
    rounds.push_back({By::patterns, 0, 2, steps(5.4e8, 1e7, 3e7)});
  } else {
    rounds.push_back({By::loads, 0, 1, steps(6e7, 1e6, 4e6)});
  }
  if (search.effort == Effort::normal) return rounds;
  const int many = ways(1500, 8, 60);
  rounds.push_back({By::loads, 2, many, 0});
  if (across) rounds.push_back({By::across, 4, many, 0});
  if (any_level) {
    rounds.push_back({By::patterns, 3, 4, 0});
    rounds.push_back({By::patterns, 0, 4, 200000000});
    rounds.push_back({By::tiers, 0, many, steps(3e9, 2e6, 5e7)});
  }
  rounds.push_back({By::loads, 0, many, steps(1e10, 2e6, 2e8)});
  return rounds;
}

/// Way `number` of filling shelves before any load is thought of.
std::vector<Tier> shelves(const Job& job, const std::vector<int>& left, const Round& round,
                          int number, Memory& memory, const std::function<bool()>& stop,
                          int enough) {
  constexpr std::array<std::optional<double>, 4> kHeightShares{std::nullopt, 1, 0.6, 0.25};
  Recipe way = tier_recipe(job, number, round.steps);
  way.care.memory = &memory;
  if (round.by == By::tiers) return tiers_of(job, left, way, stop);
  return tiers_by_patterns(job, left, way, at(kHeightShares, number % count_of(kHeightShares)),
                           stop, enough);
}

/// A small batch shared among shelves and loads as well as can be.
Attempt attempt_all_ways(const Job& job, const std::vector<int>& left, Effort effort,
                         Memory& memory, int fewest, int enough,
                         const std::function<bool()>& stop) {
  Care care;
  care.seed = job.batch->seed;
  care.memory = &memory;
  const SmallLimits limits{400, 12000, effort == Effort::quick ? 1000000 : 4000000};
  return attempt_of(job, left, small_plan(job, left, care, limits, fewest, enough, stop));
}

/// Two ways at a time: when a plan is good enough, the rest is not tried.
std::vector<Round> in_twos(const std::vector<Round>& rounds) {
  std::vector<Round> twos;
  for (const Round& round : rounds) {
    for (int from = round.from; from < round.to; from += 2) {
      twos.push_back({round.by, from, std::min(from + 2, round.to), round.steps});
    }
  }
  return twos;
}

/// Ways [0, n) side by side; the answers do not depend on the threads.
template <class Try>
std::vector<Attempt> side_by_side(int from, int to, int threads, std::array<Memory*, 2> memories,
                                  Try one) {
  std::vector<Attempt> all(static_cast<std::size_t>(to - from));
  const auto work = [&](int first, int step) {
    for (int i = first; i < to - from; i += step) at(all, i) = one(from + i, *at(memories, first));
  };
  if (threads < 2 || to - from < 2) {
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
  const std::vector<Round> rounds =
      in_twos(rounds_of(job, left, any_level_will_do(job, kept), search));
  std::array<Memory, 2> own;  // one for each thread; what is known there changes no answer
  const std::array<Memory*, 2> memories{search.memory != nullptr ? search.memory : &own[0],
                                        &own[1]};
  const Across across = across_of(job);
  Attempt best;
  int fewest = std::max(1, search.fewest);
  bool proven = !search.prove;
  for (std::size_t i = 0; i < rounds.size(); ++i) {
    const Round& round = rounds[i];
    const int enough = count_of(best.loads);
    const std::function<bool()> stop = i > 0 ? search.stop : nullptr;
    auto all =
        side_by_side(round.from, round.to, search.threads, memories, [&](int n, Memory& memory) {
          if (round.by == By::loads || round.by == By::across) {
            Recipe way = recipe(job, n, round.steps);
            way.across = &across;
            way.bridges = round.by == By::across ? 1 : 0;
            way.care.memory = &memory;
            return attempt_by_loads(job, left, kept, way, stop);
          }
          if (round.by == By::all_ways)
            return attempt_all_ways(job, left, search.effort, memory, fewest, enough, stop);
          const std::vector<Tier> tiers = shelves(job, left, round, n, memory, stop, enough);
          return attempt_by_shelves(job, left, tiers, fewest, enough, stop);
        });
    for (std::size_t k = 0; k < all.size(); ++k) {
      if ((i == 0 && k == 0) || better(all[k], best)) best = std::move(all[k]);
    }
    if (search.progress)
      search.progress(static_cast<double>(i + 1) / static_cast<double>(rounds.size()));
    if (search.stop && search.stop()) break;
    if (i == 0 && rounds.size() > 1) continue;
    if (best.unset == 0 && count_of(best.loads) > fewest && !proven) {
      fewest = std::max(fewest, search.prove(count_of(best.loads)));
      proven = true;
    }
    // Few shelves: whether one can be done without is soon seen.
    const bool few = best.shelves > 1 && best.shelves <= kFewShelves;
    const bool more = i + 1 < rounds.size() &&
                      ((few && rounds[i + 1].steps == 0) || rounds[i + 1].by == By::all_ways);
    if (best.unset == 0 && count_of(best.loads) <= fewest && !more) break;
  }
  return best;
}

}  // namespace placer::loading
