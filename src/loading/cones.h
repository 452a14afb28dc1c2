/// @file cones.h
/// Packs of witness cones: each spy hole has one set before it, as part of the plan.
#pragma once

#include <vector>

#include "loading/job.h"
#include "loading/setting.h"
#include "placer/model/load_plan.h"

namespace placer::loading {

/// Sets a pack for every spy hole in each load of one firing, in the order in which they are fired:
/// on a free spot in sight; else where pieces can make room; else out of sight; else the load says
/// why there is none. Packs on levels that were set before stay where they are.
void set_cones(const Job& job, const Kept& kept, std::vector<KilnLoad>& loads);

/// Packs for the holes of a load that have none in sight yet, where they are free to stand. Nothing
/// else is moved.
void set_cones_beside(const Batch& batch, KilnLoad& load);

}  // namespace placer::loading
