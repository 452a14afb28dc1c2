#include "loading/stow.h"

#include <algorithm>
#include <numeric>

#include "loading/index.h"
#include "loading/order.h"
#include "loading/pile.h"
#include "placer/base/random.h"

namespace placer::loading {
namespace {

constexpr double kSure = 1e-6;  // mm
constexpr double kScarce = 60;  // mm that a post is worth when it is the last of its kind
constexpr int kOrders = 24;     // orders of the tiers that are tried
constexpr int kExchanges = 40;  // in one of them

/// Posts between two shelves, or under the lowest one.
struct Raised {
  const PostHeight* height = nullptr;
  std::vector<Parts> parts;
};

/// One column of one load while it is put together.
struct Stack {
  std::vector<int> tiers;     ///< from the bottom up when the load is done
  std::vector<Raised> posts;  ///< on each but the last
  Raised floor;
};

/// A load with its furniture.
struct Hold {
  std::vector<Stack> stacks;  ///< of each column
};

class Stowing {
 public:
  Stowing(const Job& job, const std::vector<Tier>& tiers) : job_{&job}, tiers_{&tiers} {}

  std::optional<std::vector<KilnLoad>> run(int most) {
    if (!room_for_all(most)) return std::nullopt;
    for (int number = 0; number < kOrders; ++number) {
      if (!put_all(order(number), most, static_cast<Into>(number % 3))) continue;
      std::vector<KilnLoad> loads;
      for (std::size_t i = 0; i < holds_.size(); ++i) {
        loads.push_back(built(holds_[i], static_cast<int>(i) + 1));
      }
      return loads;
    }
    return std::nullopt;
  }

 private:
  const Kiln& kiln() const { return job_->batch->kiln; }
  const Tier& tier(int t) const { return at(*tiers_, t); }
  double thick(int t) const { return at(kiln().shelves, tier(t).site->shelf).thickness.mm(); }
  double need(int t) const { return (tier(t).tallest + job_->clearances.air).mm(); }

  /// What the posts on a tier measure at least; nullopt when none are so long.
  std::optional<double> least_posts(double least) const {
    for (const PostHeight& posts : job_->heights) {
      if (posts.height.mm() >= least - kSure) return posts.height.mm();
    }
    return std::nullopt;
  }

  /// Whether there are shelves and height enough in so many loads, however they are stowed.
  bool room_for_all(int most) const {
    std::vector<int> shelves(kiln().shelves.size());
    std::vector<double> height(job_->columns.size());
    std::vector<int> open(job_->columns.size());
    for (int t = 0; t < count_of(*tiers_); ++t) {
      ++at(shelves, tier(t).site->shelf);
      at(height, tier(t).site->column) += thick(t) + need(t);
      if (tier(t).open && ++at(open, tier(t).site->column) > most) return false;
    }
    for (int i = 0; i < count_of(shelves); ++i) {
      if (at(shelves, i) > most * at(kiln().shelves, i).have) return false;
    }
    // What stands at the top of a column needs no air over it that is not there already.
    const double column =
        (lid(kiln()) - std::max(Length{}, kiln().first_shelf) + job_->clearances.air).mm();
    return std::all_of(height.begin(), height.end(),
                       [&](double used) { return used <= most * column + kSure; });
  }

  /// Those that need a top first, then the tallest; in later orders some are moved about.
  std::vector<int> order(int number) const {
    std::vector<int> order(tiers_->size());
    std::iota(order.begin(), order.end(), 0);
    std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
      return std::pair(tier(a).open, tier(a).tallest) > std::pair(tier(b).open, tier(b).tallest);
    });
    Random random{static_cast<std::uint64_t>(number) * 977 + 5};
    for (int i = 0; number > 1 && i + 1 < count_of(order); ++i) {
      if (random.below(4) == 0) std::swap(at(order, i), at(order, i + 1));
    }
    return order;
  }

  /// Which load a tier goes into: the one with the most room, the least, or the first that takes
  /// it.
  enum class Into { emptiest, first, fullest };

  bool put_all(const std::vector<int>& order, int most, Into into) {
    holds_.clear();
    Hold empty;
    empty.stacks.resize(job_->columns.size());
    if (into == Into::emptiest && most <= count_of(order)) {
      holds_.assign(static_cast<std::size_t>(most), empty);
    }
    int exchanges = kExchanges;
    for (const int t : order) {
      if (!put_or_exchange(t, most, into, exchanges)) return false;
    }
    holds_.erase(std::remove_if(holds_.begin(), holds_.end(),
                                [](const Hold& hold) {
                                  return std::all_of(
                                      hold.stacks.begin(), hold.stacks.end(),
                                      [](const Stack& stack) { return stack.tiers.empty(); });
                                }),
                 holds_.end());
    return true;
  }

