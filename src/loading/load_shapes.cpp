#include "loading/load_shapes.h"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "loading/index.h"

namespace placer::loading {
namespace {

constexpr double kSure = 1e-6;         // mm
constexpr std::size_t kMostWays = 12;  // of furnishing the same levels
constexpr int kMostColumnShapes = 3000;
constexpr int kMostLoadShapes = 6000;

bool no_more(const std::vector<int>& a, const std::vector<int>& b) { return covers(b, a); }

/// Of the same levels, the ways that no other outdoes.
template <class Way, class Better>
void keep(std::vector<Way>& ways, Way way, Better better) {
  if (std::any_of(ways.begin(), ways.end(), [&](const Way& other) { return better(other, way); }))
    return;
  std::erase_if(ways, [&](const Way& other) { return better(way, other); });
  if (ways.size() < kMostWays) ways.push_back(std::move(way));
}

bool outdoes(const Rise& a, const Rise& b) {
  return a.height <= b.height && no_more(a.used, b.used);
}

/// A column that is not closed yet.
struct Growing {
  ColumnShape shape;
  double height = 0;  ///< mm, up to the underside of the next shelf
};

class Shapes {
 public:
  Shapes(const Job& job, const ShelfSets& sets) : job_{&job}, sets_{&sets} {
    for (const PostKind& post : kiln().posts) owned_.push_back(post.have);
  }

  std::vector<LoadShape> run() {
    std::vector<std::vector<ColumnShape>> columns;
    for (int c = 0; c < count_of(sets_->sites()); ++c) {
      columns.push_back(of_column(c));
      if (too_many_) return {};
    }
    join(columns);
    if (too_many_) return {};
    std::vector<LoadShape> all;
    for (auto& [key, load] : loads_) all.push_back(std::move(load));
    return fewer(std::move(all));
  }

 private:
  const Kiln& kiln() const { return job_->batch->kiln; }
  const Site& site(int column) const { return *at(sets_->sites(), column); }
  double thick(int column) const { return at(kiln().shelves, site(column).shelf).thickness.mm(); }

  /// Every worthwhile way to stand so many posts that are at least so high.
  std::vector<Rise> rises(double least, int posts) const {
    std::vector<Rise> all;
    for (const PostHeight& height : job_->heights) {
      if (height.height.mm() < least - kSure) continue;
      if (height.height > lid(kiln())) break;
      Rise rise{height.height, {}, std::vector<int>(owned_.size())};
      add_rises(height, 0, posts, rise, all);
    }
    return all;
  }

  void add_rises(const PostHeight& height, int from, int posts, Rise& rise,
                 std::vector<Rise>& all) const {
    if (posts == 0) {
      keep(all, rise, outdoes);
      return;
    }
    for (int w = from; w < count_of(height.ways); ++w) {
      const Parts& parts = at(height.ways, w);
      for (const int part : parts) ++at(rise.used, part);
      rise.parts.push_back(parts);
      if (no_more(rise.used, owned_)) add_rises(height, w, posts - 1, rise, all);
      rise.parts.pop_back();
      for (const int part : parts) --at(rise.used, part);
    }
  }

