/// @file loading.h
/// Which piece goes in which firing, column, level and place, and which shelves and posts carry it.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "placer/model/batch.h"
#include "placer/model/load_plan.h"

namespace placer::loading {

enum class Effort { quick, normal, thorough };

struct Options {
  // changes the answer
  Effort effort = Effort::normal;
  std::vector<Level>
      keep;  ///< levels already set, kept as they are (first load of the first firing)
  // changes the time
  int threads = 2;
  std::function<bool()> stop = nullptr;
  std::function<void(double done)> progress = nullptr;  ///< 0..1
};

/// A plan that holds every rule; pieces that cannot be set are in left_out with the reason.
/// The answer is a function of the batch (with its seed) and the options above the line.
LoadPlan plan(const Batch& batch, const Options& options = {});

/// The plan again after pieces of a kind broke, with the least change: everything stays where it
/// is; a place set free goes to one of the kind that was left out or would have come in a later
/// load, the last one first. A load that nothing is left for is dropped.
///
/// @param batch with the smaller count; `before` was made from it with `broken` more of that kind.
LoadPlan without_broken(const Batch& batch, const LoadPlan& before, int piece, int broken);

/// Why the piece stands where it stands or was left out, and the smallest change that would let
/// it in. Several plain sentences.
std::vector<std::string> why(const Batch& batch, const LoadPlan& plan, int piece);

/// How many more of each kind would still fit in the plan's loads, by piece index.
std::vector<int> room_left(const Batch& batch, const LoadPlan& plan);

}  // namespace placer::loading
