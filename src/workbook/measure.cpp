#include "workbook/measure.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "placer/base/words.h"
#include "workbook/broken_text.h"

namespace placer::workbook {
namespace {

struct Vulgar {
  std::string_view sign;
  double value;
};
constexpr std::array kVulgar = {Vulgar{"½", 0.5},   Vulgar{"¼", 0.25},   Vulgar{"¾", 0.75},
                                Vulgar{"⅛", 0.125}, Vulgar{"⅜", 0.375},  Vulgar{"⅝", 0.625},
                                Vulgar{"⅞", 0.875}, Vulgar{"⅓", 1. / 3}, Vulgar{"⅔", 2. / 3}};

bool digit(char c) { return c >= '0' && c <= '9'; }

/// Takes things off the front of a text.
class Cursor {
 public:
  explicit Cursor(std::string_view text) : rest_{text} {}

  bool done() const { return rest_.empty(); }
  std::string_view rest() const { return rest_; }
  void skip_blanks() {
    while (!rest_.empty() && rest_.front() == ' ') rest_.remove_prefix(1);
  }
  bool take(std::string_view what) {
    if (!rest_.starts_with(what)) return false;
    rest_.remove_prefix(what.size());
    return true;
  }

  /// 12, 12.5, .5, 3/4, 17 3/4, 17-3/4, 17½, ½.
  std::optional<double> number() {
    if (const auto part = vulgar()) return part;
    const auto first = decimal();
    if (!first) return std::nullopt;
    if (!whole_) return first;
    if (const auto below = slash()) return *first / *below;
    const std::string_view before = rest_;
    if (!rest_.empty() && (rest_.front() == ' ' || rest_.front() == '-')) rest_.remove_prefix(1);
    if (const auto part = vulgar()) return *first + *part;
    if (const auto above = decimal(); above && whole_) {
      if (const auto below = slash()) return *first + *above / *below;
    }
    rest_ = before;
    return first;
  }

  /// Everything up to the next digit or blank that a digit follows.
  std::string_view unit() {
    std::size_t i = 0;
    while (i < rest_.size() && !digit(rest_[i]) && rest_[i] != '.') ++i;
    std::string_view word = rest_.substr(0, i);
    rest_.remove_prefix(i);
    return trimmed(word);
  }

 private:
  std::optional<double> vulgar() {
    for (const Vulgar& one : kVulgar) {
      if (take(one.sign)) return one.value;
    }
    return std::nullopt;
  }

  std::optional<double> decimal() {
    std::size_t i = 0;
    while (i < rest_.size() && digit(rest_[i])) ++i;
    whole_ = i > 0;
    std::size_t end = i;
    if (i + 1 < rest_.size() && rest_[i] == '.' && digit(rest_[i + 1])) {
      end = i + 1;
      while (end < rest_.size() && digit(rest_[end])) ++end;
      whole_ = false;
    }
    if (end == 0 || end > 40) return std::nullopt;
    double value = 0;
    std::from_chars(rest_.data(), rest_.data() + end, value);
    rest_.remove_prefix(end);
    return value;
  }

  /// "/4"; the number below the line is not zero.
  std::optional<double> slash() {
    const std::string_view before = rest_;
    if (take("/")) {
      const auto below = decimal();
      if (below && whole_ && *below > 0) return below;
    }
    rest_ = before;
    return std::nullopt;
  }

