// Each wish once granted and once impossible.
#include <catch2/catch.hpp>
#include <set>

#include "loading/index.h"
#include "loading/plans.h"
#include "loading/studios.h"
#include "placer/check/check.h"
#include "placer/loading/loading.h"

namespace placer::loading {
namespace {

LoadPlan checked(const Batch& batch) {
  LoadPlan planned = plan(batch, quick());
  for (const Finding& finding : check::check_plan(batch, planned)) FAIL_CHECK(finding.message);
  return planned;
}

/// The sentence for the only wish that is not granted.
std::string only_reason(const LoadPlan& plan) {
  REQUIRE(plan.ungranted.size() == 1);
  return plan.ungranted[0].reason;
}

std::string ungranted(const LoadPlan& plan) {
  std::string words;
  for (const Ungranted& wish : plan.ungranted) words += wish.wish + ";";
  return words;
}

}  // namespace

TEST_CASE("a place low, in the middle or high is granted") {
  Batch batch = mugs_vases_bowls();
  batch.pieces[1].wishes.zone = GENERATE(Zone::low, Zone::middle, Zone::high);
  const LoadPlan planned = checked(batch);
  CHECK(ungranted(planned) == "");
  CHECK(planned.left_out.empty());
}

TEST_CASE("a place in front or at the back is granted") {
  Batch batch = mugs_vases_bowls();
  batch.pieces[0].wishes.side = GENERATE(Side::front, Side::back);
  const LoadPlan planned = checked(batch);
  CHECK(ungranted(planned) == "");
  CHECK(planned.left_out.empty());
}

TEST_CASE("level 1 and a place high up contradict each other: the place is given up") {
  Batch batch = mugs_vases_bowls();
  batch.pieces[1].wishes.zone = Zone::high;
  batch.pieces[1].wishes.level = 1;
  batch.pieces[1].wishes.where.zone = {"studio.yaml", 12, 5, 9};
  batch.pieces[1].wishes.where.level = {"studio.yaml", 13, 5, 9};
  batch.kiln.where.file = "studio.yaml";
  const LoadPlan planned = checked(batch);
  CHECK(planned.left_out.empty());
  REQUIRE(planned.ungranted.size() == 1);
  CHECK(planned.ungranted[0].wish == "zone");
  CHECK(
      planned.ungranted[0].reason ==
      "\"where: high\" (line 12) is not granted, because \"level: 1\" (line 13) is asked too, and "
      "that level does not lie high; all 3 stand elsewhere.");
}

TEST_CASE("a level that the kiln does not reach is given up") {
  Batch batch = mugs_vases_bowls();
  batch.pieces[1].wishes.level = 40;
  const LoadPlan planned = checked(batch);
  CHECK(planned.left_out.empty());
  CHECK(ungranted(planned) == "level;");
  CHECK(only_reason(planned).starts_with(
      "\"level: 40\" is not granted, because no column of this load has more than "));
}

TEST_CASE("a third of the kiln that a piece is too tall for is said with its heights") {
  Batch batch = mugs_vases_bowls();
  batch.pieces[1] = studios::piece("tower", 1, studios::round(100), 700);
  batch.pieces[1].wishes.zone = Zone::high;
  CHECK(
      only_reason(checked(batch)) ==
      "\"where: high\" is not granted, because it is 700 mm tall, and even right under the lid its "
      "middle is at 565 mm, below the upper third of the kiln (from 627 mm); it stands elsewhere.");
  batch.pieces[1].wishes.zone = Zone::low;
  CHECK(
      only_reason(checked(batch)) ==
      "\"where: low\" is not granted, because it is 700 mm tall, and even on the lowest shelf its "
      "middle is at 393 mm, above the lower third of the kiln (up to 313 mm); it stands "
      "elsewhere.");
}

TEST_CASE("a side on which there is no room is given up for those that find none") {
  Batch batch = mugs_vases_bowls();
  batch.pieces[2] = studios::piece("board", 2, {{}, {rectangle(300, 520)}}, 40);
  batch.pieces[2].wishes.side = Side::front;
  const std::string reason = only_reason(checked(batch));
  CHECK(reason ==
        "\"side: front\" is not granted, because no shelf has so much free ground in front; all 2 "
        "stand elsewhere.");
}

TEST_CASE("a side and a place on the other side contradict each other: the side is given up") {
  Batch batch = mugs_vases_bowls();
  batch.pieces[1].count = 1;
  batch.pieces[1].wishes.side = Side::front;
  batch.pieces[1].wishes.pinned = Placement{{-225, 100}, 0};
  CHECK(only_reason(checked(batch)) ==
        "\"side: front\" is not granted, because \"stands at: [-225, 100]\" is asked too, and that "
        "place is not in front; it stands elsewhere.");
}

TEST_CASE("two pieces for one place on one level: both places in the file are named") {
  Batch batch = mugs_vases_bowls();
  for (const int i : {1, 2}) {
    PieceKind& piece = at(batch.pieces, i);
    piece.wishes.level = 1;
    piece.wishes.pinned = Placement{{-225, 0}, 0};
    piece.wishes.where.pinned = {"studio.yaml", 20 + i, 5, 9};
  }
  batch.kiln.where.file = "studio.yaml";
  const LoadPlan planned = checked(batch);
  REQUIRE(planned.ungranted.size() == 1);
  const std::string& reason = planned.ungranted[0].reason;
  CHECK(planned.ungranted[0].wish == "pinned");
  CHECK(reason.find("(line 21)") != std::string::npos);
  CHECK(reason.find("(line 22)") != std::string::npos);
}

TEST_CASE("more than the first load holds: what must go there is said") {
  Batch batch = mugs_vases_bowls();
  batch.pieces[0].count = 400;
  batch.pieces[0].wishes.first_firing = true;
  const LoadPlan planned = checked(batch);
  CHECK(ungranted(planned) == "first firing;");
  CHECK(only_reason(planned).starts_with(
      "\"first: yes\" is not granted, because there was no room beside what must go into the first "
      "load too; "));
}

TEST_CASE("glazes kept apart with one shelf only go into two loads") {
  Batch batch = mugs_vases_bowls();
  batch.kiln.columns.resize(1);
  batch.kiln.shelves[0].have = 1;
  batch.pieces.resize(2);
  batch.pieces[0].count = 2;
  batch.pieces[1].count = 1;
  batch.pieces[1].glaze = 1;
  batch.pieces[1].wishes.apart = {"clear"};
  // Two loads of one shelf each keep them apart; one load with both does not.
  CHECK(ungranted(checked(batch)) == "");
}

TEST_CASE("a turn in which it fits on no shelf is given up") {
  Batch batch = mugs_vases_bowls();
  batch.pieces[1] =
      studios::piece("board", 1, {{}, {rectangle(500, 60)}}, 40);  // the shelf is 430 x 520
  batch.pieces[1].wishes.turn_deg = 0;
  CHECK(only_reason(checked(batch)) ==
        "\"turn: 0\" is not granted, because it fits on no shelf that way round; it stands "
        "elsewhere.");
  batch.pieces[1].wishes.turn_deg = 90;
  CHECK(ungranted(checked(batch)) == "");
}

TEST_CASE("upright only: no stack turns a piece over, a nested one stays") {
  Batch batch = mugs_vases_bowls();
  batch.loads[0] = {"bisque", FiringKind::bisque, {}};
  PieceKind& bowl = batch.pieces[2];
  bowl.measured = Stage::dry;
  bowl.stacking = {Stacking::How::rim_to_rim, 4, {}};
  bowl.wishes.upright = true;
  const LoadPlan planned = checked(batch);
  CHECK(only_reason(planned) ==
        "Its stack, rim to rim, is not used, because \"upright: yes\" is asked too; each stands by "
        "itself.");
  for (const KilnLoad& load : planned.firings) {
    for (const Level& level : load.levels) {
      for (const PlacedPiece& piece : level.pieces) CHECK(piece.stacked == 1);
    }
  }
  bowl.stacking = {Stacking::How::nested, 4, Length::from_mm(20)};
  CHECK(ungranted(checked(batch)) == "");
}

TEST_CASE("what must go is set before what may, when not all can be") {
  Batch batch = mugs_vases_bowls();
  batch.kiln.posts.clear();
  studios::add_posts(batch.kiln, 1);
  batch.pieces[0].count = 350;
  batch.pieces[1].wishes.must_go = true;
  const LoadPlan planned = checked(batch);
  int vases = 0;
  for (const Level& level : planned.firings.at(0).levels) {
    for (const PlacedPiece& piece : level.pieces) vases += piece.piece == 1 ? 1 : 0;
  }
  CHECK(count_of(planned.firings) > 1);
  CHECK(vases == 3);  // all of them in the first load
}

TEST_CASE("a set shares a firing, and is split only when it is more than a kiln holds") {
  Batch batch = mugs_vases_bowls();
  batch.pieces[0].count = 260;
  batch.pieces[1].wishes.set = batch.pieces[2].wishes.set = "dinner";
  CHECK(ungranted(checked(batch)) == "");
  batch.pieces[0].wishes.set = "dinner";
  batch.pieces[0].count = 600;
  CHECK(ungranted(checked(batch)).find("set") != std::string::npos);
}

TEST_CASE("glazes kept apart share no level") {
  Batch batch = mugs_vases_bowls();
  batch.pieces[1].glaze = 1;
  batch.pieces[1].wishes.apart = {"clear"};
  CHECK(ungranted(checked(batch)) == "");
}

TEST_CASE("a turn, a pinned place and the first firing are granted") {
  Batch batch = mugs_vases_bowls();
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
  Batch batch = mugs_vases_bowls();
  batch.pieces[1].wishes.pinned = Placement{{0, 0}, 0};  // between the columns
  CHECK(only_reason(checked(batch)) ==
        "\"stands at: [0, 0]\" is not granted, because there it would stick out 60 mm beyond the "
        "room "
        "on the shelf \"wide\"; all 3 stand elsewhere.");
}

TEST_CASE("a lid stands on its pot; a lid too many stands alone and says so") {
  Batch batch = mugs_vases_bowls();
  batch.pieces.push_back(studios::piece("lid", 8, studios::round(80), 30));
  batch.pieces.back().wishes.inside = "bowl";
  CHECK(ungranted(checked(batch)) == "");
  batch.pieces.back().count = 9;
  CHECK(only_reason(checked(batch)) ==
        "\"lid of: bowl\" is not granted, because there is no bowl without a lid for 1 of them; 1 "
        "of 9 "
        "stands elsewhere.");
}

TEST_CASE("levels that are set already stay as they are") {
  Batch batch = mugs_vases_bowls();
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
