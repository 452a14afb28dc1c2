/// @file side_view.h
/// The kiln from the side: shelves, posts and heights added up.
#pragma once

#include "report/sheet.h"

namespace placer::report {

/// A narrow view of one column with the shelf in question black: what is under it, what comes over.
void draw_stack(Page& page, const Desk& desk, const KilnLoad& load, const Level& level,
                const Room& room);

/// The whole kiln: each column with its shelves, posts and pieces, and the heights beside it.
void draw_kiln_side(Page& page, const Desk& desk, const KilnLoad& load, const Room& room);

}  // namespace placer::report