  std::string_view rest_;
  bool whole_ = false;  ///< the last decimal() was a whole number
};

constexpr double kInch = 25.4;
constexpr double kPound = 0.45359237;
constexpr double kBtuPerHour = 0.00029307107;  // in kW

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

std::string known_units(Measure measure) {
  switch (measure) {
    case Measure::length:
      return "mm, cm, m, in or ft";
    case Measure::mass:
      return "kg, g, lb or oz";
    case Measure::temperature:
      return "C or F";
    case Measure::duration:
      return "h or min";
    case Measure::power:
      return "kW, W or Btu/h";
    case Measure::rate:
      return "C/h or F/h";
  }
  return "";
}

QuantityOrWhy why(std::string complaint, std::optional<std::string> suggestion = std::nullopt) {
  return {std::nullopt, std::move(complaint), std::move(suggestion)};
}

/// "12,5": the comma of many countries.
bool decimal_comma(std::string_view text) {
  const std::size_t comma = text.find(',');
  return comma != std::string_view::npos && comma > 0 && comma + 1 < text.size() &&
         digit(text[comma - 1]) && digit(text[comma + 1]);
}

QuantityOrWhy not_a_number(std::string_view text, Measure measure) {
  if (decimal_comma(text)) {
    std::string pointed{text};
    pointed[pointed.find(',')] = '.';
    return why("a decimal comma is not understood here: write a point", pointed);
  }
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

QuantityOrWhy unknown_unit(std::string_view text, std::string_view word, Measure measure) {
  if (decimal_comma(text)) return not_a_number(text, measure);
  std::vector<std::string> names;
  for (const Unit& unit : all_units()) {
    if (unit.measure == measure) names.emplace_back(unit.name);
  }
  const std::string unit_word = without_degrees(word);
  std::optional<std::string> near;
  if (unit_word.size() > 1) near = nearest_word(unit_word, names);
  if (near) {
    const std::size_t at = text.find(word);
    near = std::string{text.substr(0, at)} + *near + std::string{text.substr(at + word.size())};
  }
  return why(fmt::format("\"{}\" is not a unit known here: {} is given in {}", word,
                         in_words(measure), known_units(measure)),
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

const std::vector<Unit>& all_units() {
  static const std::vector<Unit> units = {
      {"mm", Measure::length, 1, 0},
      {"cm", Measure::length, 10, 0},
      {"m", Measure::length, 1000, 0},
      {"in", Measure::length, kInch, 0},
      {"inch", Measure::length, kInch, 0},
      {"inches", Measure::length, kInch, 0},
      {"\"", Measure::length, kInch, 0},
      {"″", Measure::length, kInch, 0},
      {"ft", Measure::length, 12 * kInch, 0},
      {"foot", Measure::length, 12 * kInch, 0},
      {"feet", Measure::length, 12 * kInch, 0},
      {"'", Measure::length, 12 * kInch, 0},
      {"′", Measure::length, 12 * kInch, 0},
      {"kg", Measure::mass, 1, 0},
      {"g", Measure::mass, 0.001, 0},
      {"lb", Measure::mass, kPound, 0},
      {"lbs", Measure::mass, kPound, 0},
      {"oz", Measure::mass, kPound / 16, 0},
      {"c", Measure::temperature, 1, 0},
      {"f", Measure::temperature, 5. / 9, -160. / 9},
      {"h", Measure::duration, 1, 0},
      {"hour", Measure::duration, 1, 0},
      {"hours", Measure::duration, 1, 0},
      {"min", Measure::duration, 1. / 60, 0},
      {"minute", Measure::duration, 1. / 60, 0},
      {"minutes", Measure::duration, 1. / 60, 0},
      {"kw", Measure::power, 1, 0},
      {"w", Measure::power, 0.001, 0},
      {"btu/h", Measure::power, kBtuPerHour, 0},
      {"c/h", Measure::rate, 1, 0},
      {"k/h", Measure::rate, 1, 0},
      {"f/h", Measure::rate, 5. / 9, 0},
      {"c/min", Measure::rate, 60, 0},
  };
  return units;
}

std::string_view in_words(Measure measure) {
  switch (measure) {
    case Measure::length:
      return "a length";
    case Measure::mass:
      return "a weight";
    case Measure::temperature:
      return "a temperature";
    case Measure::duration:
      return "a time";
    case Measure::power:
      return "a power";
    case Measure::rate:
      return "a heating rate";
  }
  return "";
}

std::string_view example_of(Measure measure) {
  switch (measure) {
    case Measure::length:
      return "105 mm or 4 1/8 in";
    case Measure::mass:
      return "350 g or 12 oz";
    case Measure::temperature:
      return "1220 C or 2228 F";
    case Measure::duration:
      return "30 min or 6 h 30";
    case Measure::power:
      return "7.5 kW";
    case Measure::rate:
      return "100 C/h";
  }
  return "";
}

std::string_view trimmed(std::string_view text) {
  const std::size_t begin = text.find_first_not_of(" \t\n");
  if (begin == std::string_view::npos) return {};
  return text.substr(begin, text.find_last_not_of(" \t\n") - begin + 1);
}

std::string lower_case(std::string_view text) {
  std::string out{text};
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

std::optional<double> plain_decimal(std::string_view text) {
  const bool plain = !text.empty() && text.size() <= 40 &&
                     text.find_first_not_of("0123456789.") == std::string_view::npos &&
                     digit(text.back());
  if (!plain) return std::nullopt;
  double value = 0;
  const auto [end, problem] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (problem != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value;
}

std::string plain_number(double value) {
  std::string text = fmt::format("{:.2f}", value);
  while (text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : text;
}

std::string understood(double value, Measure measure, const UsualUnits& units) {
  switch (measure) {
    case Measure::length:
      return units.inches()
                 ? fmt::format("{} mm ({} in)", plain_number(value), plain_number(value / kInch))
                 : plain_number(value) + " mm";
    case Measure::mass:
      return value < 1 ? plain_number(value * 1000) + " g" : plain_number(value) + " kg";
    case Measure::temperature:
      return fmt::format("{:.0f} °C ({:.0f} °F)", value, value * 1.8 + 32);
    case Measure::duration: {
      const auto minutes = static_cast<long long>(std::llround(value * 60));
      if (minutes < 60) return fmt::format("{} min", minutes);
      return minutes % 60 == 0 ? fmt::format("{} h", minutes / 60)
                               : fmt::format("{} h {:02} min", minutes / 60, minutes % 60);
    }
    case Measure::power:
      return plain_number(value) + " kW";
    case Measure::rate:
      return fmt::format("{:.0f} °C/h ({:.0f} °F/h)", value, value * 1.8);
  }
  return "";
}

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
      const bool exponent = word == "e" || word == "E" || word == "e+" || word == "E+";
      return exponent ? not_a_number(text, measure) : unknown_unit(text, word, measure);
    }
    if (unit != nullptr && unit->measure != measure) {
      return why(fmt::format("\"{}\" is {}, but {} is needed, for example {}", text,
                             in_words(unit->measure), in_words(measure), example_of(measure)));
    }
    parts.push_back({*number, unit});
  }
  if (parts.empty() || parts.size() > 2) return not_a_number(text, measure);
  return from_parts(text, parts, measure, units);
}

PairOrWhy read_pair(std::string_view given, const UsualUnits& units) {
  const std::string_view text = trimmed(given);
  std::size_t cross = text.find_first_of("xX");
  std::size_t wide = 1;
  if (const std::size_t sign = text.find("×"); sign != std::string_view::npos) {
    cross = sign;
    wide = std::string_view{"×"}.size();
  }
  if (cross == std::string_view::npos) {
    return {std::nullopt,
            fmt::format("\"{}\" is one size, and two are needed: width x depth, for example "
                        "500 x 450 mm",
                        text),
            std::nullopt};
  }
  const auto second = read_quantity(text.substr(cross + wide), Measure::length, units);
  if (!second.quantity) return {std::nullopt, second.complaint, std::nullopt};
  auto first = read_quantity(text.substr(0, cross), Measure::length, units);
  if (!first.quantity) return {std::nullopt, first.complaint, std::nullopt};
  if (first.quantity->bare && !second.quantity->bare) {
    const std::string_view tail = trimmed(text.substr(cross + wide));
    const std::size_t letters = tail.find_last_of("0123456789") + 1;
    const std::string unit{tail.substr(std::min(letters, tail.size()))};
    const auto again = read_quantity(std::string{trimmed(text.substr(0, cross))} + " " + unit,
                                     Measure::length, units);
    if (again.quantity) first = again;
  }
  return {Pair{first.quantity->value, second.quantity->value}, "", std::nullopt};
}

}  // namespace placer::workbook
