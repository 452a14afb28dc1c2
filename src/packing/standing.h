/// @file standing.h
/// What stands where, to ask whether a piece may stand there too.
#pragma once

#include <vector>

#include "packing/bodies.h"

namespace placer::packing {

/// Grows piece by piece; asks only the pieces near by.
class Standing {
 public:
  Standing(const std::vector<Kind>& kinds, const Scene& scene);
  bool free_for(const Pose& pose);
  /// Going right from `at`, the first x that is not hopeless at once: where the disc inside the
  /// piece is clear of the disc inside whatever blocks it at `at` (just beyond `at`, if that is the
  /// edge). `at.x` itself when nothing does. Cheap, and right for every turn of the piece.
  double clear_from(int kind, Point at) const;
  void add(const Pose& pose);
  const std::vector<Pose>& poses() const { return poses_; }

 private:
  int column(double x) const;
  int row(double y) const;

  const std::vector<Kind>* kinds_;
  const Scene* scene_;
  double cell_ = 1;  ///< no two pieces further apart than this can be too near
  int columns_ = 1, rows_ = 1;
  std::vector<std::vector<int>> cells_;
  std::vector<Pose> poses_;
  std::vector<Solid> set_;
  Solid trial_;
};

}  // namespace placer::packing
