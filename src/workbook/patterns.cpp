#include "workbook/patterns.h"

#include <algorithm>

namespace placer::workbook {
namespace {

constexpr std::string_view kDecimal = "(?:[0-9]+(?:\\.[0-9]+)?|\\.[0-9]+)";
constexpr std::string_view kVulgar = "[½¼¾⅛⅜⅝⅞⅓⅔]";

/// As Cursor::number() of measure.cpp reads them.
std::string number_pattern() {
  const std::string part = "[0-9]+/0*[1-9][0-9]*";
  return one_of({"[0-9]+[ -]?" + std::string{kVulgar}, std::string{kVulgar}, "[0-9]+[ -]" + part,
                 part, std::string{kDecimal}});
}

bool letters(std::string_view text) {
  return std::ranges::all_of(text, [](char c) { return (c >= 'a' && c <= 'z') || c == '/'; });
}

/// All spellings of a measure's units, a degree sign allowed before the letters.
std::string unit_pattern(Measure measure, double below = 1e300) {
  std::vector<std::string> names;
  for (const Unit& unit : all_units()) {
    if (unit.measure != measure || unit.factor >= below) continue;
    const bool degrees = measure == Measure::temperature || measure == Measure::rate;
    names.push_back((degrees ? "[°º˚]? ?" : "") +
                    (letters(unit.name) ? any_case(unit.name) : std::string{unit.name}));
  }
  // The longest first, so that "inches" is not cut to "in".
  std::ranges::stable_sort(names, [](const auto& a, const auto& b) { return a.size() > b.size(); });
  return one_of(names);
}

/// The large unit, the small unit with or without its name: "6 h 30 min", "1 ft 6".
std::string compound(Measure measure, const std::vector<std::string>& large,
                     std::string_view small_limit, double below) {
  std::vector<std::string> names;
  for (const std::string& name : large) {
    names.push_back(letters(name) ? any_case(name) : name);
  }
  const std::string number = number_pattern();
  return number + " *" + one_of(names) + " *" + number + " *" +
         (small_limit.empty() ? unit_pattern(measure, below) + "?" : std::string{small_limit});
}

std::vector<std::string> compounds(Measure measure) {
  switch (measure) {
    case Measure::length:
      return {compound(measure, {"foot", "feet", "ft", "'", "′"}, "", 12 * 25.4)};
    case Measure::mass:
      return {compound(measure, {"lbs", "lb"}, "", 0.45)};
    case Measure::duration:
      return {compound(measure, {"hours", "hour", "h"}, "", 1), "[0-9]+:[0-5][0-9]"};
    default:
      return {};
  }
}

}  // namespace

std::string any_case(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c >= 'a' && c <= 'z') {
      out += std::string{"["} + c + static_cast<char>(c - 'a' + 'A') + "]";
    } else {
      out += c;
    }
  }
  return out;
}

std::string one_of(const std::vector<std::string>& alternatives) {
  std::string out = "(?:";
  for (std::size_t i = 0; i < alternatives.size(); ++i) {
    out += (i > 0 ? "|" : "") + alternatives[i];
  }
  return out + ")";
}

std::string quantity_pattern(Measure measure) {
  std::vector<std::string> ways = compounds(measure);
  const bool bare_allowed = measure != Measure::duration;
  ways.push_back(number_pattern() + " *" + unit_pattern(measure) + (bare_allowed ? "?" : ""));
  return one_of(ways);
}

std::string positive_quantity_pattern(Measure measure) {
  return "(?=(?:[^1-9½¼¾⅛⅜⅝⅞⅓⅔/]|/[0-9]+)*[1-9½¼¾⅛⅜⅝⅞⅓⅔])" + quantity_pattern(measure);
}

std::string pair_pattern() {
  const std::string side = positive_quantity_pattern(Measure::length);
  return side + " *[xX×] *" + side;
}

std::string clock_pattern() {
  std::vector<std::string> days = {"today", "tomorrow"};
  for (const char* day :
       {"monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"}) {
    days.emplace_back(day);
    days.push_back(std::string{day}.substr(0, 3));
  }
  for (std::string& day : days) day = any_case(day);
  days.emplace_back("(?:19[7-9][0-9]|[2-9][0-9]{3})-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12][0-9]|3[01])");
  return "(?:" + one_of(days) + " +)?" +
         one_of({"(?:[01]?[0-9]|2[0-3]):[0-5][0-9]", "(?:0?[1-9]|1[0-2]):[0-5][0-9] *[aApP][mM]"});
}

std::string quiet_pattern() {
  const std::string clock =
      one_of({"(?:[01]?[0-9]|2[0-3]):[0-5][0-9]", "(?:0?[1-9]|1[0-2]):[0-5][0-9] *[aApP][mM]"});
  return clock + " +[tT][oO] +" + clock;
}

std::string units_pattern() {
  const std::vector<std::string> kinds = {
      one_of({any_case("mm"), any_case("cm"), any_case("m"), any_case("in"), any_case("ft")}),
      "°?[cCfF]", one_of({any_case("kg"), any_case("g"), any_case("lb"), any_case("oz")})};
  const std::string comma = " *, *";
  std::vector<std::string> ways;
  for (std::size_t a = 0; a < 3; ++a) {
    ways.push_back(kinds[a]);
    for (std::size_t b = 0; b < 3; ++b) {
      if (b == a) continue;
      ways.push_back(kinds[a] + comma + kinds[b]);
      ways.push_back(kinds[a] + comma + kinds[b] + comma + kinds[3 - a - b]);
    }
  }
  return one_of(ways);
}

std::string price_pattern() {
  const std::string currency = "[^ /0-9.]{1,8}";
  const std::string kwh = " */ *" + any_case("kwh");
  return one_of({std::string{kDecimal} + " *" + currency + kwh,
                 currency + " *" + std::string{kDecimal} + kwh});
}

std::string energy_pattern() {
  return "(?=[^1-9]*[1-9])" + std::string{kDecimal} + " *" + any_case("kwh");
}

std::string angle_pattern() { return "-?" + std::string{kDecimal} + " *(?:°|deg)?"; }

std::string percent_pattern() { return std::string{kDecimal} + " *%?"; }

std::string anchored(std::string_view pattern) {
  return "^\\s*" + one_of({std::string{pattern}}) + "\\s*$";
}

}  // namespace placer::workbook
