#include "loading/spread.h"

#include <algorithm>
#include <cmath>

#include "loading/bench.h"
#include "loading/even.h"
#include "loading/fill.h"
#include "loading/index.h"
#include "loading/order.h"
#include "loading/pile.h"

namespace placer::loading {
namespace {

constexpr std::uint64_t kSteps = 300000;  // of the packing engine, where a glance does not do

const Site* site_in(const Job& job, int column, int shelf) {
  for (const Site& site : at(job.columns, column)) {
    if (site.shelf == shelf && site.trouble.empty() && !site.posts.empty()) return &site;
  }
  return nullptr;
}

/// Columns of one load, changed one move at a time.
class Spreading {
 public:
  Spreading(const Job& job, const KilnLoad& load)
      : job_{&job}, load_{load}, free_{heights_are_free(job)} {}

  KilnLoad run() {
    while (move_one()) {
    }
    weigh(*job_->batch, load_);
    return load_;
  }

 private:
  const Kiln& kiln() const { return job_->batch->kiln; }

  double mass_in(int column) const {
    double kg = 0;
    for (const Level& level : levels_in(load_, column)) kg += mass_on(level);
    return kg;
  }

  /// From the fullest column to the emptiest that takes any; the level that leaves the two most
  /// alike.
  bool move_one() {
    const int columns = count_of(kiln().columns);
    for (int gap = count_of(load_.levels); gap >= 2; --gap) {
      for (int from = 0; from < columns; ++from) {
        for (int to = 0; to < columns; ++to) {
          const int more = count_of(levels_in(load_, from)) - count_of(levels_in(load_, to));
          if (more == gap && move_between(from, to)) return true;
        }
      }
    }
    return false;
  }

  bool move_between(int from, int to) {
    const std::vector<Level> levels = levels_in(load_, from);
    const bool empty = levels_in(load_, to).empty();
    const double wanted = (mass_in(from) - mass_in(to)) / 2;
    std::vector<int> order;  // the top one has no posts: nothing can be laid on it
    for (int i = 0; i < count_of(levels) - (empty ? 0 : 1); ++i) order.push_back(i);
    const auto off = [&](int i) { return std::abs(mass_on(at(levels, i)) - wanted); };
    std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return off(a) < off(b); });
    return std::any_of(order.begin(), order.end(), [&](int i) { return move(from, to, i); });
  }

  bool move(int from, int to, int i) {
    std::vector<Level> here = levels_in(load_, from);
    std::vector<Level> there = levels_in(load_, to);
    Level moved = at(here, i);
    const Site* site = site_in(*job_, to, moved.shelf);
    if (site == nullptr || count_of(site->posts) != posts_between(here)) return false;
    const bool top = i + 1 == count_of(here);
    const std::vector<PlacedPost> freed = top ? at(here, i - 1).posts : moved.posts;
    const Length floor = underside_of(kiln(), here.front());
    here.erase(here.begin() + i);
    restack(kiln(), here, floor);
    open_top(kiln(), here.back());
    moved.column = to;
    moved.shelf_at = at(kiln().columns, to).at;
    if (!there.empty()) {
      if (!in_line(there, *site)) return false;
      for (std::size_t p = 0; p < moved.posts.size(); ++p) moved.posts[p].at = site->posts[p];
      const Length under = underside_of(kiln(), there.front());
      there.insert(there.begin(), moved);
      restack(kiln(), there, under);
      open_top(kiln(), there.back());
      return take(here, i, there, *site, load_.floor_posts);
    }
    there.push_back(moved);
    if (floor <= Length{}) return stand(here, i, there, *site, Length{}, load_.floor_posts);
    Shed shed = in_shed(freed);
    for (const PostHeight& height : job_->heights) {
      if (height.height < kiln().first_shelf) continue;
      const auto parts = shed.take(height, count_of(site->posts));
      if (!parts) continue;
      shed.put_back(*parts);
      std::vector<PlacedPost> feet = load_.floor_posts;
      for (const PlacedPost& post : standing_posts(site->posts, *parts)) feet.push_back(post);
      if (stand(here, i, there, *site, height.height, feet)) return true;
      if (free_) return false;  // higher up it would be no better
    }
    return false;
  }

  static int posts_between(const std::vector<Level>& levels) {
    return count_of(levels.front().posts);
  }

  /// The level alone in its column, its shelf on what carries it.
  bool stand(const std::vector<Level>& here, int i, std::vector<Level> there, const Site& site,
             Length under, const std::vector<PlacedPost>& feet) {
    restack(kiln(), there, under);
    open_top(kiln(), there.back());
    return take(here, i, std::move(there), site, feet);
  }

