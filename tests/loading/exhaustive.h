/// @file exhaustive.h
/// The best plan of a small load by looking at every one: every pile of shelves that the posts
/// make, every count of pieces that a shelf holds, every way to share the pieces among firings.
/// Knows nothing of packing or loading.
#pragma once

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <utility>
#include <vector>

#include "loading/small_loads.h"

namespace placer::small_loads {

struct Best {
  int firings = 0;
  int shelves = 0;
  bool operator==(const Best&) const = default;
};

using Counts = std::vector<int>;  ///< one number a kind, of pieces or of posts

inline bool covers(const Counts& a, const Counts& b) {
  for (std::size_t i = 0; i < a.size(); ++i) {
    if (a[i] < b[i]) return false;
  }
  return true;
}

inline Counts sum(const Counts& a, const Counts& b, const Counts& most) {
  Counts total = a;
  for (std::size_t i = 0; i < a.size(); ++i) total[i] = std::min(a[i] + b[i], most[i]);
  return total;
}

/// Only what nothing else covers.
inline std::vector<Counts> fullest(std::vector<Counts> all) {
  std::sort(all.begin(), all.end(), std::greater<>{});
  all.erase(std::unique(all.begin(), all.end()), all.end());
  std::vector<Counts> kept;
  for (Counts& one : all) {
    const bool covered = std::any_of(kept.begin(), kept.end(),
                                     [&](const Counts& other) { return covers(other, one); });
    if (!covered) kept.push_back(std::move(one));
  }
  return kept;
}

class Exhaustive {
 public:
  explicit Exhaustive(const Small& small) : small_{small} {
    for (const PieceKind& piece : small.batch.pieces) count_.push_back(piece.count);
    for (const PostKind& post : kiln().posts) posts_.push_back(post.have);
    tall_ = small.tall;
    std::sort(tall_.begin(), tall_.end());
    tall_.erase(std::unique(tall_.begin(), tall_.end()), tall_.end());
    find_post_heights();
  }

  /// nullopt when some piece can stand in no load.
  std::optional<Best> best() {
    find_loads();
    return share();
  }

 private:
  using Length = long long;  // thousandths of a mm
  /// Posts under one shelf: their height, and how many of each kind the three take.
  struct Posts {
    Length height = 0;
    Counts used;
  };
  /// The levels of a load: of each, the tallest class of pieces that it takes; on top or not.
  struct Shape {
    Counts between, top;  // how many of each class
    bool operator<(const Shape& other) const {
      return std::tie(between, top) < std::tie(other.between, other.top);
    }
  };
  struct Column {
    Shape shape;
    Counts used;
    int shelves = 0;
  };
  struct OneLoad {
    Counts holds;
    int shelves = 0;
  };

  const Kiln& kiln() const { return small_.batch.kiln; }
  Length lid() const { return thousandths((kiln().height - kiln().under_lid).mm()); }
  Length thick() const { return thousandths(kiln().shelves[0].thickness.mm()); }
  Length air() const {
    return thousandths(clearances(small_.batch.rules, small_.batch.loads[0].kind).air.mm());
  }
  /// The tallest class that a clear height takes, -1 when none.
  int class_under(Length clear) const {
    return static_cast<int>(std::upper_bound(tall_.begin(), tall_.end(), clear) - tall_.begin()) -
           1;
  }

  void find_post_heights() {
    std::map<Length, std::vector<Counts>> ways;  // one post of up to three parts
    const std::size_t kinds = posts_.size();
    std::vector<std::vector<std::size_t>> stacks;
    for (std::size_t a = 0; a < kinds; ++a) {
      stacks.push_back({a});
      for (std::size_t b = a; b < kinds; ++b) {
        stacks.push_back({a, b});
        for (std::size_t c = b; c < kinds; ++c) stacks.push_back({a, b, c});
      }
    }
    for (const auto& stack : stacks) {
      Length height = 0;
      Counts parts(kinds);
      for (const std::size_t k : stack) {
        height += thousandths(kiln().posts[k].height.mm());
        ++parts[k];
      }
      ways[height].push_back(parts);
    }
    for (const auto& [height, of] : ways) {
      std::set<Counts> three;
      for (const Counts& a : of) {
        for (const Counts& b : of) {
          for (const Counts& c : of) {
            Counts used(kinds);
            for (std::size_t k = 0; k < kinds; ++k) used[k] = a[k] + b[k] + c[k];
            if (covers(posts_, used)) three.insert(used);
          }
        }
      }
      for (const Counts& used : three) heights_.push_back({height, used});
    }
  }

