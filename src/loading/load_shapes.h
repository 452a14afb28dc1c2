/// @file load_shapes.h
/// Every way to build up one load of a small kiln from the shelves and posts owned, before anything
/// stands on it.
#pragma once

#include <vector>

#include "loading/shelf_sets.h"

namespace placer::loading {

/// Posts of one height.
struct Rise {
  Length height;
  std::vector<Parts> parts;  ///< of each post
  std::vector<int> used;     ///< parts of each kind
};

/// The levels of one column. None at all: the column stays empty.
struct ColumnShape {
  std::vector<int> between;  ///< ceilings of the levels that carry posts, from the bottom up
  int top = -1;              ///< ceiling of the level under the lid; -1: there is no level
  Rise floor;                ///< under the lowest shelf; no parts when it lies on the floor
  std::vector<Rise> posts;   ///< on each level of `between`
  std::vector<int> used;     ///< parts of each kind in all
  int levels() const { return top < 0 ? 0 : static_cast<int>(between.size()) + 1; }
};

struct LoadShape {
  std::vector<ColumnShape> columns;
  std::vector<Storey> storeys;  ///< all levels, in rising order
  int uneven = 0;               ///< levels that the fullest column has more than the emptiest
  int shelves() const { return static_cast<int>(storeys.size()); }
};

/// None that another outdoes with no more shelves. Empty when there are more than can be looked
/// through.
std::vector<LoadShape> load_shapes(const Job& job, const ShelfSets& sets);

}  // namespace placer::loading
