#include "loading/small.h"

#include <algorithm>
#include <optional>

#include "loading/index.h"
#include "loading/load_sets.h"
#include "loading/order.h"
#include "loading/pile.h"

namespace placer::loading {
namespace {

/// What a load sets of the rest, which has less by it afterwards.
Pieces take(const Pieces& holds, Pieces& rest) {
  Pieces taken = rest;
  for (int s = 0; s < count_of(rest); ++s) {
    at(taken, s) = std::min(at(holds, s), at(rest, s));
    at(rest, s) -= at(taken, s);
  }
  return taken;
}

class Small {
 public:
  Small(const Job& job, const Pieces& left, ShelfSets& sets, const std::vector<LoadShape>& shapes,
        LoadSets& loads)
      : job_{&job}, left_{left}, sets_{&sets}, shapes_{&shapes}, loads_{&loads} {}

  std::vector<KilnLoad> built(std::vector<const LoadSet*> shared) {
    put_emptiest_last(shared);
    std::vector<KilnLoad> loads;
    Pieces rest = left_;
    for (const LoadSet* one : shared) {
      const Pieces pieces = take(one->holds, rest);
      auto load = load_of(at(*shapes_, one->shape), pieces, count_of(loads) + 1);
      if (!load) return {};
      loads.push_back(std::move(*load));
    }
    return loads;
  }

 private:
  const Kiln& kiln() const { return job_->batch->kiln; }

  /// The load that has least to do when the others take all they hold.
  void put_emptiest_last(std::vector<const LoadSet*>& shared) const {
    std::size_t emptiest = 0;
    double least = 0;
    for (std::size_t last = 0; last < shared.size(); ++last) {
      Pieces rest = left_;
      for (std::size_t i = 0; i < shared.size(); ++i) {
        if (i != last) take(shared[i]->holds, rest);
      }
      const double worth = worth_of(*job_, rest);
      if (last > 0 && worth > least) continue;
      emptiest = last;
      least = worth;
    }
    std::swap(shared[emptiest], shared.back());
  }

  std::optional<KilnLoad> load_of(const LoadShape& shape, const Pieces& pieces, int round) const {
    std::vector<Pieces> sets = loads_->spread(shape, pieces);
    if (sets.empty()) return std::nullopt;
    std::vector<Storey> storeys = shape.storeys;
    KilnLoad load;
    load.load = job_->load;
    load.round = round;
    Pieces rest = pieces;
    for (int c = 0; c < count_of(shape.columns); ++c) {
      const ColumnShape& column = at(shape.columns, c);
      if (column.top < 0) continue;
      const auto feet = standing_posts(at(sets_->sites(), c)->posts, column.floor.parts);
      load.floor_posts.insert(load.floor_posts.end(), feet.begin(), feet.end());
      Length under = column.floor.height;
      for (int i = 0; i < column.levels(); ++i) {
        const bool open = i + 1 == column.levels();
        const Storey storey{sets_->kind(c), open, open ? column.top : at(column.between, i)};
        const auto here = std::find(storeys.begin(), storeys.end(), storey);
        if (here == storeys.end()) return std::nullopt;
        const Pieces full = at(sets, static_cast<int>(here - storeys.begin()));
        sets.erase(sets.begin() + (here - storeys.begin()));
        storeys.erase(here);
        const Pieces here_set = take(full, rest);
        const auto filled = filled_with(c, storey, full, here_set);
        if (!filled || filled->set.empty()) return std::nullopt;
        load.levels.push_back(level_of(column, c, i, under, *filled));
        under = load.levels.back().shelf_top + load.levels.back().clear_height;
      }
    }
    weigh(*job_->batch, load);
    return load;
  }

  /// Just those pieces; if they are not found to fit so, then they with the others that the shelf
  /// holds, and these taken away.
  std::optional<Filled> filled_with(int column, const Storey& storey, const Pieces& full,
                                    const Pieces& pieces) const {
    if (auto filled = sets_->filled(column, storey, pieces)) return filled;
    auto filled = sets_->filled(column, storey, full);
    if (!filled) return std::nullopt;
    Pieces rest = pieces;
    std::erase_if(filled->set, [&](const Standing& one) {
      if (at(rest, one.sort) < one.stack) return true;
      at(rest, one.sort) -= one.stack;
      return false;
    });
    filled->pattern.clear();
    const bool all = std::all_of(rest.begin(), rest.end(), [](int n) { return n == 0; });
    return all ? filled : std::nullopt;
  }

  Level level_of(const ColumnShape& column, int c, int i, Length under,
                 const Filled& filled) const {
    const Site& site = *at(sets_->sites(), c);
    Level level;
    level.column = c;
    level.level = i + 1;
    level.shelf = site.shelf;
    level.shelf_at = at(kiln().columns, c).at;
    level.shelf_top = under + at(kiln().shelves, site.shelf).thickness;
    level.clear_height = lid(kiln()) - level.shelf_top;
    if (i < count_of(column.posts)) {
      const Rise& rise = at(column.posts, i);
      level.clear_height = rise.height;
      level.posts = standing_posts(site.posts, rise.parts);
    }
    add_pieces(*job_, filled, level);
    return level;
  }

  const Job* job_;
  Pieces left_;
  ShelfSets* sets_;
  const std::vector<LoadShape>* shapes_;
  LoadSets* loads_;
};

}  // namespace

std::vector<KilnLoad> small_plan(const Job& job, const std::vector<int>& left, const Care& care,
                                 const SmallLimits& limits, int fewest, int most,
                                 const std::function<bool()>& stop) {
  ShelfSets sets{job, left, care, limits.fills, limits.parts};
  if (sets.too_many()) return {};
  const std::vector<LoadShape> shapes = load_shapes(job, sets);
  if (shapes.empty() || (stop && stop())) return {};
  LoadSets loads{shapes, sets, left, limits.looks};
  if (stop && stop()) return {};
  if (sets.too_many()) return {};
  const auto shared = loads.share(fewest, most);
  if (sets.too_many() || shared.empty()) return {};
  return Small{job, left, sets, shapes, loads}.built(shared);
}

}  // namespace placer::loading
