/// @file plan_view.h
/// One shelf seen from above, as the potter stands: far is up.
#pragma once

#include <optional>
#include <vector>

#include "report/cone_place.h"
#include "report/sheet.h"

namespace placer::report {

/// Everything that one shelf page is about.
struct ShelfView {
  const KilnLoad& load;
  const Level& level;
  std::vector<ConePlace> cones;  ///< on this shelf
};

/// The smallest n of 1 : n, from a list of round ones, at which the shelf fits into the room.
double round_scale(const Desk& desk, const ShelfView& view, const Room& room);

/// True when every number fits inside its piece at that scale.
bool numbers_fit(const Desk& desk, const ShelfView& view, double scale);

/// Draws the shelf in the middle of the room (labels above and below included).
void draw_plan(Page& page, const Desk& desk, const ShelfView& view, const Room& room, double scale);

/// The pattern of a piece's glaze (hatch.h); blank in a bisque firing.
int hatching_of(const Desk& desk, const KilnLoad& load, const PlacedPiece& piece);

}  // namespace placer::report
