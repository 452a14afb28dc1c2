/// @file bound.h
/// How few firings any plan at all could do with. Never more than the truth.
#pragma once

#include <vector>

#include "loading/job.h"

namespace placer::loading {

/// @param set pieces of each sort that have to be set. 0 when there are none.
/// @param enough no more than so many need be proven: what a plan at hand takes.
/// Two arguments. By levels: weights so that no shelf holds more than 1 (limits.h); the pieces
/// taller than h then need at least the sum of their weights in levels so high, and the levels,
/// tallest first, need shelves, posts and height. By prices: a price for each piece so that no
/// load of the kiln is worth more than 1 (kiln_most.h); all there is is then worth no more than
/// the number of loads.
/// @param brief without looking for discs that do not go together: quicker, and may be less.
int fewest_firings(const Job& job, const std::vector<int>& set, int enough = 1000000,
                   bool brief = false);

}  // namespace placer::loading
