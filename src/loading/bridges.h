/// @file bridges.h
/// Loads in which larger shelves lie across columns.
#pragma once

#include "loading/setting.h"

namespace placer::loading {

/// Whether one of the sort can stand on a bridge of an empty kiln and on no column's own shelf,
/// whatever it wishes.
bool needs_bridge(const Job& job, const Sort& sort);

/// Whether posts carry a bridge's shelf that is owned.
bool bridge_is_usable(const Job& job, const Site& site);

/// A bridge's shelf that can be used; nullptr when there is none.
const Site* usable_bridge(const Job& job);

/// Nothing in it where the job has no bridges.
Across across_of(const Job& job);

using Reaches = std::vector<double>;
bool reaches(const Reaches& all, Length height);

/// Whether the load that begins with this supply has a bridge.
bool wants_bridge(const Job& job, const Recipe& recipe, const Supply& supply);

/// Fills a load with a bridge in it, the columns under it and over it. False, and nothing taken,
/// when no bridge can be laid so or nothing would stand on it.
bool set_bridged_load(const Job& job, const Recipe& recipe, int round, Supply& supply,
                      KilnLoad& load);

}  // namespace placer::loading
