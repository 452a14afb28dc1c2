#include <catch2/catch.hpp>
#include <numbers>

#include "placer/geometry/shape.h"
#include "support/geos_shapes.h"
#include "support/random_shapes.h"

namespace placer {
namespace {

constexpr double kPi = std::numbers::pi;

TEST_CASE("area: discs with exact arcs", "[area]") {
  CHECK(area(Footprint{{{{7, -3}, 2}}, {}}) == Approx(4 * kPi).epsilon(1e-14));
  CHECK(area(Footprint{{{{0, 0}, 1}, {{5, 0}, 2}}, {}}) == Approx(5 * kPi).epsilon(1e-13));
  // Two unit discs one radius apart share a lens of 2 pi/3 - sqrt(3)/2.
  CHECK(area(Footprint{{{{0, 0}, 1}, {{1, 0}, 1}}, {}}) ==
        Approx(2 * kPi - (2 * kPi / 3 - std::sqrt(3.0) / 2)).epsilon(1e-13));
  CHECK(area(Footprint{{{{0, 0}, 3}, {{1, 0}, 1}}, {}}) == Approx(9 * kPi).epsilon(1e-13));
}

TEST_CASE("area: a mug is its body and what of the handle stands out", "[area]") {
  // The handle is 16 wide and reaches 70; it leaves the body where the rim is 8 from its middle.
  const double r = 40;
  const double half = 8;
  const double inside = half * std::sqrt(r * r - half * half) + r * r * std::asin(half / r);
  const Footprint mug{{{{0, 0}, r}}, {rectangle({0, -half}, {70, half})}};
  CHECK(area(mug) == Approx(kPi * r * r + 70 * 2 * half - inside).epsilon(1e-13));
}

TEST_CASE("area: parts that repeat or lie in each other count once", "[area]") {
  const Outline square = rectangle(3, 3);
  CHECK(area(Footprint{{}, {square, square}}) == Approx(9));
  CHECK(area(Footprint{{{{0, 0}, 1}, {{0, 0}, 1}}, {rectangle(1, 1), square, square}}) ==
        Approx(9));
  CHECK(area(Footprint{{{{2, 2}, 2}, {{2, 2}, 2}, {{2, 2}, 2}}, {}}) == Approx(4 * kPi));
}

TEST_CASE("area: a corner that lies on a circle cuts it", "[area]") {
  // A quarter of the disc lies in the square, whose corners are its middle and points of its rim.
  const Footprint shape{{{{0, 0}, 2}}, {rectangle({0, 0}, {2, 2})}};
  CHECK(area(shape) == Approx(4 * kPi + 4 - kPi).epsilon(1e-13));
  const Footprint lozenge{{{{0, 0}, 5}}, {{{{3, -4}, {9, 0}, {3, 4}}}}};
  const double segment = 25 * std::asin(0.8) - 12;
  CHECK(area(lozenge) == Approx(25 * kPi + 24 - segment).epsilon(1e-9));
}

TEST_CASE("area: parts that touch another from inside count once", "[area]") {
  CHECK(area(Footprint{{{{0, 0}, 1.5}}, {rectangle(3, 3)}}) == Approx(9));
  CHECK(area(Footprint{{{{0, 0}, 3}, {{2, 0}, 1}}, {}}) == Approx(9 * kPi));
  CHECK(area(Footprint{{{{2, 0}, 1}, {{0, 0}, 3}}, {}}) == Approx(9 * kPi));
  CHECK(area(Footprint{{{{0, 0}, 2}, {{-1, 0}, 1}, {{0, 1}, 1}}, {}}) == Approx(4 * kPi));
}

TEST_CASE("area of a region: sides that only touch the round cut nothing off", "[area]") {
  CHECK(area(Region{rectangle(4, 4), Disc{{0, 0}, 2}, {}}) == Approx(4 * kPi));
  const std::uint64_t seed = GENERATE(range(0U, 100U));
  CAPTURE(seed);
  Random random{seed};
  const Placement there = support::random_placement(random, 300);
  CHECK(area(placed(half_disc(560), there)) == Approx(kPi * 280 * 280 / 2).epsilon(1e-9));
}

TEST_CASE("area: parts that share an edge, or half of one, count whole", "[area]") {
  CHECK(area(Footprint{{}, {rectangle({0, 0}, {2, 2}), rectangle({2, 0}, {5, 2})}}) == Approx(10));
  CHECK(area(Footprint{{}, {rectangle({0, 0}, {2, 2}), rectangle({2, 1}, {5, 4})}}) == Approx(13));
  CHECK(area(Footprint{{}, {rectangle({0, 0}, {2, 2}), rectangle({1, 0}, {5, 2})}}) == Approx(10));
}

TEST_CASE("area: GEOS unites 300 random pieces to the same area", "[area][geos]") {
  const std::uint64_t seed = GENERATE(range(0U, 300U));
  CAPTURE(seed);
  Random random{seed};
  Footprint shape = support::random_placed(random, 50, 40);
  for (std::uint64_t i = random.below(4); i > 0; --i) {
    const Footprint more = support::random_placed(random, 50, 40);
    shape.discs.insert(shape.discs.end(), more.discs.begin(), more.discs.end());
    shape.outlines.insert(shape.outlines.end(), more.outlines.begin(), more.outlines.end());
  }
  CHECK(area(shape) == Approx(oracle::area(oracle::ground(shape))).epsilon(1e-5));
}

TEST_CASE("area: unions without arcs agree with GEOS to the last digits", "[area][geos]") {
  const std::uint64_t seed = GENERATE(range(0U, 200U));
  CAPTURE(seed);
  Random random{seed};
  Footprint shape;
  for (int i = 0; i < 4; ++i) shape.outlines.push_back(support::random_convex(random, 60));
  CHECK(area(shape) == Approx(oracle::area(oracle::ground(shape))).epsilon(1e-11));
}

TEST_CASE("area of a region: half discs, and what keep-outs leave", "[area]") {
  Region half = half_disc(560);
  CHECK(area(half) == Approx(kPi * 280 * 280 / 2).epsilon(1e-13));
  half.keep_outs = {Footprint{{{{0, 100}, 20}}, {}}};
  CHECK(area(half) == Approx(kPi * (280 * 280 / 2 - 400)).epsilon(1e-13));
  half.keep_outs.push_back(Footprint{{{{10, 100}, 20}}, {}});  // overlaps the first
  const double both = area(Footprint{{{{0, 100}, 20}, {{10, 100}, 20}}, {}});
  CHECK(area(half) == Approx(kPi * 280 * 280 / 2 - both).epsilon(1e-12));
}

TEST_CASE("area of a region: a keep-out counts only as far as it lies inside", "[area]") {
  Region half = half_disc(560);
  half.keep_outs = {Footprint{{{{0, 0}, 20}}, {}}};
  CHECK(area(half) == Approx(kPi * (280 * 280 - 400) / 2).epsilon(1e-12));
  half.keep_outs = {Footprint{{}, {rectangle(2000, 2000)}}};
  CHECK(area(half) == Approx(0).margin(1e-6));
}

TEST_CASE("area of a region: GEOS agrees on 150 regions with keep-outs", "[area][geos]") {
  const std::uint64_t seed = GENERATE(range(0U, 150U));
  CAPTURE(seed);
  Random random{seed};
  Region region{support::random_notched(random, 200), std::nullopt, {}};
  if (seed % 3 == 0) region = half_disc(400);
  if (seed % 3 == 1) region.round = Disc{support::random_point(random, 30), 180};
  for (std::uint64_t i = random.below(4); i > 0; --i) {
    region.keep_outs.push_back(support::random_placed(random, 30, 150));
  }
  CHECK(area(region) == Approx(oracle::area(oracle::ground(region))).epsilon(1e-5).margin(0.1));
}

TEST_CASE("area of a region without an edge is refused", "[area]") {
  CHECK_THROWS_AS(area(Region{}), std::invalid_argument);
  CHECK_THROWS_AS(bounding_box(Region{}), std::invalid_argument);
  CHECK_THROWS_AS(edge_polygon(Region{}), std::invalid_argument);
}

TEST_CASE("signed_area: counter-clockwise is positive, clockwise negative", "[area]") {
  CHECK(signed_area(rectangle(2, 3)) == 6);
  CHECK(signed_area({{{0, 0}, {0, 1}, {1, 1}, {1, 0}}}) == -1);
  // Far from the origin no digits are lost.
  CHECK(signed_area(rectangle({1e9, 1e9}, {1e9 + 1, 1e9 + 1})) == 1);
}

}  // namespace
}  // namespace placer
