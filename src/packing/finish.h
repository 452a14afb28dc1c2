/// @file finish.h
/// From the engine's poses to the answer: tidied, measured again by geometry, given out.
#pragma once

#include <vector>

#include "packing/bodies.h"

namespace placer::packing {

/// Handles turned one way where there is room for it, and places on whole millimetres and whole
/// degrees, if all still stands; otherwise as it was.
std::vector<Pose> tidied(const std::vector<Kind>& kinds, const Scene& scene,
                         const std::vector<Pose>& poses);

/// The places as given out, with the least gap measured afresh by geometry. A piece that geometry
/// finds too near something is taken out (it never happened, but never an overlap).
Packing finished(const Problem& problem, const std::vector<Kind>& kinds,
                 const std::vector<Pose>& poses);

/// "5 rows of 6", "rows of 6 and 5 by turns", "rows of 3, 4, 5 and 4".
std::string pattern_of(const std::vector<int>& rows);

}  // namespace placer::packing
