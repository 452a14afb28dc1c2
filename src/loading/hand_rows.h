/// @file hand_rows.h
/// Rows from far to near, each of one kind.
#pragma once

#include "loading/bench.h"

namespace placer::loading {

/// Sets all that is on the bench in rows across, each of one kind with all handles one way; false,
/// and nothing moved, when they do not all find room so.
bool set_in_rows(Bench& bench);

/// The same by the packing engine's rows, for a level of nothing but one sort: square or by turns,
/// whichever way they hold all.
bool set_in_close_rows(Bench& bench);

}  // namespace placer::loading
