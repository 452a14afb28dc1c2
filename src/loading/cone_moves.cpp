#include "loading/cone_moves.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <tuple>

#include "loading/bench.h"
#include "loading/cone_room.h"
#include "loading/elsewhere.h"
#include "loading/fill.h"
#include "loading/hand.h"
#include "loading/index.h"
#include "loading/order.h"
#include "placer/model/cone_place.h"

namespace placer::loading {
namespace {

constexpr std::size_t kMostLevels = 2;    // shelves on which room is made
constexpr int kMostMoved = 3;             // pieces that may have to go for one spot
constexpr std::size_t kMostSpots = 30;    // spots that are tried
constexpr std::size_t kSpotsAlike = 2;    // with the same pieces in the way
constexpr int kMostLooks = 12000;         // for one hole
constexpr double kSpread = 100;           // mm between spots that rows are tried round
constexpr std::size_t kMostRows = 3;      // such spots
constexpr std::size_t kFewLoads = 3;      // of one firing: with more a glance has to do
constexpr std::uint64_t kSteps = 200000;  // of packing, where a glance does not do

// What a change costs: pieces that stand elsewhere in its load, in a later one, rows that are no
// more.
constexpr double kOnItsShelf = 1;
constexpr double kOnAnother = 3;
constexpr double kInALaterLoad = 10;
constexpr double kNoRowsAnyMore = 2;
constexpr double kOtherRows = 2;   // all of a shelf, in rows again
constexpr double kFilledAnew = 4;  // all of a shelf

class Clearing {
 public:
  Clearing(const Job& job, const Kept& kept, const std::vector<KilnLoad>& loads,
           const Wanted& wanted, Looks& looks)
      : job_{&job},
        kept_{&kept},
        loads_{&loads},
        load_{wanted.load},
        hole_{wanted.hole},
        seen_{wanted.seen},
        looks_{std::min(kMostLooks, looks.left)},
        shelves_{looks.shelves} {}

  std::optional<Change> best() {
    auto levels = seen_ ? levels_in_sight(*job_->batch, before(), hole_)
                        : levels_for_cones(*job_->batch, before(), hole_);
    std::erase_if(levels, [&](int i) { return !may_change(before(), i); });
    if (levels.size() > kMostLevels) levels.resize(kMostLevels);
    for (const int level : levels) move_what_is_in_the_way(level);
    for (const int level : levels) {
      if (costs_more_than(kOtherRows)) set_in_rows_round_it(level);
    }
    for (const int level : levels) fill_anew(level, 0, kMostRows);
    const bool few = loads_->size() <= kFewLoads && seen_;
    for (const int level : levels) {
      if (few) fill_anew(level, kSteps, kMostRows);
    }
    return best_;
  }
  int looks_left() const { return looks_; }
  int shelves_left() const { return shelves_; }

 private:
  const KilnLoad& before() const { return at(*loads_, load_); }
  bool costs_more_than(double cost) const { return !best_ || best_->cost > cost; }

  bool may_change(const KilnLoad& load, int level) const {
    return at(load.levels, level).bridge < 0 && !is_kept(*kept_, load, at(load.levels, level));
  }

  const Sort* sort_of_piece(const PlacedPiece& piece) const {
    const int s = sort_of(*job_, kinds_of(piece));
    return s < 0 ? nullptr : &at(job_->sorts, s);
  }

  bool is_fixed(const PlacedPiece& piece) const {
    const Sort* sort = sort_of_piece(piece);
    return sort == nullptr || (sort->wishes.pinned && sort->wishes.pinned->at == piece.place.at);
  }

  /// Its shelf, for another one.
  bool may_leave(const PlacedPiece& piece) const {
    const Sort* sort = sort_of_piece(piece);
    return sort != nullptr && !sort->wishes.must_go && sort->wishes.set.empty() &&
           !sort->wishes.level && !sort->wishes.pinned;
  }

  KilnLoad& changed(Change& change, int load) const {
    for (auto& [index, one] : change.loads) {
      if (index == load) return one;
    }
    return change.loads.emplace_back(load, at(*loads_, load)).second;
  }

  Change with_pack(int level, const Placement& place) const {
    Change change;
    at(changed(change, load_).levels, level).cones.push_back({hole_, place, seen_});
    return change;
  }

  void keep_if_better(Change change) {
    for (auto& [index, load] : change.loads) {
      const KilnLoad& was = at(*loads_, index);
      for (int i = 0; i < count_of(load.levels); ++i) {
        Level& level = at(load.levels, i);
        if (is_kept(*kept_, load, level)) continue;
        name_hand_rows(*job_->batch, level);
        if (level.pattern.empty() && !at(was.levels, i).pattern.empty()) {
          change.cost += kNoRowsAnyMore;
        }
        Length tallest;
        for (const PlacedPiece& piece : level.pieces) tallest = std::max(tallest, piece.height);
        level.air = level.clear_height - tallest;
      }
      weigh(*job_->batch, load);
    }
    if (costs_more_than(change.cost)) best_ = std::move(change);
  }

