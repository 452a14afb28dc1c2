/// @file disc_hop.h
/// The moves of hop.h for equal discs.
#pragma once

#include <vector>

#include "packing/discs.h"

namespace placer::packing {

class DiscHopper {
 public:
  DiscHopper(const Kind& kind, const Scene& scene, std::uint64_t seed);

  /// Sets these and relaxes them. @return the energy
  double begin(const std::vector<Point>& middles, int target);
  /// Hops until settled, `patience` hops without gain, or `end` steps. @return the energy
  double settle(double e, int patience, std::uint64_t end);
  Point anywhere();

 private:
  double hop(double e);
  double crowd_hop(double e);
  int strained_one();
  int samples() const;

  const Scene* scene_;
  int last_moved_ = -1;

 public:
  Discs discs;
  Random random;
};

}  // namespace placer::packing
