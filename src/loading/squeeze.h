/// @file squeeze.h
/// Proofs that a few large discs do not go on a floor together.
#pragma once

#include <vector>

#include "loading/floor.h"

namespace placer::loading {

/// True only when it is proven that discs of these radii cannot lie on the floor without overlap:
/// every place of each is looked at in boxes that are halved until two are too near to one another.
/// @param looks boxes looked at before it is given up; what is left of them comes back.
bool cannot_lie(const Floor& floor, std::vector<double> radii, int& looks);

}  // namespace placer::loading
