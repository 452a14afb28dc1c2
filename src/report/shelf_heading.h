/// @file shelf_heading.h
/// What a shelf page says first, large: which shelf, of which firing, and what it takes now.
#pragma once

#include <string>

#include "report/plan_view.h"

namespace placer::report {

constexpr double kShelfHeading = 15.5;  ///< mm that it takes

/// `extra` follows "of 5, from the bottom".
void draw_shelf_heading(Page& page, const Desk& desk, const ShelfView& view, std::size_t firing,
                        const std::string& extra);

}  // namespace placer::report
