// Each wish once granted and once impossible.
#include <catch2/catch.hpp>
#include <set>

#include "loading/index.h"
#include "loading/studios.h"
#include "placer/check/check.h"
#include "placer/loading/loading.h"

namespace placer::loading {
namespace {

Batch small() {
  Batch batch = studios::studio(2, 1, 1);  // front loader, two columns
  batch.glazes.push_back({"copper", true, {}});
  batch.pieces.clear();
  batch.pieces.push_back(studios::piece("mug", 24, studios::round(85), 100));
  batch.pieces.push_back(studios::piece("vase", 3, studios::round(100), 220));
  batch.pieces.push_back(studios::piece("bowl", 8, studios::round(150), 70));
  return batch;
}

LoadPlan checked(const Batch& batch) {
  Options options;
  options.effort = Effort::quick;
  LoadPlan planned = plan(batch, options);
  for (const Finding& finding : check::check_plan(batch, planned)) FAIL_CHECK(finding.message);
  return planned;
}

std::string ungranted(const LoadPlan& plan) {
  std::string words;
  for (const Ungranted& wish : plan.ungranted) words += wish.wish + ";";
  return words;
}

}  // namespace

TEST_CASE("a place low, in the middle or high is granted") {
  Batch batch = small();
  batch.pieces[1].wishes.zone = GENERATE(Zone::low, Zone::middle, Zone::high);
  const LoadPlan planned = checked(batch);
  CHECK(ungranted(planned) == "");
  CHECK(planned.left_out.empty());
}

TEST_CASE("a place in front or at the back is granted") {
  Batch batch = small();
  batch.pieces[0].wishes.side = GENERATE(Side::front, Side::back);
  const LoadPlan planned = checked(batch);
  CHECK(ungranted(planned) == "");
  CHECK(planned.left_out.empty());
}

TEST_CASE("level 1 and a place high up contradict each other: the place is given up") {
  Batch batch = small();
  batch.pieces[1].wishes.zone = Zone::high;
  batch.pieces[1].wishes.level = 1;
  batch.pieces[1].where = {"studio.yaml", 12, 5, 9};
  const LoadPlan planned = checked(batch);
  CHECK(planned.left_out.empty());
  REQUIRE(planned.ungranted.size() == 1);
  CHECK(planned.ungranted[0].wish == "zone");
  CHECK(planned.ungranted[0].reason.find("studio.yaml:12:5") != std::string::npos);
  CHECK(planned.ungranted[0].reason.find("level 1") != std::string::npos);
}

TEST_CASE("a level that the kiln does not reach is given up") {
  Batch batch = small();
  batch.pieces[1].wishes.level = 40;
  const LoadPlan planned = checked(batch);
  CHECK(planned.left_out.empty());
  CHECK(ungranted(planned) == "level;");
}

TEST_CASE("a set shares a firing, and is split only when it is more than a kiln holds") {
  Batch batch = small();
  batch.pieces[0].count = 260;
  batch.pieces[1].wishes.set = batch.pieces[2].wishes.set = "dinner";
  CHECK(ungranted(checked(batch)) == "");
  batch.pieces[0].wishes.set = "dinner";
  batch.pieces[0].count = 600;
  CHECK(ungranted(checked(batch)).find("set") != std::string::npos);
}

TEST_CASE("glazes kept apart share no level") {
  Batch batch = small();
  batch.pieces[1].glaze = 1;
  batch.pieces[1].wishes.apart = {"clear"};
  CHECK(ungranted(checked(batch)) == "");
}

TEST_CASE("a turn, a pinned place and the first firing are granted") {
  Batch batch = small();
  batch.pieces[0].count = 300;
  batch.pieces[2].wishes.first_firing = true;
  batch.pieces[0].footprint = studios::handled(85, 30, 18);
  batch.pieces[0].wishes.turn_deg = 90;
  batch.pieces[1].wishes.pinned = Placement{{-225, 0}, 0};
  const LoadPlan planned = checked(batch);
  CHECK(ungranted(planned) == "");
  CHECK(count_of(planned.firings) > 1);
}

TEST_CASE("a pinned place outside every shelf is given up") {
  Batch batch = small();
  batch.pieces[1].wishes.pinned = Placement{{0, 0}, 0};  // between the columns
  CHECK(ungranted(checked(batch)) == "pinned;");
}

TEST_CASE("a lid stands on its pot; a lid too many stands alone and says so") {
  Batch batch = small();
  batch.pieces.push_back(studios::piece("lid", 8, studios::round(80), 30));
  batch.pieces.back().wishes.inside = "bowl";
  CHECK(ungranted(checked(batch)) == "");
  batch.pieces.back().count = 9;
  CHECK(ungranted(checked(batch)) == "inside;");
}

TEST_CASE("levels that are set already stay as they are") {
  Batch batch = small();
  const LoadPlan before = checked(batch);
  Options options;
  options.effort = Effort::quick;
  for (const Level& level : before.firings[0].levels) {
    if (level.level == 1) options.keep.push_back(level);
  }
  REQUIRE(!options.keep.empty());
  batch.pieces[2].count += 3;
  const LoadPlan after = plan(batch, options);
  for (const Finding& finding : check::check_plan(batch, after)) FAIL_CHECK(finding.message);
  for (const Level& kept : options.keep) {
    const auto& levels = after.firings[0].levels;
    const auto same = std::find_if(levels.begin(), levels.end(), [&](const Level& level) {
      return level.column == kept.column && level.level == 1;
    });
    REQUIRE(same != levels.end());
    REQUIRE(same->pieces.size() == kept.pieces.size());
    for (std::size_t i = 0; i < kept.pieces.size(); ++i) {
      CHECK(same->pieces[i].place == kept.pieces[i].place);
    }
  }
}

}  // namespace placer::loading
