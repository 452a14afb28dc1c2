#include "loading/wishes.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "loading/index.h"
#include "loading/wish_words.h"

namespace placer::loading {
namespace {

/// All that the plan sets, seen one kind and one firing at a time.
class Audit {
 public:
  Audit(const Batch& batch, const LoadPlan& plan) : batch_{&batch}, plan_{&plan} {}

  std::vector<Ungranted> run() {
    for (int load = 0; load < count_of(batch_->loads); ++load) {
      for (int kind = 0; kind < count_of(batch_->pieces); ++kind) look_at(kind, load);
    }
    return std::move(ungranted_);
  }

 private:
  /// A piece of the kind, where it stands.
  struct Seen {
    const KilnLoad* load = nullptr;
    const Level* level = nullptr;
    const PlacedPiece* piece = nullptr;
    bool lowest = true;
  };

  std::vector<Seen> all_of(int kind, int load) const {
    std::vector<Seen> seen;
    for (const KilnLoad& firing : plan_->firings) {
      if (firing.load != load) continue;
      for (const Level& level : firing.levels) {
        for (const PlacedPiece& piece : level.pieces) {
          const std::vector<int> kinds = kinds_of(piece);
          if (std::count(kinds.begin(), kinds.end(), kind) == 0) continue;
          seen.push_back({&firing, &level, &piece, kinds.front() == kind});
        }
      }
    }
    return seen;
  }

  void look_at(int kind, int load) {
    const std::vector<Seen> seen = all_of(kind, load);
    if (seen.empty()) return;
    kind_ = kind;
    load_ = load;
    all_ = count_of(seen);
    const Wishes& wishes = me().wishes;
    if (wishes.zone) zone(seen, *wishes.zone);
    if (wishes.side) side(seen, *wishes.side);
    if (wishes.level) level(seen, *wishes.level);
    if (wishes.turn_deg) turn(seen, *wishes.turn_deg);
    if (wishes.first_firing) first(seen);
    if (wishes.inside) inside(seen, *wishes.inside);
    if (!wishes.set.empty()) set_of(wishes.set);
    if (wishes.pinned) pinned(seen, *wishes.pinned);
    if (!wishes.apart.empty()) company(seen, wishes.apart);
    if (wishes.upright) upright();
  }

  const PieceKind& me() const { return at(batch_->pieces, kind_); }
  const WishPlaces& places() const { return me().wishes.where; }
  std::string said(const std::string& asked, const TextPos& where) const {
    return wish_words(*batch_, asked, where);
  }

  template <class Misses>
  int count(const std::vector<Seen>& seen, Misses misses) const {
    return static_cast<int>(std::count_if(seen.begin(), seen.end(), misses));
  }

  /// One sentence: the kind, its wish as the file says it, why not, and how many do without.
  void add(const char* wish, const std::string& asked, const std::string& because, int misses) {
    std::string others = "it stands elsewhere";
    if (all_ > 1 && misses == all_) others = fmt::format("all {} stand elsewhere", all_);
    if (all_ > 1 && misses < all_) {
      others = fmt::format("{} of {} stand{} elsewhere", misses, all_, misses == 1 ? "s" : "");
    }
    add(wish, fmt::format("{} is not granted, because {}; {}.", asked, because, others));
  }
  void add(const char* wish, std::string sentence) {
    ungranted_.push_back({kind_, load_, wish, std::move(sentence)});
  }

  /// A lid goes where its pot does.
  std::string by_its_pot(const std::vector<Seen>& seen) const {
    const auto on_pot =
        std::find_if(seen.begin(), seen.end(), [](const Seen& s) { return !s.lowest; });
    if (on_pot == seen.end() || !me().wishes.inside) return {};
    return fmt::format("{} is asked too, and a lid goes where its pot does",
                       said("lid of: " + *me().wishes.inside, places().inside));
  }

  void zone(const std::vector<Seen>& seen, Zone zone) {
    const auto elsewhere = [&](const Seen& s) {
      return zone_at(batch_->kiln, s.level->shelf_top + 0.5 * s.piece->height) != zone;
    };
    const int misses = count(seen, elsewhere);
    if (misses == 0) return;
    std::string because = by_its_pot(seen);
    if (because.empty() && me().wishes.level) {
      because = fmt::format("{} is asked too, and that level does not lie {}",
                            said(fmt::format("level: {}", *me().wishes.level), places().level),
                            place_words(zone));
    }
    if (because.empty()) because = out_of_zone(*batch_, seen.front().piece->height, zone);
    if (because.empty()) {
      because = fmt::format("no shelf that lies {} had the room for it beside the other pieces",
                            place_words(zone));
    }
    add("zone", said(fmt::format("where: {}", word(zone)), places().zone), because, misses);
  }

