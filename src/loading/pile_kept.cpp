// A column of which the lower levels are set already.
#include <algorithm>
#include <cmath>

#include "loading/index.h"
#include "loading/pile.h"
#include "placer/model/cone_place.h"

namespace placer::loading {

void Pile::keep(const Level& level, bool on_floor) {
  for (const Site& site : at(job_->columns, column_)) {
    if (site.shelf == level.shelf) site_ = &site;
  }
  if (site_ == nullptr) return;
  if (fresh_ && on_floor) begin_under(level);
  shed_->take_shelf(level.shelf);
  for (const PlacedPost& post : level.posts) shed_->use(post.parts);
  for (const PlacedPiece& piece : level.pieces) take_kept(piece);
  load_->levels.push_back(level);
  fresh_ = false;
  levels_ = on_floor ? levels_ + 1 : level.level;
  top_ = level.shelf_top;
}

/// Posts that must stand under the lowest shelf that is kept.
void Pile::begin_under(const Level& level) {
  const Length under = level.shelf_top - thickness(*site_);
  for (const PostHeight& height : job_->heights) {
    if (std::abs(height.height.mm() - under.mm()) > 1e-6) continue;
    if (const auto parts = shed_->take(height, count_of(site_->posts))) {
      floor_ = standing_posts(site_->posts, *parts);
      load_->floor_posts.insert(load_->floor_posts.end(), floor_.begin(), floor_.end());
    }
  }
}

/// Pieces of a kept level are no longer to be set.
void Pile::take_kept(const PlacedPiece& piece) {
  const std::vector<int> kinds = kinds_of(piece);
  for (int s = 0; s < count_of(job_->sorts); ++s) {
    const Sort& sort = at(job_->sorts, s);
    if (sort.piece() != kinds.front()) continue;
    const bool pair = kinds.size() > 1 && kinds[1] != kinds[0];
    if (pair != (sort.kinds.size() > 1)) continue;
    int& left = at(supply_->left, s);
    left = std::max(0, left - (pair ? 1 : count_of(kinds)));
    const auto& pinned = sort.wishes.pinned;
    if (pinned && pinned->at == piece.place.at) at(supply_->pinned, s) = 0;
    return;
  }
}

/// The next level over the last kept one, if its pieces leave the posts their places.
bool Pile::go_on() {
  const Level& last = load_->levels.at(last_level());
  Length clear = last.clear_height;
  if (last.posts.empty()) {
    const Length tallest = last.clear_height - last.air;
    const Length cones = last.cones.empty() ? Length{} : Length::from_mm(kPackHigh);
    const auto posts = posts_between(last, std::max(tallest + job_->clearances.air, cones));
    if (!posts) return false;
    load_->levels.at(last_level()).posts = *posts;
    clear = height_of(*job_->batch, posts->front());
  }
  const Length above = top_ + clear;
  const Site* next = site_at(above);
  if (next == nullptr || !fits_above(above + thickness(*next))) {
    if (last.clear_height != clear) {  // posts just found are of no use
      for (const PlacedPost& post : load_->levels.at(last_level()).posts)
        shed_->put_back({post.parts});
      load_->levels.at(last_level()).posts.clear();
    }
    return false;
  }
  Level& level = load_->levels.at(last_level());
  level.air = level.air - (level.clear_height - clear);
  level.clear_height = clear;
  take(*next, above + thickness(*next));
  return true;
}

std::size_t Pile::last_level() const {
  std::size_t last = load_->levels.size();
  for (std::size_t i = 0; i < load_->levels.size(); ++i) {
    if (load_->levels[i].column == column_ && load_->levels[i].bridge < 0) last = i;
  }
  return last;
}

std::optional<std::vector<PlacedPost>> Pile::posts_between(const Level& level, Length least) {
  for (const PostHeight& height : job_->heights) {
    if (height.height < least || site_->posts.empty()) continue;
    const auto parts = shed_->take(height, count_of(site_->posts));
    if (!parts) continue;
    const std::vector<PlacedPost> posts = standing_posts(site_->posts, *parts);
    const bool off_cones =
        std::all_of(level.cones.begin(), level.cones.end(), [&](const ConePack& pack) {
          return std::all_of(posts.begin(), posts.end(), [&](const PlacedPost& post) {
            return gap(pack_at(pack.place), ground(*job_->batch, post)) >= kPackGap;
          });
        });
    const bool clear =
        off_cones && std::all_of(level.pieces.begin(), level.pieces.end(), [&](const auto& piece) {
          const Footprint there = ground(*job_->batch, *load_, piece);
          return std::all_of(posts.begin(), posts.end(), [&](const PlacedPost& post) {
            return gap(there, ground(*job_->batch, post)) >= job_->clearances.gap.mm();
          });
        });
    if (clear) return posts;
    shed_->put_back(*parts);
    return std::nullopt;
  }
  return std::nullopt;
}

}  // namespace placer::loading
