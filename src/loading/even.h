/// @file even.h
/// The weight of a load over its height and its columns.
#pragma once

#include "loading/job.h"
#include "placer/model/load_plan.h"

namespace placer::loading {

/// Nothing in the kiln and no wish hangs on how high a level lies.
bool heights_are_free(const Job& job);

/// Puts the heavy levels of each column under the light ones (its top level, which has no posts,
/// stays on top), where nothing in the kiln and no wish depends on their heights.
void heavy_low(const Job& job, KilnLoad& load);

/// Levels that the fullest column has more than the emptiest.
int unevenness(const Job& job, const KilnLoad& load);

}  // namespace placer::loading
