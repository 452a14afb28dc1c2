/// @file sets.h
/// Pieces of a set share a firing: all of them, or none in this one.
#pragma once

#include "loading/setting.h"

namespace placer::loading {

/// set_load(), with every set wholly in the load or wholly out of it. A set that does not fit into
/// an empty kiln is set without that wish.
KilnLoad set_load_of_sets(const Job& job, const Recipe& recipe, int round, const Kept& kept,
                          Supply& supply);

}  // namespace placer::loading
