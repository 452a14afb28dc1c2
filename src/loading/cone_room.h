/// @file cone_room.h
/// What packs of cones take of the room on a shelf.
#pragma once

#include "loading/job.h"
#include "placer/model/load_plan.h"

namespace placer::loading {

/// Keeps pieces off the packs that stand on a level of the load, and out of what any pack of the
/// load is seen through.
void keep_clear_of_cones(const Job& job, const KilnLoad& load, const Level& level, Room& room);

}  // namespace placer::loading
