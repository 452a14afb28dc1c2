#include "workbook/block.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>

#include "placer/base/words.h"
#include "workbook/broken_text.h"

namespace placer::workbook {

void Desk::mistake(std::string code, const TextPos& where, std::string message,
                   std::optional<std::string> suggestion) {
  findings.push_back(
      {Severity::mistake, std::move(code), std::move(message), where, std::move(suggestion)});
}

void Desk::look(std::string code, const TextPos& where, std::string message,
                std::optional<std::string> suggestion) {
  findings.push_back(
      {Severity::look, std::move(code), std::move(message), where, std::move(suggestion)});
}

std::string line_of(const TextPos& where) { return fmt::format("line {}", where.line); }

std::string listed(const std::vector<std::string>& words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) text += i + 1 == words.size() ? " or " : ", ";
    text += words[i];
  }
  return text;
}

TextPos Block::where_named() const {
  const Node* name = node_.find("name");
  return name != nullptr && name->kind == Node::Kind::scalar ? name->where : node_.where;
}

const VocabularyRow& Block::row(std::string_view key) const {
  const VocabularyRow* found = find_word(place_, key);
  assert(found != nullptr);
  return *found;
}

const Node* Block::find(std::string_view key) const {
  const Node* value = node_.find(key);
  if (value == nullptr || value->kind == Node::Kind::empty) return nullptr;
  return value;
}

bool Block::given_empty(std::string_view key) const {
  const Node* value = node_.find(key);
  return value != nullptr && value->kind == Node::Kind::empty;
}

TextPos Block::where(std::string_view key) const {
  const Node* value = node_.find(key);
  return value == nullptr ? node_.where : value->where;
}

TextPos Block::where_word(std::string_view key) const {
  const auto found = std::ranges::find_if(
      node_.entries, [&](const auto& entry) { return entry.first.text == key; });
  return found == node_.entries.end() ? node_.where : found->first.where;
}

const Node* Block::scalar(std::string_view key) {
  const Node* value = node_.find(key);
  if (value == nullptr) return nullptr;
  if (value->kind == Node::Kind::empty) return nullptr;  // told when the block was opened
  if (value->kind != Node::Kind::scalar) {
    desk_.mistake(
        "kind", value->where,
        fmt::format("\"{}\" takes a single value, for example {}", key, row(key).example));
    return nullptr;
  }
  return value;
}

std::optional<double> Block::quantity(std::string_view key, Measure measure) {
  const Node* value = scalar(key);
  if (value == nullptr) return std::nullopt;
  return read_scalar(*value, measure, row(key), desk_);
}

std::optional<Length> Block::length(std::string_view key) {
  const auto mm = quantity(key, Measure::length);
  if (!mm) return std::nullopt;
  return Length::from_mm(*mm);
}

std::optional<Mass> Block::mass(std::string_view key) {
  const auto kg = quantity(key, Measure::mass);
  if (!kg) return std::nullopt;
  return Mass::from_kg(*kg);
}

std::optional<Temperature> Block::temperature(std::string_view key) {
  const auto celsius = quantity(key, Measure::temperature);
  if (!celsius) return std::nullopt;
  return Temperature{*celsius};
}

std::optional<Hours> Block::duration(std::string_view key) {
  const auto hours = quantity(key, Measure::duration);
  if (!hours) return std::nullopt;
  return Hours{*hours};
}

std::optional<Power> Block::power(std::string_view key) {
  const auto kw = quantity(key, Measure::power);
  if (!kw) return std::nullopt;
  return Power{*kw};
}

std::optional<double> Block::percent(std::string_view key) {
  const Node* value = scalar(key);
  if (value == nullptr) return std::nullopt;
  std::string_view text = trimmed(value->text);
  const bool signed_percent = text.ends_with('%');
  if (signed_percent) text = trimmed(text.substr(0, text.size() - 1));
  const auto number = plain_decimal(text);
  const VocabularyRow& limits = row(key);
  if (!number || *number > limits.most) {
    desk_.mistake(
        number ? "range" : "number", value->where,
        fmt::format("\"{}\" takes a percentage from 0 to {} %, for example {}, not "
                    "\"{}\"",
                    key, plain_number(limits.most), limits.example, shortened(value->text)));
    return std::nullopt;
  }
  if (!signed_percent && *number > 0 && *number < 0.5) {
    desk_.look("percent", value->where, fmt::format("\"{}\" is read as {} %", key, text),
               fmt::format("{} %", plain_number(*number * 100)));
  }
  desk_.readings.push_back(
      {value->where, std::string{key}, value->text, plain_number(*number) + " %"});
  return *number / 100;
}

std::optional<double> Block::angle(std::string_view key) {
  const Node* value = scalar(key);
  if (value == nullptr) return std::nullopt;
  return read_angle(*value, row(key), desk_);
}

std::optional<int> Block::count(std::string_view key) {
  const Node* value = scalar(key);
  if (value == nullptr) return std::nullopt;
  return read_count(*value, row(key), desk_);
}

