/// @file canonical.h
/// One form for batches that differ only in the order in which things are listed, or by a mirror:
/// planned in that form, they get the same plan, turned back.
#pragma once

#include <vector>

#include "placer/loading/loading.h"

namespace placer::loading {

/// Of each thing in one batch, its index in another.
struct Numbers {
  std::vector<int> kinds, columns, keep_outs, bridges;
};

/// A batch with its pieces and columns sorted by what they are (never by their names), left and
/// right changed over where that gives the smaller description.
class Canonical {
 public:
  explicit Canonical(const Batch& batch);

  const Batch& batch() const { return batch_; }
  /// A level of the potter's batch as this one knows it.
  Level in_form(const Level& level) const;
  /// A plan of this batch as the potter's knows it. Its pieces keep the numbers that they have, and
  /// its wishes and remarks are not touched.
  LoadPlan back(const LoadPlan& plan) const;

 private:
  PlacedPost turned(const PlacedPost& post) const;
  PlacedPiece turned(const PlacedPiece& piece, const std::vector<int>& kinds) const;
  ConePack turned(const ConePack& pack, const std::vector<int>& keep_outs) const;
  Level turned(const Level& level, const Numbers& numbers, const Kiln& kiln) const;

  Batch batch_;
  Kiln kiln_;  ///< the potter's
  bool mirrored_ = false;
  Numbers potters_;  ///< of each in the form, the potter's index
  Numbers forms_;    ///< of each of the potter's, the form's index
};

}  // namespace placer::loading
