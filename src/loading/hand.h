/// @file hand.h
/// A filled level put in the order in which a person likes to set it, with nothing lost by it.
#pragma once

#include "loading/job.h"
#include "loading/setting.h"

namespace placer::loading {

/// For every level of the load that is not kept: rows of one kind each where all of the level's
/// pieces stand in such rows; else like pieces change places to lie together, handles are turned
/// one way and places moved to whole millimetres, each where it can be. Every piece stays on its
/// level and every rule holds. Names the rows.
void set_by_hand(const Job& job, const Kept& kept, KilnLoad& load);

/// One level of the load likewise.
void set_level_by_hand(const Job& job, const KilnLoad& load, Level& level);
/// Only if all of the level's pieces stand in rows of one kind each; else it stays as it is.
bool set_level_in_rows(const Job& job, const KilnLoad& load, Level& level);
/// Names the rows in which the level's pieces stand; none when they do not stand in rows.
void name_hand_rows(const Batch& batch, Level& level);

}  // namespace placer::loading