  void find_columns(std::size_t from, Length top, Column column, std::vector<Column>& all) {
    // `top` is the surface of the shelf laid last; it is the top shelf, or carries posts.
    const int open = class_under(lid() - top);
    if (open >= 0) {
      Column whole = column;
      ++whole.shape.top[static_cast<std::size_t>(open)];
      all.push_back(whole);
    }
    if (column.shelves == kiln().shelves[0].have) return;
    for (std::size_t i = from; i < heights_.size(); ++i) {
      const int here = class_under(heights_[i].height - air());
      const Length next = top + heights_[i].height + thick();
      if (here < 0 || next > lid()) continue;
      Column more = column;
      for (std::size_t k = 0; k < posts_.size(); ++k) more.used[k] += heights_[i].used[k];
      if (!covers(posts_, more.used)) continue;
      ++more.shelves;
      ++more.shape.between[static_cast<std::size_t>(here)];
      find_columns(i, next, more, all);
    }
  }

  std::vector<Column> columns() {
    const Counts no_class(tall_.size());
    const Column first{{no_class, no_class}, Counts(posts_.size()), 1};
    std::vector<Column> all;
    const Length asked = thousandths(kiln().first_shelf.mm());
    if (asked <= 0) {
      find_columns(0, thick(), first, all);
      return all;
    }
    for (const Posts& feet : heights_) {
      if (feet.height < asked) continue;
      Column standing = first;
      standing.used = feet.used;
      find_columns(0, feet.height + thick(), standing, all);
    }
    return all;
  }

  /// What one row of this length holds of the kinds up to a class.
  void fill_row(std::size_t kind, Length free, int of_class, Counts& row,
                std::vector<Counts>& all) const {
    if (kind == count_.size()) {
      all.push_back(row);
      return;
    }
    const bool fits = small_.tall[kind] <= tall_[static_cast<std::size_t>(of_class)];
    for (int n = 0; n <= (fits ? count_[kind] : 0); ++n) {
      const Length rest = free - n * (small_.wide[kind] + small_.gap);
      if (rest < 0) break;
      row[kind] = n;
      fill_row(kind + 1, rest, of_class, row, all);
    }
    row[kind] = 0;
  }

  std::vector<Counts> added(const std::vector<Counts>& a, const std::vector<Counts>& b) const {
    std::vector<Counts> all;
    for (const Counts& one : a) {
      for (const Counts& other : b) all.push_back(sum(one, other, count_));
    }
    return fullest(std::move(all));
  }

  const std::vector<Counts>& level_holds(int of_class, bool top) {
    auto& holds = levels_[{of_class, top}];
    if (!holds.empty()) return holds;
    std::vector<Counts> row;
    Counts none(count_.size());
    const Length length = (top ? small_.row_on_top : small_.row_between) + small_.gap;
    fill_row(0, length, of_class, none, row);
    row = fullest(std::move(row));
    holds = row;
    for (int r = 1; r < small_.rows; ++r) holds = added(holds, row);
    return holds;
  }

  const std::vector<Counts>& shape_holds(const Shape& shape) {
    const auto known = shapes_.find(shape);
    if (known != shapes_.end()) return known->second;
    std::vector<Counts> holds{Counts(count_.size())};
    Shape less = shape;
    bool any = false;
    for (const bool top : {false, true}) {
      Counts& classes = top ? less.top : less.between;
      for (std::size_t c = 0; c < classes.size() && !any; ++c) {
        if (classes[c] == 0) continue;
        --classes[c];
        any = true;
        holds = added(shape_holds(less), level_holds(static_cast<int>(c), top));
      }
    }
    return shapes_.emplace(shape, std::move(holds)).first->second;
  }

