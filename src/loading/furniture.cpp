#include "loading/furniture.h"

#include <algorithm>

#include "loading/index.h"

namespace placer::loading {

void count_furniture(const Batch& batch, LoadPlan& plan) {
  plan.shelves.clear();
  plan.posts.clear();
  for (int i = 0; i < count_of(batch.kiln.shelves); ++i) {
    plan.shelves.push_back({i, 0, at(batch.kiln.shelves, i).have});
  }
  for (int i = 0; i < count_of(batch.kiln.posts); ++i) {
    plan.posts.push_back({i, 0, at(batch.kiln.posts, i).have});
  }
  for (const KilnLoad& load : plan.firings) {
    std::vector<int> shelves(batch.kiln.shelves.size());
    std::vector<int> posts(batch.kiln.posts.size());
    const auto add = [&](const std::vector<PlacedPost>& standing) {
      for (const PlacedPost& post : standing) {
        for (const int part : post.parts) ++at(posts, part);
      }
    };
    add(load.floor_posts);
    for (const Level& level : load.levels) {
      ++at(shelves, level.shelf);
      add(level.posts);
    }
    for (FurnitureUse& use : plan.shelves) use.needed = std::max(use.needed, at(shelves, use.kind));
    for (FurnitureUse& use : plan.posts) use.needed = std::max(use.needed, at(posts, use.kind));
  }
}

}  // namespace placer::loading
