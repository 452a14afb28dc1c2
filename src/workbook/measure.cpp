#include "workbook/measure.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "placer/base/words.h"
#include "workbook/broken_text.h"
#include "workbook/cursor.h"
#include "workbook/odd_numbers.h"

namespace placer::workbook {
namespace {

std::string without_degrees(std::string_view unit) {
  std::string out;
  for (std::size_t i = 0; i < unit.size();) {
    const std::string_view rest = unit.substr(i);
    if (rest.starts_with("°") || rest.starts_with("º") || rest.starts_with("˚")) {
      i += 2;
    } else if (rest.front() == ' ') {
      ++i;
    } else {
      out += rest.front();
      ++i;
    }
  }
  return lower_case(out);
}

const Unit* find_unit(std::string_view word, Measure measure) {
  const std::string name = without_degrees(word);
  const Unit* other = nullptr;
  for (const Unit& unit : all_units()) {
    if (unit.name != name) continue;
    if (unit.measure == measure) return &unit;
    other = &unit;
  }
  return other;
}

QuantityOrWhy why(std::string complaint, std::optional<std::string> suggestion = std::nullopt) {
  return {std::nullopt, std::move(complaint), std::move(suggestion)};
}

QuantityOrWhy not_a_number(std::string_view text, Measure measure) {
  if (auto odd = oddity_in(text)) return why(odd->complaint, odd->suggestion);
  if (text.empty()) {
    return why(fmt::format("nothing is given here: {} is needed, for example {}", in_words(measure),
                           example_of(measure)));
  }
  if (text.front() == '-') {
    return why(fmt::format("{} is below zero: {} is needed, for example {}", shortened(text),
                           in_words(measure), example_of(measure)));
  }
  return why(fmt::format("\"{}\" is not a number: {} is needed, for example {}", shortened(text),
                         in_words(measure), example_of(measure)));
}

/// "1240°", "1240 degrees", "1240 deg": of which scale?
QuantityOrWhy degrees_of_what(std::string_view text, std::string_view word) {
  const std::string number{trimmed(text.substr(0, text.find(word)))};
  return why(
      fmt::format("\"{0}\" leaves the scale out: write {1} C or {1} F", shortened(text), number));
}

QuantityOrWhy unknown_unit(std::string_view text, std::string_view word, Measure measure) {
  if (oddity_in(text) || word.starts_with('/')) return not_a_number(text, measure);
  std::vector<std::string> names;
  for (const Unit& unit : all_units()) {
    if (unit.measure == measure) names.emplace_back(unit.name);
  }
  const std::string unit_word = without_degrees(word);
  if (measure == Measure::temperature && (unit_word.empty() || unit_word == "deg" ||
                                          unit_word == "degree" || unit_word == "degrees")) {
    return degrees_of_what(text, word);
  }
  std::optional<std::string> near;
  if (unit_word.size() > 1) near = nearest_word(unit_word, names);
  if (near) {
    const std::size_t at = text.find(word);
    near = std::string{text.substr(0, at)} + *near + std::string{text.substr(at + word.size())};
  }
  return why(fmt::format("\"{}\" is not a unit known here: {} is given in {}", shortened(word),
                         in_words(measure), units_in_words(measure)),
             near);
}

struct Part {
  double number = 0;
  const Unit* unit = nullptr;  ///< nullptr: none was written
};

/// What a bare second part means: minutes after hours, inches after feet, ounces after pounds.
std::string_view smaller_than(std::string_view unit) {
  if (unit.starts_with('h')) return "min";
  if (unit == "ft" || unit == "'" || unit == "′" || unit == "foot" || unit == "feet") return "in";
  if (unit.starts_with("lb") || unit.starts_with("pound")) return "oz";
  return "";
}

std::string_view usual_unit(Measure measure, const UsualUnits& units) {
  switch (measure) {
    case Measure::length:
      return units.length;
    case Measure::mass:
      return units.mass;
    case Measure::temperature:
      return units.temperature;
    case Measure::duration:
      return "";
    case Measure::power:
      return "kw";
    case Measure::rate:
      return units.fahrenheit() ? "f/h" : "c/h";
  }
  return "";
}

QuantityOrWhy from_parts(std::string_view text, const std::vector<Part>& parts, Measure measure,
                         const UsualUnits& units) {
  const Part& first = parts.front();
  const bool bare = first.unit == nullptr;
  const Unit* unit = bare ? find_unit(usual_unit(measure, units), measure) : first.unit;
  if (bare && measure == Measure::duration) {
    return why(fmt::format("{0} of what? write {0} min or {0} h", text),
               std::string{text} + " min");
  }
  double value = first.number * unit->factor + unit->offset;
  if (parts.size() == 2) {
    const std::string_view smaller = bare ? "" : smaller_than(unit->name);
    const Unit* second = parts[1].unit;
    if (second == nullptr && !smaller.empty()) second = find_unit(smaller, measure);
    if (smaller.empty() || second == nullptr || second->factor >= unit->factor) {
      return not_a_number(text, measure);
    }
    value += parts[1].number * second->factor;
  }
  return {Quantity{value, bare}, "", std::nullopt};
}

/// "6:30" as hours and minutes.
std::optional<double> clock_length(std::string_view text) {
  Cursor cursor{text};
  const auto hours = cursor.number();
  if (!hours || !cursor.take(":") || cursor.rest().size() != 2) return std::nullopt;
  const auto minutes = plain_decimal(cursor.rest());
  if (!minutes || *minutes >= 60 || *hours != std::floor(*hours)) return std::nullopt;
  return *hours + *minutes / 60;
}

}  // namespace

QuantityOrWhy read_quantity(std::string_view given, Measure measure, const UsualUnits& units) {
  const std::string_view text = trimmed(given);
  if (measure == Measure::duration && text.find(':') != std::string_view::npos) {
    if (const auto hours = clock_length(text)) return {Quantity{*hours, false}, "", std::nullopt};
    return not_a_number(text, measure);
  }
  Cursor cursor{text};
  std::vector<Part> parts;
  while (!cursor.done() && parts.size() < 3) {
    const auto number = cursor.number();
    if (!number) return not_a_number(text, measure);
    cursor.skip_blanks();
    const std::string_view word = cursor.unit();
    const Unit* unit = word.empty() ? nullptr : find_unit(word, measure);
    if (!word.empty() && unit == nullptr) {
      return unknown_unit(text, word, measure);
    }
    if (unit != nullptr && unit->measure != measure) {
      return why(fmt::format("\"{}\" is {}, but {} is needed, for example {}", shortened(text),
                             in_words(unit->measure), in_words(measure), example_of(measure)));
    }
    parts.push_back({*number, unit});
  }
  if (parts.empty() || parts.size() > 2) return not_a_number(text, measure);
  return from_parts(text, parts, measure, units);
}

namespace {

/// Where the sign between two sizes stands, and its bytes.
struct Cross {
  std::size_t at = 0, bytes = 0;
};
std::optional<Cross> cross_in(std::string_view text) {
  if (const std::size_t sign = text.find("×"); sign != std::string_view::npos) {
    return Cross{sign, std::string_view{"×"}.size()};
  }
  const std::size_t letter = text.find_first_of("xX");
  return letter == std::string_view::npos ? std::nullopt : std::optional{Cross{letter, 1}};
}

/// The unit word behind the first number of a quantity.
std::string_view unit_behind(std::string_view quantity) {
  Cursor cursor{quantity};
  cursor.number();
  cursor.skip_blanks();
  return cursor.unit();
}

PairOrWhy no_pair(std::string complaint, std::optional<std::string> suggestion = std::nullopt) {
  return {std::nullopt, std::move(complaint), std::move(suggestion)};
}

}  // namespace

PairOrWhy read_pair(std::string_view given, const UsualUnits& units) {
  const std::string_view text = trimmed(given);
  const auto cross = cross_in(text);
  if (!cross) {
    return no_pair(
        fmt::format("\"{}\" is one size, and two are needed: width x depth, for "
                    "example 500 x 450 mm",
                    shortened(text)));
  }
  const std::string_view left = trimmed(text.substr(0, cross->at));
  const std::string_view right = trimmed(text.substr(cross->at + cross->bytes));
  if (cross_in(right)) {
    return no_pair(
        fmt::format("\"{}\" is three sizes, and two are needed: width x depth, for "
                    "example 500 x 450 mm",
                    shortened(text)));
  }
  const auto second = read_quantity(right, Measure::length, units);
  if (!second.quantity) return no_pair(second.complaint);
  auto first = read_quantity(left, Measure::length, units);
  if (!first.quantity) return no_pair(first.complaint);
  if (first.quantity->bare && !second.quantity->bare) {
    const auto again =
        read_quantity(fmt::format("{} {}", left, unit_behind(right)), Measure::length, units);
    if (again.quantity) first = again;
  }
  return {Pair{first.quantity->value, second.quantity->value}, "", std::nullopt};
}

}  // namespace placer::workbook