  // --- piece by piece ------------------------------------------------------------------------
  /// Those with the fewest pieces in the way first, the nearest of them.
  std::vector<ConeSpot> spots_on(int level) const {
    auto all = cone_spots(*job_->batch, before(), level, hole_, seen_, kMostMoved);
    std::erase_if(all, [&](const ConeSpot& spot) {
      return std::any_of(spot.in_the_way.begin(), spot.in_the_way.end(),
                         [&](int i) { return is_fixed(at(at(before().levels, level).pieces, i)); });
    });
    std::stable_sort(all.begin(), all.end(), [](const ConeSpot& a, const ConeSpot& b) {
      return a.in_the_way.size() < b.in_the_way.size();
    });
    std::map<std::vector<int>, std::size_t> tried;
    std::erase_if(all,
                  [&](const ConeSpot& spot) { return ++tried[spot.in_the_way] > kSpotsAlike; });
    if (all.size() > kMostSpots) all.resize(kMostSpots);
    return all;
  }

  void move_what_is_in_the_way(int level) {
    for (const ConeSpot& spot : spots_on(level)) {
      if (!costs_more_than(kOnItsShelf * count_of(spot.in_the_way)) || looks_ <= 0) return;
      Change change = with_pack(level, spot.place);
      auto& pieces = at(changed(change, load_).levels, level).pieces;
      if (pieces.size() == spot.in_the_way.size()) continue;  // a shelf for cones alone
      std::vector<PlacedPiece> moved;
      for (auto i = spot.in_the_way.rbegin(); i != spot.in_the_way.rend(); ++i) {
        moved.push_back(at(pieces, *i));
        pieces.erase(pieces.begin() + *i);
      }
      if (all_elsewhere(moved, level, change)) keep_if_better(std::move(change));
    }
  }

  bool all_elsewhere(const std::vector<PlacedPiece>& moved, int level, Change& change) {
    return std::all_of(moved.begin(), moved.end(), [&](const PlacedPiece& piece) {
      return costs_more_than(change.cost) && set_elsewhere(piece, level, change);
    });
  }

  bool set_elsewhere(const PlacedPiece& piece, int level, Change& change) {
    if (set_on(change, load_, level, piece, kOnItsShelf)) return true;
    if (!may_leave(piece)) return false;
    for (int i = 0; i < count_of(before().levels); ++i) {
      if (i == level || !might_take(load_, i, piece)) continue;
      if (set_on(change, load_, i, piece, kOnAnother)) return true;
    }
    if (sort_of_piece(piece)->wishes.first_firing) return false;
    for (const int load : {load_ + 1, count_of(*loads_) - 1}) {
      if (load <= load_ || load >= count_of(*loads_)) continue;
      for (int i = 0; i < count_of(at(*loads_, load).levels); ++i) {
        if (!might_take(load, i, piece)) continue;
        if (set_on(change, load, i, piece, kInALaterLoad)) return true;
      }
    }
    return false;
  }

  bool set_on(Change& change, int load, int level, const PlacedPiece& piece, double cost) {
    KilnLoad& there = changed(change, load);
    Level& on = at(there.levels, level);
    const auto place = place_beside(*job_, there, on, piece, looks_);
    if (!place) return false;
    PlacedPiece moved = piece;
    moved.place = *place;
    moved.row = 0;
    on.pieces.push_back(moved);
    change.cost += cost;
    return true;
  }

  /// Whether another shelf takes one like it as things are now: asked once for each.
  bool might_take(int load, int level, const PlacedPiece& piece) {
    if (!may_change(at(*loads_, load), level)) return false;
    const auto key = std::tuple{load, level, kinds_of(piece)};
    const auto known = takes_.find(key);
    if (known != takes_.end()) return known->second;
    const KilnLoad& there = at(*loads_, load);
    const bool takes =
        place_beside(*job_, without(there, piece), at(there.levels, level), piece, looks_)
            .has_value();
    takes_.emplace(key, takes);
    return takes;
  }

  /// Of the load that it comes from it no longer counts to the weight.
  KilnLoad without(const KilnLoad& load, const PlacedPiece& piece) const {
    KilnLoad less = load;
    if (&load != &before()) return less;
    for (Level& level : less.levels) {
      const auto found =
          std::find_if(level.pieces.begin(), level.pieces.end(), [&](const PlacedPiece& one) {
            return one.piece == piece.piece && one.place == piece.place;
          });
      if (found == level.pieces.end()) continue;
      level.pieces.erase(found);
      break;
    }
    return less;
  }

  // --- all of a shelf ------------------------------------------------------------------------
  /// Spots of the bare shelf, not too near to each other.
  std::vector<Placement> bare_spots(int level) const {
    KilnLoad bare = before();
    auto& pieces = at(bare.levels, level).pieces;
    std::erase_if(pieces, [&](const PlacedPiece& piece) { return !is_fixed(piece); });
    std::vector<Placement> spots;
    for (const ConeSpot& spot : cone_spots(*job_->batch, bare, level, hole_, seen_, 0)) {
      const bool far = std::all_of(spots.begin(), spots.end(), [&](const Placement& other) {
        const Point apart = other.at - spot.place.at;
        return std::hypot(apart.x, apart.y) >= kSpread;
      });
      if (far) spots.push_back(spot.place);
      if (spots.size() == kMostRows) break;
    }
    return spots;
  }

