/// @file small.h
/// Small batches: the best of all ways to share them among shelves and loads, as far as packing
/// finds out what a shelf holds.
#pragma once

#include <functional>
#include <vector>

#include "loading/fill.h"
#include "placer/model/load_plan.h"

namespace placer::loading {

/// How far to look; all of it counts, so that the answer depends on nothing else.
struct SmallLimits {
  int fills = 0;  ///< shelves packed
  int parts = 0;  ///< discs and corners of the pieces on them
  int looks = 0;  ///< ways of sharing looked at
};

/// The fewest loads, at least `fewest` and at most `most`, then the fewest shelves. No loads at all
/// when the batch is not small, or when no way is found. Only for jobs of which any_level_will_do.
std::vector<KilnLoad> small_plan(const Job& job, const std::vector<int>& left, const Care& care,
                                 const SmallLimits& limits, int fewest, int most,
                                 const std::function<bool()>& stop);

}  // namespace placer::loading
