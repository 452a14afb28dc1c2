#include <catch2/catch.hpp>
#include <limits>

#include "placer/geometry/shape.h"
#include "support/geos_shapes.h"
#include "support/random_shapes.h"

namespace placer {
namespace {

using support::random_placement;

// 10 x 10 with the front right quarter cut away.
Outline notched() { return {{{0, 0}, {5, 0}, {5, 5}, {10, 5}, {10, 10}, {0, 10}}}; }
Region only(Outline outline) { return {std::move(outline), std::nullopt, {}}; }
Footprint block(Point low, Point high) { return {{}, {rectangle(low, high)}}; }

TEST_CASE("inset: in a round region the farthest corner or rim decides", "[inset]") {
  const Region round{{}, Disc{{0, 0}, 10}, {}};
  CHECK(inset(Footprint{{{{3, 4}, 2}}, {}}, round) == 3);
  CHECK(inset(block({-3, -4}, {0, 0}), round) == 5);
  CHECK(inset(Footprint{{{{3, 4}, 5}}, {}}, round) == 0);
  CHECK(inset(Footprint{{{{3, 4}, 6}}, {}}, round) == -1);
}

TEST_CASE("inset: in a half disc both the flat side and the round one count", "[inset]") {
  const Region half = half_disc(20);
  CHECK(inset(Footprint{{{{0, 3}, 2}}, {}}, half) == 1);
  CHECK(inset(Footprint{{{{0, 7}, 2}}, {}}, half) == 1);
  CHECK(inset(Footprint{{{{0, 1}, 2}}, {}}, half) == -1);
  CHECK(inset(block({-1, 1}, {1, 2}), half) == 1);
}

TEST_CASE("inset: a notch counts from both of its sides and from its corner", "[inset]") {
  const Region region = only(notched());
  CHECK(inset(block({1, 1}, {4, 4}), region) == 1);
  CHECK(inset(block({6, 7}, {9, 9}), region) == 1);
  CHECK(inset(Footprint{{{{2, 8}, 1}}, {}}, region) == 1);
  CHECK(inset(Footprint{{{{1, 8}, 1}}, {}}, region) == 0);
  // Nearest to the corner (5, 5) alone: 3-4-5.
  CHECK(inset(Footprint{{{{2, 9 - 0.0}, 0.5}}, {}}, region) == 0.5);
  CHECK(inset(Point{4, 6}, notched()) == Approx(std::sqrt(2)));
}

TEST_CASE("inset: a piece across a notch sticks out though all its corners are inside", "[inset]") {
  const Region region =
      only({{{0, 0}, {4, 0}, {4, 6}, {6, 6}, {6, 0}, {10, 0}, {10, 10}, {0, 10}}});
  CHECK(inset(block({1, 1}, {9, 5}), region) == -2);
  CHECK(inset(block({1, 1}, {9, 9}), region) < 0);
  CHECK(inset(block({1, 7}, {9, 9}), region) == 1);
}

TEST_CASE("inset: a piece over the whole region sticks out", "[inset]") {
  CHECK(inset(block({-5, -5}, {15, 15}), only(notched())) < 0);
  CHECK(inset(block({-5, -5}, {15, 15}), only(rectangle(2, 2))) < 0);
}

TEST_CASE("inset: a piece in the notch, outside the region, sticks out", "[inset]") {
  CHECK(inset(block({6, 1}, {9, 4}), only(notched())) < 0);
  CHECK(inset(Footprint{{{{8, 2}, 1}}, {}}, only(notched())) < 0);
}

TEST_CASE("inset: touching the edge from inside is 0 and counts as inside", "[inset]") {
  CHECK(inset(block({0, 0}, {5, 10}), only(notched())) == 0);
  CHECK(inset(block({0, 5}, {10, 10}), only(notched())) == 0);
  CHECK(inset(block({-1, -1}, {1, 1}), only(rectangle(2, 2))) == 0);
}

TEST_CASE("inset: a region without edges goes on for ever", "[inset]") {
  CHECK(inset(block({0, 0}, {1, 1}), Region{}) == std::numeric_limits<double>::infinity());
}

// Kinds of region by turns: convex, notched, round, half disc, and an outline cutting a round.
Region random_region(Random& random, std::uint64_t kind) {
  const Disc round{support::random_point(random, 30), random.uniform(80, 250)};
  switch (kind % 5) {
    case 0:
      return only(support::random_convex(random, 200));
    case 1:
      return only(support::random_notched(random, 250));
    case 2:
      return {{}, round, {}};
    case 3:
      return placed(half_disc(400), random_placement(random, 100));
    default:
      return {support::random_notched(random, 250), round, {}};
  }
}

TEST_CASE("inset: GEOS agrees on 1000 random pieces in regions of five kinds", "[inset][geos]") {
  const std::uint64_t seed = GENERATE(range(0U, 1000U));
  CAPTURE(seed);
  Random random{seed};
  const Region region = random_region(random, seed);
  const Footprint piece = support::random_placed(random, 40, 120);
  const double ours = inset(piece, region);
  const double theirs = oracle::inset(piece, region);
  if (theirs >= 0) {
    CHECK(ours == Approx(theirs).margin(1e-9));
  } else {
    CHECK(ours < 1e-9);
  }
}

TEST_CASE("inset: a shape moves with its region", "[inset]") {
  const std::uint64_t seed = GENERATE(range(0U, 200U));
  CAPTURE(seed);
  Random random{seed};
  const Region region = random_region(random, seed);
  const Footprint piece = support::random_placed(random, 40, 60);
  const Placement together = random_placement(random, 300);
  CHECK(inset(placed(piece, together), placed(region, together)) ==
        Approx(inset(piece, region)).margin(1e-9));
}

TEST_CASE("inset: a piece that sticks out is back inside when the region grows by as much",
          "[inset]") {
  const std::uint64_t seed = GENERATE(range(0U, 200U));
  CAPTURE(seed);
  Random random{seed};
  const Disc round{{0, 0}, 100};
  const Footprint piece = support::random_placed(random, 40, 120);
  const double out = inset(piece, Region{{}, round, {}});
  CHECK(inset(piece, Region{{}, Disc{{0, 0}, 100 - out}, {}}) == Approx(0).margin(1e-9));
}

TEST_CASE("inset of a point: GEOS and our sign agree on 300 points", "[inset][geos]") {
  const std::uint64_t seed = GENERATE(range(0U, 300U));
  CAPTURE(seed);
  Random random{seed};
  const Outline outline = support::random_notched(random, 100);
  const Point p = support::random_point(random, 150);
  const Footprint dot{{{p, 0}}, {}};
  CHECK(inset(p, outline) == Approx(oracle::inset(dot, outline)).margin(1e-9));
}

}  // namespace
}  // namespace placer
