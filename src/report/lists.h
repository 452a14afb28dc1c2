/// @file lists.h
/// The list beside a shelf's map: like pieces on one line, in setting order.
#pragma once

#include <string>
#include <vector>

#include "placer/report/report.h"

namespace placer::report {

/// Pieces that look alike: the same kind, stacked alike. By rising number.
struct ListLine {
  std::vector<const PlacedPiece*> pieces;
  std::string name;    ///< "Mug", "Bowl, stack of 3"
  std::string detail;  ///< "shino, 105 mm high, each in the one below"
};

/// Lines in the order of their first piece. The pieces point into the level.
std::vector<ListLine> list_lines(const Subject& subject, const KilnLoad& load, const Level& level);

/// True when the ware of this load has its glaze on.
bool glazed(const Subject& subject, const KilnLoad& load);

}  // namespace placer::report
