/// @file mixed.h
/// The most value from a mixed supply.
#pragma once

#include <vector>

#include "packing/bodies.h"
#include "packing/effort.h"

namespace placer::packing {

/// From `seed` (which must stand as it is) upwards.
std::vector<Pose> more_value(const std::vector<Kind>& kinds, const Scene& scene,
                             const std::vector<Pose>& seed, const Budget& budget);

double value_of(const std::vector<Kind>& kinds, const std::vector<Pose>& poses);

}  // namespace placer::packing
