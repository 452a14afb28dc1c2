/// @file view.h
/// One load of the kiln, everything in it worked out again from the batch: ground covered and
/// heights in mm from the chamber floor.
#pragma once

#include <string>
#include <vector>

#include "placer/model/batch.h"
#include "placer/model/load_plan.h"

namespace placer::check {

/// Something between two heights, mm from the chamber floor.
struct Span {
  double low = 0, high = 0;
};
/// Shared height counts from this on, in mm; shortfalls count from here, too.
constexpr double kTolerance = 1e-6;
bool overlap(const Span& a, const Span& b);

struct StandingPiece {
  const PlacedPiece* placed = nullptr;
  const PieceKind* kind = nullptr;
  int level = 0;  ///< index into KilnLoad::levels, here and below
  SizedPiece size;
  Footprint ground;
  Box box;
  Span z;
};

struct StandingShelf {
  const ShelfKind* kind = nullptr;
  int level = 0;
  Region edge;
  Box box;
  Span z;  ///< of the slab
};

struct StandingPost {
  const PlacedPost* placed = nullptr;
  int stands_on = -1;  ///< -1: the floor
  int carries = -1;    ///< -1: nothing
  Footprint foot;
  Box box;
  Span z;
};

struct View {
  View(const Batch& batch_in, const KilnLoad& load_in);

  const Batch& batch;
  const KilnLoad& load;
  FiringKind kind;
  std::vector<StandingShelf> shelves;  ///< one a level, in the plan's order
  std::vector<StandingPiece> pieces;
  std::vector<StandingPost> posts;
  /// Levels of each column, from the bottom up; bridges are in all that they lie over.
  std::vector<std::vector<int>> columns;

  /// The next level above in one column, or -1.
  int above(int level, int column) const;
  /// The next levels above, in all the columns that the level is in; each once.
  std::vector<int> above(int level) const;
  std::vector<const StandingPost*> carriers(int level) const;
  /// Of a bridge's carriers, those that stand where the column's own shelves lie; else all.
  std::vector<const StandingPost*> carriers(int level, int column) const;
  const Bridge* bridge(int level) const;         ///< nullptr: it lies in its own column
  std::vector<int> columns_of(int level) const;  ///< that it lies in or over

  // Words for messages: "glaze, load 2", "left, shelf 3 (glaze, load 2)", "Mug 7 on left, ...".
  std::string words() const;
  std::string words(int level) const;
  std::string words(const StandingPiece& piece) const;

 private:
  void add_level(int i);
  void add_post(const PlacedPost& post, int stands_on, int carries);
  int over_floor(const PlacedPost& post) const;
  int carried_on(int level, const PlacedPost& post) const;
};

/// How the kinds in a stack may not stand, as one sentence; "" when they may.
std::string stack_trouble(const Batch& batch, const PlacedPiece& piece, FiringKind kind);

}  // namespace placer::check
