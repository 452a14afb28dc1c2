/// @file plans.h
/// What several tests of loading begin with.
#pragma once

#include "loading/studios.h"
#include "placer/loading/loading.h"

namespace placer::loading {

inline Options quick() {
  Options options;
  options.effort = Effort::quick;
  return options;
}

/// Mugs, vases and bowls, in this order, for a front loader of two columns, 940 mm high; a second
/// glaze, which runs.
inline Batch mugs_vases_bowls() {
  Batch batch = studios::studio(2, 1, 1);
  batch.glazes.push_back({"copper", true, {}});
  batch.pieces.clear();
  batch.pieces.push_back(studios::piece("mug", 24, studios::round(85), 100));
  batch.pieces.push_back(studios::piece("vase", 3, studios::round(100), 220));
  batch.pieces.push_back(studios::piece("bowl", 8, studios::round(150), 70));
  return batch;
}

}  // namespace placer::loading
