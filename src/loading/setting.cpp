#include "loading/setting.h"

#include <algorithm>

#include "loading/index.h"
#include "loading/order.h"
#include "loading/pile.h"

namespace placer::loading {

KilnLoad set_load(const Job& job, const Recipe& recipe, int round, const Kept& kept,
                  Supply& supply) {
  KilnLoad load;
  load.load = job.load;
  load.round = round;
  Shed shed{job.batch->kiln};
  const int columns = count_of(job.columns);
  std::vector<Pile> piles;
  piles.reserve(job.columns.size());
  for (int c = 0; c < columns; ++c) piles.emplace_back(job, recipe, c, shed, supply, load);
  for (const Level& level : kept) at(piles, level.column).keep(level);
  for (int i = 0; i < columns; ++i) at(piles, (i + recipe.first_column) % columns).build();
  std::stable_sort(load.levels.begin(), load.levels.end(),
                   [](const Level& a, const Level& b) { return a.column < b.column; });
  weigh(*job.batch, load);
  return load;
}

}  // namespace placer::loading
