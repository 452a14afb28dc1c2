#include <catch2/catch.hpp>
#include <limits>

#include "placer/geometry/shape.h"
#include "support/geos_shapes.h"
#include "support/random_shapes.h"

namespace placer {
namespace {

using support::random_convex;
using support::random_placement;

Footprint mug() { return {{{{0, 0}, 40}}, {rectangle({0, -8}, {70, 8})}}; }

// The slow twin: distance from p to the segment, by trying points along it.
double tried_distance(Point p, Point a, Point b) {
  double least = std::numeric_limits<double>::infinity();
  for (int i = 0; i <= 20000; ++i) {
    const Point q = a + (i / 20000.0) * (b - a);
    least = std::min(least, std::hypot(p.x - q.x, p.y - q.y));
  }
  return least;
}

TEST_CASE("gap: two discs are as far apart as their middles less both radii", "[gap]") {
  CHECK(gap(Disc{{0, 0}, 1}, Disc{{3, 4}, 2}) == 2);
  CHECK(gap(Disc{{0, 0}, 1}, Disc{{3, 0}, 2}) == 0);
  CHECK(gap(Disc{{0, 0}, 1}, Disc{{1, 0}, 2}) == -2);
}

TEST_CASE("gap: a disc and a square, beside an edge, off a corner and inside", "[gap]") {
  const Outline square = rectangle({0, 0}, {2, 2});
  CHECK(gap(Disc{{5, 1}, 1}, square) == 2);
  CHECK(gap(Disc{{5, 6}, 1}, square) == 4);
  CHECK(gap(Disc{{3, 1}, 1}, square) == 0);
  CHECK(gap(Disc{{1, 1.5}, 1}, square) == -1.5);
}

TEST_CASE("gap: two squares, edge to edge, corner to corner, touching and overlapping", "[gap]") {
  const Outline square = rectangle({0, 0}, {2, 2});
  CHECK(gap(square, rectangle({5, 0}, {7, 2})) == 3);
  CHECK(gap(square, rectangle({5, 6}, {7, 8})) == 5);
  CHECK(gap(square, rectangle({2, 1}, {3, 4})) == 0);
  CHECK(gap(square, rectangle({1.5, 0}, {3, 2})) == -0.5);
}

TEST_CASE("gap: two mugs handle to handle, and handle to body", "[gap]") {
  CHECK(gap(mug(), placed(mug(), {{150, 0}, 180})) == 10);
  CHECK(gap(mug(), placed(mug(), {{150, 0}, 0})) == 40);
  CHECK(gap(mug(), placed(mug(), {{0, 90}, 0})) == 10);
}

TEST_CASE("gap: an edge's nearest point is the one a search along it finds", "[gap]") {
  const std::uint64_t seed = GENERATE(range(0U, 20U));
  CAPTURE(seed);
  Random random{seed};
  const Outline part = random_convex(random, 50);
  const Disc disc{support::random_point(random, 150), 1};
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < part.corners.size(); ++i) {
    const Point next = part.corners[(i + 1) % part.corners.size()];
    least = std::min(least, tried_distance(disc.centre, part.corners[i], next));
  }
  const double fast = gap(disc, part);
  CHECK(std::abs(fast + disc.radius) == Approx(least).margin(0.01));
}

TEST_CASE("gap: GEOS finds the same distances between 600 random pairs", "[gap][geos]") {
  const std::uint64_t seed = GENERATE(range(0U, 600U));
  CAPTURE(seed);
  Random random{seed};
  const Footprint a = support::random_placed(random, 50, 120);
  const Footprint b = support::random_placed(random, 50, 120);
  const double ours = gap(a, b);
  const double theirs = oracle::gap(a, b);
  CHECK(std::max(ours, 0.0) == Approx(std::max(theirs, 0.0)).margin(1e-9));
  CHECK((ours < -1e-9) == (area(Footprint{a}) + area(Footprint{b}) -
                               oracle::area(oracle::joined(oracle::ground(a), oracle::ground(b))) >
                           1e-2));
}

TEST_CASE("gap: the law gap(a, b) == gap(b, a) holds to the last digit", "[gap]") {
  const std::uint64_t seed = GENERATE(range(0U, 500U));
  CAPTURE(seed);
  Random random{seed};
  const Footprint a = support::random_placed(random, 50, 80);
  const Footprint b = support::random_placed(random, 50, 80);
  CHECK(gap(a, b) == gap(b, a));
}

TEST_CASE("gap: moving and turning both shapes together changes nothing", "[gap]") {
  const std::uint64_t seed = GENERATE(range(0U, 300U));
  CAPTURE(seed);
  Random random{seed};
  const Footprint a = support::random_placed(random, 50, 80);
  const Footprint b = support::random_placed(random, 50, 80);
  const Placement together = random_placement(random, 300);
  CHECK(gap(placed(a, together), placed(b, together)) == Approx(gap(a, b)).margin(1e-9));
}

TEST_CASE("gap: pulling overlapping shapes apart by the depth along an axis parts them", "[gap]") {
  const std::uint64_t seed = GENERATE(range(0U, 300U));
  CAPTURE(seed);
  Random random{seed};
  const Outline a = random_convex(random, 50);
  const Outline b = random_convex(random, 50);
  const double depth = -gap(a, b);
  if (depth <= 0) return;
  // The depth is that along some edge's normal: of all normals, one must do, and none does sooner.
  double least_overlap = std::numeric_limits<double>::infinity();
  for (const Outline* part : {&a, &b}) {
    const auto& corners = part->corners;
    for (std::size_t i = 0; i < corners.size(); ++i) {
      const Point along = corners[(i + 1) % corners.size()] - corners[i];
      const double sign = part == &a ? 1 : -1;
      const Point out = (sign / std::hypot(along.x, along.y)) * Point{along.y, -along.x};
      const Outline moved = placed(b, {(depth + 1e-9) * out, 0});
      const Outline nearly = placed(b, {(0.999 * depth) * out, 0});
      least_overlap = std::min(least_overlap, -gap(a, moved));
      CHECK(gap(a, nearly) < 0);
    }
  }
  CHECK(least_overlap <= 0);
}

TEST_CASE("keep_out_gap: the nearest keep-out counts, and none is infinitely far", "[gap]") {
  Region region{rectangle(500, 500), std::nullopt, {}};
  CHECK(keep_out_gap(mug(), region) == std::numeric_limits<double>::infinity());
  region.keep_outs = {Footprint{{{{0, 100}, 10}}, {}}, Footprint{{{{0, -75}, 10}}, {}}};
  CHECK(keep_out_gap(mug(), region) == 25);
}

}  // namespace
}  // namespace placer