  /// Where a tier finds no room, it takes the place of a lower one, which then looks for another.
  bool put_or_exchange(int t, int most, Into into, int& exchanges) {
    while (!put(t, most, into)) {
      if (exchanges-- <= 0) return false;
      const int lower = exchange(t);
      if (lower < 0) return false;
      t = lower;
    }
    return true;
  }

  /// The lowest tier that this one can take the place of; -1: there is none.
  int exchange(int t) {
    int out = -1;
    Hold* where = nullptr;
    Hold changed;
    for (Hold& hold : holds_) {
      const auto& tiers = at(hold.stacks, tier(t).site->column).tiers;
      for (int i = 0; i < count_of(tiers); ++i) {
        const int other = at(tiers, i);
        if (tier(other).tallest >= tier(out < 0 ? t : out).tallest) continue;
        Hold tried = hold;
        at(at(tried.stacks, tier(t).site->column).tiers, i) = t;
        if (!furnish(tried, tier(t).site->column)) continue;
        out = other;
        where = &hold;
        changed = std::move(tried);
      }
    }
    if (out >= 0) *where = std::move(changed);
    return out;
  }

  bool put(int t, int most, Into into) {
    int best = -1;
    double least = 1e18;
    Hold chosen;
    for (int i = 0; i < count_of(holds_); ++i) {
      Hold tried = at(holds_, i);
      at(tried.stacks, tier(t).site->column).tiers.push_back(t);
      const auto left = furnish(tried, tier(t).site->column);
      if (!left) continue;
      const double rank = into == Into::emptiest ? -*left : *left;
      if (rank >= least) continue;
      best = i;
      least = rank;
      chosen = std::move(tried);
      if (into == Into::first) break;
    }
    if (best >= 0) {
      at(holds_, best) = std::move(chosen);
      return true;
    }
    if (count_of(holds_) >= most) return false;
    Hold fresh;
    fresh.stacks.resize(job_->columns.size());
    at(fresh.stacks, tier(t).site->column).tiers.push_back(t);
    if (!furnish(fresh, tier(t).site->column)) return false;
    holds_.push_back(std::move(fresh));
    return true;
  }

  /// Orders the tiers of each stack, finds posts for all; the height left in a column, or nullopt.
  std::optional<double> furnish(Hold& hold, int column) const {
    std::vector<int> shelves(kiln().shelves.size());
    for (const Stack& stack : hold.stacks) {
      for (const int t : stack.tiers) {
        if (++at(shelves, tier(t).site->shelf) > at(kiln().shelves, tier(t).site->shelf).have)
          return std::nullopt;
      }
    }
    if (ware(hold) > most_in_load_kg(kiln()) + kMassRounding) return std::nullopt;
    for (const bool frugal : {false, true}) {
      for (const bool tall_on_top : {false, true}) {
        Hold tried = hold;
        if (!raise(tried, frugal, tall_on_top)) continue;
        hold = std::move(tried);
        return room_left(at(hold.stacks, column));
      }
    }
    return std::nullopt;
  }

  double ware(const Hold& hold) const {
    double kg = 0;
    for (const Stack& stack : hold.stacks) {
      for (const int t : stack.tiers) kg += mass_of(*job_, tier(t).filled);
    }
    return kg;
  }

  /// One that has no room for posts goes on top; or the tier that saves most by going up to the
  /// lid, or the tallest. False when two of them must.
  bool choose_top(Stack& stack, bool tallest) const {
    const auto open = [&](int t) { return tier(t).open; };
    const auto must = std::find_if(stack.tiers.begin(), stack.tiers.end(), open);
    if (must != stack.tiers.end()) {
      if (std::any_of(must + 1, stack.tiers.end(), open)) return false;
      std::rotate(must, must + 1, stack.tiers.end());
      return true;
    }
    const auto saves = [&](int t) {
      if (tallest) return tier(t).tallest.mm();
      return least_posts(need(t)).value_or(1e9) - tier(t).tallest.mm();
    };
    const auto top = std::max_element(stack.tiers.begin(), stack.tiers.end(),
                                      [&](int a, int b) { return saves(a) < saves(b); });
    if (top != stack.tiers.end()) std::rotate(top, top + 1, stack.tiers.end());
    return true;
  }

  double room_left(const Stack& stack) const {
    double used = stack.floor.height != nullptr ? stack.floor.height->height.mm() : 0;
    for (std::size_t i = 0; i < stack.tiers.size(); ++i) {
      used += thick(stack.tiers[i]);
      used += i < stack.posts.size() ? stack.posts[i].height->height.mm()
                                     : tier(stack.tiers[i]).tallest.mm();
    }
    return lid(kiln()).mm() - used;
  }

