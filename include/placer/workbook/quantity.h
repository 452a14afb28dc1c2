/// @file quantity.h
/// Single numbers with their unit, as given on a command line: "17 3/4 in", "2232 F", "6 h 30".
/// The same spellings as in a studio file.
#pragma once

#include <optional>
#include <string_view>

#include "placer/base/units.h"

namespace placer::workbook {

/// Each returns nothing when the text is not such a quantity. A bare number is mm or inches, °C or
/// °F, °C/h or °F/h; hours need a unit or the form 6:30.
std::optional<Length> read_length(std::string_view text, bool inches);
std::optional<Temperature> read_temperature(std::string_view text, bool fahrenheit);
std::optional<Ramp> read_ramp(std::string_view text, bool fahrenheit);
std::optional<Hours> read_hours(std::string_view text);
std::optional<Mass> read_mass(std::string_view text);

}  // namespace placer::workbook
