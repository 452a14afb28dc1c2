// Shelves of any outline.
#include <catch2/catch.hpp>

#include "packing/packings.h"
#include "support/random_shapes.h"

namespace placer::packing {
namespace {

TEST_CASE("on shelves of any simple outline, every clearance is kept, as GEOS sees it") {
  const unsigned seed = GENERATE(range(0U, 60U));
  CAPTURE(seed);
  Random random{seed};
  Problem problem;
  problem.region.outline = support::random_notched(random, 400);
  problem.gap = random.uniform(0, 8);
  problem.edge_gap = random.uniform(0, 8);
  problem.items = {disc_item(random.uniform(30, 90), 12), mug_item(50, 20, 10, 12),
                   tile_item(70, 40, 6)};
  Options glance;
  glance.effort = Effort::glance;
  const Packing packing = most_value(problem, glance);
  CHECK(seen_by_geos(problem, packing) >= kSeenShort);
  problem.items.resize(1);
  const Packing equal = most_pieces(problem, glance);
  CHECK(seen_by_geos(problem, equal) >= kSeenShort);
  CHECK(count(equal) <= most_possible(problem));
}

TEST_CASE("a round shelf cut by a notched outline") {
  Problem problem = in_circle(600, {disc_item(80)}, 4, 2);
  problem.region.outline = {{{-300, -300},
                             {300, -300},
                             {300, 300},
                             {60, 300},
                             {60, 100},
                             {-60, 100},
                             {-60, 300},
                             {-300, 300}}};
  Options quick;
  quick.effort = Effort::quick;
  const Packing packing = most_pieces(problem, quick);
  CHECK(count(packing) >= 28);
  CHECK(seen_by_geos(problem, packing) >= kSeenShort);
}

}  // namespace
}  // namespace placer::packing
