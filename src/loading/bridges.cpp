#include "loading/bridges.h"

#include <algorithm>
#include <cmath>

#include "loading/even.h"
#include "loading/index.h"
#include "loading/order.h"
#include "loading/pile.h"

namespace placer::loading {
namespace {

constexpr int kMostPlaces = 8;    // heights of the first bridge that are tried
constexpr int kMostOthers = 3;    // heights of level for what needs no bridge
constexpr double kOnlyThere = 8;  // times the price, of what stands on no other shelf

/// Whether any sort that needs a bridge is left.
bool any_needs(const Job& job, const Supply& supply) {
  for (int s = 0; s < count_of(supply.left); ++s) {
    if (at(supply.left, s) > 0 && at(job.needs_bridge, s) != 0) return true;
  }
  return false;
}

/// All that laying a shelf changes.
struct State {
  Shed shed;
  Supply supply;
  KilnLoad load;
  /// Of each column: the level, a bridge, on which it goes on; none: it has not begun.
  std::vector<std::optional<std::size_t>> bases;
};

/// What may lie over a bridge, one way.
struct Deck {
  Length ceiling;
  const PostHeight* posts = nullptr;  ///< none: it is open up to the lid
  Filled filled;
  double score = 0;
};

class Bridging {
 public:
  Bridging(const Job& job, const Recipe& recipe, int round, const Supply& supply,
           const KilnLoad& load)
      : job_{&job}, recipe_{&recipe}, round_{round}, now_{Shed{job.batch->kiln}, supply, load, {}} {
    now_.bases.resize(job.columns.size());
  }

  bool run() {
    if (!lay_first()) return false;
    for (int laid = 1; any_needs(*job_, now_.supply) || laid < recipe_->bridges; ++laid) {
      if (!lay_next()) break;
    }
    finish();
    return true;
  }

  State& state() { return now_; }

 private:
  const Kiln& kiln() const { return job_->batch->kiln; }
  const std::vector<int>& over(const Site& site) const {
    return at(kiln().bridges, site.bridge).over;
  }
  /// Whether one of the sort can stand there.
  bool takes(const Site& site, int sort) const {
    const auto place = &site - at(job_->bridges, site.bridge).data();
    const auto& of_site = at(recipe_->across->takes, site.bridge)[static_cast<std::size_t>(place)];
    return at(of_site, sort) != 0;
  }
  Length thickness(const Site& site) const { return at(kiln().shelves, site.shelf).thickness; }