  /// Makes the change if everything that lies elsewhere than before can stand there.
  /// @param i where the level was taken out.
  bool take(std::vector<Level> here, int i, std::vector<Level> there, const Site& site,
            const std::vector<PlacedPost>& feet) {
    if (there.back().air < Length{} || !set_anew(site, there.front())) return false;
    for (std::vector<Level>* levels : {&here, &there}) {
      for (Level& level : *levels) {
        const bool lower = levels == &here && level.level <= i;  // those under the one taken out
        if (&level == &there.front() || free_ || lower) continue;
        const Site* own = site_in(*job_, level.column, level.shelf);
        if (own == nullptr || !set_anew(*own, level)) return false;
      }
    }
    std::erase_if(load_.levels, [&](const Level& level) {
      return level.column == here.front().column || level.column == there.front().column;
    });
    load_.levels.insert(load_.levels.end(), here.begin(), here.end());
    load_.levels.insert(load_.levels.end(), there.begin(), there.end());
    std::stable_sort(load_.levels.begin(), load_.levels.end(),
                     [](const Level& a, const Level& b) { return a.column < b.column; });
    load_.floor_posts = feet;
    return true;
  }

  /// Posts of the column and the shelf's own places are the same.
  bool in_line(const std::vector<Level>& levels, const Site& site) const {
    const Site* other = site_in(*job_, site.column, levels.front().shelf);
    return other != nullptr && other->posts == site.posts;
  }

  /// What is not in use when these posts are freed.
  Shed in_shed(const std::vector<PlacedPost>& freed) const {
    Shed shed{kiln()};
    for (const PlacedPost& post : load_.floor_posts) shed.use(post.parts);
    for (const Level& level : load_.levels) {
      for (const PlacedPost& post : level.posts) shed.use(post.parts);
    }
    for (const PlacedPost& post : freed) shed.put_back({post.parts});
    return shed;
  }

  /// The level's pieces set on the shelf where it lies now; false when they do not all stand.
  bool set_anew(const Site& site, Level& level) const {
    const Length top = level.shelf_top + level.clear_height;
    if (!shelf_is_free(kiln(), site, level.shelf_top)) return false;
    Room room = room_on(*job_, site, level.shelf_top, top, level.posts);
    room.level = level.level;
    room.round = load_.round;
    Supply supply;
    supply.left.assign(job_->sorts.size(), 0);
    supply.price.assign(job_->sorts.size(), 1);
    supply.pinned.assign(job_->sorts.size(), 0);
    for (const PlacedPiece& piece : level.pieces) {
      const std::vector<int> kinds = kinds_of(piece);
      const int s = sort_of(*job_, kinds);
      if (s < 0 || at(job_->sorts, s).wishes.pinned) return false;
      at(supply.left, s) += at(job_->sorts, s).kinds.size() > 1 ? 1 : count_of(kinds);
    }
    for (const std::uint64_t steps : {std::uint64_t{0}, kSteps}) {
      const Filled filled = fill(*job_, supply, room, {steps, job_->batch->seed, nullptr});
      std::vector<int> left = supply.left;
      for (const Standing& one : filled.set) at(left, one.sort) -= one.stack;
      if (std::any_of(left.begin(), left.end(), [](int n) { return n != 0; })) continue;
      level.pieces.clear();
      level.pattern.clear();
      add_pieces(*job_, filled, level);
      return true;
    }
    return false;
  }

  const Job* job_;
  KilnLoad load_;
  bool free_;  ///< nothing hangs on how high a level lies
};

}  // namespace

std::vector<Level> levels_in(const KilnLoad& load, int column) {
  std::vector<Level> levels;
  for (const Level& level : load.levels) {
    if (level.column == column) levels.push_back(level);
  }
  return levels;
}

void put_back(const std::vector<Level>& levels, int column, KilnLoad& load) {
  std::size_t next = 0;
  for (Level& level : load.levels) {
    if (level.column == column) level = levels.at(next++);
  }
}

Length underside_of(const Kiln& kiln, const Level& level) {
  return level.shelf_top - at(kiln.shelves, level.shelf).thickness;
}

void restack(const Kiln& kiln, std::vector<Level>& levels, Length underside) {
  for (int i = 0; i < count_of(levels); ++i) {
    Level& level = at(levels, i);
    level.level = i + 1;
    level.shelf_top = underside + at(kiln.shelves, level.shelf).thickness;
    underside = level.shelf_top + level.clear_height;
  }
}

bool spread_over_columns(const Job& job, KilnLoad& load) {
  const int before = unevenness(job, load);
  if (before < 2) return false;
  KilnLoad after = Spreading{job, load}.run();
  if (unevenness(job, after) >= before) return false;
  load = std::move(after);
  return true;
}

}  // namespace placer::loading
