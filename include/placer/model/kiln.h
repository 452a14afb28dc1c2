/// @file kiln.h
/// The kiln and what stands in it. Kiln coordinates: x to the right, y to the back as seen by a
/// person at the door (top loaders: opposite the hinge), z up from the chamber floor. Origin: the
/// middle of the chamber for a round, rectangular or octagonal one, the file's own for a polygon.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "placer/base/error.h"
#include "placer/base/units.h"
#include "placer/geometry/shape.h"
#include "placer/model/ware.h"

namespace placer {

enum class Opens { top, front };

/// Something that no shelf or piece may come near, over part of the height.
struct KeepOut {
  std::string what;  ///< "spy hole", "sensor", "bag wall", "burner", "flue", "cone pack", ...
  Footprint area;    ///< kiln coordinates, clearance already added
  Length from, to;   ///< z; the whole height unless given
  bool shelves_too = true;  ///< false: only pieces must keep clear (a spy hole looks over a shelf)
  TextPos where;
};

enum class ShelfMaterial { cordierite, high_alumina, silicon_carbide, nitride_bonded_carbide };

/// One kind of shelf that is owned. Its origin: middle of a round or rectangular shelf, middle of
/// the flat side of a half-round one, the file's own for a polygon.
struct ShelfKind {
  std::string name;  ///< "half round 560", unique
  Region shape;
  Length thickness;
  int have = 0;
  ShelfMaterial material = ShelfMaterial::cordierite;
  bool snug = false;  ///< the potter knows how close it comes to the wall
  TextPos where;
};

/// One kind of post that is owned. Posts may be stacked (a long one and thin ones) up to three
/// parts.
struct PostKind {
  Length height;
  Footprint foot;  ///< about its own middle; a disc or a square, usually
  int have = 0;
  Mass mass;  ///< of one
  TextPos where;
};

/// A pile of shelves one above another.
struct Column {
  std::string name;          ///< "left", "right", "middle"; unique
  std::vector<int> shelves;  ///< indices into Kiln::shelves that may be used, the best first
  Placement at;              ///< of each shelf's own origin
  /// Where its posts stand, kiln coordinates, in line through the whole column; three or four.
  /// Chosen by the loader when empty.
  std::vector<Point> posts;
  TextPos where;
};

/// A larger shelf that may lie across neighbouring columns where all of them end at one height.
struct Bridge {
  std::string name;          ///< "across", unique among columns and bridges
  std::vector<int> over;     ///< indices into Kiln::columns, at least two, rising
  std::vector<int> shelves;  ///< indices into Kiln::shelves that may be used, the best first
  Placement at;              ///< of each shelf's own origin
  TextPos where;
};

struct Kiln {
  std::string name;
  Region chamber;  ///< walls seen from above; its keep_outs stay empty
  Length height;   ///< floor to lid or roof, inside
  Opens opens = Opens::top;
  Length wall_clearance = Length::from_mm(25);   ///< piece to wall or element
  Length shelf_clearance = Length::from_mm(15);  ///< shelf to wall
  Length first_shelf = Length::from_mm(25);      ///< least room under the lowest shelf
  Length under_lid = Length::from_mm(25);        ///< least room over the tallest piece on top
  int posts_per_shelf = 3;                       ///< 3 or 4
  std::optional<Mass> most_on_shelf;             ///< ware on one shelf, as it goes in; none: any
  std::optional<Mass> most_in_load;              ///< ware in the kiln at once, likewise
  std::vector<KeepOut> keep_outs;
  std::vector<ShelfKind> shelves;
  std::vector<PostKind> posts;
  std::vector<Column> columns;  ///< at least one
  std::vector<Bridge> bridges;
  TextPos where;
};

/// Mass of one shelf from its shape, thickness and material's density.
/// @source densities: middle of published bands, see kiln.cpp
Mass mass_of(const ShelfKind& shelf);

/// Which third of the chamber's height a height lies in: take a piece's middle.
Zone zone_at(const Kiln& kiln, Length z);
/// In front of the chamber's middle or behind it: take the place of a piece.
Side side_at(const Kiln& kiln, Point p);

/// The ware that one shelf may bear at most, kg: by its own limit and by that of the load;
/// infinity where there is none.
double most_on_shelf_kg(const Kiln& kiln);
/// The ware that may stand in the kiln at once, kg; infinity where there is no limit.
double most_in_load_kg(const Kiln& kiln);
/// Masses this much over a limit, in kg, are rounding.
constexpr double kMassRounding = 1e-9;

}  // namespace placer
