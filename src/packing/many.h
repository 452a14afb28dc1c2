/// @file many.h
/// A supply over many regions, as few as can be found.
#pragma once

#include <vector>

#include "packing/bodies.h"
#include "packing/effort.h"

namespace placer::packing {

/// One list of poses a region, in the order of use; scenes beyond the last are copies of the last.
std::vector<std::vector<Pose>> over_regions(std::vector<Kind> kinds,
                                            const std::vector<Scene>& scenes, const Budget& budget);

}  // namespace placer::packing
