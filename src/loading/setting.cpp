#include "loading/setting.h"

#include <algorithm>

#include "loading/index.h"
#include "loading/order.h"

namespace placer::loading {
namespace {

std::vector<PlacedPost> standing_posts(const std::vector<Point>& where,
                                       const std::vector<Parts>& parts) {
  std::vector<PlacedPost> posts;
  for (std::size_t i = 0; i < where.size(); ++i) posts.push_back({where[i], 0, parts[i]});
  return posts;
}

/// One column going up.
class Pile {
 public:
  Pile(const Job& job, int column, Shed& shed, std::vector<int>& left, KilnLoad& load)
      : job_{&job}, column_{column}, shed_{&shed}, left_{&left}, load_{&load} {}

  void build() {
    if (!begin()) return;
    for (int level = 1; add_level(level); ++level) {
    }
  }

 private:
  const Site* site_for(Length top) const {
    for (const Site& site : at(job_->columns, column_)) {
      if (site.trouble.empty() && shed_->shelves(site.shelf) > 0 && !site.posts.empty() &&
          shelf_is_free(job_->batch->kiln, site, top)) {
        return &site;
      }
    }
    return nullptr;
  }
  Length thickness(const Site& site) const {
    return at(job_->batch->kiln.shelves, site.shelf).thickness;
  }

  /// The lowest shelf on the shortest posts that leave the room asked under it.
  bool begin() {
    const Length least = job_->batch->kiln.first_shelf;
    for (const Site& site : at(job_->columns, column_)) {
      if (!site.trouble.empty() || shed_->shelves(site.shelf) == 0) continue;
      if (least <= Length{} && shelf_is_free(job_->batch->kiln, site, thickness(site))) {
        take(site, thickness(site));
        return true;
      }
      for (const PostHeight& height : job_->heights) {
        const Length top = height.height + thickness(site);
        if (height.height < least || site.posts.empty()) continue;
        if (!shelf_is_free(job_->batch->kiln, site, top)) continue;
        const auto parts = shed_->take(height, count_of(site.posts));
        if (!parts) continue;
        floor_ = standing_posts(site.posts, *parts);
        take(site, top);
        return true;
      }
    }
    return false;
  }

  void take(const Site& site, Length top) {
    site_ = &site;
    top_ = top;
    shed_->take_shelf(site.shelf);
  }

  Length tallest_left(Length under) const {
    Length tallest;
    for (int s = 0; s < count_of(job_->sorts); ++s) {
      const Length height = at(job_->sorts, s).height();
      if (at(*left_, s) > 0 && height <= under) tallest = std::max(tallest, height);
    }
    return tallest;
  }
  Length shortest_left() const {
    Length shortest = job_->batch->kiln.height;
    for (int s = 0; s < count_of(job_->sorts); ++s) {
      if (at(*left_, s) > 0) shortest = std::min(shortest, at(job_->sorts, s).height());
    }
    return shortest;
  }

  bool add_level(int number) {
    const Length air = job_->clearances.air;
    const Length ceiling = lid(job_->batch->kiln);
    const Length tallest = tallest_left(ceiling - top_ - air);
    if (tallest <= Length{}) {
      drop_unused();
      return false;
    }
    for (const PostHeight& height : job_->heights) {
      if (height.height < tallest + air) continue;
      const Length above = top_ + height.height;
      const Site* next = next_site(above);
      if (next == nullptr || above + thickness(*next) + shortest_left() + air > ceiling) break;
      const auto parts = shed_->take(height, count_of(site_->posts));
      if (!parts) continue;
      const std::vector<PlacedPost> posts = standing_posts(site_->posts, *parts);
      if (!set_level(number, above, posts)) {
        shed_->put_back(*parts);
        break;
      }
      if (std::all_of(left_->begin(), left_->end(), [](int n) { return n == 0; })) {
        shed_->put_back(*parts);
        load_->levels.back().posts.clear();
        reopen_top();
        return false;
      }
      take(*next, above + thickness(*next));
      return true;
    }
    if (!set_level(number, ceiling, {})) drop_unused();
    return false;
  }