  /// The bridges' shelves that may be laid next: those that take most of what needs one first.
  std::vector<const Site*> choices() const {
    std::vector<std::pair<int, const Site*>> all;
    for (const auto& sites : job_->bridges) {
      for (const Site& site : sites) {
        if (!bridge_is_usable(*job_, site) || now_.shed.shelves(site.shelf) == 0) continue;
        int most = 0;
        for (int s = 0; s < count_of(now_.supply.left); ++s) {
          if (at(now_.supply.left, s) == 0 || at(job_->needs_bridge, s) == 0) continue;
          most += takes(site, s) ? 1 : 0;
        }
        all.emplace_back(-most, &site);
      }
    }
    std::stable_sort(all.begin(), all.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<const Site*> sites;
    for (const auto& [takes, site] : all) sites.push_back(site);
    return sites;
  }

  /// The least height over the bridge that what is to stand there takes.
  Length least_room(const Site& site) const {
    Length least;
    bool any = false;
    for (const bool needed : {true, false}) {
      for (int s = 0; s < count_of(now_.supply.left) && !any; ++s) {
        if (at(now_.supply.left, s) == 0 || (at(job_->needs_bridge, s) != 0) != needed) continue;
        if (!takes(site, s)) continue;
        least = at(job_->sorts, s).height();
        any = true;
      }
    }
    return least;
  }

  bool lay_first() {
    for (const Site* site : choices()) {
      if (recipe_->bridge_at > 0 && lay_best(*site)) return true;
      if (lay_low(*site)) return true;
    }
    return false;
  }

  /// As low as can be.
  bool lay_low(const Site& site) {
    const State before = now_;
    for (const Length under : low(site)) {
      if (from_floor(site, under, false)) return true;
      now_ = before;
    }
    return false;
  }

  /// Over shelves of the columns: of the heights near to where it is wanted, the one that wastes
  /// least.
  bool lay_best(const Site& site) {
    const State before = now_;
    const double all = worth_of(*job_, before.supply.left);
    std::optional<State> best;
    Length best_under;
    double most = 0;
    const Reaches& reach = at(recipe_->across->reaches, over(site).front());
    const Recipe* careful = recipe_;
    Recipe rough = *recipe_;
    rough.care.steps = 0;
    recipe_ = &rough;
    for (const Length under : high_places(site, reach)) {
      now_ = before;
      if (!from_floor(site, under, true)) continue;
      const Level& level = now_.load.levels.back();
      const Length taken = level.shelf_top + level.clear_height;
      const double score =
          all - worth_of(*job_, now_.supply.left) - count_of(over(site)) * taken.mm();
      if (best && score <= most) continue;
      most = score;
      best = now_;
      best_under = under;
    }
    recipe_ = careful;
    now_ = before;
    if (!best) return false;
    if (recipe_->care.steps == 0 || !from_floor(site, best_under, true)) now_ = std::move(*best);
    return true;
  }

  /// On the bridge laid last, or from the floor in columns that have none yet.
  bool lay_next() {
    for (const Site* site : choices()) {
      const State before = now_;
      const auto& base = at(now_.bases, over(*site).front());
      const bool alike = std::all_of(over(*site).begin(), over(*site).end(),
                                     [&](int column) { return at(now_.bases, column) == base; });
      if (!alike) continue;
      if (base) {
        const Level& below = now_.load.levels.at(*base);
        if (over(*site) != at(kiln().bridges, below.bridge).over || below.posts.empty()) continue;
        if (deck(*site, below.shelf_top + below.clear_height, below.level + 1)) return true;
      } else {
        if (lay_low(*site)) return true;
      }
      now_ = before;
    }
    return false;
  }

  bool may_lie(const Site& site, Length under) const {
    const Length top = under + thickness(site);
    return shelf_is_free(kiln(), site, top) && top + least_room(site) <= lid(kiln());
  }

  /// On posts alone that stand on the floor.
  std::vector<Length> low(const Site& site) const {
    std::vector<Length> places;
    for (const PostHeight& height : job_->heights) {
      if (height.height < kiln().first_shelf || !may_lie(site, height.height)) continue;
      Shed shed = now_.shed;
      if (!shed.take(height, count_of(site.posts))) continue;
      places.push_back(height.height);
      if (count_of(places) == kMostPlaces) break;
    }
    return places;
  }

  /// Heights that all its columns can be raised to, the nearest to where it is wanted first.
  std::vector<Length> high_places(const Site& site, const Reaches& all) const {
    std::vector<double> places;
    for (const double z : all) {
      if (may_lie(site, Length::from_mm(z))) places.push_back(z);
    }
    if (places.empty()) return {};
    const double wanted = places.front() + recipe_->bridge_at * (places.back() - places.front());
    std::stable_sort(places.begin(), places.end(), [&](double a, double b) {
      return std::abs(a - wanted) < std::abs(b - wanted);
    });
    std::vector<Length> nearest;
    for (const double z : places) {
      nearest.push_back(Length::from_mm(z));
      if (count_of(nearest) == kMostPlaces) break;
    }
    return nearest;
  }

  /// @param high on shelves of the columns where it can be; else on posts alone.
  bool from_floor(const Site& site, Length under, bool high) {
    int below = 0;
    for (const int column : over(site)) {
      Pile pile{*job_, *recipe_, column, now_.shed, now_.supply, now_.load};
      const bool stands =
          high ? pile.raise_to(under, at(recipe_->across->reaches, column)) : pile.bare_to(under);
      if (!stands) return false;
      below = std::max(below, pile.levels());
    }
    return deck(site, under, below + 1);
  }

  /// The heights of level that are tried, rising.
  std::vector<Length> heights(const Site& site, Length top) const {
    std::vector<Length> all;
    int others = 0;
    for (int s = 0; s < count_of(now_.supply.left); ++s) {
      const Sort& sort = at(job_->sorts, s);
      const bool needed = at(job_->needs_bridge, s) != 0;
      if (at(now_.supply.left, s) == 0 || top + sort.height() > lid(kiln())) continue;
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
  bool fits_over(Length under) const {
    for (int s = 0; s < count_of(now_.supply.left); ++s) {
      if (at(now_.supply.left, s) > 0 && under + at(job_->sorts, s).height() < lid(kiln()))
        return true;
    }
    return false;
  }

  std::vector<Deck> decks(const Site& site, Length top) const {
    std::vector<Deck> all;
    for (const Length height : heights(site, top)) {
      for (const PostHeight& posts : job_->heights) {
        if (posts.height < height + job_->clearances.air || !fits_over(top + posts.height))
          continue;
        Shed shed = now_.shed;
        if (!shed.take(posts, count_of(site.posts))) continue;
        const bool known = !all.empty() && all.back().posts == &posts;
        if (!known) all.push_back({top + posts.height, &posts, {}, 0});
        break;
      }
    }
    all.push_back({lid(kiln()), nullptr, {}, 0});
    return all;
  }

  double mass_left() const {
    double left = most_in_load_kg(kiln());
    for (const Level& level : now_.load.levels) left -= mass_on(level);
    return left;
  }

  /// What only bridges take comes first.
  Supply priced() const {
    Supply supply = now_.supply;
    for (int s = 0; s < count_of(supply.left); ++s) {
      if (at(job_->needs_bridge, s) != 0) at(supply.price, s) *= kOnlyThere;
    }
    return supply;
  }

  void fill_deck(const Site& site, Length top, int number, Care care, Deck& deck) const {
    std::vector<PlacedPost> posts;
    if (deck.posts != nullptr) {
      Shed shed = now_.shed;
      posts = standing_posts(site.posts, *shed.take(*deck.posts, count_of(site.posts)));
    }
    Room room = room_on(*job_, site, top, deck.ceiling, posts);
    room.level = number;
    room.round = round_;
    room.most_kg = std::min(room.most_kg, mass_left());
    Filled filled = fill(*job_, priced(), room, care);
    if (filled.worth > deck.filled.worth) deck.filled = std::move(filled);
    // It takes height in every column that it lies over.
    deck.score = deck.filled.worth - count_of(over(site)) * (deck.ceiling - top).mm();
  }

  /// Lays the shelf on the posts that end there and sets what stands on it. False when nothing
  /// does.
  bool deck(const Site& site, Length under, int number) {
    const Length top = under + thickness(site);
    if (!may_lie(site, under)) return false;
    std::vector<Deck> all = decks(site, top);
    const bool needed = any_needs(*job_, now_.supply);
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

  void set(const Site& site, Length top, int number, const Deck& deck) {
    now_.shed.take_shelf(site.shelf);
    Level level;
    level.bridge = site.bridge;
    level.column = over(site).front();
    level.level = number;
    level.shelf = site.shelf;
    level.shelf_at = at(kiln().bridges, site.bridge).at;
    level.shelf_top = top;
    level.clear_height = deck.ceiling - top;
    if (deck.posts != nullptr) {
      level.posts = standing_posts(site.posts, *now_.shed.take(*deck.posts, count_of(site.posts)));
    }
    add_pieces(*job_, deck.filled, level);
    take_off(*job_, deck.filled, now_.supply);
    for (const int column : over(site)) at(now_.bases, column) = now_.load.levels.size();
    now_.load.levels.push_back(std::move(level));
  }

  /// The column's posts on the bridge.
  std::vector<PlacedPost> feet_of(int column, const Level& bridge) const {
    const Site* site = usual_site(*job_, column);
    std::vector<PlacedPost> feet;
    for (const PlacedPost& post : bridge.posts) {
      const bool own = site != nullptr && std::find(site->posts.begin(), site->posts.end(),
                                                    post.at) != site->posts.end();
      if (own) feet.push_back(post);
    }
    return feet;
  }

  /// The columns over the bridges, and those beside them.
  void finish() {
    std::vector<Pile> piles;
    const int columns = count_of(job_->columns);
    piles.reserve(job_->columns.size());
    for (int i = 0; i < columns; ++i) {
      const int c = (i + recipe_->first_column) % columns;
      piles.emplace_back(*job_, *recipe_, c, now_.shed, now_.supply, now_.load);
      const auto& base = at(now_.bases, c);
      if (base) piles.back().stand_on(*base, feet_of(c, now_.load.levels.at(*base)));
    }
    std::vector<Pile*> order;
    for (Pile& pile : piles) order.push_back(&pile);
    raise(order, recipe_->in_turn);
  }

  const Job* job_;
  const Recipe* recipe_;
  int round_;
  State now_;
};

}  // namespace

bool wants_bridge(const Job& job, const Recipe& recipe, const Supply& supply) {
  return recipe.across != nullptr && !job.bridges.empty() &&
         (recipe.bridges > 0 || any_needs(job, supply));
}

bool set_bridged_load(const Job& job, const Recipe& recipe, int round, Supply& supply,
                      KilnLoad& load) {
  Bridging bridging{job, recipe, round, supply, load};
  if (!bridging.run()) return false;
  supply = std::move(bridging.state().supply);
  load = std::move(bridging.state().load);
  weigh(*job.batch, load);
  return true;
}

}  // namespace placer::loading
