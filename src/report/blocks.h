/// @file blocks.h
/// Pieces of a sheet of known height that are set one under another, column after column, page
/// after page. Long lists thus take more paper, never smaller letters.
#pragma once

#include <functional>
#include <vector>

#include "report/sheet.h"

namespace placer::report {

struct Block {
  double height = 0;                               ///< mm
  std::function<void(Page&, Point top_left)> ink;  ///< draws it
};

struct Columns {
  int count = 1;
  double gap = 5;       ///< mm between columns
  double line_gap = 2;  ///< mm between blocks
};

double column_width(const Room& room, const Columns& columns);

/// The first block that finds no place when blocks from `first` on are set into the room. A block
/// higher than the room takes a column of its own.
std::size_t blocks_that_fit(const std::vector<Block>& blocks, std::size_t first, const Room& room,
                            const Columns& columns);
/// The same, drawn.
std::size_t set_blocks(Page& page, const std::vector<Block>& blocks, std::size_t first,
                       const Room& room, const Columns& columns);
/// Height that the blocks take in one column.
double height_of(const std::vector<Block>& blocks, const Columns& columns);

}  // namespace placer::report
