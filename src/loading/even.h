/// @file even.h
/// The weight of a load over its height and its columns.
#pragma once

#include "loading/job.h"
#include "placer/model/load_plan.h"

namespace placer::loading {

/// Ware on a level, kg.
double mass_on(const Level& level);

/// Ware that may yet be set on a level of the load, kg; infinity where there are no limits.
double mass_left_on(const Kiln& kiln, const KilnLoad& load, const Level& level);

/// Nothing in the kiln and no wish hangs on how high a level lies.
bool heights_are_free(const Job& job);

/// What was done for even heat.
struct Evened {
  bool moved = false;    ///< levels to another column
  bool swapped = false;  ///< levels of one column
};

/// Moves whole levels from full columns to emptier ones, then the heavy levels of each column
/// towards the middle of the kiln's height where nothing depends on their heights. Takes no shelf
/// and no post more.
Evened even_out(const Job& job, KilnLoad& load);

/// Sum over a load's ware of its mass times how far its level's middle is from the middle of the
/// kiln's height, kg·mm.
double away_from_middle(const Kiln& kiln, const std::vector<Level>& levels);

/// Levels that the fullest column has more than the emptiest.
int unevenness(const Job& job, const KilnLoad& load);

}  // namespace placer::loading
