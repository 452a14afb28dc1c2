// Spots of one shelf tried for a cone pack.
#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "placer/model/cone_place.h"

namespace placer {
namespace {

constexpr double kGrid = 10;      // mm between spots that are tried
constexpr double kTurnStep = 15;  // degrees
constexpr double kHair = 0.2;     // mm more than asked, so that no rounding of arcs decides

double away(Point a, Point b) { return std::hypot(a.x - b.x, a.y - b.y); }

bool meets(const Band& a, double low, double high) { return low < a.high && a.low < high; }

bool within(const Box& a, const Box& b, double reach) {
  return a.low.x < b.high.x + reach && b.low.x < a.high.x + reach && a.low.y < b.high.y + reach &&
         b.low.y < a.high.y + reach;
}

/// Something that a pack keeps clear of, or that hides it, or both.
struct Thing {
  Footprint shape;
  Box box;
  double gap = -std::numeric_limits<double>::infinity();  ///< from the pack, at least
  bool hides = false;
  int piece = -1;  ///< of the pack's level, index; -1: it stays where it is
};

/// Everything that one spot is tried against.
class Spots {
 public:
  Spots(const Batch& batch, const KilnLoad& load, int level, int hole)
      : batch_{&batch},
        load_{&load},
        level_{&load.levels.at(static_cast<std::size_t>(level))},
        hole_{&batch.kiln.keep_outs.at(static_cast<std::size_t>(hole))},
        eye_{eye_of(*hole_, batch.kiln)},
        cones_{cones_on(*level_)},
        hides_{hides_between(*hole_, batch.kiln, *level_)} {
    const Region ground_there = ground(batch, *level_);
    shelf_ = {ground_there.outline, ground_there.round, {}};
    for (const KeepOut& keep_out : batch.kiln.keep_outs) add(keep_out);
    for (const PlacedPost& post : load.floor_posts) add(post, 0);
    for (const Level& one : load.levels) {
      for (const PlacedPost& post : one.posts) add(post, one.shelf_top.mm());
      add_slab(one);
      for (const ConePack& pack : one.cones) add(pack, one);
      add_pieces(one);
    }
    // What stays decides first.
    std::stable_sort(things_.begin(), things_.end(),
                     [](const Thing& a, const Thing& b) { return a.piece < b.piece; });
  }

  bool looked_at() const { return hides_.high > hides_.low; }

  std::vector<Point> by_distance() const {
    const Box box = bounding_box(shelf_);
    std::vector<Point> spots;
    const auto first = [](double low) { return std::floor(low / kGrid) * kGrid + kGrid / 2; };
    for (double y = first(box.low.y); y < box.high.y; y += kGrid) {
      for (double x = first(box.low.x); x < box.high.x; x += kGrid) spots.push_back({x, y});
    }
    std::stable_sort(spots.begin(), spots.end(),
                     [&](Point a, Point b) { return away(a, eye_) < away(b, eye_); });
    return spots;
  }

  /// Its broad side to the eye, in steps, so that the last digit of an angle decides nothing.
  Placement pack_with_middle(Point at) const {
    const Point to = eye_ - at;
    const double degrees = std::atan2(to.y, to.x) * 180 / std::numbers::pi;
    const double turn = std::floor(degrees / kTurnStep + 0.5) * kTurnStep + 90;
    const double half = std::remainder(turn, 180);  // a pack is the same from both sides
    return {at, half <= -90 ? 90 : half + 0.0};
  }

  std::optional<ConeSpot> look(const Placement& place, bool seen, int most) const {
    const Footprint pack = pack_at(place);
    if (inset(pack, shelf_) < 0) return std::nullopt;
    if (inset(pack, batch_->kiln.chamber) < batch_->kiln.wall_clearance.mm()) return std::nullopt;
    const Footprint sight{{}, {line_of_sight(eye_, place)}};
    const Box box = bounding_box(pack);
    const Box seen_through = bounding_box(sight);
    ConeSpot spot{place, {}};
    for (const Thing& thing : things_) {
      const bool near = within(box, thing.box, thing.gap) && gap(pack, thing.shape) < thing.gap;
      const bool hidden = seen && !near && thing.hides && within(seen_through, thing.box, kHair) &&
                          gap(sight, thing.shape) < kHair;
      if (!near && !hidden) continue;
      if (thing.piece < 0 || static_cast<int>(spot.in_the_way.size()) >= most) return std::nullopt;
      spot.in_the_way.push_back(thing.piece);
    }
    return spot;
  }

  bool is_hidden(const Placement& place) const {
    const Footprint sight{{}, {line_of_sight(eye_, place)}};
    const Footprint own = pack_at(place);
    return std::any_of(things_.begin(), things_.end(), [&](const Thing& thing) {
      // A pack does not hide itself, nor one that stands for two holes.
      const bool itself = thing.piece == kPack && gap(own, thing.shape) < 0;
      return thing.hides && !itself && gap(sight, thing.shape) < 0;
    });
  }

