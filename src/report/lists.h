/// @file lists.h
/// Lists of pieces: like pieces on one line, in setting order; left-out ones by their reason.
#pragma once

#include <string>
#include <vector>

#include "placer/report/report.h"

namespace placer::report {

/// Pieces that look alike: the same kind, stacked alike. By rising number.
struct ListLine {
  std::vector<const PlacedPiece*> pieces;
  std::string name;     ///< "Mug", "Bowl, stack of 3"
  std::string detail;   ///< "shino, 105 mm high, each in the one below"
  bool cookie = false;  ///< a runny glaze: a cookie under each
};

/// The stack from the bottom up in words: "from the bottom: 3 Raw plate, 2 Raw bowl"; of one kind
/// only how it is built: "each in the one below"; "" for a single piece.
std::string build_words(const Subject& subject, const PlacedPiece& piece);

/// Lines in the order of their first piece. The pieces point into the level.
std::vector<ListLine> list_lines(const Subject& subject, const KilnLoad& load, const Level& level);

/// "12 Tea bowl", "2 stacks of 3 Raw plate", "1 mixed stack of 5": how many to carry, then what;
/// the numbers follow it.
std::string head_words(const Subject& subject, const ListLine& line);

/// Left-out pieces that share a reason.
struct LeftOutGroup {
  std::vector<const LeftOut*> pieces;
  const std::string& reason() const { return pieces.front()->reason; }
};

/// Neighbours in the list of the same load and reason together, `most` at a time.
std::vector<LeftOutGroup> by_reason(const std::vector<LeftOut>& left_out, std::size_t most);

/// True when the ware of this load has its glaze on.
bool glazed(const Subject& subject, const KilnLoad& load);

}  // namespace placer::report
