/// @file shelf_sets.h
/// All that one shelf can hold of a small supply: the fullest sets of pieces, each of them packed.
#pragma once

#include <map>
#include <optional>
#include <vector>

#include "loading/fill.h"
#include "loading/limits.h"

namespace placer::loading {

using Pieces = std::vector<int>;  ///< of each sort

/// Whether the first has as many of each as the second, or more.
bool covers(const Pieces& a, const Pieces& b);

/// Only what nothing else covers, in falling order.
std::vector<Pieces> fullest_of(std::vector<Pieces> all);

/// What may lie where: a shelf in a column, open up to the lid or with posts on it, and the tallest
/// that may stand there.
struct Storey {
  int kind = 0;  ///< of column
  bool open = false;
  int ceiling = 0;  ///< index of ShelfSets::ceilings
  bool operator==(const Storey&) const = default;
};

class ShelfSets {
 public:
  /// @param most_fills shelves that may be packed to find out. @param most_parts discs and corners
  /// of all pieces that may be packed there.
  ShelfSets(const Job& job, const Pieces& left, const Care& care, int most_fills, int most_parts);

  /// Whether there is more to find out than may be packed; then nothing else is to be asked. May
  /// turn out while it is found out.
  bool too_many() const { return too_many_; }
  /// Heights of all stacks that there may be, rising.
  const std::vector<Length>& ceilings() const { return ceilings_; }
  /// The shelf that each column uses; none: it has none to use.
  const std::vector<const Site*>& sites() const { return sites_; }
  /// Columns of one kind hold the same.
  int kind(int column) const { return kinds_[static_cast<std::size_t>(column)]; }
  int kinds() const;
  /// Every set that fits and to which nothing can be added, as far as packing finds out.
  const std::vector<Pieces>& fullest(const Storey& storey);
  /// A level set with just those pieces; nullopt when they are not found to fit.
  std::optional<Filled> filled(int column, const Storey& storey, const Pieces& pieces) const;

 private:
  struct Known {
    std::vector<Pieces> stand, fail;
  };
  /// A set of sorts to be counted through.
  struct Walk {
    Storey storey;
    std::vector<int> order;  ///< sorts that may stand there, the largest first
    std::vector<int> like;   ///< of each sort: the first that takes the same ground
    std::vector<Pieces> found;
  };

  int count() const { return static_cast<int>(left_.size()); }
  void find_sites();
  void find_ceilings();
  void count_parts();
  int parts_in(const Pieces& pieces) const;
  int most_in_stack(int s, int ceiling) const;
  bool stacks_alike(int ceiling) const;
  Walk walk(const Storey& storey) const;
  bool same_ground(int a, int b, int ceiling) const;
  bool within_limits(const Storey& storey, const Pieces& pieces) const;
  Pieces by_ground(const Walk& walk, const Pieces& pieces) const;
  bool stand(const Walk& walk, const Pieces& pieces);
  int count_through(Walk& walk, int i, Pieces& pieces, int most);
  void count_roughly(const Walk& walk, int i, Pieces& pieces, int& looks, int& parts) const;
  std::optional<Filled> packed(int column, const Storey& storey, const Pieces& pieces) const;

  const Job* job_;
  Pieces left_;
  Care care_;
  int most_fills_, most_parts_;
  int parts_ = 0;              ///< packed so far
  std::vector<int> parts_of_;  ///< discs and corners of a piece of each sort
  bool too_many_ = false;
  std::vector<Length> ceilings_;
  std::vector<const Site*> sites_;
  std::vector<int> kinds_;
  std::vector<int> first_;                   ///< column of each kind
  std::vector<std::vector<Limit>> limits_;   ///< of each kind; weights by sort
  std::map<std::vector<int>, Known> known_;  ///< by kind, open, ceiling
  std::map<std::vector<int>, std::vector<Pieces>> fullest_;
};

}  // namespace placer::loading
