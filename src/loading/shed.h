/// @file shed.h
/// The furniture owned, what of it is in use, and the heights that posts make.
#pragma once

#include <optional>
#include <vector>

#include "placer/model/kiln.h"

namespace placer::loading {

using Parts = std::vector<int>;  ///< of one post: indices into Kiln::posts, from the bottom up

/// Every way to make a post of one height from up to three parts; the fewest parts first.
struct PostHeight {
  Length height;
  std::vector<Parts> ways;
};

/// By rising height.
std::vector<PostHeight> post_heights(const Kiln& kiln);

/// Furniture that is not in use.
class Shed {
 public:
  explicit Shed(const Kiln& kiln);
  int shelves(int kind) const;
  int posts(int kind) const;
  void take_shelf(int kind);
  /// Posts of one height, one entry a post; nullopt (and nothing taken) when there are too few.
  std::optional<std::vector<Parts>> take(const PostHeight& height, int how_many);
  void put_back(const std::vector<Parts>& posts);
  void put_back_shelf(int kind);
  /// A post that stands already, whether it is owned or not.
  void use(const Parts& parts);

 private:
  std::vector<int> shelves_, posts_;
};

}  // namespace placer::loading
