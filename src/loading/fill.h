/// @file fill.h
/// One shelf filled: which of the pieces at hand stand on it, and where.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "loading/job.h"
#include "loading/memory.h"

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
  double worth = 0;     ///< of all that is set, by the prices
};

/// What there is to set, and how much each is wanted.
struct Supply {
  std::vector<int> left;      ///< pieces of each sort
  std::vector<double> price;  ///< times Job::worth
  std::vector<char> pinned;   ///< of each sort: its pinned piece has yet to be set
};

/// How hard to try: 0 steps are the packing engine's glance.
struct Care {
  std::uint64_t steps = 0;
  std::uint64_t seed = 0;
  Memory* memory = nullptr;  ///< none: nothing is remembered
  bool both = false;         ///< also the pieces wanted most alone first, the others round them
};

/// Sets the most worth. Glazes that wish to be apart never share the shelf.
Filled fill(const Job& job, const Supply& supply, const Room& room, const Care& care);

/// What is set there weighs, kg.
double mass_of(const Job& job, const Filled& filled);

/// True when one of the sort can stand there alone.
bool fits(const Job& job, const Sort& sort, const Room& room);

}  // namespace placer::loading
