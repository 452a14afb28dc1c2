/// @file rows.h
/// What a person would set: straight rows, hexagonal rows, and a plain fill from the front left.
#pragma once

#include <vector>

#include "packing/bodies.h"

namespace placer::packing {

struct Found {
  std::vector<Pose> poses;
  bool orderly = false;
  std::vector<int> rows;  ///< pieces in each row, front to back, when orderly
};

/// The best rows (square and by turns) of one kind over offsets, angles and turns.
Found best_rows(const Kind& kind, const Scene& scene, int kind_index, int limit);

/// Largest value first, each at the first free spot from the front left.
std::vector<Pose> plain_fill(const std::vector<Kind>& kinds, const Scene& scene);

/// A running record of what stands where, to ask whether a piece may stand there too.
class Standing {
 public:
  Standing(const std::vector<Kind>& kinds, const Scene& scene) : kinds_{&kinds}, scene_{&scene} {}
  bool free_for(const Pose& pose);
  void add(const Pose& pose);
  const std::vector<Pose>& poses() const { return poses_; }

 private:
  const std::vector<Kind>* kinds_;
  const Scene* scene_;
  std::vector<Pose> poses_;
  std::vector<Solid> set_;
  Solid trial_;
};

}  // namespace placer::packing
