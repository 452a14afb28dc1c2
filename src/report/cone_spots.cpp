#include "report/cone_spots.h"

#include <algorithm>
#include <numbers>
#include <vector>

#include "report/hatching.h"
#include "report/keep_outs.h"

namespace placer::report {
namespace {

constexpr double kGrid = 10;      // mm between spots that are tried
constexpr double kTurnStep = 15;  // degrees

/// Everything that one spot is tried against.
class Spots {
 public:
  /// `gone`: a piece of the level that is thought away.
  Spots(const Batch& batch, const KilnLoad& load, const Level& level, const ConePlace& place,
        const PlacedPiece* gone = nullptr)
      : batch_{batch},
        load_{load},
        level_{level},
        place_{place},
        gone_{gone},
        shelf_{ground(batch, level)},
        kind_{batch.loads.at(static_cast<std::size_t>(load.load)).kind} {
    collect_pieces();
    collect_what_hides();
  }

  /// The free spot nearest the hole.
  std::optional<std::pair<Point, Footprint>> nearest() const {
    for (const Point at : by_distance()) {
      const Footprint pack = pack_at(at);
      if (is_free(pack) && is_seen(at, pack)) return std::pair{at, pack};
    }
    return std::nullopt;
  }

 private:
  struct Near {
    Footprint shape;
    double gap = 0;
  };

  void collect_pieces() {
    const Clearances& rules = clearances(batch_.rules, kind_);
    for (const PlacedPiece& piece : level_.pieces) {
      if (&piece == gone_) continue;
      const auto& glaze = batch_.pieces.at(static_cast<std::size_t>(piece.piece)).glaze;
      const bool runny = glaze && batch_.glazes.at(static_cast<std::size_t>(*glaze)).runny;
      const double rule = (runny ? rules.runny_gap : rules.gap).mm();
      near_.push_back({ground(batch_, load_, piece), std::max(rule, kLeastGap)});
    }
    for (const PlacedPost& post : level_.posts) near_.push_back({ground(batch_, post), kLeastGap});
    for (const KeepOut& keep_out : batch_.kiln.keep_outs) {
      const Band cones = cones_on(level_);
      if (sign_of(keep_out) == Sign::spy_hole) continue;  // the cones are what it looks at
      if (reaches(keep_out, Length::from_mm(cones.low), Length::from_mm(cones.high))) {
        near_.push_back({keep_out.area, 0});
      }
    }
  }

  // What is as high as the line from the hole to the cones, on any shelf.
  void collect_what_hides() {
    const Band hole = looks_at(*place_.hole, batch_.kiln);
    const Band cones = cones_on(level_);
    const double seen = std::max(hole.low, cones.low) + kLeastSeen;  // the lowest that must be seen
    for (const Level& level : load_.levels) {
      const double top = level.shelf_top.mm();
      for (const PlacedPiece& piece : level.pieces) {
        if (&piece != gone_ && top < cones.high && top + piece.height.mm() > seen) {
          hides_.push_back(ground(batch_, load_, piece));
        }
      }
    }
    for (const PlacedPost& post : level_.posts) hides_.push_back(ground(batch_, post));
  }

  std::vector<Point> by_distance() const {
    const Box box = bounding_box(shelf_);
    std::vector<Point> spots;
    for (double y = box.low.y + kGrid / 2; y < box.high.y; y += kGrid) {
      for (double x = box.low.x + kGrid / 2; x < box.high.x; x += kGrid) spots.push_back({x, y});
    }
    std::stable_sort(spots.begin(), spots.end(),
                     [&](Point a, Point b) { return away(a, place_.eye) < away(b, place_.eye); });
    return spots;
  }

  // Its broad side to the eye, in steps, so that the last digit of an angle decides nothing.
  Footprint pack_at(Point at) const {
    const Point to = place_.eye - at;
    const double degrees = std::atan2(to.y, to.x) * 180 / std::numbers::pi;
    const double turn = std::floor(degrees / kTurnStep + 0.5) * kTurnStep + 90;
    return placed(Footprint{{}, {rectangle(kPackLong, kPackDeep)}}, {at, turn});
  }

  bool is_free(const Footprint& pack) const {
    if (inset(pack, Region{shelf_.outline, shelf_.round, {}}) < 0) return false;
    if (inset(pack, batch_.kiln.chamber) < batch_.kiln.wall_clearance.mm()) return false;
    return std::all_of(near_.begin(), near_.end(),
                       [&](const Near& other) { return gap(pack, other.shape) >= other.gap; });
  }

  bool is_seen(Point at, const Footprint& pack) const {
    const auto& c = pack.outlines[0].corners;
    const Point ends[] = {at, 0.5 * (c[0] + c[3]), 0.5 * (c[1] + c[2])};
    for (const Point end : ends) {
      for (const Footprint& shape : hides_) {
        if (!parts_inside(shape, place_.eye, end).empty()) return false;
      }
    }
    return true;
  }

  const Batch& batch_;
  const KilnLoad& load_;
  const Level& level_;
  const ConePlace& place_;
  const PlacedPiece* gone_;
  Region shelf_;
  FiringKind kind_;
  std::vector<Near> near_;
  std::vector<Footprint> hides_;
};

}  // namespace

Band looks_at(const KeepOut& hole, const Kiln& kiln) {
  if (hole.to <= hole.from) return {0, kiln.height.mm()};
  return {hole.from.mm(), hole.to.mm()};
}

Band cones_on(const Level& level) {
  return {level.shelf_top.mm(), level.shelf_top.mm() + kPackHigh};
}

std::optional<std::pair<Point, Footprint>> nearest_spot(const Batch& batch, const KilnLoad& load,
                                                        const Level& level, const ConePlace& place,
                                                        const PlacedPiece* gone) {
  return Spots{batch, load, level, place, gone}.nearest();
}

}  // namespace placer::report
