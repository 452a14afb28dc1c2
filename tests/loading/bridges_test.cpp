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

int bridges_in_load(const KilnLoad& load) {
  return static_cast<int>(std::count_if(load.levels.begin(), load.levels.end(),
                                        [](const Level& level) { return level.bridge >= 0; }));
}

int bridges_in(const LoadPlan& plan) {
  int bridges = 0;
  for (const KilnLoad& load : plan.firings) bridges += bridges_in_load(load);
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

TEST_CASE("of larger shelves the one that takes more of what needs one is laid", "[bridges]") {
  Batch batch = studios::studio(2, 1, 1);  // 960 x 620, one behind which nothing is
  batch.kiln.chamber.outline = rectangle(1000, 620);
  batch.kiln.shelves = {studios::shelf("small", {rectangle(300, 520), {}, {}}, 18, 15),
                        studios::shelf("plank", {rectangle(610, 520), {}, {}}, 22, 1),
                        studios::shelf("long", {rectangle(930, 520), {}, {}}, 25, 1)};
  batch.kiln.columns = {{"left", {0}, {{-315, 0}, 0}, {}, {}},
                        {"middle", {0}, {}, {}, {}},
                        {"right", {0}, {{315, 0}, 0}, {}, {}}};
  batch.kiln.bridges = {{"two", {0, 1}, {1}, {{-157, 0}, 0}, {}}, {"all", {0, 1, 2}, {2}, {}, {}}};
  batch.pieces = {studios::piece("platter", 4, studios::round(430), 50)};
  const LoadPlan planned = plan(batch, quick());
  sound(batch, planned);
  CHECK(planned.left_out.empty());
  CHECK(planned.firings.size() == 2);
}

TEST_CASE("a bridge with nothing to go under it lies low", "[bridges]") {
  Batch batch = bridged(8, 1);
  batch.pieces = {studios::piece("platter", 2, studios::round(470), 50),
                  studios::piece("mug", 36, studios::round(85), 100)};
  const LoadPlan planned = plan(batch, quick());
  sound(batch, planned);
  CHECK(planned.left_out.empty());
  REQUIRE(planned.firings.size() == 2);
  int alone = 0;
  for (const KilnLoad& load : planned.firings) {
    if (load.levels.size() > 1 && !load.levels.front().pieces.empty()) continue;
    ++alone;
    CHECK(load.levels.size() == 1);
    CHECK(load.levels.front().shelf_top < Length::from_mm(60));
  }
  CHECK(alone == 1);
}

TEST_CASE("a spy hole before the posts of a bridge moves them aside, not inwards", "[bridges]") {
  Batch batch = bridged(8, 2);
  batch.kiln.columns[0].at = {{-2, 0}, 90};
  batch.kiln.columns[1].at = {{2, 0}, 270};
  batch.pieces = {studios::piece("platter", 3, studios::round(430), 50)};
  const std::size_t plain = plan(batch, quick()).firings.size();
  KeepOut hole;
  hole.what = "spy hole";
  hole.area = {{}, {rectangle(Point{-30, -290}, Point{30, -238})}};
  hole.from = Length::from_mm(200);
  hole.to = Length::from_mm(260);
  hole.shelves_too = false;
  batch.kiln.keep_outs.push_back(hole);
  const LoadPlan planned = plan(batch, quick());
  sound(batch, planned);
  CHECK(plain == 2);
  CHECK(planned.firings.size() == plain);
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

TEST_CASE("columns go on over a bridge that is kept", "[bridges]") {
  Batch batch = bridged(8, 1);
  batch.pieces = {platter(1), studios::piece("mug", 50, studios::round(85), 100)};
  batch.pieces[0].wishes.level = 1;
  const LoadPlan before = plan(batch, quick());
  REQUIRE(before.firings.size() == 1);
  const auto& set = before.firings[0].levels;
  const auto low = std::find_if(set.begin(), set.end(), [](const Level& level) {
    return level.bridge >= 0 && level.level == 1;
  });
  REQUIRE(low != set.end());
  Options options = quick();
  options.keep = {*low};
  const LoadPlan after = plan(batch, options);
  sound(batch, after);
  CHECK(after.firings.size() == 1);
  CHECK(after.firings.at(0).levels.size() > 2);
}

}  // namespace placer::loading
