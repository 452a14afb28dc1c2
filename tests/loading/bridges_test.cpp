// Larger shelves across columns: laid where they are needed, or where they save a firing.
#include <algorithm>
#include <catch2/catch.hpp>

#include "loading/index.h"
#include "loading/plans.h"
#include "placer/check/check.h"
#include "placer/loading/loading.h"
#include "placer/model/tower.h"

namespace placer::loading {
namespace {

/// Half shelves front and back in a round kiln, and full shelves that may lie across both.
Batch bridged(int halves, int fulls) {
  Batch batch = studios::studio(0, 1, 1);
  batch.pieces.clear();
  batch.kiln.shelves[0].have = halves;
  batch.kiln.shelves.push_back(studios::shelf("round", {{}, Disc{{0, 0}, 270}, {}}, 18, fulls));
  batch.kiln.bridges.push_back({"across", {0, 1}, {1}, {}, {}});
  return batch;
}

PieceKind platter(int count) { return studios::piece("platter", count, studios::round(400), 50); }

void sound(const Batch& batch, const LoadPlan& plan) {
  for (const Finding& finding : check::check_plan(batch, plan)) FAIL_CHECK(finding.message);
  CHECK(plan.fewest_firings_possible <= count_of(plan.firings));
  for (const KilnLoad& load : plan.firings) {
    for (std::size_t i = 0; i < load.levels.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        const std::vector<int> here = columns_of(batch.kiln, load.levels[i]);
        const bool shared = std::any_of(here.begin(), here.end(), [&](int column) {
          return lies_in(batch.kiln, load.levels[j], column);
        });
        if (shared) CHECK(load.levels[j].shelf_top < load.levels[i].shelf_top);
      }
    }
  }
}

int bridges_in(const LoadPlan& plan) {
  int bridges = 0;
  for (const KilnLoad& load : plan.firings) {
    for (const Level& level : load.levels) bridges += level.bridge >= 0 ? 1 : 0;
  }
  return bridges;
}

Batch without_bridges(Batch batch) {
  batch.kiln.bridges.clear();
  return batch;
}

}  // namespace

TEST_CASE("a platter that no half shelf takes lies across both columns", "[bridges]") {
  Batch batch = bridged(8, 1);
  batch.pieces = {platter(1), studios::piece("mug", 20, studios::round(85), 100)};
  const LoadPlan planned = plan(batch, quick());
  sound(batch, planned);
  CHECK(planned.left_out.empty());
  CHECK(bridges_in(planned) == 1);
  CHECK(planned.firings.size() == 1);
  const LoadPlan less = plan(without_bridges(batch), quick());
  REQUIRE(less.left_out.size() == 1);
  CHECK(less.left_out[0].code == "wide");
}

TEST_CASE("one platter for each full shelf: no plan has fewer firings, and it is said",
          "[bridges]") {
  Batch batch = bridged(8, 1);
  batch.pieces = {platter(3)};
  const LoadPlan planned = plan(batch, quick());
  sound(batch, planned);
  CHECK(planned.left_out.empty());
  CHECK(planned.firings.size() == 3);
  CHECK(planned.fewest_firings_possible == 3);
  batch.kiln.shelves[1].have = 3;
  const LoadPlan richer = plan(batch, quick());
  sound(batch, richer);
  CHECK(richer.firings.size() == 1);
  CHECK(bridges_in(richer) == 3);
}

TEST_CASE("a bridge that nothing needs saves a firing", "[bridges]") {
  Batch batch = bridged(2, 1);
  batch.pieces = {studios::piece("mug", 1, studios::round(85), 100)};
  int mugs = 10;  // as many as the two half shelves just do not hold
  LoadPlan plain;
  do {
    batch.pieces[0].count = ++mugs;
    plain = plan(without_bridges(batch), quick());
  } while (plain.firings.size() < 2 && mugs < 80);
  REQUIRE(plain.firings.size() == 2);
  batch.pieces[0].count = mugs + 6;
  CHECK(plan(without_bridges(batch), quick()).firings.size() == 2);
  const LoadPlan planned = plan(batch, quick());
  sound(batch, planned);
  CHECK(planned.firings.size() == 1);
  CHECK(planned.fewest_firings_possible == 1);
}

TEST_CASE("invented studios with bridges: every rule holds, the bound too", "[bridges]") {
  const auto seed = GENERATE(range(1U, 13U));
  CAPTURE(seed);
  Batch batch = studios::studio(seed, 3, 26);
  const Batch kiln = bridged(seed % 2 == 0 ? 6 : 4, static_cast<int>(1 + seed % 3));
  batch.kiln = kiln.kiln;
  if (seed % 4 != 0) batch.pieces.push_back(platter(static_cast<int>(1 + seed % 3)));
  if (seed % 5 == 0) batch.kiln.first_shelf = Length{};
  Options options;
  options.effort = seed % 6 == 0 ? Effort::normal : Effort::quick;
  const LoadPlan planned = plan(batch, options);
  sound(batch, planned);
  CHECK(planned.left_out.size() <= plan(without_bridges(batch), options).left_out.size());
}

TEST_CASE("columns in another order and with other names make no other plan", "[bridges]") {
  Batch batch = bridged(8, 2);
  batch.pieces = {platter(2), studios::piece("mug", 30, studios::round(85), 100)};
  const LoadPlan planned = plan(batch, quick());
  std::swap(batch.kiln.columns[0], batch.kiln.columns[1]);
  batch.kiln.columns[0].name = "far";
  batch.kiln.bridges[0].name = "over all";
  const LoadPlan other = plan(batch, quick());
  sound(batch, other);
  CHECK(other.firings.size() == planned.firings.size());
  CHECK(bridges_in(other) == bridges_in(planned));
  for (std::size_t i = 0; i < planned.firings.size(); ++i) {
    CHECK(other.firings[i].levels.size() == planned.firings[i].levels.size());
    CHECK(other.firings[i].ware.kg() == Approx(planned.firings[i].ware.kg()));
  }
}

TEST_CASE("levels that are kept, a bridge among them, stay as they are", "[bridges]") {
  Batch batch = bridged(8, 1);
  batch.pieces = {platter(1), studios::piece("mug", 24, studios::round(85), 100)};
  const LoadPlan before = plan(batch, quick());
  REQUIRE(before.firings.size() == 1);
  Options options = quick();
  for (const Level& level : before.firings[0].levels) {
    options.keep.push_back(level);
    if (level.bridge >= 0) break;
  }
  const LoadPlan after = plan(batch, options);
  sound(batch, after);
  const auto& levels = after.firings.at(0).levels;
  const auto bridge = std::find_if(levels.begin(), levels.end(),
                                   [](const Level& level) { return level.bridge >= 0; });
  REQUIRE(bridge != levels.end());
  CHECK(bridge->pieces.size() == options.keep.back().pieces.size());
  CHECK(bridge->shelf_top == options.keep.back().shelf_top);
}

}  // namespace placer::loading
