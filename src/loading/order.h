/// @file order.h
/// The order in which a person sets a shelf, and what a load weighs.
#pragma once

#include "loading/fill.h"
#include "placer/model/load_plan.h"

namespace placer::loading {

/// Puts what was filled on the level: numbers from far to near and left to right, rows where it
/// stands in rows, the air that is left.
void add_pieces(const Job& job, const Filled& filled, Level& level);

/// What was filled is no longer to be set.
void take_off(const Job& job, const Filled& filled, Supply& supply);

/// Lists the columns from far to near, so that no arm passes over a set one; those about as far as
/// each other stay in the batch's order. A bridge comes after all that lies under it.
void far_columns_first(const Batch& batch, KilnLoad& load);

/// Numbers every level's pieces from far to near and left to right, in the order in which they are
/// listed from then on.
void number_pieces(const Batch& batch, KilnLoad& load);

/// Ware and furniture of the load.
void weigh(const Batch& batch, KilnLoad& load);

}  // namespace placer::loading
