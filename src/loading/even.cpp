#include "loading/even.h"

#include <algorithm>
#include <cmath>

#include "loading/index.h"
#include "loading/spread.h"
#include "placer/model/tower.h"

namespace placer::loading {
namespace {

constexpr double kGain = 1e-3;  // of what there is: less is not worth another order of levels

/// With the heavy ones nearer to the middle. The top one stays: it has the lid over it and no
/// posts.
std::vector<Level> bulk_in_the_middle(const Kiln& kiln, std::vector<Level> levels) {
  const Length underside = underside_of(kiln, levels.front());
  double away = away_from_middle(kiln, levels);
  for (bool any = true; any;) {
    any = false;
    std::vector<Level> best = levels;
    for (int i = 0; i + 1 < count_of(levels); ++i) {
      for (int j = i + 1; j + 1 < count_of(levels); ++j) {
        std::vector<Level> tried = levels;
        std::swap(at(tried, i), at(tried, j));
        restack(kiln, tried, underside);
        const double now = away_from_middle(kiln, tried);
        if (now >= away * (1 - kGain)) continue;
        away = now;
        best = std::move(tried);
        any = true;
      }
    }
    levels = std::move(best);
  }
  return levels;
}

}  // namespace

double mass_on(const Level& level) {
  double mass = 0;
  for (const PlacedPiece& piece : level.pieces) mass += piece.mass.kg();
  return mass;
}

double mass_left_on(const Kiln& kiln, const KilnLoad& load, const Level& level) {
  double in_load = 0;
  for (const Level& one : load.levels) in_load += mass_on(one);
  return std::min(most_on_shelf_kg(kiln) - mass_on(level), most_in_load_kg(kiln) - in_load);
}

double away_from_middle(const Kiln& kiln, const std::vector<Level>& levels) {
  double sum = 0;
  for (const Level& level : levels) {
    const Length tallest = level.clear_height - level.air;
    const double middle = level.shelf_top.mm() + tallest.mm() / 2;
    sum += mass_on(level) * std::abs(middle - kiln.height.mm() / 2);
  }
  return sum;
}

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

Evened even_out(const Job& job, KilnLoad& load) {
  Evened evened;
  if (has_bridge(load)) return evened;  // columns under a bridge end where they end
  evened.moved = spread_over_columns(job, load);
  if (!heights_are_free(job)) return evened;
  const Kiln& kiln = job.batch->kiln;
  for (int column = 0; column < count_of(kiln.columns); ++column) {
    std::vector<Level> levels = levels_in(load, column);
    if (levels.size() < 3) continue;
    const double before = away_from_middle(kiln, levels);
    levels = bulk_in_the_middle(kiln, std::move(levels));
    evened.swapped |= away_from_middle(kiln, levels) < before;
    put_back(levels, column, load);
  }
  return evened;
}

int unevenness(const Job& job, const KilnLoad& load) {
  std::vector<int> levels(job.columns.size());
  for (const Level& level : load.levels) {
    for (const int column : columns_of(job.batch->kiln, level)) ++at(levels, column);
  }
  const auto [low, high] = std::minmax_element(levels.begin(), levels.end());
  return levels.empty() ? 0 : *high - *low;
}

}  // namespace placer::loading
