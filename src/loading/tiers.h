/// @file tiers.h
/// All that is to be set spread over shelves, the tallest first, before any kiln is thought of.
#pragma once

#include <functional>

#include "loading/setting.h"
#include "loading/stow.h"

namespace placer::loading {

/// Whether levels may lie at any height and in any load: nothing is wished or kept that hangs on
/// it.
bool any_level_will_do(const Job& job, const Kept& kept);

/// The shelf that a column uses, and how many of them and how much height they take so far.
struct Row {
  const Site* site = nullptr;
  Room room;          ///< at any height, posts of any kind on it unless it is open
  bool open = false;  ///< the top one of a column
  int tiers = 0;
  double used = 0;
};

/// Of each column that has a shelf to use.
std::vector<Row> rows_of(const Job& job, bool open = false);

/// Height of column that a shelf and the shortest posts over pieces so tall take, mm; open: the
/// pieces alone.
double column_taken(const Job& job, const Row& row, Length tallest);

/// The tallest stack that stands there.
Length tallest_of(const Job& job, const Filled& filled);

/// Shelves in their columns, as many as it takes. Pieces lower than the tallest on a shelf fill it
/// up, so that of shelves as tall as h or taller there are as few as can be, for every h.
/// Empty when some piece finds no shelf, or when `stop` says so. Only for jobs of which
/// any_level_will_do.
std::vector<Tier> tiers_of(const Job& job, const std::vector<int>& left, const Recipe& recipe,
                           const std::function<bool()>& stop = nullptr);

}  // namespace placer::loading
