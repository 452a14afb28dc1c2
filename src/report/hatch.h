/// @file hatch.h
/// Which hatching shows which glaze: the same on paper and on the page.
#pragma once

#include "placer/model/batch.h"

namespace placer::report {

constexpr int kHatches = 24;  ///< 12 patterns, each in light and in heavy lines

/// 0 = blank (no glaze); 1 "/", 2 "\", 3 crossed, 4 level, 5 upright, 6 squares, 7 dots, 8 pairs of
/// "/", 9 short dashes, 10 pairs of "\", 11 zigzag, 12 little crosses; 13-24 the same in heavier
/// lines. In a bisque firing there is no glaze on the ware: call it for glaze firings only.
inline int hatch_of_glaze(int glaze) { return 1 + glaze % kHatches; }
inline int hatch_of(const Batch&, const PieceKind& piece) {
  return piece.glaze ? hatch_of_glaze(*piece.glaze) : 0;
}

}  // namespace placer::report
