#include "report/legend.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "report/hatching.h"
#include "report/lists.h"
#include "report/own_units.h"
#include "report/plan_marks.h"
#include "report/standing.h"
#include "report/tight_gaps.h"
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

Point middle_of(Point low, Point high) { return 0.5 * (low + high); }

void add_glazes(std::vector<Block>& blocks, const Desk& desk, const ShelfView& view, double width) {
  const auto glazes = glazes_here(desk, view);
  const double height = glazes.size() > kManyGlazes ? kLowSwatch : kSwatchHeight;
  for (const auto& [pattern, name] : glazes) {
    const auto ink = [pattern = pattern](Page& page, Point low, Point high) {
      swatch(page, pattern, low, high);
    };
    blocks.push_back(entry(desk, name, width, ink, height));
  }
  const auto& pieces = view.level.pieces;
  const bool runs = std::any_of(pieces.begin(), pieces.end(), [&](const PlacedPiece& piece) {
    return needs_cookie(desk.subject.batch, view.load, piece);
  });
  if (!runs) return;
  const auto ink = [](Page& page, Point low, Point high) {
    draw_drop(page, middle_of(low, high) + Point{0, 0.7}, 1.5);
  };
  blocks.push_back(entry(desk, "runny glaze: a cookie under it", width, ink, kLowSwatch));
}

void add_posts(std::vector<Block>& blocks, const Desk& desk, const ShelfView& view, double width) {
  if (view.level.posts.empty()) return;
  const auto ink = [](Page& page, Point low, Point high) {
    const Point middle = middle_of(low, high);
    frame(page, middle - Point{2, 2}, middle + Point{2, 2}, 0, Fill::black);
  };
  blocks.push_back(entry(desk, "post", width, ink, kLowSwatch));
}

// The sign, with the dashes round it where the plan has them.
void add_keep_outs(std::vector<Block>& blocks, const Desk& desk, const ShelfView& view,
                   double width) {
  const Batch& batch = desk.subject.batch;
  std::vector<std::string> told;
  const auto cones_at = [&](const KeepOut* keep_out) {
    return std::any_of(view.cones.begin(), view.cones.end(),
                       [&](const ConePlace& place) { return place.hole == keep_out; });
  };
  for (const KeepOut* keep_out : keep_outs_here(batch, view.level)) {
    const bool over = lies_over(batch, view.level, *keep_out);
    const std::string words =
        keep_out_words(batch, view.level, *keep_out, cones_at(keep_out), desk.subject.inches);
    if (std::find(told.begin(), told.end(), words) != told.end()) continue;
    told.push_back(words);
    const bool round = keep_out->area.outlines.empty();
    const Sign sign = sign_of(*keep_out);
    const bool here = stands_here(view.level, *keep_out);
    const auto ink = [=](Page& page, Point low, Point high) {
      const Point middle = middle_of(low, high);
      const Pen dashes{0.35, {1.6, 1.2}};
      if (over && round) {
        page.marks.emplace_back(Circle{middle, 3.1, dashes, Fill::none});
      } else if (over) {
        const Outline box = rectangle(middle - Point{4, 3}, middle + Point{4, 3});
        page.marks.emplace_back(Path{box.corners, true, dashes, Fill::none});
      }
      if (here) draw_sign(page, sign, middle, 3.6);
    };
    blocks.push_back(entry(desk, words, width, ink));
  }
}

void add_cones(std::vector<Block>& blocks, const Desk& desk, const ShelfView& view, double width) {
  std::set<std::string> told;
  for (const ConePlace& place : view.cones) {
    if (!told.insert(cone_words(place)).second) continue;
    const auto ink = [](Page& page, Point low, Point high) {
      const Point middle = middle_of(low, high);
      frame(page, middle - Point{4.5, 1.9}, middle + Point{4.5, 1.9}, 0.35);
      for (const double x : {-2.6, 0.0, 2.6}) {
        const Point at = middle + Point{x, 0};
        page.marks.emplace_back(
            Path{{at + Point{0, -1.3}, at + Point{0.9, 1.1}, at + Point{-0.9, 1.1}},
                 true,
                 Pen{0, {}},
                 Fill::black});
      }
    };
    blocks.push_back(entry(desk, cone_words(place), width, ink, kLowSwatch));
  }
}

void add_tight(std::vector<Block>& blocks, const Desk& desk, const ShelfView& view, double width) {
  const TightGaps tight = tight_gaps(desk.subject.batch, view.load, view.level);
  for (const TightLine& line : tight_words(tight, desk.subject.inches)) {
    if (tight.everywhere) {
      blocks.push_back(sentence(desk, line.words, width));
      continue;
    }
    blocks.push_back(entry(
        desk, line.words, width,
        [runny = line.runny](Page& page, Point low, Point high) {
          const Point middle = middle_of(low, high);
          draw_pinch(page, middle - Point{0.7, 0}, middle + Point{0.7, 0}, 3, runny);
        },
        kLowSwatch));
  }
}

}  // namespace

std::vector<Block> legend(const Desk& desk, const ShelfView& view, double scale, double width) {
  std::vector<Block> blocks;
  add_glazes(blocks, desk, view, width);
  add_posts(blocks, desk, view, width);
  add_cones(blocks, desk, view, width);
  add_keep_outs(blocks, desk, view, width);
  add_tight(blocks, desk, view, width);
  if (has_small_numbers(desk, view, scale)) {
    blocks.push_back(sentence(
        desk, "Small numbers are for a close look: like pieces may change places.", width));
  }
  return blocks;
}

}  // namespace placer::report
