// Levels: their numbers, and the heights that follow from posts, shelves and the kiln.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "check/rules.h"

namespace placer::check {
namespace {

std::size_t index(int i) { return static_cast<std::size_t>(i); }

/// A bridge is in several columns; what is wrong with it is told in the first.
bool told_elsewhere(const View& view, int level, const std::vector<int>& column) {
  return &view.columns[index(view.columns_of(level).front())] != &column;
}

/// One more than the highest number under a level in its columns; a bridge may have more levels
/// under it in one column than in another.
int number_asked(const View& view, int level) {
  int under = 0;
  for (const int column : view.columns_of(level)) {
    for (const int other : view.columns[index(column)]) {
      if (other == level) break;
      under = std::max(under, view.load.levels[index(other)].level);
    }
  }
  return under + 1;
}

void check_numbers(const View& view, const std::vector<int>& column, Findings& findings) {
  for (const int level : column) {
    if (told_elsewhere(view, level, column)) continue;
    const int asked = number_asked(view, level);
    if (view.load.levels[index(level)].level == asked) continue;
    add(findings, "levels",
        fmt::format("The shelves of a column should be numbered from 1 at the bottom; {} should "
                    "be no. {}.",
                    view.words(level), asked));
  }
  if (!std::ranges::is_sorted(column)) {
    add(findings, "levels",
        fmt::format("The shelves of a column should be listed from the bottom up; in {} they are "
                    "not.",
                    view.words()));
  }
}

// Heights of the posts that carry a level; each level of posts must be of one height.
void check_top(const View& view, int level, double stands_at, Findings& findings) {
  const StandingShelf& shelf = view.shelves[index(level)];
  const auto carriers = view.carriers(level);
  double height = 0;
  if (!carriers.empty()) {
    const auto [low, high] =
        std::ranges::minmax(carriers, {}, [](const StandingPost* post) { return post->z.high; });
    height = high->z.high - stands_at;
    if (high->z.high - low->z.high > kTolerance) {
      add(findings, "post-uneven",
          fmt::format("The posts under {} are of different heights: {} and {}.", view.words(level),
                      two_lengths(low->z.high - stands_at, height).is,
                      two_lengths(low->z.high - stands_at, height).asked));
      return;
    }
  }
  const double top = stands_at + height + shelf.kind->thickness.mm();
  if (std::abs(top - shelf.z.high) <= kTolerance) return;
  const TwoLengths lengths = two_lengths(shelf.z.high, top);
  add(findings, "shelf-height",
      fmt::format("The plan puts the top of {} at {}, but the posts and shelves under it give {}.",
                  view.words(level), lengths.is, lengths.asked));
}

void check_clear(const View& view, int level, Findings& findings) {
  const Level& here = view.load.levels[index(level)];
  const Kiln& kiln = view.batch.kiln;
  double roof = kiln.height.mm() - kiln.under_lid.mm();
  for (const int above : view.above(level)) {
    roof = std::min(roof, view.shelves[index(above)].z.low);
  }
  const double clear = roof - here.shelf_top.mm();
  if (std::abs(clear - here.clear_height.mm()) > kTolerance) {
    const TwoLengths lengths = two_lengths(here.clear_height.mm(), clear);
    add(findings, "clear-height",
        fmt::format("The plan says there are {} over {}, but there are {}.", lengths.is,
                    view.words(level), lengths.asked));
  }
  if (clear < -kTolerance) {
    add(findings, "shelf-height",
        fmt::format("{} is {} too high for the kiln.", view.words(level),
                    two_lengths(-clear, 0).is));
  }
  double tallest = 0;
  for (const StandingPiece& piece : view.pieces) {
    if (piece.level == level) tallest = std::max(tallest, piece.size.height.mm());
  }
  const double air = here.clear_height.mm() - tallest;
  if (std::abs(air - here.air.mm()) > kTolerance) {
    const TwoLengths lengths = two_lengths(here.air.mm(), air);
    add(findings, "air-said",
        fmt::format("The plan says {} of air over the tallest piece on {}, but it is {}.",
                    lengths.is, view.words(level), lengths.asked));
  }
}

void check_piece_numbers(const View& view, const Level& level, int i, Findings& findings) {
  std::set<int> numbers;
  for (const PlacedPiece& piece : level.pieces) numbers.insert(piece.number);
  const auto count = static_cast<int>(level.pieces.size());
  const bool each_once = static_cast<int>(numbers.size()) == count;
  if (count == 0 || (each_once && *numbers.begin() == 1 && *numbers.rbegin() == count)) return;
  add(findings, "numbers",
      fmt::format("The {} pieces on {} should be numbered 1 to {}, each once.", count,
                  view.words(i), count));
}

}  // namespace

void check_levels(const View& view, Findings& findings) {
  for (const std::vector<int>& column : view.columns) {
    check_numbers(view, column, findings);
    double stands_at = 0;
    for (const int level : column) {
      if (!told_elsewhere(view, level, column)) {
        check_top(view, level, stands_at, findings);
        check_clear(view, level, findings);
      }
      stands_at = view.shelves[index(level)].z.high;
    }
    if (column.empty() || told_elsewhere(view, column.front(), column)) continue;
    const double room = view.shelves[index(column.front())].z.low;
    const double asked = view.batch.kiln.first_shelf.mm();
    if (room >= asked - kTolerance) continue;
    const TwoLengths lengths = two_lengths(room, asked);
    add(findings, "floor",
        fmt::format("There are {} under {}; at least {} are asked.", lengths.is,
                    view.words(column.front()), lengths.asked));
  }
  for (int i = 0; i < static_cast<int>(view.load.levels.size()); ++i) {
    check_piece_numbers(view, view.load.levels[index(i)], i, findings);
  }
}

}  // namespace placer::check
