// A plan after pieces broke: nothing moves but what takes their places.
#include <algorithm>
#include <set>
#include <stdexcept>

#include "loading/bound.h"
#include "loading/cones.h"
#include "loading/furniture.h"
#include "loading/index.h"
#include "loading/order.h"
#include "loading/remarks.h"
#include "loading/wishes.h"
#include "placer/loading/loading.h"

namespace placer::loading {
namespace {

/// Where one of the kind stands.
struct Spot {
  std::size_t firing = 0, level = 0, piece = 0;
};

class Breaking {
 public:
  Breaking(const Batch& batch, LoadPlan plan, int kind)
      : batch_{&batch}, plan_{std::move(plan)}, kind_{kind} {}

  /// False when one of them can't be taken out without moving others: it carries a lid.
  bool take_one(int load) {
    for (LeftOut& left : plan_.left_out) {
      if (left.piece != kind_ || left.load != load) continue;
      if (--left.count == 0)
        std::erase_if(plan_.left_out, [](const LeftOut& l) { return l.count == 0; });
      return true;
    }
    const Spot* spot = last_spot(load);
    if (spot == nullptr) return false;
    take_off(*spot);
    return true;
  }

  LoadPlan finished() {
    for (const std::size_t firing : changed_) set_cones_beside(*batch_, plan_.firings[firing]);
    drop_empty_loads();
    return std::move(plan_);
  }

 private:
  /// The last of them to be set: of the last load, the top level, never the one that is pinned
  /// while there is another.
  const Spot* last_spot(int load) {
    found_ = {};
    bool any = false;
    const auto& pinned = at(batch_->pieces, kind_).wishes.pinned;
    for (std::size_t f = 0; f < plan_.firings.size(); ++f) {
      if (plan_.firings[f].load != load) continue;
      for (std::size_t v = 0; v < plan_.firings[f].levels.size(); ++v) {
        const auto& pieces = plan_.firings[f].levels[v].pieces;
        for (std::size_t i = 0; i < pieces.size(); ++i) {
          const std::vector<int> kinds = kinds_of(pieces[i]);
          if (!std::all_of(kinds.begin(), kinds.end(), [&](int k) { return k == kind_; })) continue;
          if (any && pinned && pinned->at == pieces[i].place.at) continue;
          found_ = {f, v, i};
          any = true;
        }
      }
    }
    return any ? &found_ : nullptr;
  }

  void take_off(const Spot& spot) {
    changed_.insert(spot.firing);
    KilnLoad& load = plan_.firings[spot.firing];
    Level& level = load.levels[spot.level];
    PlacedPiece& piece = level.pieces[spot.piece];
    const FiringKind kind = at(batch_->loads, load.load).kind;
    if (piece.stacked > 1) {
      const SizedPiece size = stacked(*batch_, at(batch_->pieces, kind_), kind, --piece.stacked);
      piece.height = size.height;
      piece.mass = size.mass;
      if (piece.stacked == 1) piece.stack.clear();
      if (!piece.stack.empty()) piece.stack.pop_back();
    } else {
      level.pieces.erase(level.pieces.begin() + static_cast<std::ptrdiff_t>(spot.piece));
      level.pattern.clear();
      for (PlacedPiece& other : level.pieces) other.row = 0;
    }
    Length tallest;
    for (const PlacedPiece& other : level.pieces) tallest = std::max(tallest, other.height);
    level.air = level.clear_height - tallest;
    if (level.pieces.empty()) drop_top(load, spot.level);
  }

  /// An empty top shelf is not laid, nor the posts under it.
  void drop_top(KilnLoad& load, std::size_t empty) {
    const Level gone = load.levels[empty];
    if (!gone.posts.empty()) return;
    load.levels.erase(load.levels.begin() + static_cast<std::ptrdiff_t>(empty));
    for (Level& level : load.levels) {
      if (level.column != gone.column || level.level != gone.level - 1) continue;
      const Length tallest = level.clear_height - level.air;
      level.posts.clear();
      level.clear_height = batch_->kiln.height - batch_->kiln.under_lid - level.shelf_top;
      level.air = level.clear_height - tallest;
    }
    if (gone.level == 1) drop_feet(load, gone);
  }

  void drop_feet(KilnLoad& load, const Level& gone) {
    const Region shelf = placed(at(batch_->kiln.shelves, gone.shelf).shape, gone.shelf_at);
    std::erase_if(load.floor_posts, [&](const PlacedPost& post) {
      return inset(Footprint{{Disc{post.at, 0.1}}, {}}, shelf) >= 0;
    });
  }

  void drop_empty_loads() {
    std::erase_if(plan_.firings, [](const KilnLoad& load) {
      return std::all_of(load.levels.begin(), load.levels.end(),
                         [](const Level& level) { return level.pieces.empty(); });
    });
    std::vector<int> rounds(batch_->loads.size());
    for (KilnLoad& load : plan_.firings) {
      load.round = ++at(rounds, load.load);
      number_pieces(*batch_, load);
      weigh(*batch_, load);
    }
  }

  const Batch* batch_;
  LoadPlan plan_;
  int kind_;
  Spot found_;
  std::set<std::size_t> changed_;  ///< firings that something was taken from
};

/// What the plan sets of each sort of a job.
std::vector<int> placed_of(const Job& job, const LoadPlan& plan) {
  std::vector<int> set;
  for (const Sort& sort : job.sorts) {
    int left = 0;
    for (const LeftOut& out : plan.left_out) {
      if (out.load == job.load && out.piece == sort.piece()) left += out.count;
    }
    set.push_back(std::max(0, sort.count - left));
  }
  return set;
}

}  // namespace

LoadPlan without_broken(const Batch& batch, const LoadPlan& before, int piece, int broken) {
  if (broken < 0 || piece < 0 || piece >= count_of(batch.pieces)) {
    throw std::invalid_argument{"without_broken: needs a kind of the batch and a count"};
  }
  Breaking breaking{batch, before, piece};
  for (const int load : at(batch.pieces, piece).loads) {
    for (int i = 0; i < broken; ++i) {
      if (!breaking.take_one(load)) return plan(batch);  // a pot with its lid on
    }
  }
  LoadPlan after = breaking.finished();
  count_furniture(batch, after);
  after.fewest_firings_possible = 0;
  for (int load = 0; load < count_of(batch.loads); ++load) {
    const Job job = job_of(batch, load);
    int loads = 0;
    for (const KilnLoad& one : after.firings) loads += one.load == load ? 1 : 0;
    after.fewest_firings_possible += fewest_firings(job, placed_of(job, after), loads);
  }
  after.ungranted = not_granted(batch, after);
  after.remarks.clear();
  add_remarks(batch, {}, after);
  after.name = spoken_name(after);
  return after;
}

}  // namespace placer::loading
