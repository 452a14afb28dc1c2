/// @file remarks.h
/// What else there is to say of a plan: what more furniture would bring, how the weight lies.
#pragma once

#include "placer/loading/loading.h"

namespace placer::loading {

void add_remarks(const Batch& batch, const Options& options, LoadPlan& plan);

}  // namespace placer::loading
