#include <fmt/format.h>

#include <algorithm>

#include "placer/workbook/studio.h"
#include "workbook/block.h"
#include "workbook/json_text.h"
#include "workbook/patterns.h"
#include "workbook/vocabulary.h"

namespace placer::workbook {
namespace {

constexpr const char* kMost = "1000000";  ///< beyond any bare number of any unit

using Entries = std::vector<std::pair<std::string, std::string>>;

std::string number(double value) { return plain_number(value); }

std::string matching(const std::string& pattern) {
  return json_object({{"type", json_string("string")}, {"pattern", json_string(pattern)}});
}

std::string any_of(const std::vector<std::string>& ways) {
  return json_object({{"anyOf", json_list(ways)}});
}

std::string list_of(const std::string& item, int least = 1, int most = 0) {
  Entries entries = {
      {"type", json_string("array")}, {"items", item}, {"minItems", std::to_string(least)}};
  if (most > 0) entries.emplace_back("maxItems", std::to_string(most));
  return json_object(entries);
}

/// A place's name without blanks, which a reference would have to write as %20.
std::string definition_name(std::string_view place) {
  std::string name{place};
  std::ranges::replace(name, ' ', '-');
  return name;
}

std::string place_ref(std::string_view place) {
  return json_object({{"$ref", json_string("#/definitions/" + definition_name(place))}});
}

/// Any single value: a name may look like a number to an editor.
std::string some_text() {
  return any_of(
      {json_object({{"type", json_string("string")},
                    {"pattern", json_string("\\S")},
                    {"maxLength", std::to_string(kMostLetters)}}),
       json_object({{"type", json_list({json_string("number"), json_string("boolean")})}})});
}

/// A bare number of the usual unit, or text with a unit. Its largest size depends on the unit, so
/// that is left to the program.
std::string quantity(Measure measure, bool zero_allowed) {
  const std::string text = zero_allowed || measure == Measure::temperature
                               ? quantity_pattern(measure)
                               : positive_quantity_pattern(measure);
  if (measure == Measure::duration) return matching(anchored(text));
  const std::string least = zero_allowed ? "minimum" : "exclusiveMinimum";
  return any_of({json_object({{"type", json_string("number")}, {least, "0"}, {"maximum", kMost}}),
                 matching(anchored(text))});
}

std::string signed_length() {
  return any_of({json_object({{"type", json_string("number")}, {"maximum", kMost}}),
                 matching(anchored("-?" + quantity_pattern(Measure::length)))});
}

std::string point() { return list_of(signed_length(), 2, 2); }
std::string outline() { return list_of(point(), 3, 201); }

std::string choice(const VocabularyRow& row) {
  std::vector<std::string> quoted;
  std::vector<std::string> loose;
  for (const std::string& word : choices(row.more)) {
    quoted.push_back(json_string(word));
    loose.push_back(any_case(word));
  }
  return any_of({json_object({{"enum", json_list(quoted)}}), matching(anchored(one_of(loose)))});
}

std::string yes_no() {
  return any_of(
      {json_object({{"enum", json_list({json_string("yes"), json_string("no"), "true", "false"})}}),
       matching(anchored("[yY][eE][sS]|[nN][oO]|[tT][rR][uU][eE]|[fF][aA][lL][sS][eE]"))});
}

std::string count(const VocabularyRow& row) {
  return any_of({json_object({{"type", json_string("integer")},
                              {"minimum", number(row.least)},
                              {"maximum", number(row.most)}}),
                 matching("^\\s*[0-9]{1,18}\\s*$")});
}

std::string ranged(const std::string& pattern, double least, double most) {
  return any_of({json_object({{"type", json_string("number")},
                              {"minimum", number(least)},
                              {"maximum", number(most)}}),
                 matching(anchored(pattern))});
}

std::string floor_shape(const VocabularyRow& row) {
  std::vector<std::string> words;
  for (const std::string& word : choices(row.more)) words.push_back(any_case(word));
  if (row.more.find("half round") != std::string_view::npos) {
    words.push_back(any_case("half-round"));
  }
  return any_of(
      {matching(anchored(one_of(
           {one_of(words) + " +" + positive_quantity_pattern(Measure::length), pair_pattern()}))),
       outline()});
}

std::string foot() {
  const std::string across = positive_quantity_pattern(Measure::length);
  return any_of(
      {json_object(
           {{"type", json_string("number")}, {"exclusiveMinimum", "0"}, {"maximum", kMost}}),
       matching(anchored(one_of({"(?:" + any_case("round") + " +)?" + across, pair_pattern()})))});
}

std::string angle(const VocabularyRow& row) { return ranged(angle_pattern(), row.least, row.most); }

std::string value_of(const VocabularyRow& row) {
  const bool zero = row.least <= 0;
  switch (row.takes) {
    case Takes::version:
      return json_object({{"enum", json_list({"1", json_string("1")})}});
    case Takes::text:
    case Takes::cone:
      return some_text();
    case Takes::yes_no:
      return yes_no();
    case Takes::count:
      return count(row);
    case Takes::choice:
      return choice(row);
    case Takes::length:
      return quantity(Measure::length, zero);
    case Takes::mass:
      return quantity(Measure::mass, zero);
    case Takes::temperature:
      return quantity(Measure::temperature, zero);
    case Takes::duration:
      return quantity(Measure::duration, zero);
    case Takes::power:
      return quantity(Measure::power, zero);
    case Takes::energy:
      return matching(anchored(energy_pattern()));
    case Takes::percent:
      return ranged(percent_pattern(), 0, row.most);
    case Takes::angle:
      return angle(row);
    case Takes::price:
      return matching(anchored(price_pattern()));
    case Takes::units:
      return matching(anchored(units_pattern()));
    case Takes::clock:
      return matching(anchored(clock_pattern()));
    case Takes::quiet:
      return matching(anchored(quiet_pattern()));
    case Takes::floor:
      return floor_shape(row);
    case Takes::foot:
      return foot();
    case Takes::pair:
      return matching(anchored(pair_pattern()));
    case Takes::outline:
      return outline();
    case Takes::offset:
      return signed_length();
    case Takes::point:
      return point();
    case Takes::points:
      return list_of(point(), 3, 4);
    case Takes::angles:
      return any_of({angle(row), list_of(angle(row))});
    case Takes::names:
      return any_of({some_text(), list_of(some_text())});
    case Takes::reach:
      return any_of({quantity(Measure::length, false), place_ref(row.more)});
    case Takes::block:
      return place_ref(row.more);
    case Takes::blocks:
      return list_of(place_ref(row.more));
    case Takes::block_or_blocks:
      return any_of({place_ref(row.more), list_of(place_ref(row.more))});
    case Takes::name_or_blocks:
      return list_of(any_of({some_text(), place_ref(row.more)}));
    case Takes::pin:
      return any_of({point(), place_ref(row.more)});
    case Takes::pieces:
      return any_of({list_of(place_ref(row.more)), matching("^\\s*from .+\\.[cC][sS][vV]\\s*$")});
  }
  return "{}";
}

std::string having(std::string_view key) {
  return json_object({{"required", json_list({json_string(key)})}});
}

std::string having_both(std::string_view a, std::string_view b) {
  return json_object({{"required", json_list({json_string(a), json_string(b)})}});
}

std::string not_both(std::string_view a, std::string_view b) {
  return json_object({{"not", having_both(a, b)}});
}

/// What the words of one place mean for each other.
std::vector<std::string> together(std::string_view place) {
  const auto one = [](const std::vector<std::string>& ways) {
    return json_object({{"oneOf", json_list(ways)}});
  };
  if (place == "") return {one({having("firing"), having("firings")})};
  if (place == "piece") {
    return {one({having("across"), having("size"), having("oval"), having("outline")}),
            not_both("outline", "handle"), not_both("outline", "spout")};
  }
  if (place == "keep clear") return {one({having("at"), having("wall")})};
  if (place == "firing") {
    const std::string own_profile = json_object(
        {{"required", json_list({json_string("profile")})},
         {"properties",
          json_object(
              {{"profile",
                json_object({{"not", json_object({{"const", json_string("built")}})}})}})}});
    return {not_both("cone", "top"), not_both("start", "finish"),
            any_of({having("cone"), having("top"), own_profile})};
  }
  if (place == "stack") {
    return {any_of(
        {having("step"),
         json_object({{"properties",
                       json_object({{"how", matching(anchored(any_case("rim to rim")))}})}})})};
  }
  return {};
}

std::string place_schema(const PlaceRow& place) {
  Entries properties;
  std::vector<std::string> needed;
  for (const VocabularyRow& row : vocabulary()) {
    if (row.place != place.place) continue;
    const std::string description =
        fmt::format("{} For example: {}: {}", row.meaning, row.key, row.example);
    properties.emplace_back(std::string{row.key},
                            json_object({{"description", json_string(description)},
                                         {"allOf", json_list({value_of(row)})}}));
    if (row.needed) needed.push_back(json_string(row.key));
  }
  Entries entries = {{"type", json_string("object")},
                     {"description", json_string(place.about)},
                     {"additionalProperties", "false"},
                     {"properties", json_object(properties)}};
  if (!needed.empty()) entries.emplace_back("required", json_list(needed));
  const auto rules = together(place.place);
  if (!rules.empty()) entries.emplace_back("allOf", json_list(rules));
  return json_object(entries);
}

}  // namespace

std::string studio_schema() {
  Entries definitions;
  std::string file = "{}";
  for (const PlaceRow& place : places()) {
    if (place.place.empty()) {
      file = place_schema(place);
    } else {
      definitions.emplace_back(definition_name(place.place), place_schema(place));
    }
  }
  const std::string head =
      json_object({{"$schema", json_string("http://json-schema.org/draft-07/schema#")},
                   {"title", json_string("A placer studio file")},
                   {"definitions", json_object(definitions)}});
  // One object: the head's entries, then the file's own.
  return json_indented(head.substr(0, head.size() - 1) + "," + file.substr(1));
}

}  // namespace placer::workbook
