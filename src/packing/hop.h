/// @file hop.h
/// From one jammed arrangement to a better one, piece by piece.
#pragma once

#include <algorithm>

#include "packing/relax.h"

namespace placer::packing {

constexpr double kSlack = 1.5e-6;   // mm kept in hand, so that no rounding makes a gap short
constexpr double kSettled = 1e-12;  // mm²: then no single distance lacks more than the slack

/// A Relaxer with its random numbers and the moves that lead out of a jam.
class Hopper {
 public:
  Hopper(const std::vector<Kind>& kinds, const Scene& scene, std::uint64_t seed)
      : kinds_{&kinds}, scene_{&scene}, relaxer{kinds, scene, kSlack}, random{seed} {}

  /// A badly strained piece is set where there is most room, turned, or changes places with one
  /// of another kind; the new arrangement is kept when it is no worse. @return the energy
  double hop(double e);
  /// Hops until settled, `patience` hops without gain, or `end` steps. @return the energy
  double settle(double e, int patience, std::uint64_t end);
  /// Adds a piece where there is most room.
  void insert(int kind);
  /// Every piece in its place turned to where it is least in the way, `sweeps` times over.
  void turn_each(int sweeps);
  Pose random_pose(int kind);
  int samples() const { return 60 + 2 * std::min(relaxer.size(), 500); }

 private:
  const std::vector<Kind>* kinds_;
  const Scene* scene_;
  int last_moved_ = -1;

  int strained_piece();
  void change(int piece);

 public:
  Relaxer relaxer;
  Random random;
};

}  // namespace placer::packing
