// Bridges among the limits of a kiln.
#include <algorithm>
#include <limits>

#include "loading/alone.h"
#include "loading/index.h"
#include "loading/kiln_most.h"

namespace placer::loading {

/// A bridge counts as a column of its own that has its height for itself: no load with bridges is
/// worth more than one of such a kiln.
void KilnLimits::add_bridges() {
  const Kiln& kiln = job_->batch->kiln;
  if (job_->bridges.empty()) return;
  for (Column& column : columns_) rule_out_alone(column);
  for (int b = 0; b < count_of(job_->bridges); ++b) {
    Column bridge;
    bridge.floor = floor_for_bridge(*job_, b, claims_);
    if (bridge.floor.edge.corners.empty()) continue;
    bridge.limits = limits_of_bridge(*job_, bridge.floor, claims_);
    bridge.posts = 0;
    bridge.shelf = std::numeric_limits<double>::infinity();
    for (const Site& site : at(job_->bridges, b)) {
      const ShelfKind& shelf = at(kiln.shelves, site.shelf);
      if (!site.trouble.empty() || shelf.have == 0) continue;
      bridge.shelf = std::min(bridge.shelf, shelf.thickness.mm());
      bridge.most += shelf.have;
    }
    bridge.like = count_of(columns_);
    for (const int column : at(kiln.bridges, b).over) {
      if (at(places_, column) >= 0) bridge.over.push_back(at(places_, column));
    }
    rule_out_alone(bridge);
    columns_.push_back(std::move(bridge));
    ++bridges_;
  }
}

/// Pieces that lie on none of its shelves, not even alone.
void KilnLimits::rule_out_alone(Column& column) const {
  for (const Claim& claim : claims_) {
    const bool nowhere = lies_nowhere(*job_, claim, column.floor, halo_of(*job_, claim));
    column.barred.push_back(nowhere ? 1 : 0);
  }
}

/// Height that a bridge with anything on it takes of each column that it lies over, mm; 0 where
/// there are several, which may lie over different columns.
double KilnLimits::taken_by_bridge() const {
  if (bridges_ != 1 || claims_.empty()) return 0;
  return columns_.back().shelf + claims_.back().height;
}

/// Whether the only bridge lies over both columns or over neither.
bool KilnLimits::alike_under(int a, int b) const {
  const std::vector<int>& over = columns_.back().over;
  return std::count(over.begin(), over.end(), a) == std::count(over.begin(), over.end(), b);
}

}  // namespace placer::loading
