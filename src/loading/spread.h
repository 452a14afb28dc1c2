/// @file spread.h
/// Whole levels moved from one column to another, so that a load does not stand on one side.
#pragma once

#include "loading/job.h"
#include "placer/model/load_plan.h"

namespace placer::loading {

/// Moves levels from full columns to those that have two fewer or more, each with all its pieces;
/// true when any moved. Wishes and what must be kept clear at some heights are kept to. Only for
/// loads of which nothing is set yet.
bool spread_over_columns(const Job& job, KilnLoad& load);

/// A column's levels from the bottom up.
std::vector<Level> levels_in(const KilnLoad& load, int column);
/// Takes the place of the column's levels in the load's list.
void put_back(const std::vector<Level>& levels, int column, KilnLoad& load);
/// Height of what carries a level's shelf.
Length underside_of(const Kiln& kiln, const Level& level);
/// Levels of one column, lowest first, set on one another again from that height.
void restack(const Kiln& kiln, std::vector<Level>& levels, Length underside);

}  // namespace placer::loading
