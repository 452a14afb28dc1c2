/// @file boxes.h
/// Rectangles that lie square to the region: free rectangles kept as large as they come (maxrects),
/// and a search over the order in which the pieces are set.
#pragma once

#include <vector>

#include "packing/bodies.h"
#include "packing/effort.h"

namespace placer::packing {

/// True when every kind is one rectangle that may lie square to the axes.
bool all_boxes(const std::vector<Kind>& kinds);

/// The most value from rectangles. Keep-outs and slanting or round edges are covered by steps.
/// @param spent [in, out] steps done are added
std::vector<Pose> most_boxes(const std::vector<Kind>& kinds, const Scene& scene,
                             const Budget& budget, std::uint64_t& spent);

}  // namespace placer::packing
