// Shelves: of a kind the column may use, clear of walls, of keep-outs and of each other.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/rules.h"

namespace placer::check {
namespace {

std::size_t index(int i) { return static_cast<std::size_t>(i); }

void check_place(const View& view, const StandingShelf& shelf, Findings& findings) {
  const Kiln& kiln = view.batch.kiln;
  const Level& level = view.load.levels[index(shelf.level)];
  const Bridge* bridge = view.bridge(shelf.level);
  const Column& column = kiln.columns[index(level.column)];
  const Placement& asked_at = bridge == nullptr ? column.at : bridge->at;
  const std::vector<int>& kinds = bridge == nullptr ? column.shelves : bridge->shelves;
  if (std::ranges::count(kinds, level.shelf) == 0) {
    add(findings, "shelf-kind",
        fmt::format("A shelf '{}' may not be used as {}.", shelf.kind->name,
                    view.words(shelf.level)));
  }
  const Point off = level.shelf_at.at - asked_at.at;
  const double apart = std::max(
      {std::abs(off.x), std::abs(off.y), std::abs(level.shelf_at.turn_deg - asked_at.turn_deg)});
  if (apart > kTolerance) {
    add(findings, "shelf-place",
        fmt::format("{} does not lie {}.", view.words(shelf.level),
                    bridge == nullptr ? "in line with its column" : "where its bridge does"));
  }
  const double asked = shelf.kind->snug ? 0 : kiln.shelf_clearance.mm();
  const double room = inset(shelf.edge, kiln.chamber);
  if (room >= asked - kTolerance) return;
  const TwoLengths lengths = two_lengths(room, asked);
  add(findings, "shelf-wall",
      fmt::format("{} comes within {} of the wall; {} are asked.", view.words(shelf.level),
                  lengths.is, lengths.asked));
}

}  // namespace

void check_shelves(const View& view, Findings& findings) {
  for (const StandingShelf& shelf : view.shelves) check_place(view, shelf, findings);
  for (std::size_t i = 0; i < view.shelves.size(); ++i) {
    const StandingShelf& shelf = view.shelves[i];
    for (std::size_t j = i + 1; j < view.shelves.size(); ++j) {
      const StandingShelf& other = view.shelves[j];
      if (!overlap(shelf.z, other.z) || gap(shelf.edge, other.edge) >= -kTolerance) continue;
      add(findings, "shelf-touch",
          fmt::format("{} and {} are in each other's way.", view.words(shelf.level),
                      view.words(other.level)));
    }
  }
}

}  // namespace placer::check
