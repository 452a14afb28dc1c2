/// @file rows.h
/// What a person would set: straight rows, hexagonal rows, and a plain fill from the front left.
#pragma once

#include <vector>

#include "packing/bodies.h"
#include "packing/standing.h"

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

}  // namespace placer::packing
