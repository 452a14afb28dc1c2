/// @file batch.h
/// All that loading and checking need to know: plain, checked values.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "placer/model/kiln.h"
#include "placer/model/ware.h"

namespace placer {

/// Room to leave, by kind of firing. Defaults: BC Potters Guild loading notes (gap, walls) and
/// common practice (air).
struct Clearances {
  Length gap = Length::from_mm(6);         ///< piece to piece and piece to post
  Length runny_gap = Length::from_mm(12);  ///< where either piece has a runny glaze
  Length air = Length::from_mm(8);         ///< tallest piece to the shelf above
};

struct Rules {
  Clearances glaze;
  Clearances bisque{Length::from_mm(0), Length::from_mm(0), Length::from_mm(6)};
};

/// A firing asked for. It may take several loads of the kiln to fire all its pieces.
struct Load {
  std::string name;  ///< "bisque", "glaze", or as the potter calls it; unique
  FiringKind kind = FiringKind::glaze;
  TextPos where;
  std::string cone = {};                ///< that it is fired to, "06"; "" when it goes by degrees
  std::optional<Temperature> top = {};  ///< of that cone at 60 °C/h, or as given; none: not known
};

struct Batch {
  Kiln kiln;
  std::vector<Clay> clays;  ///< at least one
  std::vector<Glaze> glazes;
  std::vector<PieceKind> pieces;
  std::vector<Load> loads;  ///< at least one
  Rules rules;
  std::uint64_t seed = 0;
};

const Clearances& clearances(const Rules& rules, FiringKind kind);

/// The stage at which a piece goes into a firing of this kind: dry into bisque, bisque into glaze.
Stage stage_going_in(FiringKind kind);

/// Shape, height and mass as they go into such a firing.
struct SizedPiece {
  Footprint footprint;
  Length height;
  Mass mass;
};
SizedPiece sized(const Batch& batch, const PieceKind& piece, FiringKind kind);

/// How much a stack of `count` pieces of one kind measures, standing (see Stacking); count == 1 is
/// the piece itself. @throws std::invalid_argument for a count the kind does not allow.
SizedPiece stacked(const Batch& batch, const PieceKind& piece, FiringKind kind, int count);

/// What stands as one, kinds from the bottom up (see PlacedPiece::stack): stacks of one kind on
/// one another, a lid on its pot. Heights and masses add, the ground covered is that of all.
/// @throws std::invalid_argument when there is none or a run of one kind is too long for it.
SizedPiece standing(const Batch& batch, std::span<const int> kinds, FiringKind kind);

/// The gap two pieces must keep from each other in a firing (runny glazes ask for more).
Length gap_between(const Batch& batch, const PieceKind& a, const PieceKind& b, FiringKind kind);

}  // namespace placer
