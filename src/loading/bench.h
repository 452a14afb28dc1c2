/// @file bench.h
/// The pieces of one level on their shelf, to be moved about one by one.
#pragma once

#include <optional>
#include <vector>

#include "loading/job.h"
#include "placer/model/load_plan.h"

namespace placer::loading {

/// The sort that stands as these kinds from the bottom up; -1 none.
int sort_of(const Job& job, const std::vector<int>& kinds);

/// One piece or stack on the shelf.
struct Thing {
  int sort = 0;
  Footprint shape;  ///< about its own middle
  double reach = 0;
  bool round = false;  ///< looks the same whichever way it is turned
  bool fixed = false;  ///< pinned: never moved
  Placement place;
  Footprint there;
};

class Bench {
 public:
  /// nullopt when the level's shelf or pieces are not known to the job.
  static std::optional<Bench> of(const Job& job, const KilnLoad& load, const Level& level);

  const std::vector<Thing>& things() const { return things_; }
  int size() const { return static_cast<int>(things_.size()); }
  const Box& box() const { return box_; }
  double ground() const { return ground_; }
  double gap() const { return room_.gap; }
  /// What two of the first thing's sort keep from each other.
  double gap_alike() const { return gap_for(0, 0); }
  const Region& region() const { return room_.ground; }

  /// How far thing `i` would be from doing at that place, mm: <= 0 when it may stand there, with
  /// everything but the things in `away` where it is. It has to be moved by that much at least.
  double short_by(int i, const Placement& place, const std::vector<char>& away) const;
  double short_by(int i, const Placement& place) const { return short_by(i, place, none_); }
  bool may_stand(int i, const Placement& place) const { return short_by(i, place, none_) <= 0; }
  /// The turns that thing `i` may have; empty = any.
  const std::vector<double>& turns(int i) const;
  void put(int i, const Placement& place);

 private:
  Bench(const Job& job, Room room) : job_{&job}, room_{std::move(room)} {}
  double gap_for(int i, int j) const;

  const Job* job_;
  Room room_;
  Box box_;
  double ground_ = 0;
  std::vector<Thing> things_;
  std::vector<char> none_;
};

}  // namespace placer::loading