  std::vector<ColumnShape> of_column(int column) {
    ColumnShape empty;
    empty.used.assign(owned_.size(), 0);
    std::vector<ColumnShape> closed{empty};
    if (at(sets_->sites(), column) == nullptr) return closed;
    const int posts = count_of(site(column).posts);
    std::vector<std::vector<Rise>> under(sets_->ceilings().size());
    for (int c = 0; c < count_of(under); ++c) {
      at(under, c) = rises((at(sets_->ceilings(), c) + job_->clearances.air).mm(), posts);
    }
    using Levels = std::map<std::vector<int>, std::vector<Growing>>;
    Levels growing;
    if (kiln().first_shelf <= Length{}) {
      growing[{}].push_back({empty, 0});
    } else {
      for (const Rise& rise : rises(kiln().first_shelf.mm(), posts)) {
        Growing on_posts{empty, rise.height.mm()};
        on_posts.shape.floor = rise;
        on_posts.shape.used = rise.used;
        growing[{}].push_back(std::move(on_posts));
      }
    }
    const int most = at(kiln().shelves, site(column).shelf).have;
    for (int level = 1; level <= most && !growing.empty(); ++level) {
      Levels higher;
      for (const auto& [between, ways] : growing) {
        close(column, ways, closed);
        const int last = between.empty() ? count_of(under) - 1 : between.back();
        for (int c = 0; c <= last && level < most; ++c) {
          grow(column, c, at(under, c), ways, higher);
        }
      }
      growing = std::move(higher);
      too_many_ |= count_of(growing) + count_of(closed) > kMostColumnShapes;
      if (too_many_) break;
    }
    return without_outdone(std::move(closed));
  }

  void grow(int column, int ceiling, const std::vector<Rise>& rises,
            const std::vector<Growing>& ways,
            std::map<std::vector<int>, std::vector<Growing>>& higher) const {
    for (const Growing& way : ways) {
      for (const Rise& rise : rises) {
        const double height = way.height + thick(column) + rise.height.mm();
        if (height + thick(column) + sets_->ceilings().front().mm() > lid(kiln()).mm() + kSure)
          continue;
        Growing more = way;
        more.height = height;
        for (int k = 0; k < count_of(owned_); ++k) at(more.shape.used, k) += at(rise.used, k);
        if (!no_more(more.shape.used, owned_)) continue;
        more.shape.between.push_back(ceiling);
        more.shape.posts.push_back(rise);
        keep(higher[more.shape.between], more, [](const Growing& a, const Growing& b) {
          return a.height <= b.height && no_more(a.shape.used, b.shape.used);
        });
      }
    }
  }

  /// With a last level that is open up to the lid.
  void close(int column, const std::vector<Growing>& ways, std::vector<ColumnShape>& closed) const {
    for (const Growing& way : ways) {
      const double room = lid(kiln()).mm() - way.height - thick(column) + kSure;
      ColumnShape shape = way.shape;
      for (int c = 0; c < count_of(sets_->ceilings()); ++c) {
        if (at(sets_->ceilings(), c).mm() <= room) shape.top = c;
      }
      if (shape.top >= 0) closed.push_back(std::move(shape));
    }
  }

  /// Whether the first has the same number of levels, each as high or higher, and takes no more
  /// posts.
  static bool shape_outdoes(const ColumnShape& a, const ColumnShape& b) {
    return a.levels() == b.levels() && a.top >= b.top && covers(a.between, b.between) &&
           no_more(a.used, b.used);
  }

  static std::vector<ColumnShape> without_outdone(std::vector<ColumnShape> all) {
    std::vector<ColumnShape> kept;
    std::stable_sort(all.begin(), all.end(), [](const ColumnShape& a, const ColumnShape& b) {
      return std::tie(b.between, b.top, a.used) < std::tie(a.between, a.top, b.used);
    });
    for (ColumnShape& one : all) {
      const bool out = std::any_of(kept.begin(), kept.end(), [&](const ColumnShape& other) {
        return shape_outdoes(other, one);
      });
      if (!out) kept.push_back(std::move(one));
    }
    return kept;
  }

  void join(const std::vector<std::vector<ColumnShape>>& columns) {
    std::vector<int> chosen;
    join_from(columns, chosen, std::vector<int>(owned_.size()),
              std::vector<int>(kiln().shelves.size()));
  }

