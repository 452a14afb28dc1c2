/// @file shares.h
/// How often to use each of some patterns, so that together they hold all that is asked for.
#pragma once

#include <vector>

namespace placer::packing {

struct Shares {
  std::vector<double> uses;   ///< of each pattern, in fractions; least in sum
  std::vector<double> worth;  ///< of one piece of each kind then, in patterns
  double sum = 0;             ///< of the uses
};

/// The least sum of uses with which patterns of so many pieces of each kind hold what is asked for.
/// Every kind asked for must be in some pattern.
/// @param patterns pieces of each kind, one row a pattern
/// @source G. B. Dantzig's simplex method, on the dual (which may start from nothing), with R. G.
///   Bland's rule against going in circles (Math. Oper. Res. 2, 1977)
Shares shares_of(const std::vector<std::vector<int>>& patterns, const std::vector<int>& asked);

}  // namespace placer::packing
