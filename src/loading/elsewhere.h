/// @file elsewhere.h
/// One piece more on a level that is set already.
#pragma once

#include <optional>

#include "loading/job.h"
#include "placer/model/load_plan.h"

namespace placer::loading {

/// Where the piece (or stack) can stand on the level of that load beside all that is there, in line
/// with its rows if it can; nullopt when it cannot: no room, too tall, too heavy, a wish, company.
/// Packs of cones and what they are seen through stay clear.
/// @param looks how many places may be tried; those that were are taken off.
std::optional<Placement> place_beside(const Job& job, const KilnLoad& load, const Level& level,
                                      const PlacedPiece& piece, int& looks);

}  // namespace placer::loading
