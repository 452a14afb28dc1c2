#include "loading/even.h"

#include <algorithm>

#include "loading/index.h"

namespace placer::loading {
namespace {

double mass_on(const Level& level) {
  double mass = 0;
  for (const PlacedPiece& piece : level.pieces) mass += piece.mass.kg();
  return mass;
}

/// The levels of one column, lowest first, set on one another again from the first one's place.
void restack(const Kiln& kiln, std::vector<Level>& levels, Length underside) {
  for (int i = 0; i < count_of(levels); ++i) {
    Level& level = at(levels, i);
    level.level = i + 1;
    level.shelf_top = underside + at(kiln.shelves, level.shelf).thickness;
    underside = level.shelf_top + level.clear_height;
  }
}

}  // namespace

bool heights_are_free(const Job& job) {
  const Kiln& kiln = job.batch->kiln;
  for (const KeepOut& keep_out : kiln.keep_outs) {
    const bool always =
        keep_out.to <= keep_out.from || (keep_out.from <= Length{} && keep_out.to >= kiln.height);
    if (!always) return false;
  }
  return std::none_of(job.sorts.begin(), job.sorts.end(),
                      [](const Sort& sort) { return sort.wishes.zone || sort.wishes.level; });
}

void heavy_low(const Job& job, KilnLoad& load) {
  if (!heights_are_free(job)) return;
  const Kiln& kiln = job.batch->kiln;
  for (int column = 0; column < count_of(kiln.columns); ++column) {
    std::vector<Level> levels;
    for (const Level& level : load.levels) {
      if (level.column == column) levels.push_back(level);
    }
    if (levels.size() < 3) continue;
    const Length underside =
        levels.front().shelf_top - at(kiln.shelves, levels.front().shelf).thickness;
    std::stable_sort(levels.begin(), levels.end() - 1,
                     [](const Level& a, const Level& b) { return mass_on(a) > mass_on(b) + 1e-9; });
    restack(kiln, levels, underside);
    std::size_t next = 0;
    for (Level& level : load.levels) {
      if (level.column == column) level = levels[next++];
    }
  }
}

int unevenness(const Job& job, const KilnLoad& load) {
  std::vector<int> levels(job.columns.size());
  for (const Level& level : load.levels) ++at(levels, level.column);
  const auto [low, high] = std::minmax_element(levels.begin(), levels.end());
  return levels.empty() ? 0 : *high - *low;
}

}  // namespace placer::loading
