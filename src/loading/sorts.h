/// @file sorts.h
/// The pieces of one firing as they may stand on a shelf: alone, in stacks, a pot with its lid.
#pragma once

#include <vector>

#include "placer/model/batch.h"

namespace placer::loading {

/// Pieces that are set alike. One of them is one kind, or a pot with its lid on.
struct Sort {
  std::vector<int> kinds;          ///< indices into Batch::pieces, from the bottom up
  int count = 0;                   ///< to be set in this firing
  std::vector<SizedPiece> stacks;  ///< [n - 1]: n of them standing on one another
  bool runny = false;              ///< asks for Clearances::runny_gap
  std::vector<double> turns;       ///< the turns allowed; empty = free
  Wishes wishes;                   ///< of its lowest piece; those given up are taken out
  int piece() const { return kinds.front(); }
  Length height() const { return stacks.front().height; }
  double ground() const;  ///< area of one, mm²
};

/// Every sort of one firing, in the order of the batch. Lids stand on their pots as far as there
/// are pots.
std::vector<Sort> sorts_of(const Batch& batch, int load);

}  // namespace placer::loading