  bool raise(Hold& hold, bool frugal, bool tall_on_top) const {
    Shed shed{kiln()};
    struct Place {
      Stack* stack;
      int i;  ///< -1: under the lowest shelf
      double least;
    };
    std::vector<Place> places;
    std::vector<double> spare;
    for (Stack& stack : hold.stacks) {
      stack.posts.clear();
      stack.floor = {};
      if (stack.tiers.empty()) continue;
      if (!choose_top(stack, tall_on_top)) return false;
      stack.posts.resize(stack.tiers.size() - 1);
      if (kiln().first_shelf > Length{}) places.push_back({&stack, -1, kiln().first_shelf.mm()});
      for (int i = 0; i + 1 < count_of(stack.tiers); ++i) {
        places.push_back({&stack, i, need(at(stack.tiers, i))});
      }
    }
    std::stable_sort(places.begin(), places.end(),
                     [](const Place& a, const Place& b) { return a.least > b.least; });
    for (const Place& place : places) {
      const int posts = count_of(tier(place.stack->tiers.front()).site->posts);
      const auto raised = posts_for(place.least, posts, frugal, shed);
      if (!raised) return false;
      (place.i < 0 ? place.stack->floor : at(place.stack->posts, place.i)) = *raised;
    }
    return std::all_of(hold.stacks.begin(), hold.stacks.end(), [&](const Stack& stack) {
      return stack.tiers.empty() || room_left(stack) >= -kSure;
    });
  }

  /// The shortest posts that are long enough; when frugal, a little longer ones of parts that are
  /// plentiful.
  std::optional<Raised> posts_for(double least, int posts, bool frugal, Shed& shed) const {
    std::optional<Raised> best;
    double lowest = 0;
    for (const PostHeight& height : job_->heights) {
      if (height.height.mm() < least - kSure) continue;
      if (best && height.height.mm() >= lowest) break;
      for (std::size_t w = 0; w < height.ways.size() && (frugal || w == 0); ++w) {
        const PostHeight one{height.height,
                             frugal ? std::vector<Parts>{height.ways[w]} : height.ways};
        double cost = height.height.mm();
        if (frugal) {
          for (const Parts& parts : one.ways) {
            for (const int part : parts) cost += kScarce * posts / std::max(1, shed.posts(part));
          }
        }
        if (best && cost >= lowest) continue;
        const auto parts = shed.take(one, posts);
        if (!parts) continue;
        shed.put_back(*parts);
        best = Raised{&height, *parts};
        lowest = cost;
      }
      if (best && !frugal) break;
    }
    if (best) {
      for (const Parts& parts : best->parts) shed.use(parts);
    }
    return best;
  }

  KilnLoad built(const Hold& hold, int round) const {
    KilnLoad load;
    load.load = job_->load;
    load.round = round;
    for (const Stack& stack : hold.stacks) {
      if (stack.tiers.empty()) continue;
      const Site& site = *tier(stack.tiers.front()).site;
      Length under;
      if (stack.floor.height != nullptr) {
        under = stack.floor.height->height;
        const auto posts = standing_posts(site.posts, stack.floor.parts);
        load.floor_posts.insert(load.floor_posts.end(), posts.begin(), posts.end());
      }
      for (int i = 0; i < count_of(stack.tiers); ++i) {
        load.levels.push_back(level_of(stack, i, under));
        under = load.levels.back().shelf_top + load.levels.back().clear_height;
      }
    }
    weigh(*job_->batch, load);
    return load;
  }

  Level level_of(const Stack& stack, int i, Length under) const {
    const Tier& here = tier(at(stack.tiers, i));
    Level level;
    level.column = here.site->column;
    level.level = i + 1;
    level.shelf = here.site->shelf;
    level.shelf_at = at(kiln().columns, level.column).at;
    level.shelf_top = under + at(kiln().shelves, level.shelf).thickness;
    level.clear_height = lid(kiln()) - level.shelf_top;
    if (i < count_of(stack.posts)) {
      level.clear_height = at(stack.posts, i).height->height;
      level.posts = standing_posts(here.site->posts, at(stack.posts, i).parts);
    }
    add_pieces(*job_, here.filled, level);
    return level;
  }

  const Job* job_;
  const std::vector<Tier>* tiers_;
  std::vector<Hold> holds_;
};

}  // namespace

std::optional<std::vector<KilnLoad>> stow(const Job& job, const std::vector<Tier>& tiers,
                                          int most) {
  return Stowing{job, tiers}.run(most);
}

}  // namespace placer::loading
