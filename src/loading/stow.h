/// @file stow.h
/// Filled shelves put into as few loads of the kiln as can be found: which goes into which load,
/// and on which posts.
#pragma once

#include <optional>
#include <vector>

#include "loading/fill.h"
#include "placer/model/load_plan.h"

namespace placer::loading {

/// A shelf with what stands on it, before it has a place in the kiln.
struct Tier {
  const Site* site = nullptr;
  Filled filled;
  Length tallest;
  bool open = false;  ///< leaves no room for posts: it can only be the top one of a column
};

/// @param most loads that may be used. nullopt when no way was found.
/// Only for jobs whose levels may lie at any height.
std::optional<std::vector<KilnLoad>> stow(const Job& job, const std::vector<Tier>& tiers, int most);

}  // namespace placer::loading
