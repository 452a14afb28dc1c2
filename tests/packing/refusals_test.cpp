// Input that makes no sense is refused by name; input that is merely hopeless is answered.
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "packing/packings.h"

namespace placer::packing {
namespace {

using Catch::Matchers::Contains;

Options glance() {
  Options options;
  options.effort = Effort::glance;
  return options;
}

TEST_CASE("sizes, gaps, counts and angles that make no sense are named") {
  const double nan = std::nan("");
  const double inf = std::numeric_limits<double>::infinity();
  const Problem good = in_rectangle(300, 200, {disc_item(60, 5)}, 4, 2);
  const auto refused = [](const Problem& problem, const std::string& words) {
    CHECK_THROWS_WITH(most_pieces(problem, glance()), Contains(words));
    CHECK_THROWS_AS(most_value(problem, glance()), std::invalid_argument);
  };
  for (const double bad : {-1.0, nan, inf}) {
    Problem problem = good;
    problem.gap = bad;
    refused(problem, "the gap is");
    problem = good;
    problem.edge_gap = bad;
    refused(problem, "the edge gap is");
    problem = good;
    problem.items[0].halo = bad;
    refused(problem, "halo is");
    problem = good;
    problem.items[0].value = bad;
    refused(problem, "value is");
  }
  for (const double bad : {0.0, -30.0, nan, inf}) {
    Problem problem = good;
    problem.items[0].shape.discs[0].radius = bad;
    refused(problem, "radius is");
    problem = in_circle(2 * bad, {disc_item(60, 5)});
    refused(problem, "radius is");
  }
  Problem problem = good;
  problem.items[0].count = -3;
  refused(problem, "count is -3");
  problem = good;
  problem.items[0].turns_deg = {0, nan};
  refused(problem, "a turn is");
}

TEST_CASE("outlines that cross themselves, and shapes without parts, are named") {
  Problem problem = in_rectangle(300, 200, {disc_item(60, 5)}, 4, 2);
  problem.region.outline = {{{0, 0}, {100, 100}, {100, 0}, {0, 100}}};
  CHECK_THROWS_WITH(most_pieces(problem, glance()), Contains("the region"));
  problem = in_rectangle(300, 200, {Item{}});
  CHECK_THROWS_WITH(most_pieces(problem, glance()), Contains("no parts"));
  problem = in_rectangle(300, 200, {disc_item(60, 5)});
  problem.region.keep_outs.push_back({{}, {{{{0, 0}, {1, 1}}}}});
  CHECK_THROWS_WITH(most_pieces(problem, glance()), Contains("keep-out 1"));
  problem.region = Region{};
  CHECK_THROWS_WITH(most_pieces(problem, glance()), Contains("no edge"));
}

TEST_CASE("most_pieces takes one kind") {
  CHECK_THROWS_WITH(most_pieces(in_rectangle(300, 200, {}), glance()), Contains("not 0"));
  CHECK_THROWS_WITH(most_pieces(in_rectangle(300, 200, {disc_item(60), disc_item(50)}), glance()),
                    Contains("not 2"));
}

TEST_CASE("no supply, no room, no way: an empty answer") {
  CHECK(count(most_value(in_rectangle(300, 200, {}), glance())) == 0);
  CHECK(count(most_pieces(in_rectangle(300, 200, {disc_item(60, 0)}), glance())) == 0);
  CHECK(count(most_pieces(in_rectangle(300, 200, {disc_item(201)}), glance())) == 0);
  CHECK(count(most_pieces(in_rectangle(300, 200, {disc_item(60)}, 4, 150), glance())) == 0);
  CHECK(count(most_pieces(in_circle(300, {mug_item(290, 40, 16)}), glance())) == 0);
  CHECK(fewest_regions({in_rectangle(300, 200, {})}, {}, glance()).empty());
  CHECK(fewest_regions({}, {disc_item(60, 3)}, glance()).empty());
  CHECK(fewest_regions({in_rectangle(300, 200, {})}, {disc_item(250, 3)}, glance()).empty());
  CHECK(most_possible(in_rectangle(300, 200, {disc_item(60)}, 4, 150)) == 0);
}

TEST_CASE("a gap larger than the region leaves room for one piece") {
  CHECK(count(most_pieces(in_rectangle(300, 200, {disc_item(60)}, 5000), glance())) == 1);
}

TEST_CASE("a keep-out that covers all leaves no room") {
  Problem problem = in_rectangle(300, 200, {disc_item(20)});
  Footprint all;
  all.outlines.push_back(rectangle({-10, -10}, {310, 210}));
  problem.region.keep_outs.push_back(all);
  CHECK(count(most_pieces(problem, glance())) == 0);
  CHECK(count(most_value(problem, glance())) == 0);
  CHECK_FALSE(fits_alone(problem, 0));
}

TEST_CASE("a hundred thousand pieces on offer for one shelf do no harm") {
  const Packing packing = most_value(
      in_rectangle(600, 400, {disc_item(60, 100'000), mug_item(84, 30, 16, 100'000)}, 4), glance());
  CHECK(count(packing) >= 25);
}

}  // namespace
}  // namespace placer::packing
