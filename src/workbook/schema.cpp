#include <fmt/format.h>

#include "placer/workbook/studio.h"
#include "workbook/json_text.h"
#include "workbook/patterns.h"
#include "workbook/schema_values.h"
#include "workbook/vocabulary.h"

namespace placer::workbook {
namespace {

std::string any_of(const std::vector<std::string>& ways) {
  return json_object({{"anyOf", json_list(ways)}});
}

std::string having(std::string_view key) {
  return json_object({{"required", json_list({json_string(key)})}});
}

std::string having_both(std::string_view a, std::string_view b) {
  return json_object({{"required", json_list({json_string(a), json_string(b)})}});
}

/// With both, an editor underlines the second. (Nothing behind a word is refused by itself.)
std::string not_both(std::string_view a, std::string_view b) {
  const std::string told = fmt::format("\"{}\" and \"{}\" exclude each other: keep one", a, b);
  const std::string refused = json_object({type({"null"}), {"errorMessage", json_string(told)}});
  return json_object(
      {{"if", having_both(a, b)},
       {"then", json_object({{"properties", json_object({{std::string{b}, refused}})}})}});
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
                       json_object({{"how", json_object(matching(any_case("rim to rim")))}})}})})};
  }
  return {};
}

/// One word: its name, what it means and takes, for an editor to show.
std::string word_schema(const VocabularyRow& row) {
  const std::string description =
      fmt::format("{} For example: {}: {}", row.meaning, row.key, row.example);
  const std::string told =
      fmt::format("\"{}\" takes {}, for example {}", row.key, takes_in_words(row), row.example);
  SchemaEntries entries = {{"title", json_string(row.key)},
                           {"description", json_string(description)},
                           {"errorMessage", json_string(told)}};
  for (SchemaEntry& entry : value_of(row)) entries.push_back(std::move(entry));
  return json_object(entries);
}

std::string place_schema(const PlaceRow& place) {
  SchemaEntries properties;
  std::vector<std::string> needed;
  for (const VocabularyRow& row : vocabulary()) {
    if (row.place != place.place) continue;
    properties.emplace_back(std::string{row.key}, word_schema(row));
    if (row.needed) needed.push_back(json_string(row.key));
  }
  SchemaEntries entries = {{"title", json_string(place.spoken)},
                           {"type", json_string("object")},
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
  SchemaEntries definitions;
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
                   {"definitions", json_object(definitions)}});
  // One object: the head's entries, then the file's own.
  return json_indented(head.substr(0, head.size() - 1) + "," + file.substr(1));
}

}  // namespace placer::workbook
