/// @file ware.h
/// What is to be fired: clays, glazes, kinds of piece. Plain data; workbook/ checks it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "placer/base/error.h"
#include "placer/base/units.h"
#include "placer/geometry/shape.h"

namespace placer {

/// How far along a piece is. A piece goes into a bisque firing dry and into a glaze firing bisque.
enum class Stage { thrown, dry, bisque, fired };

/// Linear shrinkage as fractions. `drying` is of the thrown (plastic) length; `to_bisque` and
/// `to_fired` are of the dry length. Compounded, never added:
/// 1 - total = (1 - drying)(1 - to_fired).
/// @source ASTM C326 (definitions); the arithmetic from memory
struct Shrinkage {
  double drying = 0.06;
  double to_bisque = 0.01;
  double to_fired = 0.07;
};

/// Length at `to` of what measures 1 at `from`.
double scale(const Shrinkage& shrinkage, Stage from, Stage to);

/// What a clay body does in the fire; the builder of schedules asks for it.
struct Clay {
  std::string name;
  Shrinkage shrinkage;
  double loss_on_ignition = 0.07;   ///< of the dry mass, bound water and organics (5-9 %, practice)
  double water_when_thrown = 0.22;  ///< of the dry mass (18-30 %, Reed, from memory)
  bool carbon_rich = false;         ///< dark, coarse or paper clay: slow burn-out
  bool groggy = false;
  bool free_quartz = false;  ///< high-silica body: mind 573 °C and cristobalite at 226 °C
  TextPos where;
};

struct Glaze {
  std::string name;
  bool runny = false;  ///< more air round it, and a cookie under it
  TextPos where;
};

/// Mass at `to` of what weighs 1 at `from`: drying loses the water, the first fire the loss on
/// ignition (a second fire loses no more).
/// @source definitions of both losses on the dry basis; from memory, Reed, "Principles of Ceramics
///   Processing"
double mass_scale(const Clay& clay, Stage from, Stage to);

enum class FiringKind { bisque, glaze };

/// How pieces of a kind may stand in or on one another in a bisque firing.
struct Stacking {
  enum class How {
    none,
    nested,      ///< each in the one below: `step` is how much each adds to the height
    rim_to_rim,  ///< in pairs rim to rim and foot to foot: each adds its full height
    flat,        ///< plates or tiles lying on each other: `step` each
    on_edge,     ///< plates or tiles standing side by side: a row `step` wide each
  };
  How how = How::none;
  int most = 1;  ///< pieces in one stack
  Length step;   ///< see How
};

enum class Zone { low, middle, high };
enum class Side { front, back };

/// Where in the file each wish stands, for messages; line 0 where nothing was asked.
struct WishPlaces {
  TextPos zone, side, level, first_firing, set, apart, turn, pinned, inside, upright;
};

/// What the potter asks for one kind of piece. Nothing asked = nothing set.
struct Wishes {
  std::optional<Zone> zone;
  std::optional<Side> side;
  std::optional<int> level;           ///< counted from the bottom, 1 first
  bool first_firing = false;          ///< in the first firing of its kind
  bool must_go = false;               ///< an order: before pieces that may wait
  std::string set;                    ///< pieces of one set share a firing; "" = none
  std::vector<std::string> apart;     ///< glazes that may not share a level with it
  std::optional<double> turn_deg;     ///< the one turn allowed; none = free turning
  std::optional<Placement> pinned;    ///< the first piece of the kind stands here, kiln coordinates
  std::optional<std::string> inside;  ///< a lid: fired on its pot, the name of that kind
  bool upright = false;               ///< never on its rim nor on edge, whatever its stacks allow
  WishPlaces where;
};

/// One kind of piece: all of them alike. Sizes are as given, at stage `measured`.
struct PieceKind {
  std::string name;
  int count = 1;
  Footprint footprint;  ///< about the middle of the pot's body
  Length height;
  Length wall = Length::from_mm(6);  ///< thickest part
  Mass mass;                         ///< of one piece, at stage `measured`
  Stage measured = Stage::fired;
  int clay = 0;              ///< index into Batch::clays
  std::optional<int> glaze;  ///< index into Batch::glazes
  bool flat_ware = false;    ///< plates, platters, tiles: slow through 573 °C and at the opening
  bool damp = false;         ///< not bone dry yet
  std::vector<int> loads;    ///< indices into Batch::loads that it needs, rising
  Stacking stacking;         ///< used in bisque loads only
  Wishes wishes;
  TextPos where;         ///< of its name
  TextPos where_height;  ///< of the value, for messages
};

}  // namespace placer
