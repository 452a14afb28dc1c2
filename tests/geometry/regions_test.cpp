#include <catch2/catch.hpp>

#include "placer/geometry/shape.h"
#include "support/geos_shapes.h"
#include "support/random_shapes.h"

namespace placer {
namespace {

using support::random_placement;

Region only(Outline outline) { return {std::move(outline), std::nullopt, {}}; }
Region round_region(Point centre, double r) { return {{}, Disc{centre, r}, {}}; }

TEST_CASE("gap of regions: two half discs, flat sides facing", "[regions]") {
  const Region back = placed(half_disc(560), {{0, 5}, 0});
  const Region front = placed(half_disc(560), {{0, -5}, 180});
  CHECK(gap(back, front) == Approx(10).epsilon(1e-12));
  CHECK(gap(half_disc(560), placed(half_disc(560), {{0, 0}, 180})) == Approx(0).margin(1e-12));
}

TEST_CASE("gap of regions: half discs beside each other, arc to arc and arc to corner",
          "[regions]") {
  const Region left = half_disc(200);
  CHECK(gap(left, placed(half_disc(200), {{250, 0}, 0})) == Approx(50));
  CHECK(gap(left, placed(half_disc(200), {{0, 150}, 0})) == Approx(50));    // flat over the arc
  CHECK(gap(left, placed(half_disc(200), {{0, 250}, 180})) == Approx(50));  // arc to arc
  CHECK(gap(left, placed(half_disc(200), {{0, -30}, 90})) == Approx(-70).margin(40));
  // The other's corner (100, 150) is nearest to our arc: 180.28 from its middle.
  CHECK(gap(left, only(rectangle({100, 150}, {200, 200}))) == Approx(std::hypot(100, 150) - 100));
}

TEST_CASE("gap of regions: one inside the other overlaps", "[regions]") {
  CHECK(gap(round_region({0, 0}, 100), round_region({10, 0}, 20)) < 0);
  CHECK(gap(round_region({10, 0}, 20), round_region({0, 0}, 100)) < 0);
  CHECK(gap(round_region({0, 0}, 20), round_region({0, 0}, 20)) <= 0);
}

TEST_CASE("gap of regions: one that just touches the other from inside overlaps", "[regions]") {
  CHECK(gap(round_region({0, 0}, 2), only(rectangle(4, 4))) < -0.1);
  CHECK(gap(round_region({0, 0}, 3), round_region({2, 0}, 1)) < -0.1);
}

TEST_CASE("gap of a shape and a region: a disc off the flat side and off the rim", "[regions]") {
  CHECK(gap(Footprint{{{{0, -30}, 10}}, {}}, half_disc(200)) == Approx(20));
  CHECK(gap(Footprint{{{{0, 130}, 10}}, {}}, half_disc(200)) == Approx(20));
  CHECK(gap(Footprint{{{{130, 0}, 10}}, {}}, half_disc(200)) == Approx(20));
  CHECK(gap(Footprint{{{{0, 50}, 10}}, {}}, half_disc(200)) < 0);
}

TEST_CASE("inset of regions: a half shelf in a round chamber", "[regions]") {
  const Region chamber = round_region({0, 0}, 300);
  CHECK(inset(half_disc(560), chamber) == Approx(20));
  CHECK(inset(placed(half_disc(560), {{0, 10}, 0}), chamber) == Approx(10));
  CHECK(inset(placed(half_disc(560), {{0, 30}, 0}), chamber) == Approx(-10));
  // Forwards, the corners at (280, -10) come nearest.
  CHECK(inset(placed(half_disc(560), {{0, -10}, 0}), chamber) == Approx(300 - std::hypot(280, 10)));
}

TEST_CASE("inset of regions: round shelf in an octagon, and one that fills it", "[regions]") {
  const Region chamber = only(regular_polygon(8, 600));
  CHECK(inset(round_region({0, 0}, 280), chamber) == Approx(20));
  CHECK(inset(round_region({0, 0}, 300), chamber) == Approx(0).margin(1e-9));
  CHECK(inset(round_region({0, 0}, 305), chamber) == Approx(-5));
  CHECK(inset(only(rectangle(900, 100)), chamber) < 0);
}

Region random_shelf(Random& random, std::uint64_t kind) {
  const double r = random.uniform(50, 150);
  switch (kind % 4) {
    case 0: return half_disc(2 * r);
    case 1: return only(support::random_notched(random, 120));
    case 2: return round_region({0, 0}, r);
    default: return {support::random_convex(random, 120), Disc{{0, 0}, r + 30}, {}};
  }
}

bool has_ground(const Region& region) { return oracle::area(oracle::ground(region)) > 1; }

TEST_CASE("gap of regions: GEOS agrees on 300 pairs, circles drawn as polygons",
          "[regions][geos]") {
  const std::uint64_t seed = GENERATE(range(0U, 300U));
  CAPTURE(seed);
  Random random{seed};
  const Region shelf_a = random_shelf(random, seed);
  const Region a = placed(shelf_a, random_placement(random, 200));
  const Region shelf_b = random_shelf(random, seed / 4);
  const Region b = placed(shelf_b, random_placement(random, 200));
  if (!has_ground(a) || !has_ground(b)) return;
  const double theirs = oracle::distance(oracle::ground(a), oracle::ground(b));
  CHECK(std::max(gap(a, b), 0.0) == Approx(theirs).margin(2e-3));
  CHECK((gap(a, b) < -1e-2) == (gap(b, a) < -1e-2));
  if (oracle::area(oracle::shared(oracle::ground(a), oracle::ground(b))) > 0.5) {
    CHECK(gap(a, b) < 0);
  }
}

TEST_CASE("inset of regions: GEOS agrees on 300 pairs, circles drawn as polygons",
          "[regions][geos]") {
  const std::uint64_t seed = GENERATE(range(0U, 300U));
  CAPTURE(seed);
  Random random{seed};
  const Region shelf = random_shelf(random, seed);
  const Region inner = placed(shelf, random_placement(random, 60));
  Region outer = round_region({0, 0}, 230);
  if (seed % 3 == 1) outer = half_disc(560);
  if (seed % 3 == 2) outer = only(support::random_notched(random, 350));
  if (!has_ground(inner)) return;
  const auto small = oracle::ground(inner);
  const auto large = oracle::ground(outer);
  if (oracle::covers(large, small)) {
    const auto edge = oracle::owned(GEOSBoundary_r(oracle::geos(), large.get()));
    CHECK(inset(inner, outer) == Approx(oracle::distance(small, edge)).margin(2e-3));
  } else {
    CHECK(inset(inner, outer) < 2e-3);
  }
}

TEST_CASE("inset of regions: the same answer as for a footprint of the same shape", "[regions]") {
  const std::uint64_t seed = GENERATE(range(0U, 200U));
  CAPTURE(seed);
  Random random{seed};
  const Outline part = support::random_convex(random, 60);
  const Region outer{support::random_notched(random, 250), Disc{{0, 0}, 200}, {}};
  const double as_shape = inset(Footprint{{}, {part}}, outer);
  const double as_region = inset(only(part), outer);
  if (as_shape >= 0) {
    CHECK(as_region == Approx(as_shape).margin(1e-9));
  } else {
    CHECK(as_region < 1e-9);
  }
}

}  // namespace
}  // namespace placer
