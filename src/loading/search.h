/// @file search.h
/// The firings of one load: several ways are tried, the best is kept.
#pragma once

#include <functional>
#include <vector>

#include "loading/setting.h"

namespace placer::loading {

/// All the loads of one firing, one way.
struct Attempt {
  std::vector<KilnLoad> loads;
  std::vector<int> left;  ///< of each sort
  double unset = 0;       ///< worth of what is left
  int shelves = 0;
  int uneven = 0;   ///< levels that one column of a load has more than another
  double last = 0;  ///< worth of what stands in the last load
};

struct Search {
  Effort effort = Effort::normal;
  int threads = 1;
  std::function<bool()> stop;
  int fewest = 0;  ///< firings that no plan can do without
};

/// @param left of each sort, pieces to be set.
Attempt best_attempt(const Job& job, const std::vector<int>& left, const Kept& kept,
                     const Search& search);

}  // namespace placer::loading
