/// @file side_view.h
/// The kiln from the side: shelves, posts and heights added up.
#pragma once

#include "report/sheet.h"

namespace placer::report {

constexpr double kStackFoot = 4;  ///< mm for the line below the stack

/// A narrow view of one column with the shelf in question black; between two shelves the room and
/// the next shelf's thickness, beside each the height that they add up to.
void draw_stack(Page& page, const Desk& desk, const KilnLoad& load, const Level& level,
                const Room& room);

/// The kiln from above, small, with the shelf in question black: which column it is.
void draw_whereabouts(Page& page, const Desk& desk, const KilnLoad& load, const Level& level,
                      const Room& room);

/// The whole kiln: each column with its shelves, posts and pieces, and the heights beside it.
void draw_kiln_side(Page& page, const Desk& desk, const KilnLoad& load, const Room& room);

}  // namespace placer::report
