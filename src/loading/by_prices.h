/// @file by_prices.h
/// A proof of how many loads there are at least, by what each piece may be worth.
#pragma once

#include "loading/kiln_most.h"

namespace placer::loading {

/// A piece of each claim has a price, and no load can be worth more than 1; then there are at least
/// as many loads as all is worth. The prices come from a linear program over the best loads found
/// so far. Where that stops little short of a whole number, it is asked of each number of shelves
/// for the tall pieces that all loads can have together.
/// @param enough no more than so many need be proven. @param brief only the first part, and without
/// looking for what does not go together
int by_prices(const Job& job, KilnLimits& kiln, int enough, bool brief);

}  // namespace placer::loading
