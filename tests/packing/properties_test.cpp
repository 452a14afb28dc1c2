// What holds for every problem: more effort, more supply in another order, a mirror, a cut.
#include <catch2/catch.hpp>
#include <cmath>
#include <utility>

#include "packing/packings.h"
#include "placer/base/random.h"

namespace placer::packing {
namespace {

Options with(Effort effort) {
  Options options;
  options.effort = effort;
  return options;
}

/// Beyond the quick effort: what it finds is where this search begins.
Options beyond_quick() {
  Options options;
  options.steps = 260'000'000;
  return options;
}

std::vector<Item> some_ware(Random& random) {
  std::vector<Item> items;
  items.push_back(disc_item(random.uniform(50, 90), 12));
  items.push_back(mug_item(random.uniform(60, 100), random.uniform(15, 40), 14, 12));
  items.push_back(disc_item(random.uniform(100, 160), 5));
  items.push_back(tile_item(random.uniform(80, 160), random.uniform(30, 80), 8));
  return items;
}

TEST_CASE("more effort never sets fewer of one kind") {
  const unsigned seed = GENERATE(range(0U, 4U));
  CAPTURE(seed);
  Random random{seed};
  const double size = random.uniform(40, 70);
  const Item item = seed % 2 == 0 ? disc_item(size) : mug_item(size, 20, 12);
  Problem problem = in_rectangle(random.uniform(250, 400), 260, {item}, random.uniform(0, 6), 2);
  if (seed == 3) problem.region = in_circle(330, {}).region;
  const int glance = count(most_pieces(problem, with(Effort::glance)));
  const int quick = count(most_pieces(problem, with(Effort::quick)));
  const int longer = count(most_pieces(problem, beyond_quick()));
  CHECK(glance <= quick);
  CHECK(quick <= longer);
}

TEST_CASE("more effort never sets less of a mixed supply") {
  const unsigned seed = GENERATE(range(0U, 4U));
  CAPTURE(seed);
  Random random{seed};
  Problem problem = in_rectangle(420, 330, some_ware(random), 4, 2);
  if (seed == 3) {  // rectangles alone
    problem.items = {tile_item(100, 70, 20), tile_item(130, 45, 20), tile_item(61, 61, 9)};
  }
  const double quick = most_value(problem, with(Effort::quick)).value;
  CHECK(quick <= most_value(problem, beyond_quick()).value);
}

TEST_CASE("more effort never needs more shelves") {
  const unsigned seed = GENERATE(range(0U, 4U));
  CAPTURE(seed);
  Random random{seed};
  const Problem shelf = in_rectangle(300, 250, {}, 4, 2);
  std::vector<Item> supply = some_ware(random);
  if (seed == 3) supply = {disc_item(80, 90)};  // one kind, many shelves: patterns
  std::size_t before = 1000;
  for (const Effort effort : {Effort::glance, Effort::quick, Effort::normal}) {
    const auto shelves = fewest_regions({shelf}, supply, with(effort));
    CHECK(shelves.size() <= before);
    before = shelves.size();
    int set = 0;
    for (const Packing& packing : shelves) set += count(packing);
    int asked = 0;
    for (const Item& item : supply) asked += item.count;
    CHECK(set == asked);
  }
}

TEST_CASE("patterns used again and again keep every clearance and set the whole supply") {
  const std::vector<Item> supply{mug_item(82, 28, 15, 60), disc_item(70, 50),
                                 mug_item(58, 20, 12, 40)};
  const Problem shelf = in_rectangle(420, 260, {}, 4, 2);
  const auto shelves = fewest_regions({shelf}, supply, with(Effort::quick));
  std::vector<int> set(supply.size());
  for (const Packing& packing : shelves) {
    Problem problem = shelf;
    problem.items = supply;
    CHECK(seen_by_geos(problem, packing) >= kSeenShort);
    for (const Place& place : packing.places) ++set.at(static_cast<std::size_t>(place.item));
  }
  for (std::size_t k = 0; k < supply.size(); ++k) CHECK(set[k] == supply[k].count);
  CHECK(static_cast<int>(shelves.size()) >= fewest_possible(shelf, supply));
  CHECK(shelves.size() <= 12);  // 8.3 if it were water; loose hand-set rows need 15
}

TEST_CASE("many shelves of one kind: the best shelf again and again") {
  const Problem shelf = in_circle(410, {disc_item(84)}, 4, 2);
  const int on_one = count(most_pieces(shelf, with(Effort::quick)));
  const auto shelves =
      fewest_regions({in_circle(410, {}, 4, 2)}, {disc_item(84, 10 * on_one)}, with(Effort::quick));
  CHECK(shelves.size() == 10);
}

TEST_CASE("a mirror, a turn, another scale or another order do not change how many fit") {
  const unsigned seed = GENERATE(range(0U, 3U));
  CAPTURE(seed);
  Random random{seed};
  const double wide = std::round(random.uniform(300, 420));
  const double size = std::round(random.uniform(50, 80));
  Problem plain = in_rectangle(wide, 300, {disc_item(size)}, 4, 2);
  Footprint post;
  post.discs.push_back({{70, 60}, 18});
  plain.region.keep_outs = {post};
  const int many = count(most_pieces(plain, with(Effort::quick)));

  Problem mirrored = plain;
  mirrored.region.keep_outs[0].discs[0].centre.x = wide - 70;
  CHECK(count(most_pieces(mirrored, with(Effort::quick))) == many);

  Problem turned = plain;
  turned.region = placed(plain.region, {{5, 8}, 90});
  CHECK(count(most_pieces(turned, with(Effort::quick))) == many);

  Problem twice = in_rectangle(2 * wide, 600, {disc_item(2 * size)}, 8, 4);
  post.discs[0] = {{140, 120}, 36};
  twice.region.keep_outs = {post};
  CHECK(count(most_pieces(twice, with(Effort::quick))) == many);
}

TEST_CASE("the order of the kinds does not change how many shelves they need") {
  std::vector<Item> supply{disc_item(90, 27), tile_item(140, 60, 8), mug_item(70, 20, 12, 15)};
  const Problem shelf = in_rectangle(300, 300, {}, 4, 2);
  const auto one = fewest_regions({shelf}, supply, with(Effort::quick));
  std::swap(supply[0], supply[2]);
  const auto other = fewest_regions({shelf}, supply, with(Effort::quick));
  CHECK(one.size() == other.size());
}

/// A rectangle cut right through at random places, again and again, largest first.
std::vector<Item> cut_up(double width, double depth, int pieces, Random& random) {
  std::vector<std::pair<double, double>> parts{{width, depth}};
  while (static_cast<int>(parts.size()) < pieces) {
    const auto largest = std::max_element(
        parts.begin(), parts.end(),
        [](const auto& a, const auto& b) { return a.first * a.second < b.first * b.second; });
    const std::pair<double, double> whole = *largest;
    parts.erase(largest);
    const double share = random.uniform(0.3, 0.7);
    if (whole.first > whole.second) {
      const double cut = std::round(whole.first * share);
      parts.push_back({cut, whole.second});
      parts.push_back({whole.first - cut, whole.second});
    } else {
      const double cut = std::round(whole.second * share);
      parts.push_back({whole.first, cut});
      parts.push_back({whole.first, whole.second - cut});
    }
  }
  std::vector<Item> items;
  for (const auto& [w, d] : parts) items.push_back(tile_item(w, d, 1));
  return items;
}

TEST_CASE("a rectangle cut up by chance is put together again without waste") {
  const unsigned seed = GENERATE(range(0U, 8U));
  CAPTURE(seed);
  Random random{seed};
  const Problem problem = in_rectangle(600, 400, cut_up(600, 400, 7, random));
  const Packing packing = most_value(problem, with(Effort::quick));
  CHECK(count(packing) == 7);
  CHECK(seen_by_geos(problem, packing) >= kSeenShort);
}

TEST_CASE("three shelves cut up by chance need three shelves") {
  Random random{3};
  std::vector<Item> supply;
  for (int i = 0; i < 3; ++i) {
    for (Item& item : cut_up(500, 400, 4, random)) supply.push_back(std::move(item));
  }
  const auto shelves = fewest_regions({in_rectangle(500, 400, {})}, supply, with(Effort::normal));
  CHECK(shelves.size() == 3);
}

}  // namespace
}  // namespace placer::packing
