/// @file own_units.h
/// Sentences made elsewhere, in the units and under the names that the studio reads.
#pragma once

#include <string>

#include "placer/report/report.h"

namespace placer::report {

/// "glaze load 1, left, shelf 2" as the sheets call it: "glaze, load 1 of 2, left, shelf 2", or
/// "glaze, shelf 2" where there is but one load and one column.
std::string with_names_of_sheets(const Batch& batch, const LoadPlan& plan, std::string words);

}  // namespace placer::report
