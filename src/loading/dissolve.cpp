#include "loading/dissolve.h"

#include <algorithm>
#include <optional>

#include "loading/bench.h"
#include "loading/even.h"
#include "loading/fill.h"
#include "loading/index.h"
#include "loading/order.h"
#include "placer/model/tower.h"

namespace placer::loading {
namespace {

constexpr std::uint64_t kSteps = 0;  // a glance of the packing engine for one shelf
constexpr int kMostPieces = 40;      // in a load: with more it would take too long
constexpr std::size_t kMostLevels = 8;

/// Pieces of each sort on a level; nullopt when one of them must stay where it is.
std::optional<std::vector<int>> pieces_on(const Job& job, const Level& level) {
  std::vector<int> pieces(job.sorts.size());
  for (const PlacedPiece& piece : level.pieces) {
    const int s = sort_of(job, kinds_of(piece));
    if (s < 0 || at(job.sorts, s).wishes.pinned) return std::nullopt;
    at(pieces, s) += at(job.sorts, s).kinds.size() > 1 ? 1 : count_of(kinds_of(piece));
  }
  return pieces;
}

double ground_of(const Job& job, const std::vector<int>& pieces) {
  double ground = 0;
  for (int s = 0; s < count_of(pieces); ++s) {
    const Sort& sort = at(job.sorts, s);
    ground += at(pieces, s) * ground_used(sort.stacks.back().footprint, job.clearances.gap.mm()) /
              count_of(sort.stacks);
  }
  return ground;
}

class Dissolving {
 public:
  Dissolving(const Job& job, const Kept& kept, const KilnLoad& load)
      : job_{&job}, kept_{&kept}, load_{load} {}

  /// Without that level; nullopt when not all of it finds room.
  std::optional<KilnLoad> without(const Level& gone) {
    auto pool = pieces_on(*job_, gone);
    if (!pool || is_kept(*kept_, load_, gone)) return std::nullopt;
    pool_ = *pool;
    if (!take_away(gone)) return std::nullopt;
    if (ground_of(*job_, pool_) > free_ground()) return std::nullopt;
    for (Level& level : load_.levels) {
      refill(level);
      if (worth_of(*job_, pool_) == 0) break;
    }
    if (worth_of(*job_, pool_) > 0) return std::nullopt;
    weigh(*job_->batch, load_);
    return load_;
  }

 private:
  bool take_away(const Level& gone) {
    const Kiln& kiln = job_->batch->kiln;
    std::vector<Level*> column;  // from the bottom up, without the one that goes
    const Region shelf = ground(*job_->batch, gone);
    Length underside = gone.shelf_top - at(kiln.shelves, gone.shelf).thickness;
    std::erase_if(load_.levels, [&](const Level& level) {
      return level.column == gone.column && level.level == gone.level;
    });
    if (load_.levels.empty()) return false;
    for (Level& level : load_.levels) {
      if (level.column == gone.column) column.push_back(&level);
    }
    if (column.empty()) {
      std::erase_if(load_.floor_posts, [&](const PlacedPost& post) {
        return inset(Footprint{{Disc{post.at, 0.1}}, {}}, shelf) >= 0;
      });
      return true;
    }
    for (int i = gone.level - 1; i < count_of(column); ++i) {  // those over it come down
      Level& level = *at(column, i);
      if (is_kept(*kept_, load_, level)) return false;
      level.level = i + 1;
      level.shelf_top = underside + at(kiln.shelves, level.shelf).thickness;
      underside = level.shelf_top + level.clear_height;
    }
    Level& top = *column.back();
    if (is_kept(*kept_, load_, top)) return false;
    const Length tallest = top.clear_height - top.air;
    top.posts.clear();
    top.clear_height = lid(kiln) - top.shelf_top;
    top.air = top.clear_height - tallest;
    return true;
  }

  double free_ground() const {
    double free = 0;
    for (const Level& level : load_.levels) {
      const auto pieces = pieces_on(*job_, level);
      const Site* site = site_of(level);
      if (pieces && site != nullptr) free += area(site->ground) - ground_of(*job_, *pieces);
    }
    return free;
  }

  const Site* site_of(const Level& level) const {
    const auto& sites = at(job_->columns, level.column);
    const auto site = std::find_if(sites.begin(), sites.end(),
                                   [&](const Site& s) { return s.shelf == level.shelf; });
    return site == sites.end() ? nullptr : &*site;
  }

  /// The level filled anew from its own pieces and those that have no place.
  void refill(Level& level) {
    const auto own = pieces_on(*job_, level);
    const Site* site = site_of(level);
    if (!own || site == nullptr || is_kept(*kept_, load_, level)) return;
    Room room =
        room_on(*job_, *site, level.shelf_top, level.shelf_top + level.clear_height, level.posts);
    room.level = level.level;
    room.round = load_.round;
    Supply supply;
    supply.left = pool_;
    for (int s = 0; s < count_of(pool_); ++s) at(supply.left, s) += at(*own, s);
    supply.price.assign(pool_.size(), 1);
    supply.pinned.assign(pool_.size(), 0);
    const Filled filled = fill(*job_, supply, room, {kSteps, job_->batch->seed, nullptr});
    std::vector<int> set(pool_.size());
    for (const Standing& one : filled.set) at(set, one.sort) += one.stack;
    if (worth_of(*job_, set) <= worth_of(*job_, *own) * (1 + 1e-9)) return;
    for (int s = 0; s < count_of(pool_); ++s) at(pool_, s) = at(supply.left, s) - at(set, s);
    level.pieces.clear();
    level.pattern.clear();
    add_pieces(*job_, filled, level);
  }

  const Job* job_;
  const Kept* kept_;
  KilnLoad load_;
  std::vector<int> pool_;  ///< pieces of each sort that have no place yet
};

/// The levels that may go, those that bear least first: the top one of each column, and any where
/// nothing hangs on how high the others lie.
std::vector<Level> candidates(const Job& job, const KilnLoad& load) {
  const bool any = heights_are_free(job);
  std::vector<Level> levels;
  for (const Level& level : load.levels) {
    const bool covered =
        std::any_of(load.levels.begin(), load.levels.end(), [&](const Level& other) {
          return other.column == level.column && other.level > level.level;
        });
    if (any || !covered) levels.push_back(level);
  }
  std::stable_sort(levels.begin(), levels.end(), [](const Level& a, const Level& b) {
    return a.pieces.size() < b.pieces.size();
  });
  return levels;
}

}  // namespace

void dissolve_shelves(const Job& job, const Kept& kept, KilnLoad& load) {
  int pieces = 0;
  for (const Level& level : load.levels) pieces += count_of(level.pieces);
  if (has_bridge(load)) return;  // what lies under it has to end where it ends
  if (pieces > kMostPieces || load.levels.size() > kMostLevels) return;
  for (bool any = true; any && load.levels.size() > 1;) {
    any = false;
    for (const Level& gone : candidates(job, load)) {
      auto less = Dissolving{job, kept, load}.without(gone);
      if (!less) continue;
      load = std::move(*less);
      any = true;
      break;
    }
  }
}

}  // namespace placer::loading
