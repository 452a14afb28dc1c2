/// @file cone_place.h
/// Where a pack of witness cones can stand: in sight of a spy hole and clear of all that is set.
/// Kiln coordinates, mm.
#pragma once

#include <optional>
#include <vector>

#include "placer/model/batch.h"
#include "placer/model/load_plan.h"

namespace placer {

/// Three cones in a pat of clay, the broad side to the eye.
/// @source common practice, no source: a pat about as long as a hand is wide, cones 64 mm tall
constexpr double kPackLong = 80, kPackDeep = 30;  ///< mm
constexpr double kPackHigh = 75;                  ///< mm; a shelf needs that much room over it
/// mm from a pack to pieces, posts and other packs, even where pieces may touch.
constexpr double kPackGap = 5;
/// mm of the cones' height that the hole must look at.
constexpr double kLeastSeen = 15;

/// By the words in the studio file, large or small letters.
bool is_spy_hole(const KeepOut& keep_out);
bool is_for_cones(const KeepOut& keep_out);

/// True when the studio file itself keeps a place clear for cones.
bool keeps_cone_places(const Kiln& kiln);

/// The holes that a load sets a pack of cones for, indices into Kiln::keep_outs. None where the
/// studio file keeps places for cones.
std::vector<int> holes_for_cones(const Kiln& kiln);

/// From low to high, mm over the floor.
struct Band {
  double low = 0, high = 0;
};

/// Heights that a spy hole is open to.
Band looks_at(const KeepOut& hole, const Kiln& kiln);
/// Heights that cones have on a shelf.
Band cones_on(const Level& level);
/// Heights between which something hides the cones on a shelf from a hole; they are seen over what
/// is lower. Empty (high <= low) when the hole does not look at them at all.
Band hides_between(const KeepOut& hole, const Kiln& kiln, const Level& level);

/// Where a hole goes through the wall.
Point eye_of(const KeepOut& hole, const Kiln& kiln);

/// The ground that a pack covers.
Footprint pack_at(const Placement& place);
/// What must stay free between the eye and the cones, seen from above: a triangle, its corners
/// counter-clockwise.
Outline line_of_sight(Point eye, const Placement& pack);

/// Shelves at the hole's height and with room for cones, in the columns nearest to it: the one it
/// looks at best first. Indices into load.levels.
std::vector<int> levels_in_sight(const Batch& batch, const KilnLoad& load, int hole);
/// All shelves with room for cones, the nearest to the hole first.
std::vector<int> levels_for_cones(const Batch& batch, const KilnLoad& load, int hole);

/// A spot for a pack on one level.
struct ConeSpot {
  Placement place;
  std::vector<int> in_the_way;  ///< pieces that would have to go, indices into Level::pieces
};

/// Spots of one shelf for the pack of one hole, the nearest to the hole first: clear of the
/// chamber's wall, of posts, of keep-outs, of other packs and what they are seen through, and of
/// pieces but those that the spot names.
/// @param seen true: nothing else may stand between the pack and the hole either
/// @param most pieces that may be in the way
std::vector<ConeSpot> cone_spots(const Batch& batch, const KilnLoad& load, int level, int hole,
                                 bool seen, int most);
/// The first of them with nothing in the way.
std::optional<Placement> free_cone_spot(const Batch& batch, const KilnLoad& load, int level,
                                        int hole, bool seen);

/// True when nothing stands between a pack on a level of the load and the hole.
bool is_seen(const Batch& batch, const KilnLoad& load, int level, int hole, const Placement& pack);

}  // namespace placer
