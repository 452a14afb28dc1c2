/// @file equal.h
/// As many pieces of one kind as can be found.
#pragma once

#include <vector>

#include "packing/bodies.h"
#include "packing/effort.h"

namespace placer::packing {

/// Better than `seed` if the steps allow: one more piece at a time, pushed apart and re-set.
/// @param known_most a proven bound: the search ends there
std::vector<Pose> more_pieces(const std::vector<Kind>& kinds, const Scene& scene,
                              std::vector<Pose> seed, int known_most, const Budget& budget);

}  // namespace placer::packing
