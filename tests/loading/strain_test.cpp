// Shelves between their posts, and room where the fire passes.
#include "loading/strain.h"

#include <catch2/catch.hpp>

#include "loading/index.h"
#include "loading/studios.h"
#include "placer/loading/loading.h"

namespace placer::loading {
namespace {

std::vector<std::string> remarks_of(const Batch& batch) {
  Options options;
  options.effort = Effort::quick;
  return strained_shelves(batch, plan(batch, options));
}

}  // namespace

// 600 mm between posts, 25 mm thick, 50 kg/m² of ware and 50 kg/m² of its own: 0.42 MPa (beam
// formula, worked by hand).
TEST_CASE("stress in the middle of a loaded shelf") {
  CHECK(stress(981, 600, 25) == Approx(0.42).epsilon(0.02));
}

TEST_CASE("the span of three posts is their longest side, of four the longest of the round") {
  const auto post = [](double x, double y) { return PlacedPost{{x, y}, 0, {0}}; };
  CHECK(span_of({post(0, 0), post(300, 0), post(0, 400)}) == Approx(500));
  CHECK(span_of({post(0, 0), post(300, 400), post(300, 0), post(0, 400)}) == Approx(400));
  CHECK(span_of({post(0, 0), post(300, 0)}) == 0);
}

TEST_CASE(
    "a thin cordierite shelf on posts far apart is told with its band; a carbide one is not") {
  Batch batch = studios::studio(2, 1, 1);
  batch.pieces = {studios::piece("mug", 20, studios::round(85), 100)};
  batch.kiln.shelves[0].thickness = Length::from_mm(14);
  const auto told = remarks_of(batch);
  REQUIRE(told.size() == 1);
  CHECK(told[0].find("(cordierite, 14 mm thick) has posts ") != std::string::npos);
  CHECK(told[0].find("usual in a glaze firing is 25 times at most (common practice: 25 times at "
                     "cone 10 and 30 at cone 6)") != std::string::npos);
  batch.kiln.shelves[0].material = ShelfMaterial::nitride_bonded_carbide;
  CHECK(remarks_of(batch).empty());
}

// Spans of 25 times the thickness at cone 10 and 30 at cone 6: common practice, no source. Cones at
// 60 °C/h: 1222 and 1285 °C.
TEST_CASE("a span is judged by the cone of its firing, not by its kind") {
  Batch batch = studios::studio(2, 1, 1);
  batch.pieces = {studios::piece("mug", 20, studios::round(85), 100)};
  Options options;
  options.effort = Effort::quick;
  LoadPlan made = plan(batch, options);
  // Posts 300 mm apart under a shelf 11 mm thick: 27.3 times.
  for (KilnLoad& load : made.firings) {
    load.floor_posts = {{{-290, -150}, 0, {0}}, {{-290, 150}, 0, {0}}, {{-40, 0}, 0, {0}}};
    load.levels.resize(1);
    load.levels[0].column = 0;
  }
  batch.kiln.shelves[0].thickness = Length::from_mm(11);
  const auto told = [&](double top, const char* cone) {
    batch.loads[0].top = Temperature{top};
    batch.loads[0].cone = cone;
    return strained_shelves(batch, made);
  };
  REQUIRE(span_of(made.firings[0].floor_posts) == Approx(300));
  CHECK(told(1222, "6").empty());
  CHECK(told(1063, "04").empty());
  REQUIRE(told(1285, "10").size() == 1);
  CHECK(told(1285, "10")[0].find("300 mm apart, 27 times") != std::string::npos);
  CHECK(told(1285, "10")[0].find("usual at cone 10 is 25 times at most") != std::string::npos);
  CHECK(told(1300, "")[0].find("usual at 1300 °C (2372 °F) is 25") != std::string::npos);
  batch.kiln.shelves[0].thickness = Length::from_mm(9);  // 33.3 times
  CHECK(told(1222, "6")[0].find("usual at cone 6 is 30 times at most") != std::string::npos);
  CHECK(told(1253.5, "")[0].find("is 28 times at most") != std::string::npos);  // halfway: 27.5
  batch.loads[0].kind = FiringKind::bisque;  // a high bisque for bone china sags as a glaze firing
  CHECK(told(1222, "6").size() == 1);
  CHECK(told(1063, "04").empty());
}

TEST_CASE("heavy ware on a shelf is told in kg and MPa; a bisque firing is too cool for it") {
  Batch batch = studios::studio(2, 1, 1);
  batch.pieces = {studios::piece("brick", 12, studios::round(120), 100)};
  batch.pieces[0].mass = Mass::from_kg(4);
  batch.kiln.shelves[0].material = ShelfMaterial::silicon_carbide;
  const auto told = remarks_of(batch);
  REQUIRE(told.size() == 1);
  CHECK(told[0].find(" MPa, and 0.7 to 1 MPa are usual at most") != std::string::npos);
  batch.loads[0].top = Temperature{1285};
  CHECK(remarks_of(batch).size() == 1);
  batch.loads[0].top = Temperature{1222};  // no figure of carbide is known for cone 6
  CHECK(remarks_of(batch).empty());
  batch.loads[0].top.reset();
  batch.loads[0].kind = FiringKind::bisque;
  CHECK(remarks_of(batch).empty());
}

TEST_CASE("a piece near to the flue is told, one at its room is not") {
  Batch batch = studios::studio(2, 1, 1);
  batch.pieces = {studios::piece("mug", 1, studios::round(85), 100)};
  batch.pieces[0].wishes.pinned = Placement{{-225, 150}, 0};
  KeepOut flue;
  flue.what = "flue";
  flue.area = {{}, {rectangle(Point{-300, 205}, Point{-150, 310})}};
  flue.shelves_too = false;
  batch.kiln.keep_outs.push_back(flue);
  Options options;
  options.effort = Effort::quick;
  const auto told = crowded_fire(batch, plan(batch, options));
  REQUIRE(told.size() == 1);
  CHECK(told[0].find("stands 12 mm from the room kept for the flue") != std::string::npos);
  CHECK(told[0].find("25 mm are usual there") != std::string::npos);
  batch.pieces[0].wishes.pinned = Placement{{-225, 137}, 0};
  CHECK(crowded_fire(batch, plan(batch, options)).empty());
}

}  // namespace placer::loading
