// The bound on the number of firings: never above what a plan does, and it moves the right way.
#include "loading/bound.h"

#include <catch2/catch.hpp>

#include "loading/index.h"
#include "loading/studios.h"
#include "placer/check/check.h"
#include "placer/loading/loading.h"

namespace placer::loading {
namespace {

int bound_of(const Batch& batch) {
  const Job job = job_of(batch, 0);
  std::vector<int> set;
  for (const Sort& sort : job.sorts) set.push_back(sort.count);
  return fewest_firings(job, set);
}

}  // namespace

TEST_CASE("a piece more never lowers the bound") {
  const auto seed = GENERATE(range(1U, 9U));
  CAPTURE(seed);
  Batch batch = studios::studio(seed, 3, 60);
  int before = bound_of(batch);
  for (PieceKind& kind : batch.pieces) {
    kind.count += 7;
    const int after = bound_of(batch);
    CHECK(after >= before);
    before = after;
  }
}

TEST_CASE("one kind of disc that fills a round shelf by a proven count needs that many firings") {
  // Seven discs of radius 90 need a circle of radius 270 (R. L. Graham, 1968); with a gap of 0 a
  // shelf of 270 holds seven and never eight. One level a firing, as the discs are tall.
  Batch batch = studios::studio(1, 1, 1);
  batch.rules.glaze.gap = Length{};
  batch.rules.glaze.runny_gap = Length{};
  batch.pieces[0] = studios::piece("drum", 15, studios::round(180), 500);
  CHECK(bound_of(batch) == 3);
  batch.pieces[0].count = 14;
  CHECK(bound_of(batch) == 2);
}

TEST_CASE("half shelves: the bound knows that only two large bowls go side by side") {
  Batch batch = studios::studio(4, 1, 1);
  batch.pieces[0] = studios::piece("bowl", 9, studios::round(182), 500);
  CHECK(bound_of(batch) == 3);  // two columns of one level of two
}

TEST_CASE("cases by the number of shelves prove what prices alone leave a little short") {
  // Prices alone come to 0.98, 1.96 and 2.95 loads; there are plans of 2, 3 and 4.
  const auto [seed, kinds, pieces, loads] = GENERATE(
      table<std::uint64_t, int, int, int>({{18, 4, 326, 2}, {48, 4, 236, 3}, {7, 5, 319, 4}}));
  CAPTURE(seed);
  CHECK(bound_of(studios::studio(seed, kinds, pieces)) == loads);
}

TEST_CASE("the bound never exceeds a plan that check accepts") {
  const auto seed = GENERATE(range(30U, 38U));
  CAPTURE(seed);
  const Batch batch = studios::studio(seed, 3, 40);
  Options options;
  options.effort = Effort::quick;
  const LoadPlan planned = plan(batch, options);
  CHECK(check::check_plan(batch, planned).empty());
  CHECK(planned.left_out.empty());
  CHECK(planned.fewest_firings_possible <= count_of(planned.firings));
  CHECK(planned.fewest_firings_possible >= 1);
}

}  // namespace placer::loading