 private:
  static constexpr int kPack = -2;

  void add(Footprint shape, double room, bool near, bool hides, int piece = -1) {
    if (!near && !hides) return;
    Thing thing{std::move(shape), {}, -std::numeric_limits<double>::infinity(), hides, piece};
    if (near) thing.gap = room;
    thing.box = bounding_box(thing.shape);
    things_.push_back(std::move(thing));
  }

  void add(const KeepOut& keep_out) {
    if (is_spy_hole(keep_out)) return;  // the cones are what it looks at
    const Band z = looks_at(keep_out, batch_->kiln);
    add(keep_out.area, 0, meets(cones_, z.low, z.high), false);
  }

  void add(const PlacedPost& post, double foot) {
    const double top = foot + height_of(*batch_, post).mm();
    add(ground(*batch_, post), kPackGap, meets(cones_, foot, top), meets(hides_, foot, top));
  }

  /// The shelf of another column hides what lies behind it.
  void add_slab(const Level& one) {
    if (one.column == level_->column && one.bridge == level_->bridge) return;
    const double top = one.shelf_top.mm();
    const double thick =
        batch_->kiln.shelves.at(static_cast<std::size_t>(one.shelf)).thickness.mm();
    if (!meets(hides_, top - thick, top)) return;
    const Region shelf = ground(*batch_, one);
    if (shelf.outline.corners.empty() && shelf.round) {
      add({{*shelf.round}, {}}, 0, false, true);
      return;
    }
    const Outline edge = edge_polygon({shelf.outline, shelf.round, {}}, kHair);
    add({{}, is_convex(edge) ? std::vector<Outline>{edge} : convex_parts(edge)}, 0, false, true);
  }

  void add(const ConePack& pack, const Level& one) {
    const Band z = cones_on(one);
    const bool near = meets(cones_, z.low, z.high);
    add(pack_at(pack.place), kPackGap, near, meets(hides_, z.low, z.high), kPack);
    if (!pack.seen) return;
    // Nor may this one hide that one.
    const KeepOut& other = batch_->kiln.keep_outs.at(static_cast<std::size_t>(pack.spy_hole));
    const Band hides = hides_between(other, batch_->kiln, one);
    add({{}, {line_of_sight(eye_of(other, batch_->kiln), pack.place)}}, kHair,
        meets(cones_, hides.low, hides.high), false);
  }

  void add_pieces(const Level& one) {
    const FiringKind kind = batch_->loads.at(static_cast<std::size_t>(load_->load)).kind;
    const Clearances& rules = clearances(batch_->rules, kind);
    const double foot = one.shelf_top.mm();
    for (std::size_t i = 0; i < one.pieces.size(); ++i) {
      const PlacedPiece& piece = one.pieces[i];
      const double top = foot + piece.height.mm();
      const bool near = meets(cones_, foot, top);
      const bool hides = meets(hides_, foot, top);
      if (!near && !hides) continue;
      const auto& glaze = batch_->pieces.at(static_cast<std::size_t>(piece.piece)).glaze;
      const bool runny = glaze && batch_->glazes.at(static_cast<std::size_t>(*glaze)).runny;
      const bool runs = runny && kind == FiringKind::glaze;
      const double rule = (runs ? std::max(rules.gap, rules.runny_gap) : rules.gap).mm();
      add(ground(*batch_, *load_, piece), std::max(rule, kPackGap), near, hides,
          &one == level_ ? static_cast<int>(i) : -1);
    }
  }

  const Batch* batch_;
  const KilnLoad* load_;
  const Level* level_;
  const KeepOut* hole_;
  Point eye_;
  Band cones_, hides_;
  Region shelf_;
  std::vector<Thing> things_;
};

}  // namespace

std::vector<ConeSpot> cone_spots(const Batch& batch, const KilnLoad& load, int level, int hole,
                                 bool seen, int most) {
  std::vector<ConeSpot> found;
  const Spots spots{batch, load, level, hole};
  if (seen && !spots.looked_at()) return found;
  for (const Point at : spots.by_distance()) {
    if (auto spot = spots.look(spots.pack_with_middle(at), seen, most)) {
      found.push_back(std::move(*spot));
    }
  }
  return found;
}

std::optional<Placement> free_cone_spot(const Batch& batch, const KilnLoad& load, int level,
                                        int hole, bool seen) {
  const Spots spots{batch, load, level, hole};
  if (seen && !spots.looked_at()) return std::nullopt;
  for (const Point at : spots.by_distance()) {
    const Placement place = spots.pack_with_middle(at);
    if (spots.look(place, seen, 0)) return place;
  }
  return std::nullopt;
}

bool is_seen(const Batch& batch, const KilnLoad& load, int level, int hole, const Placement& pack) {
  const Spots spots{batch, load, level, hole};
  return spots.looked_at() && !spots.is_hidden(pack);
}

}  // namespace placer