  /// A shelf with nothing on it is not set, nor the posts that carry it.
  void drop_unused() {
    shed_->put_back_shelf(site_->shelf);
    if (load_->levels.empty() || load_->levels.back().column != column_) {
      for (const PlacedPost& post : floor_) shed_->put_back({post.parts});
      floor_.clear();
      return;
    }
    for (const PlacedPost& post : load_->levels.back().posts) shed_->put_back({post.parts});
    load_->levels.back().posts.clear();
    reopen_top();
  }

  void reopen_top() {
    Level& level = load_->levels.back();
    const Length tallest = level.clear_height - level.air;
    level.clear_height = lid(job_->batch->kiln) - level.shelf_top;
    level.air = level.clear_height - tallest;
  }

  const Site* next_site(Length above) const {
    for (const Site& site : at(job_->columns, column_)) {
      if (site.trouble.empty() && shed_->shelves(site.shelf) > 0 && !site.posts.empty() &&
          shelf_is_free(job_->batch->kiln, site, above + thickness(site))) {
        return &site;
      }
    }
    return nullptr;
  }

  bool set_level(int number, Length ceiling, const std::vector<PlacedPost>& posts) {
    const Room room = room_on(*job_, *site_, top_, ceiling, posts);
    const Filled filled = fill(job_->sorts, *left_, room);
    if (filled.set.empty()) return false;
    Level level;
    level.column = column_;
    level.level = number;
    level.shelf = site_->shelf;
    level.shelf_at = at(job_->batch->kiln.columns, column_).at;
    level.shelf_top = top_;
    level.clear_height = ceiling - top_;
    level.posts = posts;
    add_pieces(*job_, filled, level);
    for (const Standing& one : filled.set) at(*left_, one.sort) -= one.stack;
    if (number == 1) {
      load_->floor_posts.insert(load_->floor_posts.end(), floor_.begin(), floor_.end());
    }
    load_->levels.push_back(std::move(level));
    return true;
  }

  const Job* job_;
  int column_;
  Shed* shed_;
  std::vector<int>* left_;
  KilnLoad* load_;
  const Site* site_ = nullptr;
  Length top_;
  std::vector<PlacedPost> floor_;
};

}  // namespace

Length lid(const Kiln& kiln) { return kiln.height - kiln.under_lid; }

Job job_of(const Batch& batch, int load, Effort effort, int threads) {
  Job job;
  job.batch = &batch;
  job.load = load;
  job.kind = at(batch.loads, load).kind;
  job.clearances = clearances(batch.rules, job.kind);
  job.sorts = sorts_of(batch, load);
  job.heights = post_heights(batch.kiln);
  job.effort = effort;
  job.threads = threads;
  const double gap = job.clearances.gap.mm();
  const double far = gap + 2 * std::max(0.0, job.clearances.runny_gap.mm() - gap);
  for (int c = 0; c < count_of(batch.kiln.columns); ++c) {
    job.columns.push_back(sites_of(batch, c, gap, far));
  }
  return job;
}

Room room_on(const Job& job, const Site& site, Length low, Length high,
             const std::vector<PlacedPost>& posts) {
  Room room;
  room.ground = site.ground;
  for (Footprint& keep_out : keep_outs_between(job.batch->kiln, low, high)) {
    room.ground.keep_outs.push_back(std::move(keep_out));
  }
  for (const PlacedPost& post : posts) room.ground.keep_outs.push_back(ground(*job.batch, post));
  room.clear = high - low - job.clearances.air;
  room.gap = job.clearances.gap.mm();
  room.runny_gap = job.kind == FiringKind::glaze ? job.clearances.runny_gap.mm() : room.gap;
  room.seed = job.batch->seed;
  room.effort = job.effort;
  room.threads = job.threads;
  return room;
}

KilnLoad set_load(const Job& job, std::vector<int>& left) {
  KilnLoad load;
  load.load = job.load;
  Shed shed{job.batch->kiln};
  for (int column = 0; column < count_of(job.columns); ++column) {
    Pile{job, column, shed, left, load}.build();
  }
  weigh(*job.batch, load);
  return load;
}

}  // namespace placer::loading
