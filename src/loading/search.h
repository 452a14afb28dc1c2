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
  std::function<bool()> stop =
      nullptr;               ///< true: the best so far, now; there is always a first one
  int fewest = 0;            ///< firings that no plan can do without, as far as is known
  bool brief = false;        ///< only the likeliest ways, for a question beside the plan
  Memory* memory = nullptr;  ///< packings known from a question before; changes only the time
  /// Asked once there is a plan: firings that no plan can do without; so many are enough.
  std::function<int(int enough)> prove = nullptr;
  std::function<void(double done)> progress = nullptr;  ///< 0..1
};

/// @param left of each sort, pieces to be set. More effort tries all that less effort tries, and
/// more: its answer is never worse.
Attempt best_attempt(const Job& job, const std::vector<int>& left, const Kept& kept,
                     const Search& search);

}  // namespace placer::loading
