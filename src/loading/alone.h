/// @file alone.h
/// Proof that a piece lies on a shelf in no way, not even alone.
#pragma once

#include "loading/limits.h"

namespace placer::loading {

/// True when it is proven that none of the claim's stacks lies on the floor, however it is turned.
/// @param halo half the gap that the claim's sort keeps, no more than the floor was grown by.
bool lies_nowhere(const Job& job, const Claim& claim, const Floor& floor, double halo);

}  // namespace placer::loading
