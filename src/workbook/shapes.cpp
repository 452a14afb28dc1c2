#include "workbook/shapes.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <limits>

#include "placer/base/words.h"
#include "workbook/broken_text.h"

namespace placer::workbook {
namespace {

constexpr std::size_t kMostCorners = 200;

int sides_of(const std::string& word) {
  if (word == "hexagon") return 6;
  if (word == "octagon") return 8;
  if (word == "decagon") return 10;
  return 12;
}

/// The shape's word at the front of a text, "half-round" taken for "half round".
std::optional<std::string> leading_word(std::string& text, const std::vector<std::string>& known) {
  if (text.starts_with("half-round")) text[4] = ' ';
  for (const std::string& word : known) {
    const bool ends = text.size() == word.size() || text[word.size()] == ' ';
    if (text.starts_with(word) && ends) {
      text = std::string{trimmed(std::string_view{text}.substr(word.size()))};
      return word;
    }
  }
  return std::nullopt;
}

/// The sizes (mm) as the file's units have them: "560", "500 x 450", "21 in".
std::string sizes_in_words(std::initializer_list<double> sizes, const UsualUnits& units) {
  std::string words;
  for (const double size : sizes) {
    words += words.empty() ? "" : " x ";
    words += units.inches() ? fmt::format("{:.4g}", size / 25.4) : plain_number(size);
  }
  return units.inches() ? words + " in" : words;
}

Floor floor_from(const std::string& word, double size, const UsualUnits& units) {
  Floor floor;
  floor.words = fmt::format("{} {}", word, sizes_in_words({size}, units));
  if (word == "round") {
    floor.form = Floor::Form::round;
    floor.region.round = Disc{{0, 0}, size / 2};
  } else if (word == "half round") {
    floor.form = Floor::Form::half_round;
    floor.region = half_disc(size);
  } else {
    floor.form = Floor::Form::many_sided;
    floor.region.outline = regular_polygon(sides_of(word), size);
  }
  return floor;
}

/// What a floor can be, for messages: "round 580, half round 580, 500 x 450 or a list of corners".
std::string ways(const VocabularyRow& row) {
  std::vector<std::string> ways = choices(row.more);
  for (std::string& way : ways) way += " 580";
  ways.emplace_back("500 x 450");
  ways.emplace_back("a list of corners");
  return listed(ways);
}

void tell_no_floor(Block& block, std::string_view key, const Node& value) {
  const VocabularyRow& row = *find_word(block.place(), key);
  const std::string text = lower_case(trimmed(value.text));
  std::string letters{trimmed(text.substr(0, text.find_first_of("0123456789.")))};
  auto near = nearest_word(letters, choices(row.more));
  if (near) near = *near + " " + text.substr(std::min(letters.size() + 1, text.size()));
  block.desk().mistake(
      "shape", value.where,
      fmt::format("\"{}\" tells no shape: write {}", shortened(value.text), ways(row)), near);
}

bool in_range(Block& block, std::string_view key, double size, const Node& value) {
  const VocabularyRow& row = *find_word(block.place(), key);
  if (size >= row.least && size <= row.most) return true;
  const UsualUnits& units = block.desk().units;
  block.desk().mistake(
      "range", value.where,
      fmt::format("\"{}\" of {}{} makes no sense: from {} to {} can be", key, shortened(value.text),
                  units.length == "mm"
                      ? ""
                      : fmt::format(" ({})", understood(size, Measure::length, units)),
                  understood(row.least, Measure::length, units),
                  understood(row.most, Measure::length, units)));
  return false;
}

std::optional<Floor> floor_in_words(Block& block, std::string_view key, const Node& value) {
  const VocabularyRow& row = *find_word(block.place(), key);
  const std::string_view given = trimmed(value.text);
  std::string text = lower_case(given);
  const auto word = leading_word(text, choices(row.more));
  if (!word) {
    const bool begins_with_number = !text.empty() && text.front() >= '0' && text.front() <= '9';
    const bool two =
        text.find_first_of("x") != std::string::npos || text.find("×") != std::string::npos;
    if (!begins_with_number || !two) {
      tell_no_floor(block, key, value);
      return std::nullopt;
    }
    const auto pair = block.pair(key);
    if (!pair) return std::nullopt;
    return Floor{Floor::Form::rectangle,
                 Region{rectangle(pair->first, pair->second), std::nullopt, {}},
                 sizes_in_words({pair->first, pair->second}, block.desk().units)};
  }
  const QuantityOrWhy size = read_quantity(text, Measure::length, block.desk().units);
  if (!size.quantity) {
    block.desk().mistake("number", value.where, size.complaint);
    return std::nullopt;
  }
  if (!in_range(block, key, size.quantity->value, value)) return std::nullopt;
  block.desk().readings.push_back(
      {value.where, std::string{key}, value.text,
       fmt::format("{} {}", *word,
                   understood(size.quantity->value, Measure::length, block.desk().units))});
  return floor_from(*word, size.quantity->value, block.desk().units);
}

}  // namespace

std::optional<Outline> read_outline(Block& block, std::string_view key) {
  const TextPos where = block.where(key);
  Outline outline{block.points(key)};
  const Node* value = block.find(key);
  if (value == nullptr || value->items.size() != outline.corners.size()) return std::nullopt;
  Desk& desk = block.desk();
  if (outline.corners.size() > 1 && outline.corners.front() == outline.corners.back()) {
    outline.corners.pop_back();
  }
  if (outline.corners.size() < 3 || outline.corners.size() > kMostCorners) {
    desk.mistake("outline", where,
                 fmt::format("an outline needs from 3 to {} corners, and this has {}", kMostCorners,
                             outline.corners.size()));
    return std::nullopt;
  }
  if (!is_simple(outline)) {
    desk.mistake("outline", where,
                 "this outline crosses or touches itself: list the corners one after another "
                 "round the shape");
    return std::nullopt;
  }
  if (signed_area(outline) < 0) std::ranges::reverse(outline.corners);
  return outline;
}

std::optional<Floor> read_floor(Block& block, std::string_view key) {
  const Node* value = block.find(key);
  if (value != nullptr && value->kind == Node::Kind::list) {
    auto outline = read_outline(block, key);
    if (!outline) return std::nullopt;
    return Floor{Floor::Form::outline, Region{*outline, std::nullopt, {}}, "own shape"};
  }
  if (!block.text(key)) return std::nullopt;
  return floor_in_words(block, key, *value);
}

Footprint as_footprint(const Floor& floor) {
  constexpr double kSagitta = 0.001;
  switch (floor.form) {
    case Floor::Form::round:
      return Footprint{{*floor.region.round}, {}};
    case Floor::Form::half_round:
      return Footprint{{}, {edge_polygon(floor.region, kSagitta)}};
    default:
      return Footprint{{}, convex_parts(floor.region.outline)};
  }
}

std::optional<Foot> read_foot(Block& block, std::string_view key) {
  const auto given = block.text(key);
  if (!given) return std::nullopt;
  const Node& value = *block.find(key);
  std::string text = lower_case(*given);
  if (text.find('x') != std::string::npos || text.find("×") != std::string::npos) {
    const auto pair = block.pair(key);
    if (!pair) return std::nullopt;
    return Foot{pair->first, pair->second, false};
  }
  leading_word(text, {"round"});
  const QuantityOrWhy size = read_quantity(text, Measure::length, block.desk().units);
  if (!size.quantity) {
    block.desk().mistake("number", value.where, size.complaint, size.suggestion);
    return std::nullopt;
  }
  const double across = size.quantity->value;
  if (!in_range(block, key, across, value)) return std::nullopt;
  block.desk().readings.push_back(
      {value.where, std::string{key}, value.text,
       "round, " + understood(across, Measure::length, block.desk().units)});
  return Foot{across, across, true};
}

Footprint as_footprint(const Foot& foot) {
  if (foot.round) return Footprint{{Disc{{0, 0}, foot.width / 2}}, {}};
  return Footprint{{}, {rectangle(foot.width, foot.depth)}};
}

double least_width(const Footprint& shape) {
  const Outline hull = convex_hull(shape);
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < hull.corners.size(); ++i) {
    const Point a = hull.corners[i];
    const Point along = hull.corners[(i + 1) % hull.corners.size()] - a;
    const double length = std::hypot(along.x, along.y);
    if (length <= 0) continue;
    double width = 0;
    for (const Point& p : hull.corners) {
      const Point to = p - a;
      width = std::max(width, std::abs(along.x * to.y - along.y * to.x) / length);
    }
    least = std::min(least, width);
  }
  return least;
}

}  // namespace placer::workbook
