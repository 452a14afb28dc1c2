/// @file columns.h
/// Many pieces of few kinds over many like regions: a few patterns, each searched for long, serve
/// for all.
#pragma once

#include <vector>

#include "packing/bodies.h"
#include "packing/effort.h"

namespace placer::packing {

/// True when patterns are worth while: few kinds, many of each, many regions.
bool suits_patterns(const std::vector<Kind>& kinds, std::size_t regions);

/// Fewer regions than `known` (which hold the whole supply) if they can be found; else `known`.
/// All regions are `scene`.
/// @param library [in, out] patterns found by earlier searches; new ones are added
/// @source P. C. Gilmore and R. E. Gomory, "A linear programming approach to the cutting stock
///   problem", Operations Research 9 (1961): what a new pattern should hold is told by what the
///   pieces are worth to the patterns known
std::vector<std::vector<Pose>> by_patterns(const std::vector<Kind>& kinds, const Scene& scene,
                                           const std::vector<std::vector<Pose>>& known,
                                           std::vector<std::vector<Pose>>& library,
                                           const Budget& budget);

}  // namespace placer::packing
