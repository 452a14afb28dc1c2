/// @file claims.h
/// What each sort's pieces have to themselves on a shelf, however they stand.
#pragma once

#include <vector>

#include "loading/crowd.h"
#include "loading/job.h"

namespace placer::loading {

/// One way that pieces of a sort may stand: so many share this ground.
struct Form {
  double disc = 0;    ///< radius of a disc that they have to themselves, half the gap in it
  double ground = 0;  ///< mm² that they have to themselves
  double length = 0, width = 0;  ///< of a rectangle likewise; 0 when none
  Convex beside;                 ///< a convex part that its disc is no part of
  Convex all;                    ///< all of it, when it is one convex shape
  int pieces = 1;
};

/// One sort's pieces as a proof sees them.
struct Claim {
  int sort = 0;
  int count = 0;
  double height = 0;  ///< of the lowest way they may stand
  std::vector<Form> forms;
};

/// Tallest first; sorts of which none is to be set are left away.
std::vector<Claim> claims_of(const Job& job, const std::vector<int>& set);

/// Half the gap that a sort's or a claim's pieces keep from any other, mm.
double halo_of(const Job& job, const Sort& sort);
double halo_of(const Job& job, const Claim& claim);

/// Radius of a disc that lies in a convex outline; 0 for others.
double inner_radius(const Outline& outline);

}  // namespace placer::loading
