/// Small loads against the best plan there is: exact_table [FROM TO [quick]]. Prints one
/// line a load and the share on which firings and shelves are the fewest possible.
#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <string>

#include "loading/exhaustive.h"
#include "placer/loading/loading.h"

int main(int argc, char** argv) {
  using namespace placer;
  const int from = argc > 2 ? std::atoi(argv[1]) : 0;
  const int to = argc > 2 ? std::atoi(argv[2]) : 200;
  loading::Options options;
  if (argc > 3 && std::string{argv[3]} == "quick") options.effort = loading::Effort::quick;
  int same = 0;
  int more_firings = 0;
  int bound_too_high = 0;
  int bound_is_best = 0;
  for (int seed = from; seed < to; ++seed) {
    const auto small = small_loads::small_load(static_cast<std::uint64_t>(seed));
    const LoadPlan plan = loading::plan(small.batch, options);
    const auto best = small_loads::Exhaustive{small}.best();
    if (!best) continue;
    const auto firings = static_cast<int>(plan.firings.size());
    int shelves = 0;
    for (const KilnLoad& load : plan.firings) shelves += static_cast<int>(load.levels.size());
    const bool equal = firings == best->firings && shelves == best->shelves;
    same += equal ? 1 : 0;
    more_firings += firings > best->firings ? 1 : 0;
    bound_too_high += plan.fewest_firings_possible > best->firings ? 1 : 0;
    bound_is_best += plan.fewest_firings_possible == best->firings ? 1 : 0;
    fmt::print("{:4}  {} firings {:2} shelves   best {} firings {:2} shelves   bound {}{}\n", seed,
               firings, shelves, best->firings, best->shelves, plan.fewest_firings_possible,
               equal ? "" : "   more than needed");
  }
  fmt::print(
      "{} of {} with the fewest firings and shelves ({:.1f} %); {} with more firings; bound "
      "too high {}, equal to the best {}\n",
      same, to - from, 100.0 * same / std::max(1, to - from), more_firings, bound_too_high,
      bound_is_best);
}
