#include "loading/setting.h"

#include <algorithm>

#include "loading/bridges.h"
#include "loading/index.h"
#include "loading/order.h"
#include "loading/pile.h"
#include "placer/model/tower.h"

namespace placer::loading {

namespace {

void raise_one_by_one(const std::vector<Pile*>& piles) {
  for (Pile* pile : piles) {
    pile->start();
    while (pile->grow()) {
    }
  }
}

void raise_in_turn(const std::vector<Pile*>& piles) {
  for (Pile* pile : piles) pile->start();
  for (bool any = true; any;) {
    any = false;
    for (Pile* pile : piles) any |= pile->grow();
  }
}

}  // namespace

bool is_kept(const Kept& kept, const KilnLoad& load, const Level& level) {
  return load.round == 1 && std::any_of(kept.begin(), kept.end(), [&](const Level& one) {
           return one.column == level.column && one.level == level.level;
         });
}

void raise(const std::vector<Pile*>& piles, bool in_turn) {
  if (in_turn) {
    raise_in_turn(piles);
  } else {
    raise_one_by_one(piles);
  }
}

KilnLoad set_load(const Job& job, const Recipe& recipe, int round, const Kept& kept,
                  Supply& supply) {
  KilnLoad load;
  load.load = job.load;
  load.round = round;
  if (kept.empty() && wants_bridge(job, recipe, supply) &&
      set_bridged_load(job, recipe, round, supply, load)) {
    return load;
  }
  Shed shed{job.batch->kiln};
  const int columns = count_of(job.columns);
  std::vector<Pile> piles;
  piles.reserve(job.columns.size());
  for (int c = 0; c < columns; ++c) piles.emplace_back(job, recipe, c, shed, supply, load);
  keep_levels(job, kept, piles, shed, load);
  std::vector<Pile*> order;
  for (int i = 0; i < columns; ++i)
    order.push_back(&at(piles, (i + recipe.first_column) % columns));
  raise(order, recipe.in_turn);
  if (!has_bridge(load)) {
    std::stable_sort(load.levels.begin(), load.levels.end(),
                     [](const Level& a, const Level& b) { return a.column < b.column; });
  }
  weigh(*job.batch, load);
  return load;
}

}  // namespace placer::loading
