/// @file limits.h
/// What no shelf can hold, as inequalities over the pieces that stand on it.
#pragma once

#include <vector>

#include "loading/claims.h"
#include "loading/job.h"

namespace placer::loading {

/// Sum of weight times pieces on one shelf <= under, where posts stand on it; <= top, where none
/// do.
struct Limit {
  std::vector<double> weight;  ///< of a piece of each claim
  double under = 0, top = 0;
};

/// The largest ground that a shelf of the column offers, grown by the largest half gap of the
/// claims; no corners when there is none.
Floor floor_for(const Job& job, int column, const std::vector<Claim>& claims);

/// All that is known to hold on every shelf of the column, whose largest ground that is.
std::vector<Limit> limits_of(const Job& job, int column, const Floor& floor,
                             const std::vector<Claim>& claims);

/// Likewise of a bridge's shelves. Where only some columns go on over it, only their posts stand on
/// it: its limits are those of a shelf without any.
Floor floor_for_bridge(const Job& job, int bridge, const std::vector<Claim>& claims);
std::vector<Limit> limits_of_bridge(const Job& job, const Floor& floor,
                                    const std::vector<Claim>& claims);

/// Posts that carry one shelf, at least.
int posts_each(const Job& job, int column);

}  // namespace placer::loading
