/// @file setting.h
/// One load of the kiln built up: columns, levels, posts and what stands on them.
#pragma once

#include <vector>

#include "loading/fill.h"
#include "placer/model/load_plan.h"

namespace placer::loading {

/// One way of going about a load; several are tried.
struct Recipe {
  bool tallest_first = false;  ///< else each level's height is weighed against the room it takes
  int first_column = 0;
  std::vector<double> price;  ///< of each sort
  Care care;                  ///< for the shelf that is kept
  bool look_closely = false;  ///< weigh heights by that care too, not at a glance
};

/// Levels that stay as they are, of the load being set.
using Kept = std::vector<Level>;

/// Fills load `round` of the firing from the supply, taking off what it sets.
KilnLoad set_load(const Job& job, const Recipe& recipe, int round, const Kept& kept,
                  Supply& supply);

}  // namespace placer::loading
