/// @file effort.h
/// How long a search may go on, counted in steps.
#pragma once

#include <cstdint>
#include <functional>

#include "placer/packing/packing.h"

namespace placer::packing {

struct Budget {
  std::uint64_t steps = 0;  ///< about one a nanosecond
  std::uint64_t seed = 0;
  int threads = 1;
  std::function<bool()> stop;
  bool stopped() const { return stop && stop(); }
};

}  // namespace placer::packing
