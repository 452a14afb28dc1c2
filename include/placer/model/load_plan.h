/// @file load_plan.h
/// The answer of loading: which piece goes where. A value that anyone may keep, print, check or
/// compare. Indices point into the Batch it was made from. Kiln coordinates throughout.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "placer/base/units.h"
#include "placer/geometry/shape.h"
#include "placer/model/ware.h"

namespace placer {

/// One piece, or one stack of pieces, set on a shelf.
struct PlacedPiece {
  int piece = 0;   ///< index into Batch::pieces; of a stack: the lowest
  int number = 0;  ///< on its level, in setting order from 1: far to near
  Placement place;
  Length height;           ///< as it goes in; of the whole stack
  Mass mass;               ///< likewise
  int stacked = 1;         ///< pieces in the stack
  std::vector<int> stack;  ///< kinds from the bottom up, when stacked > 1 or a lid is on
  int row = 0;             ///< 1 is the far row; 0 when it stands in no row
};

/// Kinds from the bottom up of whatever stands there, one entry a piece.
std::vector<int> kinds_of(const PlacedPiece& piece);

/// A post: parts one on another, from the shelf (or floor) up.
struct PlacedPost {
  Point at;
  double turn_deg = 0;
  std::vector<int> parts;  ///< indices into Kiln::posts, from the bottom up
};

/// A pack of witness cones, set where a spy hole sees it.
struct ConePack {
  int spy_hole = 0;  ///< index into Kiln::keep_outs
  Placement place;   ///< of its middle; turned so that its broad side is to the hole
  bool seen = true;  ///< false: it stands out of sight, to be read when the door is open
};

/// A spy hole at which no pack of cones could be set.
struct NoCones {
  int spy_hole = 0;    ///< index into Kiln::keep_outs
  std::string reason;  ///< one sentence, the same wherever it is shown
};

/// One shelf and what stands on it.
struct Level {
  int column = 0;                 ///< index into Kiln::columns; of a bridge: the first it lies over
  int bridge = -1;                ///< index into Kiln::bridges; -1: it lies in its own column
  int level = 0;                  ///< in its column, 1 is the lowest
  int shelf = 0;                  ///< index into Kiln::shelves
  Placement shelf_at;             ///< of the shelf's own origin
  Length shelf_top;               ///< z of the surface that pieces stand on
  Length clear_height;            ///< to the shelf above; on top: to the lid less the room under it
  Length air;                     ///< clear height less the tallest piece
  std::vector<PlacedPost> posts;  ///< that stand on this shelf and carry the next one
  std::vector<PlacedPiece> pieces;
  std::vector<ConePack> cones;
  std::string pattern;  ///< "5 rows of 6" when it is set in rows, else ""
};

/// One load of the kiln.
struct KilnLoad {
  int load = 0;   ///< index into Batch::loads
  int round = 1;  ///< 1 for the first load of that firing, 2 for the next, ...
  std::vector<PlacedPost> floor_posts;  ///< under the lowest shelves; their z starts at 0
  std::vector<Level> levels;            ///< in setting order: the far columns first, each bottom up
  std::vector<NoCones> no_cones;
  Mass ware;
  Mass furniture;
};

struct LeftOut {
  int piece = 0;
  int load = 0;
  int count = 0;
  std::string
      code;  ///< the rule in one word: "tall", "wide", "heavy", "posts", "shelves", "wishes"
  std::string reason;  ///< one sentence, the same wherever it is shown
};

/// A wish that could not be granted; the load is planned without it.
struct Ungranted {
  int piece = 0;
  int load = 0;
  std::string wish;    ///< its word in the file: "zone", "side", "level", "first firing", "set",
                       ///< "apart", "turn", "pinned", "inside"
  std::string reason;  ///< one sentence, the same wherever it is shown
};

/// Most of one kind of furniture in use at once, and how many are owned.
struct FurnitureUse {
  int kind = 0;  ///< index into Kiln::shelves or Kiln::posts
  int needed = 0;
  int owned = 0;
};

struct LoadPlan {
  std::string name;  ///< spoken: "OAK-17", from all that matters in it
  std::uint64_t seed = 0;
  std::vector<KilnLoad> firings;
  std::vector<LeftOut> left_out;
  std::vector<Ungranted> ungranted;  ///< wishes; every other wish of a placed piece is granted
  std::vector<FurnitureUse> shelves, posts;
  int fewest_firings_possible = 0;   ///< a proven lower bound for the pieces placed; never wrong
  std::vector<std::string> remarks;  ///< plain sentences: what was traded, what a purchase would do
};

/// Where a placed piece covers the ground, kiln coordinates.
struct Batch;
Footprint ground(const Batch& batch, const KilnLoad& load, const PlacedPiece& piece);
/// The shelf's shape and its posts' feet, kiln coordinates.
Region ground(const Batch& batch, const Level& level);
Footprint ground(const Batch& batch, const PlacedPost& post);
Length height_of(const Batch& batch, const PlacedPost& post);
/// A spoken name for the plan, from a hash of its places: the same plan, the same name.
std::string spoken_name(const LoadPlan& plan);

}  // namespace placer
