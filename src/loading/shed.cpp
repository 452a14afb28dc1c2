#include "loading/shed.h"

#include <algorithm>
#include <map>

#include "loading/index.h"

namespace placer::loading {
namespace {

constexpr double kSameHeight = 1e-6;  // mm: posts nearer than this are of one height
constexpr int kMostParts = 3;

void add_ways(const Kiln& kiln, Parts& parts, int from, std::vector<Parts>& ways) {
  if (!parts.empty()) ways.push_back(parts);
  if (count_of(parts) == kMostParts) return;
  for (int i = from; i < count_of(kiln.posts); ++i) {
    const auto used = std::count(parts.begin(), parts.end(), i);
    if (used >= at(kiln.posts, i).have) continue;
    parts.push_back(i);
    add_ways(kiln, parts, i, ways);
    parts.pop_back();
  }
}

Length height_of(const Kiln& kiln, const Parts& parts) {
  Length height;
  for (const int part : parts) height += at(kiln.posts, part).height;
  return height;
}

/// The longest part at the bottom, thin ones on top.
void longest_first(const Kiln& kiln, Parts& parts) {
  std::stable_sort(parts.begin(), parts.end(), [&](int a, int b) {
    return at(kiln.posts, a).height > at(kiln.posts, b).height;
  });
}

}  // namespace

std::vector<PostHeight> post_heights(const Kiln& kiln) {
  std::vector<Parts> ways;
  Parts none;
  add_ways(kiln, none, 0, ways);
  for (Parts& parts : ways) longest_first(kiln, parts);
  std::stable_sort(ways.begin(), ways.end(), [&](const Parts& a, const Parts& b) {
    const double ha = height_of(kiln, a).mm();
    const double hb = height_of(kiln, b).mm();
    if (std::abs(ha - hb) > kSameHeight) return ha < hb;
    return a.size() < b.size();
  });
  std::vector<PostHeight> heights;
  for (const Parts& parts : ways) {
    const Length height = height_of(kiln, parts);
    if (heights.empty() || height.mm() - heights.back().height.mm() > kSameHeight) {
      heights.push_back({height, {}});
    }
    heights.back().ways.push_back(parts);
  }
  return heights;
}

Shed::Shed(const Kiln& kiln) {
  for (const ShelfKind& shelf : kiln.shelves) shelves_.push_back(shelf.have);
  for (const PostKind& post : kiln.posts) posts_.push_back(post.have);
}

int Shed::shelves(int kind) const { return at(shelves_, kind); }
int Shed::posts(int kind) const { return at(posts_, kind); }
void Shed::take_shelf(int kind) { --at(shelves_, kind); }
void Shed::put_back_shelf(int kind) { ++at(shelves_, kind); }

std::optional<std::vector<Parts>> Shed::take(const PostHeight& height, int how_many) {
  std::vector<Parts> taken;
  const std::vector<int> before = posts_;
  for (const Parts& parts : height.ways) {
    while (count_of(taken) < how_many) {
      std::vector<int> after = posts_;
      for (const int part : parts) --at(after, part);
      if (std::any_of(after.begin(), after.end(), [](int n) { return n < 0; })) break;
      posts_ = after;
      taken.push_back(parts);
    }
  }
  if (count_of(taken) == how_many) return taken;
  posts_ = before;
  return std::nullopt;
}

void Shed::use(const Parts& parts) {
  for (const int part : parts) --at(posts_, part);
}

void Shed::put_back(const std::vector<Parts>& posts) {
  for (const Parts& parts : posts) {
    for (const int part : parts) ++at(posts_, part);
  }
}

}  // namespace placer::loading
