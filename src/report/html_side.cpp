#include <fmt/format.h>

#include <algorithm>

#include "report/html.h"
#include "report/ladder.h"
#include "report/standing.h"
#include "report/words.h"

namespace placer::report {
namespace {

constexpr double kWidth = 360;   // of the picture; letters of 14 are readable on a phone
constexpr double kHeight = 400;  // of the chamber in it
constexpr double kTop = 24;
constexpr double kNames = 34;  // left of each column: the number of the shelf
constexpr double kFree = 72;   // right of it: the room over the shelf

/// Heights and widths of one column of shelves, in the picture.
struct Side {
  double left = 0, right = 0;  // of the shelves
  double from_x = 0;           // kiln x at `left`
  double mm = 1;               // kiln mm a unit, upright
  double across_mm = 1;
  double y(Length z) const { return kTop + kHeight - z.mm() / mm; }
  double x(double at) const { return left + (at - from_x) / across_mm; }
};

std::string bar(const char* kind, double left, double right, double low, double high) {
  return fmt::format("<rect class=\"{}\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>", kind,
                     svg_number(left), svg_number(high), svg_number(std::max(right - left, 0.5)),
                     svg_number(std::max(low - high, 0.5)));
}

std::string words_at(double x, double y, const char* kind, const std::string& words) {
  return fmt::format("<text class=\"{}\" x=\"{}\" y=\"{}\">{}</text>", kind, svg_number(x),
                     svg_number(y), escaped(words));
}

std::string posts(const Subject& subject, const std::vector<PlacedPost>& all, Length foot,
                  const Side& side) {
  std::string text;
  for (const PlacedPost& post : all) {
    const Box box = bounding_box(ground(subject.batch, post));
    const double left = std::clamp(side.x(box.low.x), side.left, side.right);
    const double right = std::clamp(side.x(box.high.x), side.left, side.right);
    text += bar("post", left, right, side.y(foot), side.y(foot + height_of(subject.batch, post)));
  }
  return text;
}

// Lines where one piece of a stack ends and the next begins; upright ones for a row on edge.
std::string joint_lines(const Subject& subject, const KilnLoad& load, const Level& level,
                        const PlacedPiece& piece, const Box& box, const Side& side) {
  std::string path;
  for (const Length height : joints(subject.batch, load, piece)) {
    path +=
        fmt::format("M{} {}H{}", svg_number(side.x(box.low.x)),
                    svg_number(side.y(level.shelf_top + height)), svg_number(side.x(box.high.x)));
  }
  const int count = on_edge(subject.batch, piece) ? like_ones(piece) : 1;
  for (int i = 1; i < count; ++i) {
    const double x = box.low.x + (box.high.x - box.low.x) * i / count;
    path += fmt::format("M{} {}V{}", svg_number(side.x(x)), svg_number(side.y(level.shelf_top)),
                        svg_number(side.y(level.shelf_top + piece.height)));
  }
  return path.empty() ? "" : "<path class=\"joint\" d=\"" + path + "\"/>";
}

std::string level_marks(const Subject& subject, const KilnLoad& load, const Rung& rung,
                        const Side& side) {
  const Level& level = *rung.level;
  std::vector<const PlacedPiece*> far_first;
  for (const PlacedPiece& piece : level.pieces) far_first.push_back(&piece);
  std::stable_sort(far_first.begin(), far_first.end(),
                   [](const auto* a, const auto* b) { return a->place.at.y > b->place.at.y; });
  std::string text;
  for (const PlacedPiece* piece : far_first) {
    const Box box = bounding_box(ground(subject.batch, load, *piece));
    double left = side.x(box.low.x);
    double right = side.x(box.high.x);
    if (level.bridge >= 0) {  // the part of it that lies over this column
      left = std::clamp(left, side.left, side.right);
      right = std::clamp(right, side.left, side.right);
      if (right - left < 0.5) continue;
    }
    text +=
        bar("ware", left, right, side.y(level.shelf_top), side.y(level.shelf_top + piece->height));
    if (level.bridge >= 0) continue;
    text += joint_lines(subject, load, level, *piece, box, side);
  }
  text += posts(subject, level.posts, level.shelf_top, side);
  const ShelfKind& shelf = subject.batch.kiln.shelves.at(static_cast<std::size_t>(level.shelf));
  text += bar("slab", side.left, side.right, side.y(level.shelf_top - shelf.thickness),
              side.y(level.shelf_top));
  text += words_at(side.left - 6, side.y(level.shelf_top) + 5, "name", std::to_string(level.level));
  const double middle = side.y(level.shelf_top + 0.5 * level.clear_height) + 5;
  if (level.clear_height.mm() / side.mm > 22) {
    text += words_at(side.right + 5, middle, "room", bare_length(rung.room, subject.inches));
  }
  text += words_at(side.right + 5, side.y(level.shelf_top - 0.5 * shelf.thickness) + 5, "thick",
                   bare_length(rung.thick, subject.inches));
  return text + "\n";
}

std::string label(const Subject& subject, const KilnLoad& load) {
  std::string words = fmt::format("The kiln from the side, {} high inside. From the floor up:",
                                  length_text(subject.batch.kiln.height, subject.inches));
  for (const Level& level : load.levels) {
    words += fmt::format(" {} at {}, {} of room.", shelf_name(subject, level),
                         length_text(level.shelf_top, subject.inches),
                         length_text(level.clear_height, subject.inches));
  }
  words += fmt::format(" Under the {}, {} are kept free.", roof_word(subject.batch.kiln),
                       length_text(subject.batch.kiln.under_lid, subject.inches));
  return escaped(words);
}

std::string column_marks(const Subject& subject, const KilnLoad& load, int column, double left,
                         double width) {
  const Ladder ladder = ladder_of(subject.batch, load, column, subject.inches);
  Side side{left + kNames, left + width - kFree, 0, subject.batch.kiln.height.mm() / kHeight, 1};
  std::string text;
  if (subject.batch.kiln.columns.size() > 1) {
    text += words_at((side.left + side.right) / 2, kTop - 8, "head",
                     subject.batch.kiln.columns.at(static_cast<std::size_t>(column)).name);
  }
  const double floor = kTop + kHeight;
  text += fmt::format("<path class=\"wall\" d=\"M{} {}V{}H{}V{}\"/>", svg_number(side.left - 3),
                      svg_number(kTop), svg_number(floor + 2), svg_number(side.right + 3),
                      svg_number(kTop));
  if (ladder.rungs.empty()) return text + "\n";
  const Level& lowest = *ladder.rungs.front().level;
  const auto own = std::find_if(ladder.rungs.begin(), ladder.rungs.end(),
                                [](const Rung& rung) { return rung.level->bridge < 0; });
  const Level& wide = own == ladder.rungs.end() ? lowest : *own->level;
  const Box box = bounding_box(ground(subject.batch, wide));
  side.from_x = box.low.x;
  side.across_mm = (box.high.x - box.low.x) / (side.right - side.left);
  text += posts(subject, feet_under(subject.batch, load, lowest), Length{}, side);
  const double under = side.y(0.5 * ladder.rungs.front().bottom) + 5;
  text += words_at(side.right + 5, under, "room",
                   bare_length(ladder.rungs.front().bottom, subject.inches));
  for (const Rung& rung : ladder.rungs) text += level_marks(subject, load, rung, side);
  if (ladder.kept.mm() > 0) {
    const double kept = side.y(ladder.roof - ladder.kept);
    text += fmt::format("<path class=\"kept\" d=\"M{} {}H{}\"/>", svg_number(side.left - 3),
                        svg_number(kept), svg_number(side.right + 3));
    text += words_at(side.right + 5, side.y(ladder.roof) + 12, "room",
                     bare_length(ladder.kept, subject.inches) + " kept");
  }
  text +=
      words_at(side.right + 5, kTop - 6, "name left", one_length_text(ladder.roof, subject.inches));
  return text;
}

}  // namespace

std::string side_svg(const Subject& subject, std::size_t firing) {
  const KilnLoad& load = subject.plan.firings.at(firing);
  std::vector<int> used;
  for (const Level& level : load.levels) {
    if (std::find(used.begin(), used.end(), level.column) == used.end()) {
      used.push_back(level.column);
    }
  }
  std::sort(used.begin(), used.end());
  if (used.empty()) return "";
  // Two columns stand beside one another; a third begins a new line of them.
  const std::size_t beside = std::min<std::size_t>(used.size(), 2);
  const std::size_t rows = (used.size() + beside - 1) / beside;
  const double width = kWidth / static_cast<double>(beside);
  const double row_height = kTop + kHeight + 10;
  std::string text = fmt::format(
      "<svg class=\"side\" viewBox=\"0 0 {} {}\" role=\"img\" aria-label=\"{}\">\n",
      svg_number(kWidth), svg_number(row_height * static_cast<double>(rows)), label(subject, load));
  for (std::size_t i = 0; i < used.size(); ++i) {
    const double down = row_height * static_cast<double>(i / beside);
    text += fmt::format("<g transform=\"translate(0 {})\">", svg_number(down));
    text += column_marks(subject, load, used[i], width * static_cast<double>(i % beside), width);
    text += "</g>\n";
  }
  return text + "</svg>\n";
}

}  // namespace placer::report