  void join_from(const std::vector<std::vector<ColumnShape>>& columns, std::vector<int>& chosen,
                 const std::vector<int>& used, const std::vector<int>& shelves) {
    if (too_many_) return;
    const int c = count_of(chosen);
    if (c == count_of(columns)) {
      add_load(columns, chosen);
      return;
    }
    for (int i = first_of(c, chosen); i < count_of(at(columns, c)); ++i) {
      const ColumnShape& shape = at(at(columns, c), i);
      std::vector<int> more = used;
      std::vector<int> laid = shelves;
      for (int k = 0; k < count_of(more); ++k) at(more, k) += at(shape.used, k);
      if (!no_more(more, owned_)) continue;
      if (shape.top >= 0) {
        const int kind = site(c).shelf;
        at(laid, kind) += shape.levels();
        if (at(laid, kind) > at(kiln().shelves, kind).have) continue;
      }
      chosen.push_back(i);
      join_from(columns, chosen, more, laid);
      chosen.pop_back();
    }
  }

  /// Columns of one kind are filled in one order only.
  int first_of(int column, const std::vector<int>& chosen) const {
    for (int before = column - 1; before >= 0; --before) {
      if (sets_->kind(before) >= 0 && sets_->kind(before) == sets_->kind(column)) {
        return at(chosen, before);
      }
    }
    return 0;
  }

  void add_load(const std::vector<std::vector<ColumnShape>>& columns,
                const std::vector<int>& chosen) {
    LoadShape load;
    int low = 1 << 20;
    int high = 0;
    for (int c = 0; c < count_of(columns); ++c) {
      const ColumnShape& shape = at(at(columns, c), at(chosen, c));
      for (const int ceiling : shape.between)
        load.storeys.push_back({sets_->kind(c), false, ceiling});
      if (shape.top >= 0) load.storeys.push_back({sets_->kind(c), true, shape.top});
      low = std::min(low, shape.levels());
      high = std::max(high, shape.levels());
    }
    if (load.storeys.empty()) return;
    std::sort(load.storeys.begin(), load.storeys.end(), [](const Storey& a, const Storey& b) {
      return std::tie(a.kind, a.open, a.ceiling) < std::tie(b.kind, b.open, b.ceiling);
    });
    load.uneven = high - low;
    std::vector<int> key;
    for (const Storey& storey : load.storeys) {
      key.push_back((storey.kind * 2 + (storey.open ? 1 : 0)) * count_of(sets_->ceilings()) +
                    storey.ceiling);
    }
    const auto known = loads_.find(key);
    if (known != loads_.end() && known->second.uneven <= load.uneven) return;
    for (int c = 0; c < count_of(columns); ++c)
      load.columns.push_back(at(at(columns, c), at(chosen, c)));
    loads_[key] = std::move(load);
    too_many_ |= count_of(loads_) > kMostLoadShapes;
  }

  /// Without those of which another has the same storeys or higher ones and is no less even.
  static std::vector<LoadShape> fewer(std::vector<LoadShape> all) {
    const auto outdone = [](const LoadShape& a, const LoadShape& b) {
      if (a.shelves() != b.shelves() || a.uneven > b.uneven) return false;
      bool same = true;
      for (int i = 0; i < a.shelves(); ++i) {
        const Storey& x = at(a.storeys, i);
        const Storey& y = at(b.storeys, i);
        if (x.kind != y.kind || x.open != y.open || x.ceiling < y.ceiling) return false;
        same &= x == y;
      }
      return !same;
    };
    std::vector<LoadShape> kept;
    for (const LoadShape& one : all) {
      if (std::none_of(all.begin(), all.end(),
                       [&](const LoadShape& other) { return outdone(other, one); }))
        kept.push_back(one);
    }
    std::stable_sort(kept.begin(), kept.end(), [](const LoadShape& a, const LoadShape& b) {
      return std::pair(a.shelves(), a.uneven) < std::pair(b.shelves(), b.uneven);
    });
    return kept;
  }

  const Job* job_;
  const ShelfSets* sets_;
  std::vector<int> owned_;
  std::map<std::vector<int>, LoadShape> loads_;
  bool too_many_ = false;
};

}  // namespace

std::vector<LoadShape> load_shapes(const Job& job, const ShelfSets& sets) {
  return Shapes{job, sets}.run();
}

}  // namespace placer::loading
