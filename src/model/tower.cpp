#include "placer/model/tower.h"

#include <algorithm>
#include <cmath>

namespace placer {
namespace {

std::size_t index(int i) { return static_cast<std::size_t>(i); }

/// Posts that stand under the shelf.
std::vector<PlacedPost> under(const std::vector<PlacedPost>& posts, const Region& shelf) {
  std::vector<PlacedPost> there;
  std::copy_if(posts.begin(), posts.end(), std::back_inserter(there), [&](const PlacedPost& post) {
    return inset(Footprint{{Disc{post.at, 0.1}}, {}}, shelf) >= 0;
  });
  return there;
}

}  // namespace

std::vector<int> columns_of(const Kiln& kiln, const Level& level) {
  if (level.bridge < 0) return {level.column};
  return kiln.bridges.at(index(level.bridge)).over;
}

bool lies_in(const Kiln& kiln, const Level& level, int column) {
  if (level.bridge < 0) return level.column == column;
  const std::vector<int>& over = kiln.bridges.at(index(level.bridge)).over;
  return std::find(over.begin(), over.end(), column) != over.end();
}

const std::string& place_name(const Kiln& kiln, const Level& level) {
  return level.bridge < 0 ? kiln.columns.at(index(level.column)).name
                          : kiln.bridges.at(index(level.bridge)).name;
}

const Placement& place_of(const Kiln& kiln, const Level& level) {
  return level.bridge < 0 ? kiln.columns.at(index(level.column)).at
                          : kiln.bridges.at(index(level.bridge)).at;
}

const std::vector<int>& shelves_for(const Kiln& kiln, const Level& level) {
  return level.bridge < 0 ? kiln.columns.at(index(level.column)).shelves
                          : kiln.bridges.at(index(level.bridge)).shelves;
}

std::vector<int> tower(const Kiln& kiln, const KilnLoad& load, int column) {
  std::vector<int> levels;
  for (int i = 0; i < static_cast<int>(load.levels.size()); ++i) {
    if (lies_in(kiln, load.levels[index(i)], column)) levels.push_back(i);
  }
  std::stable_sort(levels.begin(), levels.end(), [&](int a, int b) {
    return load.levels[index(a)].level < load.levels[index(b)].level;
  });
  return levels;
}

bool has_bridge(const KilnLoad& load) {
  return std::any_of(load.levels.begin(), load.levels.end(),
                     [](const Level& level) { return level.bridge >= 0; });
}

std::vector<PlacedPost> posts_under(const Batch& batch, const KilnLoad& load, const Level& level) {
  const Region shelf = ground(batch, level);
  const Length bottom = level.shelf_top - batch.kiln.shelves.at(index(level.shelf)).thickness;
  const auto reach_it = [&](const std::vector<PlacedPost>& all, Length foot) {
    std::vector<PlacedPost> there = under(all, shelf);
    std::erase_if(there, [&](const PlacedPost& post) {
      return std::abs((foot + height_of(batch, post) - bottom).mm()) > 1e-6;
    });
    return there;
  };
  std::vector<PlacedPost> posts;
  const auto add = [&](const std::vector<PlacedPost>& more) {
    posts.insert(posts.end(), more.begin(), more.end());
  };
  bool floor = false;
  std::vector<const Level*> bridges;
  for (const int column : columns_of(batch.kiln, level)) {
    const Level* below = nullptr;
    for (const int i : tower(batch.kiln, load, column)) {
      const Level& one = load.levels[index(i)];
      if (one.level < level.level) below = &one;
    }
    if (below == nullptr) {
      floor = true;
    } else if (below->bridge < 0) {
      add(below->posts);
    } else if (std::find(bridges.begin(), bridges.end(), below) == bridges.end()) {
      bridges.push_back(below);
      add(reach_it(below->posts, below->shelf_top));
    }
  }
  // Under a bridge there may also stand posts on the floor that carry the columns' own shelves.
  if (floor)
    add(level.bridge < 0 ? under(load.floor_posts, shelf) : reach_it(load.floor_posts, Length{}));
  return posts;
}

}  // namespace placer
