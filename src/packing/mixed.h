/// @file mixed.h
/// The most value from a mixed supply.
#pragma once

#include <map>
#include <utility>
#include <vector>

#include "packing/bodies.h"
#include "packing/effort.h"
#include "packing/hop.h"

namespace placer::packing {

/// From `seed` (which must stand as it is) upwards.
std::vector<Pose> more_value(const std::vector<Kind>& kinds, const Scene& scene,
                             const std::vector<Pose>& seed, const Budget& budget);

/// Roughly the room that a piece takes with half its gap round it, mm².
double room_of(const Kind& kind, double gap);

/// True when every piece is worth its area, so that nothing is dearer than anything else.
bool worth_its_area(const std::vector<Kind>& kinds);
/// The kinds as indices: those that need most ground first; those worth most for their ground
/// first.
std::vector<int> largest_first(const std::vector<Kind>& kinds, const Scene& scene);
std::vector<int> dearest_first(const std::vector<Kind>& kinds, const Scene& scene);

/// Pieces to take out and pieces to put in, as kinds.
struct Exchange {
  std::vector<int> out, in;
  double value = 0;  ///< gained
  double room = 0;   ///< needed, mm²
};

/// One region's share of a mixed supply, made more valuable by exchanges.
class Mixing {
 public:
  Mixing(const std::vector<Kind>& kinds, const Scene& scene, std::uint64_t seed);

  /// @param left what of each kind is still to be had besides the seed's own
  void start(const std::vector<Pose>& seed, const std::vector<int>& left);
  /// Every kind in this order, as long as one more goes in.
  void fill(const std::vector<int>& order, std::uint64_t end);
  void fill(std::uint64_t end) { fill(by_size_, end); }
  void improve(std::uint64_t end, const Budget& budget);
  const std::vector<Pose>& best() const { return best_; }
  double value() const { return best_value_; }
  std::uint64_t work() const { return hopper_.relaxer.work(); }

 private:
  bool try_insert(int kind);
  Exchange random_exchange();
  Exchange likely_exchange();
  bool try_exchange(const Exchange& exchange, std::uint64_t end);
  int nearest_of_kind(const std::vector<Pose>& poses, int kind, Point to) const;
  void keep();
  bool all_placed() const;

  const std::vector<Kind>* kinds_;
  Hopper hopper_;
  std::vector<int> left_;
  std::vector<double> room_;
  double hopeless_ = 0;  ///< mm²: a jam that no few hops will undo
  std::vector<int> by_size_;
  std::vector<Pose> now_, best_;
  double now_value_ = 0, best_value_ = 0;
  std::map<std::pair<std::vector<int>, std::vector<int>>, int> failed_;
};

double value_of(const std::vector<Kind>& kinds, const std::vector<Pose>& poses);

}  // namespace placer::packing
