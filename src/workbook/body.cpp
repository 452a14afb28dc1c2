#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "workbook/shapes.h"

namespace placer::workbook {
namespace {

constexpr double kUsualHandleWidth = 20;  ///< mm; common practice, no source

/// The bare body, before anything sticks out of it.
struct Bare {
  enum class Form { round, rectangle, oval, outline };
  Form form = Form::round;
  double width = 0, depth = 0;  ///< mm
  Outline outline;              ///< about its middle
};

struct Handles {
  double reach = 0, wide = kUsualHandleWidth;  ///< mm
  std::vector<double> at;                      ///< degrees
};

/// Moves an outline so that the middle of its bounding box is the origin.
Outline centred(const Outline& outline) {
  const Box box = bounding_box(Footprint{{}, {outline}});
  return placed(outline, Placement{-0.5 * (box.low + box.high), 0});
}

/// Exactly one of the words that tell a shape must be there.
std::optional<std::string_view> shape_word(Block& piece) {
  constexpr std::array<std::string_view, 4> kWords = {"across", "size", "oval", "outline"};
  std::vector<std::string_view> given;
  for (const std::string_view word : kWords) {
    if (piece.has(word)) given.push_back(word);
  }
  if (given.size() == 1) return given.front();
  if (given.empty()) {
    for (const std::string_view word : kWords) {
      if (piece.meant(word) || piece.given_empty(word)) return std::nullopt;
    }
    piece.desk().mistake("missing", piece.where_named(),
                         "the shape is missing for a piece: add  across: 90  (round), size: 200 x "
                         "150, oval: 200 x 150  or an outline");
  } else {
    piece.desk().mistake(
        "both", piece.where_word(given[1]),
        fmt::format("\"{}\" and \"{}\" both tell the shape: keep one of them", given[0], given[1]));
  }
  return std::nullopt;
}

std::optional<Bare> read_bare(Block& piece) {
  const auto word = shape_word(piece);
  if (!word) return std::nullopt;
  if (*word == "across") {
    const auto across = piece.length("across");
    if (!across) return std::nullopt;
    return Bare{Bare::Form::round, across->mm(), across->mm(), {}};
  }
  if (*word == "outline") {
    const auto outline = read_outline(piece, "outline");
    if (!outline) return std::nullopt;
    return Bare{Bare::Form::outline, 0, 0, centred(*outline)};
  }
  const auto pair = piece.pair(*word);
  if (!pair) return std::nullopt;
  return Bare{
      *word == "size" ? Bare::Form::rectangle : Bare::Form::oval, pair->first, pair->second, {}};
}

Footprint footprint_of(const Bare& bare) {
  switch (bare.form) {
    case Bare::Form::round:
      return Footprint{{Disc{{0, 0}, bare.width / 2}}, {}};
    case Bare::Form::rectangle:
      return Footprint{{}, {rectangle(bare.width, bare.depth)}};
    case Bare::Form::oval:
      return Footprint{{}, {oval(bare.width, bare.depth)}};
    case Bare::Form::outline:
      return Footprint{{}, convex_parts(bare.outline)};
  }
  return {};
}

/// From the middle of the body to its edge in a direction.
double edge_distance(const Bare& bare, double turn_deg) {
  const Point d = direction(turn_deg);
  const double a = bare.width / 2;
  const double b = bare.depth / 2;
  if (bare.form == Bare::Form::rectangle) {
    const double to_side = d.x == 0 ? INFINITY : a / std::abs(d.x);
    const double to_end = d.y == 0 ? INFINITY : b / std::abs(d.y);
    return std::min(to_side, to_end);
  }
  return 1 / std::sqrt(d.x * d.x / (a * a) + d.y * d.y / (b * b));
}

std::vector<double> evenly_round(int count, double first) {
  std::vector<double> angles;
  for (int i = 0; i < count; ++i) angles.push_back(first + 360.0 * i / count);
  return angles;
}

/// `handle: 30`, or a block of reach, width, count and places. `first` is where the first goes.
std::optional<Handles> read_handles(Block& piece, std::string_view key, double first) {
  const Node* value = piece.find(key);
  if (value == nullptr || value->kind != Node::Kind::map) {
    const auto reach = piece.length(key);
    if (!reach) return std::nullopt;
    return Handles{reach->mm(), kUsualHandleWidth, {first}};
  }
  Block block{*value, "handle", piece.desk()};
  const auto reach = block.length("reach");
  const auto wide = block.length("wide");
  const auto count = block.count("count");
  std::vector<double> at = block.angles("at");
  if (block.has("at") && count && static_cast<std::size_t>(*count) != at.size() && !at.empty()) {
    piece.desk().mistake(
        "range", block.where("count"),
        fmt::format("\"count\" says {}, and \"at\" names {} places", *count, at.size()));
  }
  if (!reach) return std::nullopt;
  if (at.empty()) at = evenly_round(count.value_or(1), first);
  return Handles{reach->mm(), wide ? wide->mm() : kUsualHandleWidth, std::move(at)};
}

/// Adds them to the whole; says where the first of them is.
double add_handles(Block& piece, std::string_view key, double first, const Bare& bare,
                   Footprint& whole) {
  if (!piece.has(key)) return first;
  const auto handles = read_handles(piece, key, first);
  if (!handles) return first;
  if (bare.form == Bare::Form::outline) {
    piece.desk().mistake("both", piece.where_word(key),
                         fmt::format("a piece with an outline has no \"{}\": draw it into the "
                                     "outline",
                                     key));
    return first;
  }
  const double narrow = std::min(bare.width, bare.depth);
  if (handles->wide > narrow) {
    piece.desk().mistake("range", piece.where(key),
                         fmt::format("a {} of {} mm is wider than the body of {} mm: give its "
                                     "width with  {}: {{reach: {}, wide: {}}}",
                                     key, plain_number(handles->wide), plain_number(narrow), key,
                                     plain_number(handles->reach), plain_number(narrow / 3)));
    return first;
  }
  for (const double turn : handles->at) {
    const double far = edge_distance(bare, turn) + handles->reach;
    const Outline bar = rectangle(Point{0, -handles->wide / 2}, Point{far, handles->wide / 2});
    whole.outlines.push_back(placed(bar, Placement{{0, 0}, turn}));
  }
  return handles->at.front();
}

}  // namespace

std::optional<Body> read_body(Block& piece) {
  const auto bare = read_bare(piece);
  if (!bare) return std::nullopt;
  Body body;
  body.whole = footprint_of(*bare);
  body.body_area = area(body.whole);
  body.least_width = bare->form == Bare::Form::outline ? least_width(body.whole)
                                                       : std::min(bare->width, bare->depth);
  const Box box = bounding_box(body.whole);
  body.greatest_width = std::max(box.high.x - box.low.x, box.high.y - box.low.y);
  const double handle = add_handles(piece, "handle", 0, *bare, body.whole);
  add_handles(piece, "spout", handle + 180, *bare, body.whole);  // away from it
  return body;
}

}  // namespace placer::workbook
