#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "placer/geometry/shape.h"
#include "support/random_shapes.h"

namespace placer {
namespace {

TEST_CASE("direction: exact at quarter turns, within two last digits elsewhere", "[direction]") {
  CHECK(direction(0) == Point{1, 0});
  CHECK(direction(90) == Point{0, 1});
  CHECK(direction(-180) == Point{-1, 0});
  CHECK(direction(270) == Point{0, -1});
  CHECK(direction(36000) == Point{1, 0});
  for (int i = -7200; i <= 7200; ++i) {
    const double turn = i / 10.0;
    const double radians = turn * std::numbers::pi / 180;
    CHECK(direction(turn).x == Approx(std::cos(radians)).margin(3e-15));
    CHECK(direction(turn).y == Approx(std::sin(radians)).margin(3e-15));
    CHECK(std::hypot(direction(turn).x, direction(turn).y) == Approx(1).epsilon(3e-16));
  }
}

TEST_CASE("direction: no zero carries a minus sign", "[direction]") {
  for (const double turn : {0.0, 90.0, 180.0, 270.0}) {
    CHECK_FALSE((direction(turn).x == 0 && std::signbit(direction(turn).x)));
    CHECK_FALSE((direction(turn).y == 0 && std::signbit(direction(turn).y)));
  }
}

TEST_CASE("placed: turned about the origin first, then moved", "[placed]") {
  CHECK(placed(Point{1, 0}, {{10, 20}, 90}) == Point{10, 21});
  const Footprint piece =
      placed(Footprint{{{{2, 0}, 1}}, {rectangle({0, 0}, {2, 1})}}, {{5, 5}, 180});
  CHECK(piece.discs[0].centre == Point{3, 5});
  CHECK(piece.outlines[0].corners[2] == Point{3, 4});
}

TEST_CASE("placed: a region's round and keep-outs move along", "[placed]") {
  Region region = half_disc(20);
  region.keep_outs = {Footprint{{{{0, 4}, 1}}, {}}};
  const Region there = placed(region, {{100, 0}, -90});
  CHECK(there.round->centre == Point{100, 0});
  CHECK(there.keep_outs[0].discs[0].centre == Point{104, 0});
  const Box box = bounding_box(there);
  CHECK(box.low == Point{100, -10});
  CHECK(box.high == Point{110, 10});
}

TEST_CASE("placed: areas keep", "[placed]") {
  const std::uint64_t seed = GENERATE(range(0U, 50U));
  CAPTURE(seed);
  Random random{seed};
  const Footprint piece = support::random_piece(random, 60);
  const Footprint there = placed(piece, support::random_placement(random, 500));
  CHECK(area(there) == Approx(area(piece)).epsilon(1e-9));
}

TEST_CASE("scaled: lengths by the factor, areas by its square", "[scaled]") {
  const Footprint mug{{{{0, 0}, 40}}, {rectangle({0, -8}, {70, 8})}};
  CHECK(reach(scaled(mug, 0.5)) == Approx(reach(mug) / 2));
  CHECK(area(scaled(mug, 0.9)) == Approx(0.81 * area(mug)).epsilon(1e-12));
}

TEST_CASE("rectangle: refuses sizes that are none", "[making]") {
  CHECK_THROWS_AS(rectangle(0, 1), std::invalid_argument);
  CHECK_THROWS_AS(rectangle(1, -1), std::invalid_argument);
  CHECK_THROWS_AS(rectangle(NAN, 1), std::invalid_argument);
  CHECK_THROWS_AS(half_disc(0), std::invalid_argument);
  CHECK_THROWS_AS(regular_polygon(2, 1), std::invalid_argument);
  CHECK_THROWS_AS(oval(INFINITY, 1), std::invalid_argument);
}

TEST_CASE("regular_polygon: a flat side in front, as wide across flats as asked", "[making]") {
  const Outline octagon = regular_polygon(8, 600);
  const Box box = bounding_box(Footprint{{}, {octagon}});
  CHECK(box.low.y == Approx(-300));
  CHECK(box.high.x == Approx(300));
  CHECK(octagon.corners[0].y == Approx(octagon.corners[7].y));
  CHECK(octagon.corners[0].x == Approx(-octagon.corners[7].x));
  // The area of a regular octagon of inradius r is 8 r² tan(22.5°).
  CHECK(signed_area(octagon) ==
        Approx(8 * 300 * 300 * std::tan(std::numbers::pi / 8)).epsilon(1e-12));
}

TEST_CASE("oval: lies round the ellipse, too large by no more than it says", "[making]") {
  const int sides = GENERATE(12, 48, 96);
  CAPTURE(sides);
  const Outline outline = oval(400, 260, sides);
  CHECK(is_convex(outline));
  const double slack = 200 * (1 / std::cos(std::numbers::pi / sides) - 1);
  for (const Point& corner : outline.corners) {
    CHECK(std::hypot(corner.x / 200, corner.y / 130) >= 1);
    CHECK(std::hypot(corner.x, corner.y * 200 / 130) <= 200 + slack + 1e-9);
  }
  for (int i = 0; i < 3600; ++i) {  // no point of the ellipse is outside
    const double t = i * std::numbers::pi / 1800;
    CHECK(inset(Point{200 * std::cos(t), 130 * std::sin(t)}, outline) > -1e-9);
  }
}

TEST_CASE("oval: 96 sides at 200 mm are off by less than 0.11 mm", "[making]") {
  CHECK(reach(Footprint{{}, {oval(400, 400)}}) - 200 < 0.11);
}

TEST_CASE("reach and bounding_box: discs off the origin and corners", "[measuring]") {
  const Footprint piece{{{{3, 4}, 2}}, {rectangle({-6, -8}, {0, 0})}};
  CHECK(reach(piece) == 10);
  CHECK(bounding_box(piece).low == Point{-6, -8});
  CHECK(bounding_box(piece).high == Point{5, 6});
}

TEST_CASE("bounding_box of a region: the smaller of outline and round on each side",
          "[measuring]") {
  const Box half = bounding_box(half_disc(560));
  CHECK(half.low == Point{-280, 0});
  CHECK(half.high == Point{280, 280});
}

}  // namespace
}  // namespace placer
