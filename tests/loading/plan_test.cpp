// Whole studios, planned and checked by the rules and by GEOS.
#include <catch2/catch.hpp>

#include "loading/index.h"
#include "loading/studios.h"
#include "placer/check/check.h"
#include "placer/loading/loading.h"
#include "placer/loading/quick.h"
#include "support/geos_oracle.h"
#include "support/hand_made_plan.h"

namespace placer::loading {
namespace {

Batch round_studio(int mugs) {
  Batch batch;
  batch.clays.push_back({});
  batch.clays[0].name = "stoneware";
  batch.glazes.push_back({"clear", false, {}});
  batch.loads.push_back({"glaze", FiringKind::glaze, {}});
  batch.kiln.name = "round";
  batch.kiln.chamber.round = Disc{{0, 0}, 290};
  batch.kiln.height = Length::from_mm(680);
  ShelfKind half;
  half.name = "half round";
  half.shape = half_disc(540);
  half.thickness = Length::from_mm(18);
  half.have = 8;
  batch.kiln.shelves.push_back(half);
  for (const auto& [height, have] : {std::pair{13, 18}, {30, 12}, {100, 12}, {150, 12}}) {
    batch.kiln.posts.push_back(
        {Length::from_mm(height), {{{{0, 0}, 19}}, {}}, have, Mass::from_kg(0.3), {}});
  }
  batch.kiln.columns.push_back({"back", {0}, {{0, 2}, 0}, {}, {}});
  batch.kiln.columns.push_back({"front", {0}, {{0, -2}, 180}, {}, {}});
  const auto piece = [&](std::string name, int count, Footprint shape, double height) {
    PieceKind kind;
    kind.name = std::move(name);
    kind.count = count;
    kind.footprint = std::move(shape);
    kind.height = Length::from_mm(height);
    kind.mass = Mass::from_kg(0.4);
    kind.measured = Stage::bisque;
    kind.glaze = 0;
    kind.loads = {0};
    batch.pieces.push_back(std::move(kind));
  };
  piece("mug", mugs, {{{{0, 0}, 42}}, {Outline{{{0, -8}, {70, -8}, {70, 8}, {0, 8}}}}}, 95);
  piece("bowl", 12, {{{{0, 0}, 70}}, {}}, 70);
  piece("jug", 2, {{{{0, 0}, 65}}, {}}, 240);
  piece("platter", 1, {{{{0, 0}, 300}}, {}}, 40);
  return batch;
}

std::string all_of(const std::vector<Finding>& findings) {
  std::string text;
  for (const Finding& finding : findings) text += finding.message + "\n";
  return text;
}

}  // namespace

TEST_CASE("a plan of half shelves in a round kiln holds every rule") {
  const Batch batch = round_studio(GENERATE(0, 1, 24, 90));
  const LoadPlan planned = plan(batch);
  CHECK(all_of(check::check_plan(batch, planned)) == "");
  CHECK(oracle::plan_troubles(batch, planned).empty());
  REQUIRE(planned.left_out.size() == 1);
  CHECK(planned.left_out[0].piece == 3);
  CHECK(planned.left_out[0].code == "wide");
}

TEST_CASE("a plan of an invented studio holds every rule, and threads do not change it") {
  const auto seed = GENERATE(range(40U, 44U));
  CAPTURE(seed);
  const Batch batch = studios::studio(seed, 4, 60);
  Options options;
  options.effort = Effort::quick;
  options.threads = 1;
  const LoadPlan one = plan(batch, options);
  CHECK(all_of(check::check_plan(batch, one)) == "");
  CHECK(oracle::plan_troubles(batch, one).empty());
  options.threads = 2;
  CHECK(plan(batch, options).name == one.name);
}

TEST_CASE("kinds renamed change nothing, and a piece less needs no more firings") {
  Batch batch = studios::studio(45, 4, 70);
  Options options;
  options.effort = Effort::quick;
  const LoadPlan before = plan(batch, options);
  for (PieceKind& kind : batch.pieces) kind.name += " renamed";
  CHECK(plan(batch, options).name == before.name);
  --batch.pieces[0].count;
  CHECK(plan(batch, options).firings.size() <= before.firings.size());
}

TEST_CASE("more effort never gives a worse plan") {
  const auto seed = GENERATE(11U, 46U, 47U);
  CAPTURE(seed);
  const Batch batch = studios::studio(seed, 5, 40);
  std::pair<std::size_t, std::size_t> before{1000, 1000};
  for (const Effort effort : {Effort::quick, Effort::normal}) {
    Options options;
    options.effort = effort;
    const LoadPlan planned = plan(batch, options);
    std::size_t shelves = 0;
    for (const KilnLoad& load : planned.firings) shelves += load.levels.size();
    const std::pair now{planned.firings.size(), shelves};
    CHECK(now <= before);
    before = now;
  }
}

TEST_CASE("a plan asked to stop at once is whole all the same, and progress only rises") {
  const Batch batch = studios::studio(5, 9, 171);
  Options options;
  int asked = 0;
  double done = 0;
  options.stop = [&] { return ++asked > 0; };
  options.progress = [&](double now) {
    CHECK(now >= done);
    done = now;
  };
  const LoadPlan planned = plan(batch, options);
  CHECK(all_of(check::check_plan(batch, planned)) == "");
  CHECK(planned.left_out.empty());
  CHECK(asked < 20);  // it did not go on through the rounds
  CHECK(done > 0);
}

TEST_CASE("a piece too tall says by how much") {
  Batch batch = studios::studio(2, 1, 1);
  batch.pieces[0] = studios::piece("tower", 1, studios::round(100), 900);
  const LoadPlan planned = plan(batch);
  REQUIRE(planned.left_out.size() == 1);
  CHECK(planned.left_out[0].code == "tall");
  CHECK(planned.left_out[0].reason ==
        "It goes in 900 mm tall, and over the lowest shelf there is room for 871 mm: it would have "
        "to be 29 mm shorter.");
}

TEST_CASE("a quick question: mugs on a round shelf") {
  // 28 discs of this size are the record for the circle (E. Specht's tables of circle packings).
  const ShelfAnswer answer = how_many({{}, Disc{{0, 0}, 266.5}, {}}, studios::round(84), 5);
  CHECK(answer.pieces <= answer.at_most);
  CHECK(answer.pieces >= 26);
  CHECK(count_of(answer.places) == answer.pieces);
}

}  // namespace placer::loading
