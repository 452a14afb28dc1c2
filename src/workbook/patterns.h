/// @file patterns.h
/// Regular expressions (ECMA 262, as JSON Schema takes them) for the values that the readers
/// understand. Internal to workbook/.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "workbook/measure.h"

namespace placer::workbook {

/// Text in any capitals: "ab" -> "[aA][bB]".
std::string any_case(std::string_view text);
/// "(?:a|b)" of expressions.
std::string one_of(const std::vector<std::string>& alternatives);

/// One quantity, without the anchors: "17 3/4 in", "6 h 30".
std::string quantity_pattern(Measure measure);
/// The same for a value above zero.
std::string positive_quantity_pattern(Measure measure);
std::string pair_pattern();
std::string clock_pattern();
std::string quiet_pattern();
std::string units_pattern();
std::string price_pattern();
std::string energy_pattern();
std::string angle_pattern();
std::string percent_pattern();

/// "^ ... $" with room for blanks at both ends.
std::string anchored(std::string_view pattern);

}  // namespace placer::workbook
