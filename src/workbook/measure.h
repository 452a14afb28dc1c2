/// @file measure.h
/// Numbers with their unit, as a potter writes them: "17 3/4 in", "6 h 30", "2232 °F". Internal
/// to workbook/.
///
/// A number is 12, 12.5, .5, 3/4, 17 3/4, 17-3/4 or 17½; no sign, no exponent, no comma. Two parts
/// of falling size may follow each other ("6 h 30 min", "1 ft 6 in", "3 lb 4 oz"), and the second
/// of them may leave its unit out. Hours may be written 6:30.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace placer::workbook {

enum class Measure { length, mass, temperature, duration, power, rate };

/// What a bare number means: the file's `units:` line.
struct UsualUnits {
  std::string length = "mm";      ///< mm, cm, m, in
  std::string temperature = "C";  ///< C, F
  std::string mass = "kg";        ///< kg, g, lb, oz

  bool inches() const { return length == "in" || length == "ft"; }
  bool fahrenheit() const { return temperature == "F"; }
};

struct Quantity {
  double value = 0;   ///< mm, kg, °C, h, kW or °C/h
  bool bare = false;  ///< no unit was written
};

struct QuantityOrWhy {
  std::optional<Quantity> quantity;
  std::string complaint;                  ///< when there is none: one sentence
  std::optional<std::string> suggestion;  ///< what was probably meant
};
QuantityOrWhy read_quantity(std::string_view text, Measure measure, const UsualUnits& units);

/// Two lengths, "500 x 450": a unit behind the second one alone counts for both.
struct Pair {
  double first = 0, second = 0;  ///< mm
};
struct PairOrWhy {
  std::optional<Pair> pair;
  std::string complaint;
  std::optional<std::string> suggestion;
};
PairOrWhy read_pair(std::string_view text, const UsualUnits& units);

/// One spelling of a unit: value x factor + offset is in the base unit of its measure.
struct Unit {
  std::string_view name;  ///< lower case, without the degree sign
  Measure measure;
  double factor, offset;
};
const std::vector<Unit>& all_units();

/// "a length", "a temperature", ...
std::string_view in_words(Measure measure);
/// "mm, cm, m, in or ft", ...
std::string_view units_in_words(Measure measure);
/// "105 mm", "1220 C", ... an example with its unit.
std::string_view example_of(Measure measure);
/// The quantity in the base unit, as a person reads it: "241.3 mm", "1222 °C (2232 °F)", "6 h 30".
std::string understood(double value, Measure measure, const UsualUnits& units);

/// A number without needless zeros, at most two decimals: "241.3".
std::string plain_number(double value);
/// Cut blanks at both ends.
std::string_view trimmed(std::string_view text);
std::string lower_case(std::string_view text);

/// A plain decimal number that fills the whole text ("12", "12.5", ".5"); nothing else.
std::optional<double> plain_decimal(std::string_view text);

}  // namespace placer::workbook