  void side(const std::vector<Seen>& seen, Side side) {
    const int misses = count(
        seen, [&](const Seen& s) { return side_at(batch_->kiln, s.piece->place.at) != side; });
    if (misses == 0) return;
    std::string because = by_its_pot(seen);
    const auto& pin = me().wishes.pinned;
    if (because.empty() && pin && side_at(batch_->kiln, pin->at) != side) {
      because = fmt::format("{} is asked too, and that place is not {}",
                            said(pin_words(*pin), places().pinned), place_words(side));
    }
    if (because.empty()) {
      because = fmt::format("no shelf has so much free ground {}", place_words(side));
    }
    add("side", said(fmt::format("side: {}", word(side)), places().side), because, misses);
  }

  static std::string pin_words(const Placement& pin) {
    return fmt::format("stands at: [{:g}, {:g}]", pin.at.x, pin.at.y);
  }

  void level(const std::vector<Seen>& seen, int level) {
    const int misses = count(seen, [&](const Seen& s) { return s.level->level != level; });
    if (misses == 0) return;
    int most = 0;
    for (const KilnLoad& load : plan_->firings) {
      for (const Level& one : load.levels) {
        if (load.load == load_) most = std::max(most, one.level);
      }
    }
    std::string because = by_its_pot(seen);
    if (because.empty() && most < level) {
      because = fmt::format("no column of this load has more than {} level{}", most,
                            most == 1 ? "" : "s");
    }
    if (because.empty())
      because = fmt::format("no shelf {} had the room for it beside the other pieces", level);
    add("level", said(fmt::format("level: {}", level), places().level), because, misses);
  }

  void turn(const std::vector<Seen>& seen, double turn) {
    const int misses = count(seen, [&](const Seen& s) {
      return std::abs(std::remainder(s.piece->place.turn_deg - turn, 360)) > 1e-6;
    });
    if (misses == 0) return;
    std::string because = by_its_pot(seen);
    const auto& pin = me().wishes.pinned;
    if (because.empty() && pin && std::abs(std::remainder(pin->turn_deg - turn, 360)) > 1e-6) {
      because = fmt::format("{} asks for another turn", said(pin_words(*pin), places().pinned));
    }
    if (because.empty()) because = "it fits on no shelf that way round";
    add("turn", said(fmt::format("turn: {:g}", turn), places().turn), because, misses);
  }

  void first(const std::vector<Seen>& seen) {
    const int misses = count(seen, [](const Seen& s) { return s.load->round != 1; });
    if (misses == 0) return;
    std::string because =
        "there was no room beside what must go into the first load too" + kept_off();
    if (!me().wishes.set.empty()) {
      because = fmt::format("{} is asked too, and the whole set did not fit into the first load",
                            said("set: " + me().wishes.set, places().set));
    }
    add("first firing", said("first: yes", places().first_firing), because, misses);
  }

  /// Whether the one asks to be apart from the other's glaze.
  bool apart_from(const PieceKind& one, const PieceKind& other) const {
    const auto& apart = one.wishes.apart;
    return other.glaze &&
           std::count(apart.begin(), apart.end(), at(batch_->glazes, *other.glaze).name) > 0;
  }

  /// A glaze in the first load that it may not share a shelf with; "" when there is none.
  std::string kept_off() const {
    for (int kind = 0; kind < count_of(batch_->pieces); ++kind) {
      const PieceKind& other = at(batch_->pieces, kind);
      if (!asked_apart(other)) continue;
      const std::vector<Seen> seen = all_of(kind, load_);
      if (std::none_of(seen.begin(), seen.end(), [](const Seen& s) { return s.load->round == 1; }))
        continue;
      return fmt::format(", and {} keeps it off the shelves of {}", apart_words(other),
                         piece_words(*batch_, other));
    }
    return {};
  }

  /// Whether it or the other piece asks not to share a shelf.
  bool asked_apart(const PieceKind& other) const {
    return &other != &me() && (apart_from(me(), other) || apart_from(other, me()));
  }

  /// That wish as it stands in the file, of whichever of the two it is.
  std::string apart_words(const PieceKind& other) const {
    const bool mine = apart_from(me(), other);
    const PieceKind& asks = mine ? me() : other;
    const PieceKind& from = mine ? other : me();
    return said("apart from: " + at(batch_->glazes, *from.glaze).name, asks.wishes.where.apart);
  }

  void inside(const std::vector<Seen>& seen, const std::string& pot) {
    const int misses = count(seen, [](const Seen& s) { return s.lowest; });
    if (misses == 0) return;
    add("inside", said("lid of: " + pot, places().inside),
        fmt::format("there is no {} without a lid for {} of them", pot, misses), misses);
  }

