#include "loading/wishes.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "loading/index.h"

namespace placer::loading {
namespace {

const char* word(Zone zone) {
  return zone == Zone::low ? "low" : zone == Zone::middle ? "in the middle" : "high";
}

/// "Bottle (studio.yaml:41)"
std::string named(const PieceKind& piece) {
  const std::string place = to_string(piece.where);
  return place.empty() ? piece.name : fmt::format("{} ({})", piece.name, place);
}

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
    const Wishes& wishes = at(batch_->pieces, kind).wishes;
    const auto count = [&](auto misses) {
      return static_cast<int>(std::count_if(seen.begin(), seen.end(), misses));
    };
    if (wishes.zone) {
      zone(count([&](const Seen& s) {
             return zone_at(batch_->kiln, s.level->shelf_top + 0.5 * s.piece->height) !=
                    *wishes.zone;
           }),
           *wishes.zone, wishes.level);
    }
    if (wishes.side) {
      side(count([&](const Seen& s) {
             return side_at(batch_->kiln, s.piece->place.at) != *wishes.side;
           }),
           *wishes.side);
    }
    if (wishes.level) {
      level(count([&](const Seen& s) { return s.level->level != *wishes.level; }), *wishes.level);
    }
    if (wishes.turn_deg) {
      turn(count([&](const Seen& s) {
             return std::abs(std::remainder(s.piece->place.turn_deg - *wishes.turn_deg, 360)) >
                    1e-6;
           }),
           *wishes.turn_deg);
    }
    if (wishes.first_firing) first(count([](const Seen& s) { return s.load->round != 1; }));
    if (wishes.inside) inside(count([](const Seen& s) { return s.lowest; }), *wishes.inside);
    if (!wishes.set.empty()) set_of(wishes.set);
    if (wishes.pinned) pinned(seen, *wishes.pinned);
    if (!wishes.apart.empty()) company(seen, wishes.apart);
  }

  void add(const char* wish, std::string reason) {
    ungranted_.push_back({kind_, load_, wish, std::move(reason)});
  }
  std::string me() const { return named(at(batch_->pieces, kind_)); }

  void zone(int misses, Zone zone, const std::optional<int>& level) {
    if (misses == 0) return;
    const std::string other =
        level
            ? fmt::format("it is also to stand on level {}, and not all of that lies there", *level)
            : "no level there is high and free enough";
    add("zone", fmt::format("{} was to stand {}, but {}: {} stand{} elsewhere.", me(), word(zone),
                            other, misses, misses == 1 ? "s" : ""));
  }
  void side(int misses, Side side) {
    if (misses == 0) return;
    add("side", fmt::format("{} was to stand {}, but no shelf has that much free ground on that "
                            "side: {} stand{} elsewhere.",
                            me(), side == Side::front ? "in front" : "at the back", misses,
                            misses == 1 ? "s" : ""));
  }
  void level(int misses, int level) {
    if (misses == 0) return;
    add("level",
        fmt::format("{} was to stand on level {}, but no level {} is high and free enough: "
                    "{} stand{} elsewhere.",
                    me(), level, level, misses, misses == 1 ? "s" : ""));
  }
  void turn(int misses, double turn) {
    if (misses == 0) return;
    add("turn", fmt::format("{} was to be turned to {:.0f}°, but it fits on no shelf that way.",
                            me(), turn));
  }
  void first(int misses) {
    if (misses == 0) return;
    add("first firing", fmt::format("{} was to go into the first firing, but {} found no room "
                                    "beside what must go there too.",
                                    me(), misses));
  }
  void inside(int misses, const std::string& pot) {
    if (misses == 0) return;
    add("inside", fmt::format("{} was to be fired on {}, but {} found no pot without a lid.", me(),
                              pot, misses));
  }

  void set_of(const std::string& set) {
    std::set<const KilnLoad*> loads;
    std::string others;
    for (int kind = 0; kind < count_of(batch_->pieces); ++kind) {
      if (at(batch_->pieces, kind).wishes.set != set) continue;
      const std::vector<Seen> seen = all_of(kind, load_);
      for (const Seen& one : seen) loads.insert(one.load);
      if (kind != kind_ && !seen.empty()) others += ", " + named(at(batch_->pieces, kind));
    }
    if (loads.size() < 2) return;
    add("set", fmt::format("{}{} are one set, \"{}\", but they are more than one firing holds: "
                           "they go into {} firings.",
                           me(), others, set, loads.size()));
  }

  void pinned(const std::vector<Seen>& seen, const Placement& where) {
    const bool there = std::any_of(seen.begin(), seen.end(), [&](const Seen& s) {
      return s.lowest && s.piece->place.at == where.at &&
             std::abs(std::remainder(s.piece->place.turn_deg - where.turn_deg, 360)) < 1e-6;
    });
    if (there) return;
    add("pinned", fmt::format("{} was to stand at {:.0f}, {:.0f} mm from the chamber's middle, but "
                              "that place is not free on any shelf: a post, the rim, the wall or "
                              "another pinned piece is too near.",
                              me(), where.at.x, where.at.y));
  }

  void company(const std::vector<Seen>& seen, const std::vector<std::string>& apart) {
    for (const Seen& one : seen) {
      for (const PlacedPiece& piece : one.level->pieces) {
        for (const int kind : kinds_of(piece)) {
          const PieceKind& other = at(batch_->pieces, kind);
          if (kind == kind_ || !other.glaze) continue;
          const std::string& glaze = at(batch_->glazes, *other.glaze).name;
          if (std::count(apart.begin(), apart.end(), glaze) == 0) continue;
          add("apart", fmt::format("{} was to be kept apart from the glaze {}, but {} has it and "
                                   "found no other shelf.",
                                   me(), glaze, named(other)));
          return;
        }
      }
    }
  }

  const Batch* batch_;
  const LoadPlan* plan_;
  int kind_ = 0;
  int load_ = 0;
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
