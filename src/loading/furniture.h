/// @file furniture.h
/// What of the furniture a plan needs at once.
#pragma once

#include "placer/model/batch.h"
#include "placer/model/load_plan.h"

namespace placer::loading {

/// Counts shelves and posts anew: of each kind the most that any one load has in use.
void count_furniture(const Batch& batch, LoadPlan& plan);

}  // namespace placer::loading
