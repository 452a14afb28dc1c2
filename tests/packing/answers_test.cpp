// What every answer must be: exact as GEOS sees it, the same on one thread and two, no worse for
// being asked differently.
#include <catch2/catch.hpp>

#include "packing/packings.h"

namespace placer::packing {
namespace {

Options with_steps(std::uint64_t steps) {
  Options options;
  options.steps = steps;
  return options;
}

constexpr std::uint64_t kFew = 60'000'000;

std::vector<Item> household() {
  std::vector<Item> items{mug_item(84, 30, 16, 12), disc_item(150, 6), disc_item(230, 3),
                          tile_item(180, 90, 4), disc_item(58, 20)};
  Item oval_dish;
  oval_dish.shape.outlines.push_back(oval(180, 110, 48));
  oval_dish.count = 4;
  items.push_back(oval_dish);
  return items;
}

Region with_posts(Region region) {
  Footprint round;
  round.discs.push_back({{60, 60}, 17});
  Footprint square;
  square.outlines.push_back(rectangle({300, 0}, {338, 38}));
  region.keep_outs = {round, square};
  return region;
}

bool same(const Packing& a, const Packing& b) {
  if (a.places.size() != b.places.size()) return false;
  for (std::size_t i = 0; i < a.places.size(); ++i) {
    if (a.places[i].item != b.places[i].item || !(a.places[i].at == b.places[i].at)) return false;
  }
  return true;
}

TEST_CASE("mixed pieces among posts: every clearance is kept, as GEOS sees it") {
  Problem problem = in_rectangle(600, 500, household(), 4, 2);
  problem.region = with_posts(problem.region);
  const Packing packing = most_value(problem, with_steps(kFew));
  CHECK(count(packing) >= 12);
  CHECK(packing.least_gap >= 0);
  CHECK(seen_by_geos(problem, packing) >= kSeenShort);
  CHECK(packing.value <= most_value_possible(problem));
}

TEST_CASE("a notched shelf and halos: every clearance is kept, as GEOS sees it") {
  Problem problem;
  problem.region.outline = {
      {{0, 0}, {500, 0}, {500, 400}, {300, 400}, {300, 300}, {200, 300}, {200, 400}, {0, 400}}};
  problem.gap = 4;
  problem.edge_gap = 3;
  problem.items = household();
  problem.items[0].halo = 6;
  problem.items[4].halo = 2.5;
  const Packing packing = most_value(problem, with_steps(kFew));
  CHECK(count(packing) >= 8);
  CHECK(seen_by_geos(problem, packing) >= kSeenShort);
}

TEST_CASE("handled mugs on round, half and eight-sided shelves are exact, as GEOS sees it") {
  Problem problem = in_circle(480, {mug_item(84, 30, 16)}, 4, 2);
  const int shelf = GENERATE(0, 1, 2);
  CAPTURE(shelf);
  if (shelf == 1) problem.region = half_disc(660);
  if (shelf == 2) problem.region = Region{regular_polygon(8, 480), std::nullopt, {}};
  const Packing packing = most_pieces(problem, with_steps(kFew));
  CHECK(count(packing) >= 16);
  CHECK(count(packing) <= most_possible(problem));
  CHECK(seen_by_geos(problem, packing) >= kSeenShort);
}

TEST_CASE("one thread and two give the same places") {
  Options one = with_steps(kFew);
  Options two = one;
  two.threads = 2;
  const Problem mugs = in_circle(480, {mug_item(84, 30, 16)}, 4, 2);
  CHECK(same(most_pieces(mugs, one), most_pieces(mugs, two)));
  const Problem mixed = in_rectangle(600, 500, household(), 4, 2);
  CHECK(same(most_value(mixed, one), most_value(mixed, two)));
  std::vector<Item> supply = household();
  for (Item& item : supply) item.count *= 4;
  const auto on_one = fewest_regions({mixed}, supply, one);
  const auto on_two = fewest_regions({mixed}, supply, two);
  REQUIRE(on_one.size() == on_two.size());
  for (std::size_t i = 0; i < on_one.size(); ++i) CHECK(same(on_one[i], on_two[i]));
}

TEST_CASE("scaled, mirrored or turned as a whole, a shelf holds as many") {
  const Problem plain = in_rectangle(420, 330, {disc_item(72)}, 4, 2);
  const int many = count(most_pieces(plain, with_steps(kFew)));
  CHECK(many == 23);

  Problem twice = in_rectangle(840, 660, {disc_item(144)}, 8, 4);
  CHECK(count(most_pieces(twice, with_steps(kFew))) == many);

  Problem turned = plain;
  turned.region = placed(plain.region, {{17, -250}, 31});
  CHECK(count(most_pieces(turned, with_steps(kFew))) == many);

  Problem mirrored = plain;
  mirrored.region.outline = rectangle({-420, 0}, {0, 330});
  CHECK(count(most_pieces(mirrored, with_steps(kFew))) == many);
}

TEST_CASE("the order in which kinds are listed does not matter when all of them fit") {
  std::vector<Item> items{mug_item(84, 30, 16, 5), disc_item(150, 2), disc_item(58, 6)};
  const Packing one = most_value(in_rectangle(500, 400, items, 4, 2), with_steps(kFew));
  std::reverse(items.begin(), items.end());
  const Packing other = most_value(in_rectangle(500, 400, items, 4, 2), with_steps(kFew));
  CHECK(count(one) == 13);
  CHECK(count(other) == 13);
  CHECK(one.value == Approx(other.value));
}

TEST_CASE(
    "a smaller gap or a larger shelf holds no fewer, given the other's places to start from") {
  int before = 0;
  std::vector<Place> start;
  for (const double gap : {12.0, 9.0, 6.0, 3.0, 0.0}) {
    Options options = with_steps(20'000'000);
    options.start = start;
    const Packing packing = most_pieces(in_circle(420, {mug_item(84, 30, 16)}, gap), options);
    CAPTURE(gap);
    CHECK(count(packing) >= before);
    before = count(packing);
    start = packing.places;
  }
  for (const double diameter : {430.0, 455.0, 480.0}) {
    Options options = with_steps(20'000'000);
    options.start = start;
    const Packing packing = most_pieces(in_circle(diameter, {mug_item(84, 30, 16)}, 0), options);
    CAPTURE(diameter);
    CHECK(count(packing) >= before);
    before = count(packing);
    start = packing.places;
  }
}

TEST_CASE("a glance does not fill a shelf with large pieces that are worth little") {
  Item plate = disc_item(230, 9);
  plate.value = 2.6;  // of a mug, on more than five times its ground
  Item mug = mug_item(82, 25, 14, 60);
  mug.value = 1;
  const Problem problem = in_rectangle(560, 480, {plate, mug}, 6, 2);
  Options glance;
  glance.effort = Effort::glance;
  const Packing packing = most_value(problem, glance);
  // Plates alone hold four, that is 10.4; mugs alone 25 and more.
  CHECK(packing.value >= 20);
}

TEST_CASE("mixed value: never less than the places to start from") {
  const Problem problem = in_rectangle(600, 500, household(), 4, 2);
  const Packing long_search = most_value(problem, with_steps(200'000'000));
  Options glance;
  glance.effort = Effort::glance;
  glance.start = long_search.places;
  CHECK(most_value(problem, glance).value >= long_search.value);
}

TEST_CASE("a stop is obeyed at once, and what is found until then is given") {
  int asked = 0;
  Options options;
  options.effort = Effort::thorough;
  options.stop = [&asked] { return ++asked > 3; };
  const Problem problem = in_circle(533, {mug_item(84, 30, 16)}, 4);
  const Packing packing = most_pieces(problem, options);
  CHECK(count(packing) >= 18);
  CHECK(seen_by_geos(problem, packing) >= kSeenShort);
}

TEST_CASE("all of a supply stands on some shelf, and no fewer shelves than proven are claimed") {
  std::vector<Item> supply = household();
  for (Item& item : supply) item.count *= 3;
  const Problem shelf = in_circle(560, {}, 4, 2);
  const auto shelves = fewest_regions({shelf}, supply, with_steps(300'000'000));
  std::vector<int> set(supply.size());
  for (const Packing& packing : shelves) {
    Problem problem = shelf;
    problem.items = supply;
    CHECK(seen_by_geos(problem, packing) >= kSeenShort);
    for (const Place& place : packing.places) ++set.at(static_cast<std::size_t>(place.item));
  }
  for (std::size_t k = 0; k < supply.size(); ++k) CHECK(set[k] == supply[k].count);
  CHECK(static_cast<int>(shelves.size()) >= fewest_possible(shelf, supply));
  CHECK(shelves.size() <= 8);  // 1.45 m² of ware on 0.25 m² shelves: 5.9 if it were water
}

TEST_CASE("unequal shelves are used in their order, the last as often as it takes") {
  const std::vector<Problem> regions{in_rectangle(300, 300, {}, 4), in_circle(400, {}, 4)};
  const auto shelves = fewest_regions(regions, {disc_item(90, 40)}, with_steps(100'000'000));
  REQUIRE(shelves.size() >= 3);
  CHECK(count(shelves[0]) == 9);
  for (const Place& place : shelves[0].places) {
    CHECK(place.at.at.x > 0);
    CHECK(place.at.at.x < 300);
  }
  int all = 0;
  for (const Packing& packing : shelves) all += count(packing);
  CHECK(all == 40);
}

TEST_CASE("pieces that fit nowhere are left out, the others are not") {
  const auto shelves = fewest_regions({in_rectangle(300, 300, {}, 4)},
                                      {disc_item(310, 2), disc_item(90, 9)}, with_steps(kFew));
  REQUIRE(shelves.size() == 1);
  CHECK(count(shelves[0]) == 9);
}

TEST_CASE("fits_alone: exact at the limit") {
  CHECK(fits_alone(in_circle(100, {disc_item(100)}), 0));
  CHECK_FALSE(fits_alone(in_circle(100, {disc_item(100.001)}), 0));
  CHECK(fits_alone(in_circle(104, {disc_item(100)}, 0, 2), 0));
  CHECK_FALSE(fits_alone(in_circle(103.9, {disc_item(100)}, 0, 2), 0));
  CHECK(fits_alone(in_rectangle(300, 120, {mug_item(100, 40, 16)}), 0));
  CHECK_FALSE(fits_alone(in_rectangle(130, 120, {mug_item(100, 60, 16)}), 0));
}

}  // namespace
}  // namespace placer::packing
