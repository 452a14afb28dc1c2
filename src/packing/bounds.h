/// @file bounds.h
/// What no packing can beat.
#pragma once

#include <vector>

#include "packing/bodies.h"

namespace placer::packing {

/// An upper bound on the number of the one kind.
int most_of(const Item& item, const Kind& kind, const Problem& problem, const Scene& scene);

/// The ground that the piece takes from all others, mm²: its area grown by half the gap (and its
/// halo), never too large.
double grown_area(const Item& item, double gap);

/// The ground there is for grown pieces, mm², never too small.
double ground(const Problem& problem, const Scene& scene);

}  // namespace placer::packing
