#include <catch2/catch.hpp>
#include <numeric>

#include "placer/geometry/shape.h"
#include "support/geos_shapes.h"
#include "support/random_shapes.h"

namespace placer {
namespace {

using support::random_notched;

double total_area(const std::vector<Outline>& parts) {
  return std::accumulate(parts.begin(), parts.end(), 0.0,
                         [](double sum, const Outline& part) { return sum + signed_area(part); });
}

void check_parts(const Outline& outline) {
  const std::vector<Outline> parts = convex_parts(outline);
  for (const Outline& part : parts) {
    CHECK(is_convex(part));
    CHECK(signed_area(part) > 0);
  }
  CHECK(total_area(parts) == Approx(std::abs(signed_area(outline))).epsilon(1e-11));
  CHECK(oracle::area(oracle::ground(Footprint{{}, parts})) ==
        Approx(oracle::area(oracle::polygon(outline))).epsilon(1e-11));
  CHECK(parts.size() <= outline.corners.size() - 2);
}

TEST_CASE("convex_parts: a convex outline stays whole", "[parts]") {
  CHECK(convex_parts(rectangle(3, 4)).size() == 1);
  CHECK(convex_parts(oval(300, 200)).size() == 1);
}

TEST_CASE("convex_parts: an L is two parts, a cross three", "[parts]") {
  CHECK(convex_parts({{{0, 0}, {10, 0}, {10, 5}, {5, 5}, {5, 10}, {0, 10}}}).size() == 2);
  const Outline cross{{{1, 0},
                       {2, 0},
                       {2, 1},
                       {3, 1},
                       {3, 2},
                       {2, 2},
                       {2, 3},
                       {1, 3},
                       {1, 2},
                       {0, 2},
                       {0, 1},
                       {1, 1}}};
  CHECK(convex_parts(cross).size() <= 5);
  check_parts(cross);
}

TEST_CASE("convex_parts: a clockwise outline is turned round first", "[parts]") {
  check_parts({{{0, 10}, {5, 10}, {5, 5}, {10, 5}, {10, 0}, {0, 0}}});
}

TEST_CASE("convex_parts: corners on straight edges do no harm", "[parts]") {
  check_parts(
      {{{0, 0}, {5, 0}, {10, 0}, {10, 5}, {7, 5}, {5, 5}, {5, 8}, {5, 10}, {0, 10}, {0, 3}}});
}

TEST_CASE("convex_parts: 200 random outlines are cut without loss or overlap", "[parts][geos]") {
  const std::uint64_t seed = GENERATE(range(0U, 200U));
  CAPTURE(seed);
  Random random{seed};
  check_parts(random_notched(random, 100));
}

TEST_CASE("convex_parts: 200 corners are cut too", "[parts][geos]") {
  const std::uint64_t seed = GENERATE(range(0U, 5U));
  CAPTURE(seed);
  Random random{seed};
  check_parts(random_notched(random, 300, 200));
}

TEST_CASE("convex_parts: an outline that crosses itself is refused", "[parts]") {
  CHECK_THROWS_AS(convex_parts({{{0, 0}, {2, 2}, {2, 0}, {0, 2}}}), std::invalid_argument);
}

TEST_CASE("is_simple: what is not", "[simple]") {
  CHECK_FALSE(is_simple({{{0, 0}, {1, 0}}}));
  CHECK_FALSE(is_simple({{{0, 0}, {1, 0}, {2, 0}}}));                  // no area
  CHECK_FALSE(is_simple({{{0, 0}, {2, 2}, {2, 0}, {0, 2}}}));          // a bow tie
  CHECK_FALSE(is_simple({{{0, 0}, {4, 0}, {4, 4}, {2, 0}, {0, 4}}}));  // a corner on an edge
  CHECK_FALSE(is_simple({{{0, 0}, {4, 0}, {4, 0}, {4, 4}}}));          // a corner twice
  CHECK_FALSE(is_simple({{{0, 0}, {4, 0}, {4, 4}, {4, 2}, {4, 6}, {0, 6}}}));  // runs back
  CHECK_FALSE(is_simple({{{0, 0}, {4, 0}, {NAN, 4}}}));
  CHECK_FALSE(is_simple({{{0, 0}, {4, 0}, {INFINITY, 4}}}));
  CHECK(is_simple({{{0, 0}, {4, 0}, {4, 4}, {2, 0.001}, {0, 4}}}));
}

TEST_CASE("is_simple: GEOS agrees on 500 outlines of random corners", "[simple][geos]") {
  const std::uint64_t seed = GENERATE(range(0U, 500U));
  CAPTURE(seed);
  Random random{seed};
  Outline outline;
  for (std::uint64_t i = 0; i < 3 + seed % 4; ++i) {
    outline.corners.push_back(support::random_point(random, 10));
  }
  CHECK(is_simple(outline) == oracle::is_valid(oracle::polygon(outline)));
}

TEST_CASE("is_simple: GEOS agrees on 500 outlines with corners on a coarse grid",
          "[simple][geos]") {
  const std::uint64_t seed = GENERATE(range(0U, 500U));
  CAPTURE(seed);
  Random random{seed};
  Outline outline;
  for (std::uint64_t i = 0; i < 4 + seed % 3; ++i) {
    const double x = static_cast<double>(random.below(4));
    outline.corners.push_back({x, static_cast<double>(random.below(4))});
  }
  // GEOS lets a corner be named twice; we do not.
  for (std::size_t i = 0; i < outline.corners.size(); ++i) {
    if (outline.corners[i] == outline.corners[(i + 1) % outline.corners.size()]) return;
  }
  CHECK(is_simple(outline) == oracle::is_valid(oracle::polygon(outline)));
}

TEST_CASE("is_convex: left turns only, and once round only", "[convex]") {
  CHECK(is_convex(rectangle(1, 2)));
  CHECK(is_convex({{{0, 0}, {1, 0}, {2, 0}, {2, 2}}}));        // a corner on a straight edge
  CHECK_FALSE(is_convex({{{0, 0}, {0, 1}, {1, 1}, {1, 0}}}));  // clockwise
  CHECK_FALSE(is_convex({{{0, 0}, {4, 0}, {1, 1}, {0, 4}}}));
  Outline star;
  for (int i = 0; i < 5; ++i) star.corners.push_back(direction(144.0 * i));
  CHECK_FALSE(is_convex(star));
}

TEST_CASE("edge_polygon: lies inside the region and leaves arcs by no more than asked", "[edge]") {
  const double sagitta = GENERATE(0.001, 0.01, 0.5, 5.0);
  CAPTURE(sagitta);
  const Region half = half_disc(560);
  const Outline edge = edge_polygon(half, sagitta);
  CHECK(is_simple(edge));
  CHECK(inset(Footprint{{}, {edge}}, half) > -1e-9);
  for (std::size_t i = 0; i < edge.corners.size(); ++i) {
    const Point middle = 0.5 * (edge.corners[i] + edge.corners[(i + 1) % edge.corners.size()]);
    const double to_edge = std::min(280 - std::hypot(middle.x, middle.y), middle.y);
    CHECK(to_edge <= sagitta + 1e-9);
  }
}

TEST_CASE("edge_polygon: as tangents, nothing of the region is outside it", "[edge]") {
  const double sagitta = GENERATE(0.001, 0.01, 0.5, 5.0);
  CAPTURE(sagitta);
  const Region half = placed(half_disc(560), {{30, -10}, 200});
  const Outline edge = edge_polygon(half, sagitta, ArcsAs::tangents);
  CHECK(is_simple(edge));
  CHECK(inset(half, Region{edge, std::nullopt, {}}) > -1e-9);
  for (const Point& corner : edge.corners) {
    CHECK(std::hypot(corner.x - 30, corner.y + 10) <= 280 + sagitta + 1e-9);
  }
  const Outline whole = edge_polygon(Region{{}, Disc{{0, 0}, 280}, {}}, sagitta, ArcsAs::tangents);
  CHECK(inset(Footprint{{{{0, 0}, 280}}, {}}, Region{whole, std::nullopt, {}}) ==
        Approx(0).margin(1e-9));
}

TEST_CASE("edge_polygon: a notched outline cut by a round", "[edge][geos]") {
  const std::uint64_t seed = GENERATE(range(0U, 100U));
  CAPTURE(seed);
  Random random{seed};
  const Region region{support::random_convex(random, 200), Disc{{0, 0}, 180}, {}};
  const double shared = oracle::area(oracle::ground(region));
  if (shared < 100) return;
  const Outline edge = edge_polygon(region);
  CHECK(inset(Footprint{{}, {edge}}, region) > -1e-6);
  double around = 0;
  for (std::size_t i = 0; i < edge.corners.size(); ++i) {
    const Point along = edge.corners[(i + 1) % edge.corners.size()] - edge.corners[i];
    around += std::hypot(along.x, along.y);
  }
  CHECK(signed_area(edge) <= shared + 0.01);
  CHECK(signed_area(edge) >= shared - 0.01 * around);
}

TEST_CASE("convex_hull: holds every part and no more than GEOS's", "[hull][geos]") {
  const std::uint64_t seed = GENERATE(range(0U, 100U));
  CAPTURE(seed);
  Random random{seed};
  const Footprint piece = support::random_piece(random, 50);
  const Outline hull = convex_hull(piece, 0.01);
  CHECK(is_convex(hull));
  CHECK(inset(piece, Region{hull, std::nullopt, {}}) >= -0.0101);
  const auto theirs = oracle::owned(GEOSConvexHull_r(oracle::geos(), oracle::ground(piece).get()));
  CHECK(signed_area(hull) == Approx(oracle::area(theirs)).epsilon(1e-3));
}

}  // namespace
}  // namespace placer
