#include "loading/bridges.h"

#include <algorithm>
#include <cmath>

#include "loading/bridge_deck.h"
#include "loading/index.h"
#include "loading/order.h"
#include "loading/pile.h"

namespace placer::loading {
namespace {

constexpr std::size_t kMostFirsts = 6;  // shelves across that are tried as the first one
constexpr int kMostPlaces = 8;          // heights of the first bridge that are tried

class Bridging {
 public:
  Bridging(const Job& job, const Recipe& recipe, int round, const Supply& supply,
           const KilnLoad& load)
      : job_{&job}, recipe_{&recipe}, round_{round}, now_{Shed{job.batch->kiln}, supply, load, {}} {
    now_.bases.resize(job.columns.size());
  }

  bool run() {
    if (!lay_best_first()) return false;
    finish();
    return true;
  }

  Laid& state() { return now_; }

 private:
  const Kiln& kiln() const { return job_->batch->kiln; }
  const std::vector<int>& over(const Site& site) const {
    return at(kiln().bridges, site.bridge).over;
  }
  Decking decking() { return {*job_, *recipe_, round_, now_}; }

  /// The bridges' shelves that may be laid next: those that take most of what needs one first.
  std::vector<const Site*> choices() {
    std::vector<std::pair<int, const Site*>> all;
    for (const auto& sites : job_->bridges) {
      for (const Site& site : sites) {
        if (!bridge_is_usable(*job_, site) || now_.shed.shelves(site.shelf) == 0) continue;
        int most = 0;
        for (int s = 0; s < count_of(now_.supply.left); ++s) {
          if (at(now_.supply.left, s) == 0 || at(job_->needs_bridge, s) == 0) continue;
          most += decking().takes(site, s) ? 1 : 0;
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

  /// Which of the larger shelves comes first decides what else goes in: each is tried.
  bool lay_best_first() {
    std::vector<const Site*> firsts = choices();
    if (firsts.size() > kMostFirsts) firsts.resize(kMostFirsts);
    if (firsts.size() == 1) return lay_all(*firsts.front());
    const Laid before = now_;
    std::optional<Laid> best;
    const Site* best_first = nullptr;
    std::pair<double, double> most;
    const Recipe* careful = recipe_;
    Recipe rough = *recipe_;
    rough.care.steps = 0;
    recipe_ = &rough;
    for (const Site* first : firsts) {
      now_ = before;
      if (!lay_all(*first)) continue;
      const auto worth = worth_laid(before.supply);
      if (best && worth <= most) continue;
      most = worth;
      best = now_;
      best_first = first;
    }
    recipe_ = careful;
    now_ = before;
    if (!best) return false;
    if (recipe_->care.steps == 0 || !lay_all(*best_first)) now_ = std::move(*best);
    return true;
  }

  /// Of what is set so far: what only bridges take, which decides how many loads it takes; and the
  /// rest, less the height that is taken for both.
  std::pair<double, double> worth_laid(const Supply& all) const {
    double only_there = 0;
    double rest = 0;
    for (int s = 0; s < count_of(all.left); ++s) {
      const double set = (at(all.left, s) - at(now_.supply.left, s)) * at(job_->worth, s);
      (at(job_->needs_bridge, s) != 0 ? only_there : rest) += set;
    }
    for (const auto& base : now_.bases) {
      if (!base) continue;
      const Level& last = now_.load.levels.at(*base);
      rest -= (last.shelf_top + last.clear_height).mm();
    }
    return {only_there, rest};
  }

  bool lay_all(const Site& first) {
    if (!lay_first(first)) return false;
    for (int laid = 1; any_needs(*job_, now_.supply) || laid < recipe_->bridges; ++laid) {
      if (!lay_next()) break;
    }
    return true;
  }

  bool lay_first(const Site& site) {
    const Laid before = now_;
    if (recipe_->bridge_at <= 0 || !lay_best(site)) return lay_low(site);
    const bool lifts_only = std::all_of(now_.load.levels.begin(), now_.load.levels.end() - 1,
                                        [](const Level& level) { return level.pieces.empty(); });
    if (!lifts_only) return true;
    // With nothing under it, it need not lie so high.
    Laid high = std::move(now_);
    now_ = before;
    if (lay_low(site) &&
        worth_of(*job_, now_.supply.left) <= worth_of(*job_, high.supply.left) + 1e-9)
      return true;
    now_ = std::move(high);
    return true;
  }

  /// As low as can be.
  bool lay_low(const Site& site) {
    const Laid before = now_;
    for (const Length under : low(site)) {
      if (from_floor(site, under, false)) return true;
      now_ = before;
    }
    return false;
  }

  /// Over shelves of the columns: of the heights near to where it is wanted, the one that wastes
  /// least.
  bool lay_best(const Site& site) {
    const Laid before = now_;
    const double all = worth_of(*job_, before.supply.left);
    std::optional<Laid> best;
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
      const Laid before = now_;
      const auto& base = at(now_.bases, over(*site).front());
      const bool alike = std::all_of(over(*site).begin(), over(*site).end(),
                                     [&](int column) { return at(now_.bases, column) == base; });
      if (!alike) continue;
      if (base) {
        const Level& below = now_.load.levels.at(*base);
        if (over(*site) != at(kiln().bridges, below.bridge).over || below.posts.empty()) continue;
        if (decking().lay(*site, below.shelf_top + below.clear_height, below.level + 1))
          return true;
      } else {
        if (lay_low(*site)) return true;
      }
      now_ = before;
    }
    return false;
  }

  /// On posts alone that stand on the floor.
  std::vector<Length> low(const Site& site) {
    std::vector<Length> places;
    for (const PostHeight& height : job_->heights) {
      if (height.height < kiln().first_shelf || !decking().may_lie(site, height.height)) continue;
      Shed shed = now_.shed;
      if (!shed.take(height, count_of(site.posts))) continue;
      places.push_back(height.height);
      if (count_of(places) == kMostPlaces) break;
    }
    return places;
  }

  /// Heights that all its columns can be raised to, the nearest to where it is wanted first.
  std::vector<Length> high_places(const Site& site, const Reaches& all) {
    std::vector<double> places;
    for (const double z : all) {
      if (decking().may_lie(site, Length::from_mm(z))) places.push_back(z);
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
    return decking().lay(site, under, below + 1);
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
  Laid now_;
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
