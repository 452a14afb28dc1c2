/// @file load_sets.h
/// All that one load of a small kiln can hold of a small supply, and the best way to share the
/// supply among loads.
#pragma once

#include <functional>
#include <map>
#include <vector>

#include "loading/load_shapes.h"

namespace placer::loading {

/// A load with a fullest set of pieces.
struct LoadSet {
  Pieces holds;
  int shape = 0;  ///< index of the load shapes
  int cost = 0;   ///< shelves first, evenness second
};

class LoadSets {
 public:
  /// @param looks ways of sharing that may be looked at.
  LoadSets(const std::vector<LoadShape>& shapes, ShelfSets& sets, const Pieces& left, int looks);

  /// What goes into each load, for as few loads as can be and then as few shelves; empty: no way
  /// found.
  std::vector<const LoadSet*> share(int fewest, int most);
  /// What goes onto each storey of the shape so that all of the pieces stand.
  std::vector<Pieces> spread(const LoadShape& shape, const Pieces& pieces);

 private:
  struct Share {
    int cost = 0;
    int load = -1;
  };
  bool tired() const { return looks_ <= 0; }
  const std::vector<Pieces>& held_by(const std::vector<Storey>& storeys, int from);
  std::vector<Pieces> sums(const std::vector<Pieces>& a, const std::vector<Pieces>& b);
  void find_loads(const std::vector<LoadShape>& shapes);
  void keep_useful();
  Share least(const Pieces& rest, int loads);
  Share least_among(const Pieces& rest, int loads);
  bool enough(const Pieces& rest, int loads) const;

  ShelfSets* sets_;
  Pieces left_;
  int looks_;
  std::map<std::vector<int>, std::vector<Pieces>> held_;  ///< by the storeys
  std::vector<LoadSet> loads_;                            ///< the cheapest first
  Pieces most_;                                           ///< of each sort, in any load
  std::map<std::vector<int>, Share> known_;               ///< by what is left and loads
};

}  // namespace placer::loading
