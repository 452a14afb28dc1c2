#include "report/cone_place.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "report/hatching.h"
#include "report/keep_outs.h"
#include "report/onto_paper.h"
#include "report/words.h"

namespace placer::report {
namespace {

constexpr double kLeastSeen = 15;     // mm of the cones' height that the hole must look at
constexpr double kLeastGap = 5;       // mm to pieces and posts, even where pieces may touch
constexpr double kGrid = 10;          // mm between spots that are tried
constexpr double kSameDistance = 50;  // mm: columns no farther than that are as near as the nearest
constexpr double kTurnStep = 15;      // degrees

struct Band {
  double low = 0, high = 0;
};

double away(Point a, Point b) { return std::hypot(a.x - b.x, a.y - b.y); }

Point nearest_on_edge(Point p, const Outline& edge) {
  Point best;
  double least = 1e300;
  for (std::size_t i = 0; i < edge.corners.size(); ++i) {
    const Point a = edge.corners[i];
    const Point along = edge.corners[(i + 1) % edge.corners.size()] - a;
    const double length = along.x * along.x + along.y * along.y;
    const Point to = p - a;
    const double part =
        length > 0 ? std::clamp((to.x * along.x + to.y * along.y) / length, 0.0, 1.0) : 0;
    const Point foot = a + part * along;
    if (away(p, foot) < least) {
      least = away(p, foot);
      best = foot;
    }
  }
  return best;
}

// Heights that the hole is open to, and those that the cones have on a shelf.
Band looks_at(const KeepOut& hole, const Kiln& kiln) {
  if (hole.to <= hole.from) return {0, kiln.height.mm()};
  return {hole.from.mm(), hole.to.mm()};
}

Band cones_on(const Level& level) {
  return {level.shelf_top.mm(), level.shelf_top.mm() + kPackHigh};
}

bool sees(const Band& hole, const Level& level) {
  const Band cones = cones_on(level);
  return level.clear_height.mm() >= kPackHigh &&
         std::min(hole.high, cones.high) - std::max(hole.low, cones.low) >= kLeastSeen;
}

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

// Shelves at the hole's height in the columns nearest to it: the one it looks at best first.
std::vector<std::size_t> candidates(const Batch& batch, const KilnLoad& load,
                                    const ConePlace& place) {
  const Band hole = looks_at(*place.hole, batch.kiln);
  struct Candidate {
    std::size_t level = 0;
    double away = 0, off = 0;
  };
  std::vector<Candidate> all;
  double least = 1e300;
  const Footprint eye{{{place.eye, 0.1}}, {}};
  for (std::size_t i = 0; i < load.levels.size(); ++i) {
    const Level& level = load.levels[i];
    const double distance = std::max(gap(eye, ground(batch, level)), 0.0);
    least = std::min(least, distance);
    if (!sees(hole, level)) continue;
    const double middle = std::clamp(level.shelf_top.mm() + kPackHigh / 2, hole.low, hole.high);
    all.push_back({i, distance, std::abs(level.shelf_top.mm() + kPackHigh / 2 - middle)});
  }
  std::erase_if(all, [&](const Candidate& one) { return one.away > least + kSameDistance; });
  std::stable_sort(all.begin(), all.end(),
                   [](const Candidate& a, const Candidate& b) { return a.off < b.off; });
  std::vector<std::size_t> levels;
  for (const Candidate& one : all) levels.push_back(one.level);
  return levels;
}

// The piece nearest the hole in whose stead a pack would stand in sight; 0 when one is not enough.
int piece_in_the_way(const Batch& batch, const KilnLoad& load, const Level& level,
                     const ConePlace& place) {
  constexpr std::size_t kMostTried = 12;
  std::vector<const PlacedPiece*> nearest;
  for (const PlacedPiece& piece : level.pieces) nearest.push_back(&piece);
  std::stable_sort(nearest.begin(), nearest.end(), [&](const auto* a, const auto* b) {
    return away(a->place.at, place.eye) < away(b->place.at, place.eye);
  });
  if (nearest.size() > kMostTried) nearest.resize(kMostTried);
  for (const PlacedPiece* piece : nearest) {
    if (Spots{batch, load, level, place, piece}.nearest()) return piece->number;
  }
  return 0;
}

void find(const Batch& batch, const KilnLoad& load, ConePlace& place) {
  const auto levels = candidates(batch, load, place);
  for (const std::size_t level : levels) {
    const auto spot = Spots{batch, load, load.levels[level], place}.nearest();
    if (!spot) continue;
    place.level = level;
    place.middle = spot->first;
    place.pack = spot->second;
    return;
  }
  if (levels.empty()) {
    const Band hole = looks_at(*place.hole, batch.kiln);
    place.trouble = fmt::format("no shelf stands where the {} looks, at {} to {}", place.hole->what,
                                length_text(Length::from_mm(hole.low)),
                                length_text(Length::from_mm(hole.high)));
    return;
  }
  place.level = levels.front();
  place.instead_of = piece_in_the_way(batch, load, load.levels[levels.front()], place);
  place.trouble = fmt::format("the {} sees no free spot of {:.0f} x {:.0f} mm", place.hole->what,
                              kPackLong, kPackDeep);
}

}  // namespace

bool keeps_cone_places(const Kiln& kiln) {
  return std::any_of(kiln.keep_outs.begin(), kiln.keep_outs.end(),
                     [](const KeepOut& one) { return sign_of(one) == Sign::cones; });
}

std::vector<ConePlace> cone_places(const Batch& batch, const KilnLoad& load) {
  std::vector<ConePlace> places;
  if (keeps_cone_places(batch.kiln)) return places;
  const Outline wall = edge_polygon(batch.kiln.chamber, 0.1);
  for (const KeepOut& keep_out : batch.kiln.keep_outs) {
    if (sign_of(keep_out) != Sign::spy_hole) continue;
    ConePlace place;
    place.hole = &keep_out;
    place.eye = nearest_on_edge(roomiest(keep_out.area).centre, wall);
    find(batch, load, place);
    // Two holes may look at the same spot: one pack serves both.
    const bool same = std::any_of(places.begin(), places.end(), [&](const ConePlace& other) {
      return place.pack && other.pack && place.level == other.level &&
             gap(*place.pack, *other.pack) < kLeastGap;
    });
    if (!same) places.push_back(std::move(place));
  }
  return places;
}

std::vector<const ConePlace*> cones_on(const KilnLoad& load, const Level& level,
                                       const std::vector<ConePlace>& cones) {
  std::vector<const ConePlace*> here;
  for (const ConePlace& place : cones) {
    if (place.level && &load.levels.at(*place.level) == &level) here.push_back(&place);
  }
  return here;
}

std::string trouble_words(const ConePlace& place) {
  std::string words = place.trouble + ".";
  if (place.instead_of > 0) words += fmt::format(" Leave {} out for them", place.instead_of);
  if (place.instead_of > 0) words += ", or keep a place clear in the studio file.";
  return words;
}

std::string where_words(const Subject& subject, const KilnLoad& load, const ConePlace& place) {
  return place.level ? shelf_name(subject, load.levels.at(*place.level)) : "";
}

}  // namespace placer::report