  void set_of(const std::string& set) {
    std::set<const KilnLoad*> loads;
    std::string others;
    std::string shelves;
    for (int kind = 0; kind < count_of(batch_->pieces); ++kind) {
      const PieceKind& piece = at(batch_->pieces, kind);
      if (piece.wishes.set != set) continue;
      const std::vector<Seen> seen = all_of(kind, load_);
      for (const Seen& one : seen) loads.insert(one.load);
      if (kind != kind_ && !seen.empty()) others += ", " + piece_words(*batch_, piece);
      if (shelves.empty() && asked_apart(piece)) {
        shelves = fmt::format(" where {} asks for shelves of their own", apart_words(piece));
      }
    }
    if (loads.size() < 2) return;
    add("set", fmt::format("{} is not granted, because the set{}{} is more than one load holds{}; "
                           "it goes into {} loads.",
                           said("set: " + set, places().set), others.empty() ? "" : " with",
                           others.empty() ? "" : others.substr(1), shelves, loads.size()));
  }

  void pinned(const std::vector<Seen>& seen, const Placement& where) {
    const bool there = std::any_of(seen.begin(), seen.end(), [&](const Seen& s) {
      return s.lowest && s.piece->place.at == where.at &&
             std::abs(std::remainder(s.piece->place.turn_deg - where.turn_deg, 360)) < 1e-6;
    });
    if (there) return;
    std::string because = by_its_pot(seen);
    if (because.empty()) because = in_the_way(*batch_, me(), load_);
    if (because.empty()) because = rival(where);
    if (because.empty()) because = "no level that it may stand on has that place free";
    add("pinned", said(pin_words(where), places().pinned), because, all_);
  }

  /// Another kind that is to stand in the same place.
  std::string rival(const Placement& where) const {
    const FiringKind kind = at(batch_->loads, load_).kind;
    const Footprint mine = placed(sized(*batch_, me(), kind).footprint, where);
    for (const PieceKind& other : batch_->pieces) {
      if (&other == &me() || !other.wishes.pinned) continue;
      const Footprint there = placed(sized(*batch_, other, kind).footprint, *other.wishes.pinned);
      if (gap(mine, there) >= gap_between(*batch_, me(), other, kind).mm()) continue;
      return fmt::format("{} of {} is too near to it",
                         said(pin_words(*other.wishes.pinned), other.wishes.where.pinned),
                         other.name);
    }
    return {};
  }

  void company(const std::vector<Seen>& seen, const std::vector<std::string>& apart) {
    for (const Seen& one : seen) {
      for (const PlacedPiece& piece : one.level->pieces) {
        for (const int kind : kinds_of(piece)) {
          const PieceKind& other = at(batch_->pieces, kind);
          if (kind == kind_ || !other.glaze) continue;
          const std::string& glaze = at(batch_->glazes, *other.glaze).name;
          if (std::count(apart.begin(), apart.end(), glaze) == 0) continue;
          add("apart",
              fmt::format("{} is not granted, because {} has that glaze and there was no other "
                          "shelf for it.",
                          said("apart from: " + glaze, places().apart),
                          piece_words(*batch_, other)));
          return;
        }
      }
    }
  }

  /// Staying upright is stronger than a stack that would turn pieces over.
  void upright() {
    if (at(batch_->loads, load_).kind != FiringKind::bisque) return;
    const Stacking::How how = me().stacking.how;
    const bool over = how == Stacking::How::rim_to_rim || how == Stacking::How::on_edge;
    if (!over || me().stacking.most < 2) return;
    add("stack", fmt::format("Its stack, {}, is not used, because {} is asked too; each stands "
                             "by itself.",
                             how == Stacking::How::on_edge ? "on edge" : "rim to rim",
                             said("upright: yes", places().upright)));
  }

  const Batch* batch_;
  const LoadPlan* plan_;
  int kind_ = 0;
  int load_ = 0;
  int all_ = 0;  ///< pieces of the kind in the load
  std::vector<Ungranted> ungranted_;
};

}  // namespace

bool give_up_one(Sort& sort) {
  Wishes& wishes = sort.wishes;
  if (wishes.side) {
    wishes.side.reset();
  } else if (!wishes.apart.empty()) {
    wishes.apart.clear();
  } else if (wishes.zone) {
    wishes.zone.reset();
  } else if (wishes.level) {
    wishes.level.reset();
  } else if (!sort.turns.empty()) {
    sort.turns.clear();
  } else {
    return false;
  }
  return true;
}

std::vector<Ungranted> not_granted(const Batch& batch, const LoadPlan& plan) {
  return Audit{batch, plan}.run();
}

}  // namespace placer::loading
