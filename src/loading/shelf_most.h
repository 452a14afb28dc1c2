/// @file shelf_most.h
/// The most that one shelf can be worth, by the limits alone.
#pragma once

#include <vector>

#include "loading/limits.h"

namespace placer::loading {

struct ShelfMost {
  double worth = 0;         ///< no shelf is worth more
  std::vector<int> pieces;  ///< of each claim, on the best shelf found
};

/// Radii, largest first: discs so large or larger, one for each, never stand on one shelf.
using Never = std::vector<double>;

/// @param first claims before it are too tall for the shelf. @param price of a piece of each claim,
/// >= 0. @param posts whether posts stand on it. @param looks places in the tree that are looked
/// at; when they do not suffice, worth is what might still be.
ShelfMost shelf_most(const std::vector<Claim>& claims, const std::vector<Limit>& limits, int first,
                     const std::vector<double>& price, bool posts, int looks,
                     const std::vector<Never>& never = {});

/// Whether so many of each claim keep the limits, and are none of those that never stand together.
bool keeps(const std::vector<Claim>& claims, const std::vector<Limit>& limits,
           const std::vector<Never>& never, const std::vector<int>& pieces, bool posts);

/// Radius of a disc that a piece of the claim has to itself however it stands.
double disc_of(const Claim& claim);
/// The places on a shelf that so many of them take at least.
int places_of(const Claim& claim, int pieces);

}  // namespace placer::loading
