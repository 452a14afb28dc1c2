/// @file tower.h
/// What lies one above another in a column, shelves that bridge several columns among them.
#pragma once

#include <string>
#include <vector>

#include "placer/model/batch.h"
#include "placer/model/load_plan.h"

namespace placer {

/// The columns that a level's shelf lies in or over: indices into Kiln::columns, rising.
std::vector<int> columns_of(const Kiln& kiln, const Level& level);
bool lies_in(const Kiln& kiln, const Level& level, int column);
/// Its column's name, or the bridge's.
const std::string& place_name(const Kiln& kiln, const Level& level);
/// Where the origins of the shelves there lie.
const Placement& place_of(const Kiln& kiln, const Level& level);
/// Its column's shelves, or the bridge's.
const std::vector<int>& shelves_for(const Kiln& kiln, const Level& level);

/// Indices into KilnLoad::levels of all that lies in a column or over it, from the bottom up.
std::vector<int> tower(const Kiln& kiln, const KilnLoad& load, int column);
bool has_bridge(const KilnLoad& load);
/// The posts that carry a level: those on what lies next under it in each of its columns, or those
/// on the floor.
std::vector<PlacedPost> posts_under(const Batch& batch, const KilnLoad& load, const Level& level);

}  // namespace placer
