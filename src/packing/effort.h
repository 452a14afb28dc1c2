/// @file effort.h
/// How long a search may go on, counted in steps, and how two searches share two threads.
#pragma once

#include <cstdint>
#include <functional>
#include <thread>
#include <vector>

#include "placer/packing/packing.h"

namespace placer::packing {

/// What Effort::quick may use for one region.
constexpr std::uint64_t kQuickSteps = 140'000'000;

struct Budget {
  std::uint64_t steps = 0;  ///< about one a nanosecond
  /// What searches with less effort use in all, least first. A search does theirs first.
  std::vector<std::uint64_t> lesser;
  std::uint64_t seed = 0;
  int threads = 1;
  std::function<bool()> stop;
  std::vector<std::uint64_t> stages() const {
    std::vector<std::uint64_t> all = lesser;
    all.push_back(steps);
    return all;
  }
  bool stopped() const { return stop && stop(); }
};

/// Both, at once if there are threads for it. Neither may look at what the other does, so that the
/// answer is the same either way; neither may throw.
template <class First, class Second>
void both(int threads, First first, Second second) {
  if (threads < 2) {
    first();
    second();
    return;
  }
  const std::jthread other{second};
  first();
}

}  // namespace placer::packing
