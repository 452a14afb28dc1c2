#include "report/legend.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "report/hatching.h"
#include "report/lists.h"
#include "report/plan_marks.h"
#include "report/words.h"

namespace placer::report {
namespace {

constexpr Style kWords{pt(9), false, 1.2};
constexpr double kSwatch = 10;
constexpr double kSwatchHeight = 6.5;
constexpr double kLowSwatch = 5;
constexpr std::size_t kManyGlazes = 7;

using Ink = std::function<void(Page&, Point low, Point high)>;

Block entry(const Desk& desk, const std::string& words, double width, const Ink& ink,
            double swatch_height = kSwatchHeight) {
  const double most = width - kSwatch - 1.5;
  const double text = lines_height(desk, words, most, kWords);
  const double height = std::max(swatch_height, text);
  return {height, [=, &desk](Page& page, Point at) {
            ink(page, at, at + Point{kSwatch, swatch_height});
            const double shift = std::max(0.0, (swatch_height - text) / 2);
            write_lines(page, desk, {at.x + kSwatch + 1.5, at.y + shift}, words, most, kWords);
          }};
}

// Glaze patterns on this shelf with their names, by pattern.
std::map<int, std::string> glazes_here(const Desk& desk, const ShelfView& view) {
  std::map<int, std::string> names;
  if (!glazed(desk.subject, view.load)) return names;
  for (const PlacedPiece& piece : view.level.pieces) {
    std::string& name = names[hatching_of(desk, view.load, piece)];
    const std::string glaze = glaze_name(desk.subject, piece);
    if (name.find(glaze) == std::string::npos) name += (name.empty() ? "" : ", ") + glaze;
  }
  return names;
}

Block sentence(const Desk& desk, const std::string& words, double width) {
  return {lines_height(desk, words, width, kWords),
          [=, &desk](Page& page, Point at) { write_lines(page, desk, at, words, width, kWords); }};
}

void swatch(Page& page, int pattern, Point low, Point high) {
  if (auto strokes = hatched({{}, {rectangle(low, high)}}, pattern)) {
    page.marks.emplace_back(std::move(*strokes));
  }
  frame(page, low, high, 0.4);
}

void add_tight(std::vector<Block>& blocks, const Desk& desk, const ShelfView& view, double width) {
  const TightGaps tight = tight_gaps(desk, view);
  if (tight.bars.empty()) return;
  const std::string least = length_text(tight.least, desk.subject.inches);
  if (tight.everywhere) {
    const std::string words =
        fmt::format("Many stand as near as the rules allow: {} apart, no less.", least);
    blocks.push_back(sentence(desk, words, width));
    return;
  }
  blocks.push_back(entry(desk, fmt::format("tight: {} between, no less", least), width,
                         [](Page& page, Point low, Point high) {
                           const double y = (low.y + high.y) / 2;
                           rule(page, {low.x + 3.5, y}, {high.x - 3.5, y}, 0.9);
                         }));
}

}  // namespace

std::vector<Block> legend(const Desk& desk, const ShelfView& view, double scale, double width) {
  std::vector<Block> blocks;
  const auto glazes = glazes_here(desk, view);
  const double height = glazes.size() > kManyGlazes ? kLowSwatch : kSwatchHeight;
  for (const auto& [pattern, name] : glazes) {
    const auto ink = [pattern = pattern](Page& page, Point low, Point high) {
      swatch(page, pattern, low, high);
    };
    blocks.push_back(entry(desk, name, width, ink, height));
  }
  if (!view.level.posts.empty()) {
    const auto ink = [](Page& page, Point low, Point high) {
      const Point middle = 0.5 * (low + high);
      frame(page, middle - Point{2, 2}, middle + Point{2, 2}, 0, Fill::black);
    };
    blocks.push_back(entry(desk, "post", width, ink, kLowSwatch));
  }
  if (!keep_outs_here(desk, view).empty()) {
    const auto ink = [](Page& page, Point low, Point high) {
      const Point middle = 0.5 * (low + high);
      page.marks.emplace_back(Circle{middle, 2.4, Pen{0.35, {1.6, 1.2}}, Fill::none});
    };
    blocks.push_back(entry(desk, "keep clear", width, ink, kLowSwatch));
  }
  add_tight(blocks, desk, view, width);
  if (has_small_numbers(desk, view, scale)) {
    blocks.push_back(sentence(
        desk, "Small numbers are for a close look: like pieces may change places.", width));
  }
  return blocks;
}

}  // namespace placer::report
