#include "loading/bridge_deck.h"

#include <algorithm>

#include "loading/bridges.h"
#include "loading/even.h"
#include "loading/index.h"
#include "loading/order.h"
#include "loading/pile.h"

namespace placer::loading {
namespace {

constexpr int kMostOthers = 3;  // heights of level for what needs no bridge

}  // namespace

/// Whether any sort that needs a bridge is left.
bool any_needs(const Job& job, const Supply& supply) {
  for (int s = 0; s < count_of(supply.left); ++s) {
    if (at(supply.left, s) > 0 && at(job.needs_bridge, s) != 0) return true;
  }
  return false;
}

const std::vector<int>& Decking::over(const Site& site) const {
  return at(kiln().bridges, site.bridge).over;
}
bool Decking::takes(const Site& site, int sort) const {
  const auto place = &site - at(job_->bridges, site.bridge).data();
  const auto& of_site = at(recipe_->across->takes, site.bridge)[static_cast<std::size_t>(place)];
  return at(of_site, sort) != 0;
}
Length Decking::thickness(const Site& site) const {
  return at(kiln().shelves, site.shelf).thickness;
}

/// The least height over the bridge that what is to stand there takes.
Length Decking::least_room(const Site& site) const {
  Length least;
  bool any = false;
  for (const bool needed : {true, false}) {
    for (int s = 0; s < count_of(now_->supply.left) && !any; ++s) {
      if (at(now_->supply.left, s) == 0 || (at(job_->needs_bridge, s) != 0) != needed) continue;
      if (!takes(site, s)) continue;
      least = at(job_->sorts, s).height();
      any = true;
    }
  }
  return least;
}

bool Decking::may_lie(const Site& site, Length under) const {
  const Length top = under + thickness(site);
  return shelf_is_free(kiln(), site, top) && top + least_room(site) <= lid(kiln());
}

/// The heights of level that are tried, rising.
std::vector<Length> Decking::heights(const Site& site, Length top) const {
  std::vector<Length> all;
  int others = 0;
  for (int s = 0; s < count_of(now_->supply.left); ++s) {
    const Sort& sort = at(job_->sorts, s);
    const bool needed = at(job_->needs_bridge, s) != 0;
    if (at(now_->supply.left, s) == 0 || top + sort.height() > lid(kiln())) continue;
    if (!needed && others == kMostOthers) continue;
    if (!takes(site, s)) continue;
    others += needed ? 0 : 1;
    all.push_back(sort.height());
  }
  std::sort(all.begin(), all.end());
  all.erase(std::unique(all.begin(), all.end()), all.end());
  return all;
}

/// Whether anything that is left goes over a shelf with this surface.
bool Decking::fits_over(Length under) const {
  for (int s = 0; s < count_of(now_->supply.left); ++s) {
    if (at(now_->supply.left, s) > 0 && under + at(job_->sorts, s).height() < lid(kiln()))
      return true;
  }
  return false;
}

std::vector<Decking::Deck> Decking::decks(const Site& site, Length top) const {
  std::vector<Deck> all;
  for (const Length height : heights(site, top)) {
    for (const PostHeight& posts : job_->heights) {
      if (posts.height < height + job_->clearances.air || !fits_over(top + posts.height)) continue;
      Shed shed = now_->shed;
      if (!shed.take(posts, count_of(site.posts))) continue;
      const bool known = !all.empty() && all.back().posts == &posts;
      if (!known) all.push_back({top + posts.height, &posts, {}, 0});
      break;
    }
  }
  all.push_back({lid(kiln()), nullptr, {}, 0});
  return all;
}

double Decking::mass_left() const {
  double left = most_in_load_kg(kiln());
  for (const Level& level : now_->load.levels) left -= mass_on(level);
  return left;
}

/// What only bridges take comes first.
Supply Decking::priced() const {
  Supply supply = now_->supply;
  for (int s = 0; s < count_of(supply.left); ++s) {
    if (at(job_->needs_bridge, s) != 0) at(supply.price, s) *= kOnlyThere;
  }
  return supply;
}

void Decking::fill_deck(const Site& site, Length top, int number, Care care, Deck& deck) const {
  std::vector<PlacedPost> posts;
  if (deck.posts != nullptr) {
    Shed shed = now_->shed;
    posts = standing_posts(site.posts, *shed.take(*deck.posts, count_of(site.posts)));
  }
  Room room = room_on(*job_, site, top, deck.ceiling, posts);
  room.level = number;
  room.round = round_;
  room.most_kg = std::min(room.most_kg, mass_left());
  Filled filled = fill(*job_, priced(), room, care);
  if (filled.worth > deck.filled.worth) deck.filled = std::move(filled);
  deck.score = deck.filled.worth;
  // It takes height in every column that it lies over.
  if (any_over(site, deck.filled)) deck.score -= count_of(over(site)) * (deck.ceiling - top).mm();
}

/// Whether anything is left that may stand over it: what needs a larger shelf only where there is
/// another.
bool Decking::any_over(const Site& site, const Filled& filled) const {
  const auto& sites = at(job_->bridges, site.bridge);
  const bool another = std::any_of(sites.begin(), sites.end(), [&](const Site& one) {
    return bridge_is_usable(*job_, one) &&
           now_->shed.shelves(one.shelf) > (one.shelf == site.shelf ? 1 : 0);
  });
  Supply after = now_->supply;
  take_off(*job_, filled, after);
  for (int s = 0; s < count_of(after.left); ++s) {
    if (at(after.left, s) > 0 && (another || at(job_->needs_bridge, s) == 0)) return true;
  }
  return false;
}

bool Decking::lay(const Site& site, Length under, int number) {
  const Length top = under + thickness(site);
  if (!may_lie(site, under)) return false;
  std::vector<Deck> all = decks(site, top);
  const bool needed = any_needs(*job_, now_->supply);
  Deck* best = nullptr;
  for (Deck& deck : all) {
    fill_deck(site, top, number, Care{0, 0, recipe_->care.memory}, deck);
    const bool any = std::any_of(
        deck.filled.set.begin(), deck.filled.set.end(),
        [&](const Standing& one) { return !needed || at(job_->needs_bridge, one.sort) != 0; });
    if (any && (best == nullptr || deck.score > best->score)) best = &deck;
  }
  if (best == nullptr) return false;
  if (recipe_->care.steps > 0) fill_deck(site, top, number, recipe_->care, *best);
  set(site, top, number, *best);
  return true;
}

void Decking::set(const Site& site, Length top, int number, const Deck& deck) {
  now_->shed.take_shelf(site.shelf);
  Level level;
  level.bridge = site.bridge;
  level.column = over(site).front();
  level.level = number;
  level.shelf = site.shelf;
  level.shelf_at = at(kiln().bridges, site.bridge).at;
  level.shelf_top = top;
  level.clear_height = deck.ceiling - top;
  if (deck.posts != nullptr) {
    level.posts = standing_posts(site.posts, *now_->shed.take(*deck.posts, count_of(site.posts)));
  }
  add_pieces(*job_, deck.filled, level);
  take_off(*job_, deck.filled, now_->supply);
  for (const int column : over(site)) at(now_->bases, column) = now_->load.levels.size();
  now_->load.levels.push_back(std::move(level));
}

}  // namespace placer::loading
