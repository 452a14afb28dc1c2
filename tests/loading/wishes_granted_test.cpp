// Wishes that a plan calls granted, worked out again from the places in it, without check.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <set>

#include "loading/index.h"
#include "loading/plans.h"
#include "loading/studios.h"
#include "placer/check/check.h"
#include "placer/loading/loading.h"

namespace placer::loading {
namespace {

constexpr int kMug = 0, kVase = 1, kBowl = 2;

LoadPlan planned(const Batch& batch) {
  LoadPlan plan = loading::plan(batch, quick());
  for (const Finding& finding : check::check_plan(batch, plan)) FAIL_CHECK(finding.message);
  CHECK(plan.left_out.empty());
  return plan;
}

using Visit = std::function<void(std::size_t, const Level&, const PlacedPiece&)>;

/// Every one of a kind, with the firing it is in; returns how many there are.
int each(const LoadPlan& plan, int kind, const Visit& visit) {
  int count = 0;
  for (std::size_t f = 0; f < plan.firings.size(); ++f) {
    for (const Level& level : plan.firings[f].levels) {
      for (const PlacedPiece& piece : level.pieces) {
        if (piece.piece != kind) continue;
        ++count;
        visit(f, level, piece);
      }
    }
  }
  return count;
}

}  // namespace

TEST_CASE("granted low, middle, high: the middle of each lies in that third", "[granted]") {
  Batch batch = mugs_vases_bowls();
  const int third = GENERATE(0, 1, 2);
  batch.pieces[kVase].wishes.zone = static_cast<Zone>(third);
  const LoadPlan plan = planned(batch);
  CHECK(plan.ungranted.empty());
  const int count = each(plan, kVase, [&](std::size_t, const Level& level, const PlacedPiece&) {
    const double middle = level.shelf_top.mm() + 110;
    CHECK(middle >= 940.0 / 3 * third);
    CHECK(middle <= 940.0 / 3 * (third + 1));
  });
  CHECK(count == 3);
}

TEST_CASE("granted front, back: each stands on that side of the middle", "[granted]") {
  Batch batch = mugs_vases_bowls();
  const bool back = GENERATE(false, true);
  batch.pieces[kMug].wishes.side = back ? Side::back : Side::front;
  const LoadPlan plan = planned(batch);
  CHECK(plan.ungranted.empty());
  const int count = each(plan, kMug, [&](std::size_t, const Level&, const PlacedPiece& piece) {
    CHECK((piece.place.at.y > 0) == back);
  });
  CHECK(count == 24);
}

TEST_CASE("granted level: each stands on it", "[granted]") {
  Batch batch = mugs_vases_bowls();
  batch.pieces[kMug].count = 120;
  const int wanted = GENERATE(1, 2);
  batch.pieces[kBowl].wishes.level = wanted;
  const LoadPlan plan = planned(batch);
  CHECK(plan.ungranted.empty());
  const int count = each(plan, kBowl, [&](std::size_t, const Level& level, const PlacedPiece&) {
    CHECK(level.level == wanted);
  });
  CHECK(count == 8);
}

TEST_CASE("granted first, set, turn and place: where and how each stands", "[granted]") {
  Batch batch = mugs_vases_bowls();
  batch.pieces[kMug].count = 300;
  batch.pieces[kMug].footprint = studios::handled(85, 30, 18);
  batch.pieces[kMug].wishes.turn_deg = 90;
  batch.pieces[kBowl].wishes.first_firing = true;
  batch.pieces[kVase].wishes.set = "dinner";
  batch.pieces[kVase].wishes.pinned = Placement{{-225, 0}, 0};
  batch.pieces.push_back(studios::piece("saucer", 6, studios::round(140), 25));
  batch.pieces.back().wishes.set = "dinner";
  const LoadPlan plan = planned(batch);
  CHECK(plan.ungranted.empty());
  REQUIRE(plan.firings.size() > 1);
  CHECK(each(plan, kMug, [&](std::size_t, const Level&, const PlacedPiece& piece) {
          CHECK(std::abs(std::remainder(piece.place.turn_deg - 90, 360)) < 1e-9);
        }) == 300);
  CHECK(each(plan, kBowl, [&](std::size_t firing, const Level&, const PlacedPiece&) {
          CHECK(firing == 0);
        }) == 8);
  std::set<std::size_t> firings;
  int there = 0;
  each(plan, kVase, [&](std::size_t firing, const Level&, const PlacedPiece& piece) {
    firings.insert(firing);
    there += piece.place.at == Point{-225, 0} ? 1 : 0;
  });
  each(plan, 3,
       [&](std::size_t firing, const Level&, const PlacedPiece&) { firings.insert(firing); });
  CHECK(firings.size() == 1);
  CHECK(there == 1);  // the first of the kind
}

TEST_CASE("granted apart: no level has both glazes", "[granted]") {
  Batch batch = mugs_vases_bowls();
  batch.pieces[kVase].glaze = 1;
  batch.pieces[kVase].wishes.apart = {"clear"};
  const LoadPlan plan = planned(batch);
  CHECK(plan.ungranted.empty());
  for (const KilnLoad& load : plan.firings) {
    for (const Level& level : load.levels) {
      std::set<int> glazes;
      for (const PlacedPiece& piece : level.pieces) {
        glazes.insert(*at(batch.pieces, piece.piece).glaze);
      }
      CHECK(glazes.size() <= 1);
    }
  }
}

TEST_CASE("impossible apart: a level that is set already has both glazes", "[granted]") {
  Batch batch = mugs_vases_bowls();
  batch.kiln.columns.resize(1);
  batch.kiln.where.file = "studio.yaml";
  batch.pieces = {studios::piece("mug", 2, studios::round(85), 100),
                  studios::piece("vase", 1, studios::round(100), 100)};
  batch.pieces[kVase].glaze = 1;
  Options options;
  options.effort = Effort::quick;
  options.keep = planned(batch).firings.at(0).levels;
  REQUIRE(options.keep.size() == 1);
  REQUIRE(options.keep[0].pieces.size() == 3);
  batch.pieces[kVase].wishes.apart = {"clear"};
  batch.pieces[kVase].wishes.where.apart = {"studio.yaml", 31, 5, 9};
  batch.pieces[kMug].where = {"studio.yaml", 20, 5, 9};
  const LoadPlan plan = loading::plan(batch, options);
  for (const Finding& finding : check::check_plan(batch, plan)) FAIL_CHECK(finding.message);
  REQUIRE(plan.ungranted.size() == 1);
  CHECK(plan.ungranted[0].wish == "apart");
  CHECK(plan.ungranted[0].reason ==
        "\"apart from: clear\" (line 31) is not granted, because mug (line 20) has that glaze and "
        "there was no other shelf for it.");
  CHECK(plan.firings.at(0).levels.at(0).pieces.size() == 3);  // set already: nothing is moved
}

TEST_CASE("apart and the first load on one level contradict: the load gives way", "[granted]") {
  Batch batch = mugs_vases_bowls();
  batch.kiln.columns.resize(1);
  batch.pieces = {studios::piece("mug", 1, studios::round(85), 100),
                  studios::piece("vase", 1, studios::round(100), 120)};
  batch.pieces[kVase].glaze = 1;
  for (PieceKind& piece : batch.pieces) {
    piece.wishes.level = 1;
    piece.wishes.first_firing = true;
  }
  batch.kiln.where.file = "studio.yaml";
  batch.pieces[kMug].where = {"studio.yaml", 20, 5, 9};
  batch.pieces[kVase].where = {"studio.yaml", 21, 5, 9};
  batch.pieces[kMug].wishes.where.first_firing = {"studio.yaml", 20, 40, 9};
  batch.pieces[kVase].wishes.where.first_firing = {"studio.yaml", 21, 40, 9};
  batch.pieces[kVase].wishes.apart = {"clear"};
  batch.pieces[kVase].wishes.where.apart = {"studio.yaml", 31, 5, 9};
  const LoadPlan plan = planned(batch);
  REQUIRE(plan.ungranted.size() == 1);
  CHECK(plan.ungranted[0].wish == "first firing");
  const bool mug = plan.ungranted[0].piece == kMug;
  CHECK(
      plan.ungranted[0].reason ==
      (mug ? "\"first: yes\" (line 20) is not granted, because there was no room beside what must "
             "go into the first load too, and \"apart from: clear\" (line 31) keeps it off the "
             "shelves of vase (line 21); it stands elsewhere."
           : "\"first: yes\" (line 21) is not granted, because there was no room beside what must "
             "go into the first load too, and \"apart from: clear\" (line 31) keeps it off the "
             "shelves of mug (line 20); it stands elsewhere."));
  REQUIRE(plan.firings.size() == 2);
  for (const KilnLoad& load : plan.firings) {
    REQUIRE(load.levels.size() == 1);
    CHECK(load.levels[0].pieces.size() == 1);
  }
}

TEST_CASE("impossible set: more than a kiln holds is said, and all of it is set", "[granted]") {
  Batch batch = mugs_vases_bowls();
  batch.pieces[kMug].count = 500;
  batch.pieces[kMug].wishes.set = batch.pieces[kBowl].wishes.set = "dinner";
  const LoadPlan plan = planned(batch);
  REQUIRE_FALSE(plan.ungranted.empty());
  std::set<std::size_t> firings;
  each(plan, kMug,
       [&](std::size_t firing, const Level&, const PlacedPiece&) { firings.insert(firing); });
  CHECK(firings.size() == 2);
  CHECK(plan.ungranted[0].reason ==
        "\"set: dinner\" is not granted, because the set with bowl is more than one load holds; it "
        "goes into 2 loads.");
}

}  // namespace placer::loading
