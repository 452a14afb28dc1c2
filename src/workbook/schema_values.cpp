#include "workbook/schema_values.h"

#include <algorithm>

#include "workbook/block.h"
#include "workbook/json_text.h"
#include "workbook/patterns.h"

namespace placer::workbook {
namespace {

using Entry = SchemaEntry;
using Entries = SchemaEntries;

const std::string kMost = "1000000";  ///< beyond any bare number of any unit

Entry pattern(const std::string& expression) { return {"pattern", json_string(expression)}; }

std::string number(double value) { return plain_number(value); }

/// Exactly one of the ways.
Entries one_way(const std::vector<std::string>& ways) { return {{"oneOf", json_list(ways)}}; }

Entries list_of(const std::string& item, int least = 1, int most = 0) {
  Entries entries = {type({"array"}), {"items", item}, {"minItems", std::to_string(least)}};
  if (most > 0) entries.emplace_back("maxItems", std::to_string(most));
  return entries;
}

/// The entries, for a list too; both begin with their type.
Entries or_list(Entries single, const std::vector<std::string>& types, const Entries& list) {
  std::vector<std::string> all = types;
  all.emplace_back("array");
  single.front() = type(all);
  single.insert(single.end(), list.begin() + 1, list.end());
  return single;
}

std::string place_ref(std::string_view place) {
  return json_object({{"$ref", json_string("#/definitions/" + definition_name(place))}});
}

/// Something other than blanks, and nothing that cannot be seen.
constexpr const char* kSomeLetters =
    "^(?=.*\\S)[^\\u0000-\\u001F\\u007F-\\u009F\\u00AD\\u200B\\u2060\\u2028-\\u202E\\u2066-"
    "\\u2069\\uFEFF]*$";

/// Any single value: a name may look like a number to an editor.
Entries some_text() {
  return {type({"string", "number", "boolean"}),
          pattern(kSomeLetters),
          {"maxLength", std::to_string(kMostLetters)}};
}

Entries number_or_text(const Entry& least, const std::string& most, const std::string& expression) {
  return {type({"number", "string"}), least, {"maximum", most}, pattern(anchored(expression))};
}

/// A bare number of the usual unit, or text with a unit. Its largest size depends on the unit, so
/// that is left to the program.
Entries quantity(Measure measure, bool zero_allowed) {
  const std::string text = zero_allowed || measure == Measure::temperature
                               ? quantity_pattern(measure)
                               : positive_quantity_pattern(measure);
  if (measure == Measure::duration) return matching(text);
  return number_or_text({zero_allowed ? "minimum" : "exclusiveMinimum", "0"}, kMost, text);
}

Entries signed_length() {
  return {type({"number", "string"}),
          {"maximum", kMost},
          pattern(anchored("-?" + quantity_pattern(Measure::length)))};
}

Entries point() { return list_of(json_object(signed_length()), 2, 2); }
Entries outline() { return list_of(json_object(point()), 3, 201); }

/// The words as they are offered, or the same in other capitals.
Entries offered(const std::vector<std::string>& values, const std::string& expression) {
  const Entry offer{"enum", json_list(values)};
  Entries loose = matching(expression);
  loose.emplace_back("not", json_object({offer}));
  return one_way({json_object({offer}), json_object(loose)});
}

Entries choice(const VocabularyRow& row) {
  std::vector<std::string> quoted;
  std::vector<std::string> loose;
  for (const std::string& word : choices(row.more)) {
    quoted.push_back(json_string(word));
    loose.push_back(any_case(word));
  }
  return offered(quoted, one_of(loose));
}

Entries yes_no() {
  return offered({json_string("yes"), json_string("no"), "true", "false"},
                 "[yY][eE][sS]|[nN][oO]|[tT][rR][uU][eE]|[fF][aA][lL][sS][eE]");
}

Entries count(const VocabularyRow& row) {
  return {type({"integer", "string"}),
          {"minimum", number(row.least)},
          {"maximum", number(row.most)},
          pattern(anchored("[0-9]{1,18}"))};
}

Entries ranged(const std::string& expression, double least, double most) {
  return number_or_text({"minimum", number(least)}, number(most), expression);
}

Entries floor_shape(const VocabularyRow& row) {
  std::vector<std::string> words;
  for (const std::string& word : choices(row.more)) words.push_back(any_case(word));
  if (row.more.find("half round") != std::string_view::npos) {
    words.push_back(any_case("half-round"));
  }
  const std::string across = one_of(words) + " +" + positive_quantity_pattern(Measure::length);
  return or_list(matching(one_of({across, pair_pattern()})), {"string"}, outline());
}

Entries foot() {
  const std::string across = positive_quantity_pattern(Measure::length);
  return number_or_text({"exclusiveMinimum", "0"}, kMost,
                        one_of({"(?:" + any_case("round") + " +)?" + across, pair_pattern()}));
}

Entries angle(const VocabularyRow& row) { return ranged(angle_pattern(), row.least, row.most); }

Entries reference(std::string_view place) { return {{"allOf", json_list({place_ref(place)})}}; }

/// A value alone.
Entries single_value(const VocabularyRow& row) {
  const bool zero = row.least <= 0;
  switch (row.takes) {
    case Takes::version:
      return {{"enum", json_list({"1", json_string("1")})}};
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
      return matching(energy_pattern());
    case Takes::percent:
      return ranged(percent_pattern(), 0, row.most);
    case Takes::angle:
      return angle(row);
    case Takes::price:
      return matching(price_pattern());
    case Takes::units:
      return matching(units_pattern());
    case Takes::clock:
      return matching(clock_pattern());
    case Takes::quiet:
      return matching(quiet_pattern());
    case Takes::foot:
      return foot();
    case Takes::pair:
      return matching(pair_pattern());
    case Takes::offset:
      return signed_length();
    default:
      return some_text();
  }
}

}  // namespace

SchemaEntry type(const std::vector<std::string>& types) {
  std::vector<std::string> quoted;
  for (const std::string& one : types) quoted.push_back(json_string(one));
  return {"type", quoted.size() == 1 ? quoted.front() : json_list(quoted)};
}

SchemaEntries matching(const std::string& expression) {
  return {type({"string"}), pattern(anchored(expression))};
}

/// A place's name without blanks, which a reference would have to write as %20.
std::string definition_name(std::string_view place) {
  std::string name{place};
  std::ranges::replace(name, ' ', '-');
  return name;
}

SchemaEntries value_of(const VocabularyRow& row) {
  switch (row.takes) {
    case Takes::floor:
      return floor_shape(row);
    case Takes::outline:
      return outline();
    case Takes::point:
      return point();
    case Takes::points:
      return list_of(json_object(point()), 3, 4);
    case Takes::angles:
      return or_list(angle(row), {"number", "string"}, list_of(json_object(angle(row))));
    case Takes::names:
      return or_list(some_text(), {"string", "number", "boolean"},
                     list_of(json_object(some_text())));
    case Takes::reach:
      return one_way({json_object(quantity(Measure::length, false)), place_ref(row.more)});
    case Takes::block:
      return reference(row.more);
    case Takes::blocks:
      return list_of(place_ref(row.more));
    case Takes::block_or_blocks:
      return one_way({place_ref(row.more), json_object(list_of(place_ref(row.more)))});
    case Takes::name_or_blocks:
      return list_of(json_object(one_way({json_object(some_text()), place_ref(row.more)})));
    case Takes::pin:
      return one_way({json_object(point()), place_ref(row.more)});
    case Takes::pieces:
      return or_list(matching("from .+\\.[cC][sS][vV]"), {"string"}, list_of(place_ref(row.more)));
    default:
      return single_value(row);
  }
}

}  // namespace placer::workbook
