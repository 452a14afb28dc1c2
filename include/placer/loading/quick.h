/// @file quick.h
/// A question without a studio file: how many pieces of a size go on a shelf of a size?
#pragma once

#include <string>
#include <vector>

#include "placer/geometry/shape.h"
#include "placer/loading/loading.h"

namespace placer::loading {

struct ShelfAnswer {
  int pieces = 0;
  int at_most = 0;      ///< no arrangement at all holds more; proven
  std::string pattern;  ///< "5 rows of 6"; "" when they do not stand in rows
  std::vector<Placement> places;
};

/// @param gap piece to piece, mm.
/// @throws std::invalid_argument when a size or the gap makes no sense, naming it.
ShelfAnswer how_many(const Region& shelf, const Footprint& piece, double gap,
                     Effort effort = Effort::normal);

}  // namespace placer::loading
