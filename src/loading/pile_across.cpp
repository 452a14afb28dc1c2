// A column under a bridge, whose posts must end at its underside, and one over a bridge.
#include <algorithm>
#include <cmath>

#include "loading/bridges.h"
#include "loading/index.h"
#include "loading/pile.h"
#include "placer/model/tower.h"

namespace placer::loading {
namespace {

constexpr double kSameHeight = 1e-6;  // mm

const PostHeight* posts_of(const Job& job, Length height) {
  for (const PostHeight& posts : job.heights) {
    if (std::abs((posts.height - height).mm()) <= kSameHeight) return &posts;
  }
  return nullptr;
}

/// They carry nothing.
void take_feet_off(const Kiln& kiln, const std::vector<PlacedPost>& feet, Level& level) {
  std::erase_if(level.posts, [&](const PlacedPost& post) {
    return std::any_of(feet.begin(), feet.end(),
                       [&](const PlacedPost& foot) { return foot.at == post.at; });
  });
  if (level.posts.empty()) open_top(kiln, level);
}

}  // namespace

Length Pile::roof() const { return roof_.value_or(lid(job_->batch->kiln)); }

/// Whether posts and shelves can end at the roof over a shelf with this surface.
bool Pile::can_close_from(Length top) const { return !roof_ || reaches(*reaches_, *roof_ - top); }

/// Whether the bridge can't rest on posts of this column that stand on the floor.
bool Pile::needs_shelf() const { return roof_ && (!fresh_ || posts_of(*job_, *roof_) == nullptr); }

/// The level goes up to the roof, and its posts carry that.
void Pile::add_closing(int number, std::vector<Trial>& trials) {
  const PostHeight* posts = posts_of(*job_, *roof_ - top_);
  if (posts == nullptr) return;
  const auto parts = shed_->take(*posts, count_of(site_->posts));
  if (!parts) return;
  shed_->put_back(*parts);
  Trial closing;
  closing.ceiling = *roof_;
  closing.posts = posts;
  closing.score = estimate(number, closing.ceiling);
  trials.push_back(std::move(closing));
}

bool Pile::raise_to(Length roof, const std::vector<double>& reaches) {
  roof_ = roof;
  reaches_ = &reaches;
  start();
  while (grow()) {
  }
  return fresh_ ? bare_to(roof) : reached_;
}

bool Pile::bare_to(Length roof) {
  const Site* site = usual_site(*job_, column_);
  const PostHeight* posts = posts_of(*job_, roof);
  if (site == nullptr || posts == nullptr || roof < job_->batch->kiln.first_shelf) return false;
  const auto parts = shed_->take(*posts, count_of(site->posts));
  if (!parts) return false;
  const std::vector<PlacedPost> feet = standing_posts(site->posts, *parts);
  load_->floor_posts.insert(load_->floor_posts.end(), feet.begin(), feet.end());
  return true;
}

bool Pile::stand_on(std::size_t bridge, const std::vector<PlacedPost>& feet) {
  const Level& under = load_->levels.at(bridge);
  const Length underside = under.shelf_top + under.clear_height;
  const Site* site = under.posts.empty() || feet.empty() ? nullptr : site_at(underside);
  floor_ = feet;
  bridge_ = bridge;
  levels_ = under.level;
  fresh_ = true;
  if (site == nullptr || !fits_above(underside + thickness(*site))) {
    leave();
    for (const PlacedPost& post : feet) shed_->put_back({post.parts});
    drop_feet();
    return false;
  }
  take(*site, underside + thickness(*site));
  return true;
}

void Pile::drop_feet() {
  if (bridge_) take_feet_off(job_->batch->kiln, floor_, load_->levels.at(*bridge_));
}

namespace {

/// A bridge that is set already, with the posts on the floor of columns that have nothing under it.
void keep_bridge(const Job& job, const Level& level, std::vector<Pile>& piles, Shed& shed,
                 KilnLoad& load, const std::vector<char>& bridged) {
  const Kiln& kiln = job.batch->kiln;
  for (const int column : at(kiln.bridges, level.bridge).over) {
    Pile& pile = at(piles, column);
    if (pile.levels() > 0 || at(bridged, column) != 0) continue;
    pile.bare_to(level.shelf_top - at(kiln.shelves, level.shelf).thickness);
  }
  shed.take_shelf(level.shelf);
  for (const PlacedPost& post : level.posts) shed.use(post.parts);
  for (const PlacedPiece& piece : level.pieces) at(piles, level.column).take_kept(piece);
  load.levels.push_back(level);
}

/// A column whose posts stand on the bridge kept last goes on there; else it stays as it is.
void go_on_over_bridge(const Job& job, int column, const KilnLoad& load, std::size_t bridge,
                       Pile& pile) {
  const Site* site = usual_site(job, column);
  std::vector<PlacedPost> feet;
  for (const PlacedPost& post : load.levels.at(bridge).posts) {
    const bool own = site != nullptr && std::find(site->posts.begin(), site->posts.end(),
                                                  post.at) != site->posts.end();
    if (own) feet.push_back(post);
  }
  pile.stand_on(bridge, feet);
}

}  // namespace

void keep_levels(const Job& job, const Kept& kept, std::vector<Pile>& piles, Shed& shed,
                 KilnLoad& load) {
  const Kiln& kiln = job.batch->kiln;
  std::vector<char> bridged(piles.size(), 0);
  for (const Level& level : kept) {
    if (level.bridge < 0) {
      at(piles, level.column).keep(level, at(bridged, level.column) == 0);
      continue;
    }
    keep_bridge(job, level, piles, shed, load, bridged);
    for (const int column : at(kiln.bridges, level.bridge).over) at(bridged, column) = 1;
  }
  for (int column = 0; column < count_of(piles); ++column) {
    if (at(bridged, column) == 0) continue;
    const int last = tower(kiln, load, column).back();
    if (at(load.levels, last).bridge < 0) continue;
    go_on_over_bridge(job, column, load, static_cast<std::size_t>(last), at(piles, column));
  }
}

}  // namespace placer::loading
