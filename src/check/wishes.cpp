// Wishes: every one of a placed piece holds, unless the plan says that it could not be granted.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "check/rules.h"

namespace placer::check {
namespace {

std::size_t index(int i) { return static_cast<std::size_t>(i); }

bool let_go(const LoadPlan& plan, int piece, int load, std::string_view wish) {
  return std::ranges::any_of(plan.ungranted, [&](const Ungranted& let) {
    return let.piece == piece && let.load == load && let.wish == wish;
  });
}

const char* word(Zone zone) {
  switch (zone) {
    case Zone::low:
      return "low";
    case Zone::middle:
      return "in the middle";
    case Zone::high:
      break;
  }
  return "high";
}

const char* word(Side side) { return side == Side::front ? "at the front" : "at the back"; }

// The wishes of one kind as one piece of it keeps them.
class Kept {
 public:
  Kept(const View& view, const LoadPlan& plan, Findings& findings)
      : view_{view}, plan_{plan}, findings_{findings} {}

  void ask(const StandingPiece& piece) {
    for (const int kind : distinct_kinds(*piece.placed)) {
      kind_ = kind;
      wishes_ = &view_.batch.pieces[index(kind)].wishes;
      ask_place(piece);
      ask_upright(piece);
      ask_neighbours(piece);
    }
  }

 private:
  static std::set<int> distinct_kinds(const PlacedPiece& piece) {
    const std::vector<int> kinds = kinds_of(piece);
    return {kinds.begin(), kinds.end()};
  }

  void miss(std::string_view wish, const char* code, const std::string& message) {
    if (!let_go(plan_, kind_, view_.load.load, wish)) add(findings_, code, message);
  }

  void ask_place(const StandingPiece& piece) {
    const Kiln& kiln = view_.batch.kiln;
    const Length middle = Length::from_mm((piece.z.low + piece.z.high) / 2);
    if (wishes_->zone && zone_at(kiln, middle) != *wishes_->zone) {
      miss("zone", "wish-zone",
           fmt::format("{} is {}, but {} is asked.", view_.words(piece),
                       word(zone_at(kiln, middle)), word(*wishes_->zone)));
    }
    const Point at = piece.placed->place.at;
    if (wishes_->side && side_at(kiln, at) != *wishes_->side) {
      miss("side", "wish-side",
           fmt::format("{} is {}, but {} is asked.", view_.words(piece), word(side_at(kiln, at)),
                       word(*wishes_->side)));
    }
    const int level = view_.load.levels[index(piece.level)].level;
    if (wishes_->level && level != *wishes_->level) {
      miss("level", "wish-level",
           fmt::format("{} is on the wrong shelf; shelf {} is asked.", view_.words(piece),
                       *wishes_->level));
    }
    if (wishes_->first_firing && view_.load.round != 1) {
      miss("first firing", "wish-first",
           fmt::format("{} is asked for the first load.", view_.words(piece)));
    }
    if (wishes_->turn_deg &&
        std::abs(std::remainder(piece.placed->place.turn_deg - *wishes_->turn_deg, 360)) >
            kTolerance) {
      miss("turn", "wish-turn",
           fmt::format("{} is turned {:g} degrees; {:g} are asked.", view_.words(piece),
                       piece.placed->place.turn_deg, *wishes_->turn_deg));
    }
  }

  void ask_upright(const StandingPiece& piece) {
    const Stacking::How how = view_.batch.pieces[index(kind_)].stacking.how;
    const bool turned_over = how == Stacking::How::rim_to_rim || how == Stacking::How::on_edge;
    if (!wishes_->upright || piece.placed->stacked < 2 || !turned_over) return;
    miss("upright", "wish-upright",
         fmt::format("{} stands on its rim or on edge, but is asked to stay upright.",
                     view_.words(piece)));
  }

  void ask_neighbours(const StandingPiece& piece) {
    if (wishes_->inside && kind_ == piece.placed->piece) {
      miss("inside", "wish-lid",
           fmt::format("{} is a lid and should be on '{}'.", view_.words(piece), *wishes_->inside));
    }
    if (view_.kind != FiringKind::glaze) return;
    for (const StandingPiece& other : view_.pieces) {
      if (&other == &piece || other.level != piece.level || !other.kind->glaze) continue;
      if (other.placed->piece == kind_) continue;  // nobody is kept apart from their own kind
      const std::string& glaze = view_.batch.glazes[index(*other.kind->glaze)].name;
      if (std::ranges::count(wishes_->apart, glaze) == 0) continue;
      miss("apart", "wish-apart",
           fmt::format("{} shares its shelf with the glaze '{}' of '{}', which is to be kept "
                       "apart.",
                       view_.words(piece), glaze, other.kind->name));
      return;
    }
  }

  const View& view_;
  const LoadPlan& plan_;
  Findings& findings_;
  int kind_ = 0;
  const Wishes* wishes_ = nullptr;
};

bool stands_at(const PlacedPiece& piece, const Placement& where) {
  const Point off = piece.place.at - where.at;
  return std::abs(off.x) <= kTolerance && std::abs(off.y) <= kTolerance &&
         std::abs(std::remainder(piece.place.turn_deg - where.turn_deg, 360)) <= kTolerance;
}

// Of the kinds in each load: which kiln loads hold them, and does one stand where it is pinned?
struct Met {
  std::map<std::pair<int, std::string>, std::set<int>> set_firings;  ///< load, set -> firings
  std::map<std::pair<int, int>, bool> pinned;                        ///< load, kind -> in place
};

Met meet(const Batch& batch, const LoadPlan& plan) {
  Met met;
  for (std::size_t firing = 0; firing < plan.firings.size(); ++firing) {
    const KilnLoad& load = plan.firings[firing];
    for (const Level& level : load.levels) {
      for (const PlacedPiece& piece : level.pieces) {
        for (const int kind : kinds_of(piece)) {
          const Wishes& wishes = batch.pieces[index(kind)].wishes;
          if (!wishes.set.empty() && !let_go(plan, kind, load.load, "set")) {
            met.set_firings[{load.load, wishes.set}].insert(static_cast<int>(firing));
          }
          if (wishes.pinned && !let_go(plan, kind, load.load, "pinned")) {
            bool& there = met.pinned[{load.load, kind}];
            there = there || stands_at(piece, *wishes.pinned);
          }
        }
      }
    }
  }
  return met;
}

}  // namespace

void check_wishes(const View& view, const LoadPlan& plan, Findings& findings) {
  Kept kept{view, plan, findings};
  for (const StandingPiece& piece : view.pieces) kept.ask(piece);
}

void check_wishes_across(const Batch& batch, const LoadPlan& plan, Findings& findings) {
  const Met met = meet(batch, plan);
  for (const auto& [set, firings] : met.set_firings) {
    if (firings.size() == 1) continue;
    add(findings, "wish-set",
        fmt::format("The set '{}' should share one firing, but is spread over {} loads of {}.",
                    set.second, firings.size(), batch.loads[index(set.first)].name));
  }
  for (const auto& [kind, there] : met.pinned) {
    if (there) continue;
    const PieceKind& piece = batch.pieces[index(kind.second)];
    add(findings, "wish-pinned",
        fmt::format("No '{}' stands where it is pinned (x {:g}, y {:g} mm) in {}.", piece.name,
                    piece.wishes.pinned->at.x, piece.wishes.pinned->at.y,
                    batch.loads[index(kind.first)].name));
  }
}

}  // namespace placer::check
