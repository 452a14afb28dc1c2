/// @file let_in.h
/// The smallest changes that would let a piece in that was left out.
#pragma once

#include <string>
#include <vector>

#include "placer/model/batch.h"
#include "placer/model/load_plan.h"

namespace placer::loading {

/// Plain sentences, the smallest change first: so much shorter, so much less handle, posts or a
/// shelf more, a shelf less; none when nothing small helps. Each was tried.
std::vector<std::string> what_lets_in(const Batch& batch, const LoadPlan& plan,
                                      const LeftOut& left);

}  // namespace placer::loading
