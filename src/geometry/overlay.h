/// @file overlay.h
/// Cutting shapes with one another, arcs drawn as chords.
#pragma once

#include "placer/geometry/shape.h"

namespace placer::overlay {

/// Area of the region less its keep-outs in mm², good to 1e-5.
double area_less_keep_outs(const Region& region);

/// The largest piece of an outline inside a convex outline.
Outline cut_to(const Outline& outline, const Outline& convex);

}  // namespace placer::overlay
