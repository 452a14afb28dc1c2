/// @file own_units.h
/// Sentences made elsewhere, in the units and under the names that the studio reads.
#pragma once

#include <string>

#include "placer/report/report.h"

namespace placer::report {

/// Inches and pounds in place of mm and kg alone, °F before °C, when `inches`: "1209 °F (654 °C)",
/// "8 1/2 in (216 mm)", "3 1/8 x 1 3/16 in (80 x 30 mm)", "5.5 lb (2.5 kg)"; else unchanged.
std::string in_own_units(const std::string& words, bool inches);

/// "glaze load 1, left, shelf 2" as the sheets call it: "glaze, load 1 of 2, left, shelf 2", or
/// "glaze, shelf 2" where there is but one load and one column.
std::string with_names_of_sheets(const Batch& batch, const LoadPlan& plan, std::string words);

}  // namespace placer::report
