// Shelves that a load seems to have, and whose largest discs are proven not to go together.
#include <algorithm>

#include "loading/index.h"
#include "loading/kiln_most.h"
#include "loading/squeeze.h"

namespace placer::loading {
namespace {

constexpr int kMostDiscs = 6;       // more are not looked into together
constexpr int kProofLooks = 40000;  // for one set of discs
constexpr double kCrowded = 0.55;   // of the ground: less than this goes together, as a rule

}  // namespace

bool KilnLimits::rule_out(const KilnMost& load) {
  if (proofs_ <= 0) return false;
  bool any = false;
  for (const ShelfSet& shelf : load.shelves) {
    Column& column = at(columns_, shelf.column);
    std::vector<double> radii;
    for (int k = 0; k < count_of(claims_); ++k) {
      const int n = at(shelf.pieces, k);
      if (n > 0)
        radii.insert(radii.end(), static_cast<std::size_t>(places_of(at(claims_, k), n)),
                     disc_of(at(claims_, k)));
    }
    std::sort(radii.begin(), radii.end(), std::greater<>{});
    for (int n = 2; n <= std::min(kMostDiscs, count_of(radii)) && proofs_ > 0; ++n) {
      Never set(radii.begin(), radii.begin() + n);
      double covered = 0;
      for (const double r : set) covered += 3.14159 * r * r;
      if (covered < kCrowded * column.floor.area) continue;
      const auto place = std::lower_bound(column.asked.begin(), column.asked.end(), set);
      if (place != column.asked.end() && *place == set) continue;
      column.asked.insert(place, set);
      const int looks = std::min(proofs_, kProofLooks);
      int left = looks;
      const bool never = cannot_lie(column.floor, set, left);
      proofs_ -= looks - std::max(0, left);
      if (!never) continue;
      column.never.push_back(std::move(set));
      any = true;
      break;
    }
  }
  return any;
}

bool KilnLimits::may_be(const KilnMost& load) const {
  return std::all_of(load.shelves.begin(), load.shelves.end(), [&](const ShelfSet& shelf) {
    const Column& column = at(columns_, shelf.column);
    return keeps(claims_, column.limits, column.never, shelf.pieces, !shelf.open);
  });
}

}  // namespace placer::loading
