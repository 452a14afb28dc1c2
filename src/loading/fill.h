/// @file fill.h
/// One shelf filled: which of the pieces at hand stand on it, and where.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "loading/sorts.h"
#include "placer/loading/loading.h"

namespace placer::loading {

/// A stack (of one or more) of a sort in its place, kiln coordinates.
struct Standing {
  int sort = 0;
  int stack = 1;
  Placement place;
};

struct Filled {
  std::vector<Standing> set;
  std::string pattern;  ///< of the packing engine; "" when it is not in rows
};

/// What a shelf offers.
struct Room {
  Region ground;  ///< with everything to keep clear of
  Length clear;   ///< for pieces: the air is already taken off
  double gap = 0;
  double runny_gap = 0;
  std::uint64_t seed = 0;
  Effort effort = Effort::quick;
  int threads = 1;
};

/// Sets the most worth of `left` pieces of each sort, the tall ones before the short.
Filled fill(const std::vector<Sort>& sorts, const std::vector<int>& left, const Room& room);

/// True when one of the sort can stand there alone.
bool fits(const Sort& sort, const Room& room);

}  // namespace placer::loading
