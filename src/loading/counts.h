/// @file counts.h
/// Proven counts of discs.
#pragma once

#include "loading/floor.h"

namespace placer::loading {

/// Discs of this radius that lie on the floor without overlap are never more.
int most_discs(const Floor& floor, double radius);

/// So many discs of radius 1 are known to go into a disc of this radius.
int discs_within(double ratio);

}  // namespace placer::loading
