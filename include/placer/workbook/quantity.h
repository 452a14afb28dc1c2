/// @file quantity.h
/// Single numbers with their unit, as given on a command line: "17 3/4 in", "2232 F", "6 h 30".
/// The same spellings as in a studio file.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "placer/base/units.h"

namespace placer::workbook {

/// Each returns nothing when the text is not such a quantity. A bare number is mm or inches, °C or
/// °F, °C/h or °F/h; hours need a unit or the form 6:30.
std::optional<Length> read_length(std::string_view text, bool inches);
std::optional<Temperature> read_temperature(std::string_view text, bool fahrenheit);
std::optional<Ramp> read_ramp(std::string_view text, bool fahrenheit);
std::optional<Hours> read_hours(std::string_view text);
std::optional<Mass> read_mass(std::string_view text);

/// A length, or one sentence that says why the text is none.
struct LengthOrWhy {
  std::optional<Length> length;
  std::string complaint;
};
LengthOrWhy read_length_or_why(std::string_view text, bool inches);

/// Two lengths, "600 x 300": a unit behind the second alone counts for both.
struct SizesOrWhy {
  std::optional<std::pair<Length, Length>> sizes;
  std::string complaint;
};
SizesOrWhy read_sizes(std::string_view text, bool inches);

}  // namespace placer::workbook
