/// @file attempts.h
/// One way of setting all there is, in as many loads as it takes.
#pragma once

#include "loading/search.h"
#include "loading/stow.h"

namespace placer::loading {

/// Load after load, level after level. @param stop the attempt is given up (its `unset` is
/// infinite) when this says so; none: it always finishes.
Attempt attempt_by_loads(const Job& job, const std::vector<int>& left, const Kept& kept,
                         const Recipe& recipe, const std::function<bool()>& stop);

/// Shelves that are filled already put into loads; `unset` is infinite when there are none or when
/// that takes more than `enough` loads. @param left what the shelves hold.
Attempt attempt_by_shelves(const Job& job, const std::vector<int>& left,
                           const std::vector<Tier>& tiers, int fewest, int enough,
                           const std::function<bool()>& stop);

/// Loads that hold all of `left`; `unset` is infinite when there are none.
Attempt attempt_of(const Job& job, const std::vector<int>& left, std::vector<KilnLoad> loads);

/// Better: less left out, fewer firings, fewer shelves in columns alike, an emptier last firing.
bool better(const Attempt& a, const Attempt& b);

}  // namespace placer::loading