  void add_load(const Shape& shape, int shelves) {
    for (const Counts& holds : shape_holds(shape)) loads_.push_back({holds, shelves});
  }

  void find_loads() {
    const std::vector<Column> all = columns();
    std::set<std::pair<int, Shape>> shapes;
    for (const Column& one : all) shapes.insert({one.shelves, one.shape});
    if (kiln().columns.size() > 1) {
      for (std::size_t i = 0; i < all.size(); ++i) {
        for (std::size_t j = 0; j <= i; ++j) {
          const int shelves = all[i].shelves + all[j].shelves;
          if (shelves > kiln().shelves[0].have) continue;
          Counts used = all[i].used;
          for (std::size_t k = 0; k < used.size(); ++k) used[k] += all[j].used[k];
          if (!covers(posts_, used)) continue;
          Shape both = all[i].shape;
          for (std::size_t c = 0; c < tall_.size(); ++c) {
            both.between[c] += all[j].shape.between[c];
            both.top[c] += all[j].shape.top[c];
          }
          shapes.insert({shelves, both});
        }
      }
    }
    for (const auto& [shelves, shape] : shapes) add_load(shape, shelves);
    keep_useful_loads();
  }

  /// Fewer shelves first: what a load with as many or more shelves holds must be more somewhere.
  void keep_useful_loads() {
    std::stable_sort(loads_.begin(), loads_.end(), [](const OneLoad& a, const OneLoad& b) {
      return a.shelves != b.shelves ? a.shelves < b.shelves : a.holds > b.holds;
    });
    std::vector<OneLoad> kept;
    for (OneLoad& one : loads_) {
      const bool covered = std::any_of(kept.begin(), kept.end(), [&](const OneLoad& other) {
        return covers(other.holds, one.holds);
      });
      if (!covered) kept.push_back(std::move(one));
    }
    loads_ = std::move(kept);
  }

  std::size_t number_of(const Counts& pieces) const {
    std::size_t number = 0;
    for (std::size_t s = 0; s < pieces.size(); ++s) {
      number =
          number * static_cast<std::size_t>(count_[s] + 1) + static_cast<std::size_t>(pieces[s]);
    }
    return number;
  }

  /// Cheapest way to fire every count of pieces, the small counts first.
  std::optional<Best> share() const {
    constexpr int kNever = 1 << 29;
    std::size_t states = 1;
    for (const int n : count_) states *= static_cast<std::size_t>(n + 1);
    std::vector<std::pair<int, int>> cost(states, {kNever, kNever});
    cost[0] = {0, 0};
    Counts left(count_.size());
    for (std::size_t state = 1; state < states; ++state) {
      for (std::size_t s = left.size(); s-- > 0;) {  // counts up like an odometer
        if (++left[s] <= count_[s]) break;
        left[s] = 0;
      }
      for (const OneLoad& load : loads_) {
        Counts rest = left;
        for (std::size_t s = 0; s < rest.size(); ++s)
          rest[s] = std::max(0, rest[s] - load.holds[s]);
        const auto [firings, shelves] = cost[number_of(rest)];
        cost[state] = std::min(cost[state], {firings + 1, shelves + load.shelves});
      }
    }
    if (cost.back().first >= kNever) return std::nullopt;
    return Best{cost.back().first, cost.back().second};
  }

  const Small& small_;
  Counts count_, posts_;
  std::vector<Length> tall_;
  std::vector<Posts> heights_;
  std::map<std::pair<int, bool>, std::vector<Counts>> levels_;
  std::map<Shape, std::vector<Counts>> shapes_;
  std::vector<OneLoad> loads_;
};

}  // namespace placer::small_loads
