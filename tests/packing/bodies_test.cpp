// The engine's own closed forms against GEOS.
#include "packing/bodies.h"

#include <catch2/catch.hpp>
#include <cmath>

#include "packing/packings.h"
#include "support/random_shapes.h"

namespace placer::packing {
namespace {

Solid solid(const Outline& outline) {
  Solid s;
  s.add_polygon(outline.corners);
  return s;
}

Touch touch_of(const Solid& a, const Solid& b) {
  return touch(a.corners.data(), a.normals.data(), static_cast<int>(a.corners.size()),
               b.corners.data(), b.normals.data(), static_cast<int>(b.corners.size()));
}

TEST_CASE("turn_of: as the library's sine and cosine, for any angle") {
  for (int i = -4000; i <= 4000; ++i) {
    const double angle = i * 0.0137;
    CAPTURE(angle);
    CHECK(std::abs(turn_of(angle).c - std::cos(angle)) < 4e-16);
    CHECK(std::abs(turn_of(angle).s - std::sin(angle)) < 4e-16);
  }
}

TEST_CASE("polygon to polygon: the distance that GEOS finds, a depth where they overlap") {
  const unsigned seed = GENERATE(range(0U, 400U));
  CAPTURE(seed);
  Random random{seed};
  const Outline a =
      placed(support::random_convex(random, 50), support::random_placement(random, 40));
  const Outline b =
      placed(support::random_convex(random, 50), support::random_placement(random, 90));
  const Touch t = touch_of(solid(a), solid(b));
  const double d = oracle::distance(oracle::polygon(a), oracle::polygon(b));
  if (d > 0) {
    CHECK(t.d == Approx(d).margin(1e-9));
  } else {
    CHECK(t.d <= 1e-9);
    // Moved out along n by the depth, they touch.
    const Outline moved = placed(b, {(-t.d) * t.n, 0});
    CHECK(oracle::distance(oracle::polygon(a), oracle::polygon(moved)) == Approx(0).margin(1e-9));
    CHECK(touch_of(solid(a), solid(moved)).d == Approx(0).margin(1e-9));
  }
  CHECK(touch_of(solid(b), solid(a)).d == Approx(t.d).margin(1e-9));
}

TEST_CASE("polygon to polygon: parallel edges that overlap only in part") {
  const double shift = GENERATE(-190.0, -100.0, -31.0, 0.0, 12.5, 99.0, 175.0, 230.0);
  CAPTURE(shift);
  const Outline a = rectangle(200, 50);
  const Outline b = placed(rectangle(150, 25), {{shift, 60}, 0});
  CHECK(touch_of(solid(a), solid(b)).d ==
        Approx(oracle::distance(oracle::polygon(a), oracle::polygon(b))).margin(1e-12));
}

TEST_CASE("polygon to disc: the distance that GEOS finds") {
  const unsigned seed = GENERATE(range(0U, 400U));
  CAPTURE(seed);
  Random random{seed};
  const Outline a =
      placed(support::random_convex(random, 50), support::random_placement(random, 40));
  const Ball ball{support::random_point(random, 120), random.uniform(1, 30)};
  const Solid s = solid(a);
  const Touch t =
      touch(s.corners.data(), s.normals.data(), static_cast<int>(s.corners.size()), ball);
  const double d = oracle::distance(oracle::polygon(a), oracle::point(ball.c));
  if (d > 0) CHECK(t.d == Approx(d - ball.r).margin(1e-9));
  if (d == 0) CHECK(t.d <= -ball.r + 1e-9);
}

}  // namespace
}  // namespace placer::packing