std::optional<bool> Block::yes_no(std::string_view key) {
  const Node* value = scalar(key);
  if (value == nullptr) return std::nullopt;
  const std::string word = lower_case(trimmed(value->text));
  if (word == "yes" || word == "true") return true;
  if (word == "no" || word == "false") return false;
  const bool yes = word == "y" || word == "on";
  const bool no = word == "n" || word == "off";
  desk_.mistake("yes-no", value->where,
                fmt::format("\"{}\" takes yes or no, not \"{}\"", key, shortened(value->text)),
                yes  ? std::optional{std::string{"yes"}}
                : no ? std::optional{std::string{"no"}}
                     : std::nullopt);
  return std::nullopt;
}

std::optional<std::string> Block::text(std::string_view key) {
  const Node* value = scalar(key);
  if (value == nullptr) return std::nullopt;
  return read_name(*value, fmt::format("\"{}\"", key), desk_);
}

std::optional<std::size_t> Block::choice(std::string_view key) {
  const Node* value = scalar(key);
  if (value == nullptr) return std::nullopt;
  const auto known = choices(row(key).more);
  const std::string word = lower_case(trimmed(value->text));
  const auto found = std::ranges::find(known, word);
  if (found != known.end()) return static_cast<std::size_t>(found - known.begin());
  const auto near = nearest_word(word, known);
  const std::string message =
      fmt::format("\"{}\" is {}, not \"{}\"", key, listed(known), shortened(value->text));
  if (near && !value->quoted && only_near(word, *near, known)) {
    desk_.mends.push_back({value->where, *near, message});
  }
  desk_.mistake("choice", value->where, message, near);
  return std::nullopt;
}

std::optional<Pair> Block::pair(std::string_view key) {
  const Node* value = scalar(key);
  if (value == nullptr) return std::nullopt;
  const PairOrWhy read = read_pair(value->text, desk_.units);
  if (!read.pair) {
    desk_.mistake("number", value->where, read.complaint, read.suggestion);
    return std::nullopt;
  }
  const VocabularyRow& limits = row(key);
  for (const double side : {read.pair->first, read.pair->second}) {
    if (side >= limits.least && side <= limits.most) continue;
    desk_.mistake(
        "range", value->where,
        fmt::format("\"{}\" of {} makes no sense: each side from {} to {} can be", key,
                    shortened(value->text), understood(limits.least, Measure::length, desk_.units),
                    understood(limits.most, Measure::length, desk_.units)));
    return std::nullopt;
  }
  desk_.readings.push_back(
      {value->where, std::string{key}, value->text,
       fmt::format("{} x {} mm", plain_number(read.pair->first), plain_number(read.pair->second))});
  return read.pair;
}

std::optional<Point> Block::point(std::string_view key) {
  const Node* value = find(key);
  if (value == nullptr) return std::nullopt;
  return read_point(*value, row(key), desk_);
}

std::vector<Point> Block::points(std::string_view key) {
  std::vector<Point> found;
  const Node* value = find(key);
  if (value == nullptr) return found;
  if (value->kind != Node::Kind::list) {
    desk_.mistake(
        "kind", value->where,
        fmt::format("\"{}\" takes a list of places, for example {}", key, row(key).example));
    return found;
  }
  for (const Node& item : value->items) {
    if (const auto point = read_point(item, row(key), desk_)) found.push_back(*point);
  }
  return found;
}

std::vector<double> Block::angles(std::string_view key) {
  std::vector<double> found;
  const Node* value = find(key);
  if (value == nullptr) return found;
  if (value->kind != Node::Kind::list) {
    if (const auto one = read_angle(*value, row(key), desk_)) found.push_back(*one);
    return found;
  }
  for (const Node& item : value->items) {
    if (const auto one = read_angle(item, row(key), desk_)) found.push_back(*one);
  }
  return found;
}

std::vector<Named> Block::names(std::string_view key) {
  std::vector<Named> found;
  const Node* value = find(key);
  if (value == nullptr) return found;
  const auto take = [&](const Node& node) {
    const auto name = read_name(node, fmt::format("a name in \"{}\"", key), desk_);
    if (name) found.push_back({*name, node.where});
  };
  if (value->kind == Node::Kind::list) {
    std::ranges::for_each(value->items, take);
  } else {
    take(*value);
  }
  return found;
}

std::vector<const Node*> Block::blocks(std::string_view key) {
  std::vector<const Node*> found;
  const Node* value = find(key);
  if (value == nullptr) return found;
  if (value->kind == Node::Kind::scalar) {
    desk_.mistake("kind", value->where,
                  fmt::format("\"{}\" takes a list, for example {}", key, row(key).example));
  } else if (value->kind == Node::Kind::map) {
    desk_.mistake("kind", value->where,
                  fmt::format("\"{}\" takes a list: put \"- \" before each of them, or [ ] round "
                              "them",
                              key));
  } else {
    for (const Node& item : value->items) found.push_back(&item);
  }
  return found;
}

}  // namespace placer::workbook
