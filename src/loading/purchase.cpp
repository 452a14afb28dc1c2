#include "loading/purchase.h"

#include <fmt/format.h>

#include "loading/index.h"

namespace placer::loading {

std::vector<Purchase> purchases(const Kiln& kiln) {
  std::vector<Purchase> all;
  for (int i = 0; i < count_of(kiln.shelves); ++i) {
    Purchase one{kiln, fmt::format("One more shelf \"{}\"", at(kiln.shelves, i).name)};
    ++at(one.kiln.shelves, i).have;
    all.push_back(std::move(one));
  }
  for (int i = 0; i < count_of(kiln.posts); ++i) {
    Purchase one{kiln, fmt::format("{} more posts of {:.0f} mm", kiln.posts_per_shelf,
                                   at(kiln.posts, i).height.mm())};
    at(one.kiln.posts, i).have += kiln.posts_per_shelf;
    all.push_back(std::move(one));
  }
  return all;
}

}  // namespace placer::loading
