#include <fmt/format.h>

#include "workbook/block.h"
#include "workbook/broken_text.h"
#include "workbook/lines.h"

namespace placer::workbook {
namespace {

/// What the node is instead of a single value.
bool told_as_no_scalar(const Node& node, const VocabularyRow& row, Desk& desk) {
  if (node.kind == Node::Kind::scalar) return false;
  desk.mistake("kind", node.where,
               fmt::format("\"{}\" takes a single value, for example {}", row.key, row.example));
  return true;
}

/// "2232 F" for "2232 C": the other scale, when only that makes sense.
std::optional<std::string> on_the_other_scale(const Node& node, double celsius,
                                              const VocabularyRow& row, const UsualUnits& units) {
  const std::string text = lower_case(node.text);
  const bool bare = text.find_first_of("cf") == std::string::npos;
  const bool fahrenheit = bare ? units.fahrenheit() : text.find('f') != std::string::npos;
  const double number = fahrenheit ? celsius * 1.8 + 32 : celsius;
  const double other = fahrenheit ? number : (number - 32) / 1.8;
  if (other < row.least || other > row.most) return std::nullopt;
  return fmt::format("{} {}", plain_number(number), fahrenheit ? "C" : "F");
}

void tell_out_of_range(const Node& node, double value, Measure measure, const VocabularyRow& row,
                       Desk& desk) {
  const bool nothing = value <= 0 && row.least > 0;
  std::string message;
  if (nothing) {
    message = fmt::format("\"{}\" must be more than 0, not {}", row.key, node.text);
  } else {
    const bool other_unit = measure == Measure::length && desk.units.length != "mm";
    message = fmt::format(
        "\"{}\" of {}{} makes no sense: from {} to {} can be", row.key, shortened(node.text),
        other_unit ? fmt::format(" ({})", understood(value, measure, desk.units)) : "",
        understood(row.least, measure, desk.units), understood(row.most, measure, desk.units));
  }
  std::optional<std::string> meant;
  if (measure == Measure::temperature) {
    meant = on_the_other_scale(node, value, row, desk.units);
  }
  desk.mistake(nothing ? "number" : "range", node.where, std::move(message), meant);
}

}  // namespace

std::optional<double> read_scalar(const Node& node, Measure measure, const VocabularyRow& row,
                                  Desk& desk) {
  if (told_as_no_scalar(node, row, desk)) return std::nullopt;
  const QuantityOrWhy read = read_quantity(node.text, measure, desk.units);
  if (!read.quantity) {
    desk.mistake("number", node.where, read.complaint, read.suggestion);
    return std::nullopt;
  }
  const double value = read.quantity->value;
  if (!(value >= row.least && value <= row.most)) {
    tell_out_of_range(node, value, measure, row, desk);
    return std::nullopt;
  }
  desk.readings.push_back(
      {node.where, std::string{row.key}, node.text, understood(value, measure, desk.units)});
  return value;
}

std::optional<double> read_signed_length(const Node& node, const VocabularyRow& row, Desk& desk) {
  if (told_as_no_scalar(node, row, desk)) return std::nullopt;
  std::string_view text = trimmed(node.text);
  const bool negative = text.starts_with('-');
  if (negative) text.remove_prefix(1);
  const QuantityOrWhy read = read_quantity(text, Measure::length, desk.units);
  if (!read.quantity) {
    desk.mistake("number", node.where, read.complaint, read.suggestion);
    return std::nullopt;
  }
  const double value = read.quantity->value;
  if (!(value <= row.most)) {
    desk.mistake(
        "range", node.where,
        fmt::format("\"{}\" of {} makes no sense: up to {} either way can be", row.key,
                    shortened(node.text), understood(row.most, Measure::length, desk.units)));
    return std::nullopt;
  }
  return negative ? -value : value;
}

std::optional<Point> read_point(const Node& node, const VocabularyRow& row, Desk& desk) {
  if (node.kind != Node::Kind::list || node.items.size() != 2) {
    desk.mistake("kind", node.where,
                 fmt::format("\"{}\" takes two numbers in brackets here, [to the right, to the "
                             "back], for example [120, -80]",
                             row.key));
    return std::nullopt;
  }
  const auto x = read_signed_length(node.items[0], row, desk);
  const auto y = read_signed_length(node.items[1], row, desk);
  if (!x || !y) return std::nullopt;
  return Point{*x, *y};
}

std::optional<double> read_angle(const Node& node, const VocabularyRow& row, Desk& desk) {
  if (told_as_no_scalar(node, row, desk)) return std::nullopt;
  std::string_view text = trimmed(node.text);
  if (text.ends_with("°")) text.remove_suffix(std::string_view{"°"}.size());
  if (text.ends_with("deg")) text.remove_suffix(3);
  text = trimmed(text);
  const bool negative = text.starts_with('-');
  if (negative) text.remove_prefix(1);
  const auto number = plain_decimal(text);
  if (!number || *number > row.most) {
    desk.mistake("number", node.where,
                 fmt::format("\"{}\" is no angle: give degrees from -360 to 360, for example 90",
                             shortened(node.text)));
    return std::nullopt;
  }
  return negative ? -*number : *number;
}

std::optional<std::string> read_name(const Node& node, std::string_view what, Desk& desk) {
  if (node.kind != Node::Kind::scalar) {
    desk.mistake("kind", node.where, fmt::format("{} takes a few words here", what));
    return std::nullopt;
  }
  const std::string name{trimmed(node.text)};
  if (name.empty()) {
    desk.mistake("empty", node.where, fmt::format("{} is empty", what));
    return std::nullopt;
  }
  // Quotes may spell characters out: "\x1b", "\n".
  const bool unseen = unseen_character(name, desk.file).has_value();
  if (unseen || name.find_first_of("\n\r\t") != std::string::npos) {
    desk.mistake(
        "character", node.where,
        fmt::format("{} holds a character that cannot be seen: write it without the \"\\\"", what));
    return std::nullopt;
  }
  if (node.joined) {
    desk.mistake("quotes", node.where,
                 "in braces a comma ends the value: put it in quotes if the comma belongs to it",
                 "\"" + name + "\"");
    return std::nullopt;
  }
  if (characters(name) > kMostLetters) {
    desk.mistake("long", node.where, fmt::format("{} is too long for a sheet of paper", what));
    return std::nullopt;
  }
  return name;
}

std::optional<int> read_count(const Node& node, const VocabularyRow& row, Desk& desk) {
  if (told_as_no_scalar(node, row, desk)) return std::nullopt;
  const std::string_view text = trimmed(node.text);
  const bool whole = !text.empty() && text.size() <= 18 &&
                     text.find_first_not_of("0123456789") == std::string_view::npos;
  if (!whole) {
    desk.mistake("number", node.where,
                 fmt::format("\"{}\" takes a whole number, for example {}, not \"{}\"", row.key,
                             row.example, shortened(text)));
    return std::nullopt;
  }
  const double value = *plain_decimal(text);
  if (value < row.least || value > row.most) {
    desk.mistake(
        "range", node.where,
        fmt::format("\"{}\" goes from {} to {}, and this is {}", row.key,
                    static_cast<long long>(row.least), static_cast<long long>(row.most), text));
    return std::nullopt;
  }
  return static_cast<int>(value);
}

}  // namespace placer::workbook
