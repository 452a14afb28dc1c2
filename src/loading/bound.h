/// @file bound.h
/// How few firings any plan at all could do with. Never more than the truth.
#pragma once

#include <vector>

#include "loading/job.h"

namespace placer::loading {

/// @param set pieces of each sort that have to be set. 0 when there are none.
/// The argument: give each piece a weight so that no shelf holds more than 1 (its ground with half
/// the gap round it over the largest shelf's; or one over the count of discs of its size that a
/// shelf can hold at most; or the mean of the two). The pieces taller than h then need
/// at least the sum of their weights in levels so high; the levels, tallest first, need shelves,
/// posts and height, and no column has more than the lid leaves.
int fewest_firings(const Job& job, const std::vector<int>& set);

}  // namespace placer::loading