  void set_in_rows_round_it(int level) {
    // Where they stand in no rows without the pack, they hardly will with it.
    if (at(before().levels, level).pattern.empty()) return;
    for (const Placement& spot : bare_spots(level)) {
      if (shelves_-- <= 0) return;
      Change change = with_pack(level, spot);
      KilnLoad& load = changed(change, load_);
      Level set = at(load.levels, level);
      if (!set_level_in_rows(*job_, load, set)) continue;
      at(load.levels, level) = std::move(set);
      change.cost += kOtherRows;
      keep_if_better(std::move(change));
      return;
    }
  }

  /// @param most spots tried
  void fill_anew(int level, std::uint64_t steps, std::size_t most) {
    if (best_) return;
    std::vector<Placement> spots = bare_spots(level);
    if (spots.size() > most) spots.resize(most);
    for (const Placement& spot : spots) {
      if (best_ || shelves_-- <= 0) return;
      fill_anew_round(spot, level, steps);
    }
  }

  void fill_anew_round(const Placement& spot, int number, std::uint64_t steps) {
    const Level& was = at(before().levels, number);
    const auto& sites = at(job_->columns, was.column);
    const auto site = std::find_if(sites.begin(), sites.end(),
                                   [&](const Site& s) { return s.shelf == was.shelf; });
    if (site == sites.end()) return;
    Supply supply;
    supply.left.assign(job_->sorts.size(), 0);
    supply.price.assign(job_->sorts.size(), 1);
    supply.pinned.assign(job_->sorts.size(), 0);
    for (const PlacedPiece& piece : was.pieces) {
      if (is_fixed(piece)) return;
      at(supply.left, sort_of(*job_, kinds_of(piece))) += pieces_in(piece);
    }
    Change change = with_pack(number, spot);
    KilnLoad& load = changed(change, load_);
    Level& level = at(load.levels, number);
    Room room =
        room_on(*job_, *site, level.shelf_top, level.shelf_top + level.clear_height, level.posts);
    room.level = level.level;
    room.round = load.round;
    keep_clear_of_cones(*job_, load, level, room);
    Care care{steps, job_->batch->seed, nullptr};
    care.both = true;
    const Filled filled = fill(*job_, supply, room, care);
    std::vector<PlacedPiece> moved = left_over(was, filled);
    if (filled.set.empty() || count_of(moved) > kMostMoved) return;
    level.pieces.clear();
    level.pattern.clear();
    add_pieces(*job_, filled, level);
    change.cost += kFilledAnew;
    if (!all_elsewhere(moved, number, change)) return;
    KilnLoad& set = changed(change, load_);
    set_level_by_hand(*job_, set, at(set.levels, number));
    keep_if_better(std::move(change));
  }

  /// Of a sort: a pot with its lid is one.
  int pieces_in(const PlacedPiece& piece) const {
    return sort_of_piece(piece)->kinds.size() > 1 ? 1 : count_of(kinds_of(piece));
  }

  /// What stood there and was not set again; more than may be moved when it is no whole stacks.
  std::vector<PlacedPiece> left_over(const Level& was, const Filled& filled) const {
    std::vector<int> left(job_->sorts.size());
    for (const PlacedPiece& piece : was.pieces) {
      at(left, sort_of(*job_, kinds_of(piece))) += pieces_in(piece);
    }
    for (const Standing& one : filled.set) at(left, one.sort) -= one.stack;
    std::vector<PlacedPiece> moved;
    for (const PlacedPiece& piece : was.pieces) {
      int& more = at(left, sort_of(*job_, kinds_of(piece)));
      if (more < pieces_in(piece)) continue;
      more -= pieces_in(piece);
      moved.push_back(piece);
    }
    const bool none = std::all_of(left.begin(), left.end(), [](int n) { return n == 0; });
    if (!none) moved.resize(static_cast<std::size_t>(kMostMoved) + 1);
    return moved;
  }

  const Job* job_;
  const Kept* kept_;
  const std::vector<KilnLoad>* loads_;
  int load_;
  int hole_;
  bool seen_;
  int looks_;
  int shelves_;
  std::optional<Change> best_;
  std::map<std::tuple<int, int, std::vector<int>>, bool> takes_;
};

}  // namespace

std::optional<Change> room_made(const Job& job, const Kept& kept,
                                const std::vector<KilnLoad>& loads, const Wanted& wanted,
                                Looks& looks) {
  const int before = std::min(kMostLooks, looks.left);
  Clearing clearing{job, kept, loads, wanted, looks};
  auto best = clearing.best();
  looks.left -= before - clearing.looks_left();
  looks.shelves = std::max(0, clearing.shelves_left());
  return best;
}

}  // namespace placer::loading
