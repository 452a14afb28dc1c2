/// @file wishes.h
/// Wishes that cannot be granted: given up one by one, the weakest first, and said so.
#pragma once

#include <vector>

#include "loading/job.h"
#include "placer/model/load_plan.h"

namespace placer::loading {

/// Gives up the weakest wish of the sort that restricts where it may stand; false when none is
/// left.
bool give_up_one(Sort& sort);

/// Every wish that the finished plan does not grant, with the reason.
std::vector<Ungranted> not_granted(const Batch& batch, const LoadPlan& plan);

}  // namespace placer::loading
