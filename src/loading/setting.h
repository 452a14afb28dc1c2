/// @file setting.h
/// One load of the kiln built up: columns, levels, posts and what stands on them.
#pragma once

#include <vector>

#include "loading/fill.h"
#include "placer/model/load_plan.h"

namespace placer::loading {

/// What is worked out once about the bridges of a job.
struct Across {
  /// Of each bridge, of each of its sites: sorts of which one can stand there.
  std::vector<std::vector<std::vector<char>>> takes;
  /// Of each column: heights that it can be raised to from a shelf's surface, its posts ending
  /// there: posts and the column's usual shelves together, rising, mm.
  std::vector<std::vector<double>> reaches;
};

/// One way of going about a load; several are tried.
struct Recipe {
  bool tallest_first = false;  ///< else each level's height is weighed against the room it takes
  int first_column = 0;
  std::vector<double> price;       ///< of each sort
  Care care;                       ///< for the shelf that is kept
  int looks = 2;                   ///< level heights that are filled to see which is better
  bool in_turn = true;             ///< the columns go up together; else one after another
  int bridges = 0;                 ///< laid in a load though nothing needs them
  const Across* across = nullptr;  ///< needed where there are bridges
  double bridge_at = 0;            ///< the first one as low as it can be; 1: as high
};

/// Levels that stay as they are, of the load being set.
using Kept = std::vector<Level>;

/// True for a level of the load that was set before the plan began.
bool is_kept(const Kept& kept, const KilnLoad& load, const Level& level);

/// Fills load `round` of the firing from the supply, taking off what it sets.
KilnLoad set_load(const Job& job, const Recipe& recipe, int round, const Kept& kept,
                  Supply& supply);

}  // namespace placer::loading
