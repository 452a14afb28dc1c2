// Straight rows where rows are as good, rectangles that fit to the last millimetre, whole numbers.
#include <catch2/catch.hpp>
#include <cmath>

#include "packing/finish.h"
#include "packing/packings.h"

namespace placer::packing {
namespace {

Options quick() {
  Options options;
  options.effort = Effort::quick;
  return options;
}

TEST_CASE("rows: as good as anything, they are the answer and are named") {
  const Packing squares = most_pieces(in_rectangle(300, 300, {disc_item(60)}), quick());
  CHECK(count(squares) == 25);
  CHECK(squares.orderly);
  CHECK(squares.pattern == "5 rows of 5");

  const Packing six = most_pieces(in_rectangle(190, 130, {disc_item(60)}, 4), quick());
  CHECK(count(six) == 6);
  CHECK(six.orderly);
}

TEST_CASE("rows that fit to the last digit of decimals are not lost to rounding") {
  // 5 x 59.9 + 4 x 0.1 = 299.9, none of which a double holds exactly.
  const Packing packing = most_pieces(in_rectangle(299.9, 299.9, {disc_item(59.9)}, 0.1), quick());
  CHECK(count(packing) == 25);
  CHECK(packing.least_gap >= 0);
}

TEST_CASE("pattern_of: rows as a person names them") {
  CHECK(pattern_of({}).empty());
  CHECK(pattern_of({4}) == "1 row of 4");
  CHECK(pattern_of({6, 6, 6}) == "3 rows of 6");
  CHECK(pattern_of({6, 5, 6, 5}) == "rows of 6 and 5 by turns");
  CHECK(pattern_of({3, 4, 5, 4}) == "rows of 3, 4, 5 and 4");
  CHECK(pattern_of({3, 4}) == "rows of 3 and 4");
}

TEST_CASE("a tiling made by cutting a rectangle is put together again") {
  // 600 x 400 cut right through again and again: eight different tiles, no gap, no waste.
  const std::vector<Item> cuts{tile_item(250, 150, 1), tile_item(250, 250, 1),
                               tile_item(350, 120, 1), tile_item(200, 280, 1),
                               tile_item(150, 180, 1), tile_item(150, 100, 1)};
  const Problem problem = in_rectangle(600, 400, cuts);
  const Packing packing = most_value(problem, quick());
  CHECK(count(packing) == 6);
  CHECK(packing.value == Approx(600 * 400));
  CHECK(seen_by_geos(problem, packing) >= kSeenShort);
}

TEST_CASE("equal tiles fill a shelf that they divide") {
  const Packing packing = most_pieces(in_rectangle(612, 408, {tile_item(100, 100)}, 2, 1), quick());
  CHECK(count(packing) == 24);
  CHECK(packing.orderly);
}

TEST_CASE("with room to spare, places are whole millimetres and handles look one way") {
  const Packing packing = most_value(
      in_rectangle(600, 400, {mug_item(84, 30, 16, 6), disc_item(120, 2)}, 4, 2), quick());
  REQUIRE(count(packing) == 8);
  double first = -1;
  for (const Place& place : packing.places) {
    CHECK(place.at.at.x == std::round(place.at.at.x));
    CHECK(place.at.at.y == std::round(place.at.at.y));
    if (place.item != 0) continue;
    if (first < 0) first = std::remainder(place.at.turn_deg, 360);
    CHECK(std::remainder(place.at.turn_deg, 360) == Approx(first).margin(1e-9));
  }
}

}  // namespace
}  // namespace placer::packing
