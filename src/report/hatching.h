/// @file hatching.h
/// Glazes told apart by line patterns in black ink.
#pragma once

#include <optional>
#include <vector>

#include "placer/geometry/shape.h"
#include "report/drawing.h"

namespace placer::report {

/// The strokes of a pattern (numbers as in hatch.h) inside an area, paper coordinates. `spare` is
/// left free of ink (room for a number). Patterns are fixed to the paper, so that like areas look
/// alike.
/// @throws std::invalid_argument for a pattern outside 0..kHatches.
std::optional<Strokes> hatched(const Footprint& area, int pattern,
                               const std::optional<Box>& spare = std::nullopt);

/// The parts of a segment that lie in the area, as pairs of its parameter (0 at `from`, 1 at `to`),
/// rising and apart from each other.
std::vector<std::pair<double, double>> parts_inside(const Footprint& area, Point from, Point to);

}  // namespace placer::report
