// The order in which a person sets a level.
#include "loading/hand.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <set>

#include "loading/index.h"
#include "loading/plans.h"
#include "loading/studios.h"
#include "placer/check/check.h"
#include "placer/loading/loading.h"

namespace placer::loading {
namespace {

Batch one_shelf(std::vector<PieceKind> pieces) {
  Batch batch = studios::studio(2, 1, 1);
  batch.kiln.columns.resize(1);
  batch.kiln.shelves[0].have = 1;
  batch.pieces = std::move(pieces);
  return batch;
}

}  // namespace

TEST_CASE("what fits in rows is set in rows, and they are named", "[hand]") {
  const Batch batch = one_shelf({studios::piece("tile", 9, {{}, {rectangle(100, 100)}}, 20)});
  const LoadPlan planned = plan(batch, quick());
  REQUIRE(planned.firings.size() == 1);
  const Level& level = planned.firings[0].levels.at(0);
  CHECK(level.pattern == "2 rows of 4, 1 row of 1");
  for (const PlacedPiece& piece : level.pieces) {
    CHECK(piece.row == (piece.number + 3) / 4);
    CHECK(piece.place.at.x == std::round(piece.place.at.x));
    CHECK(piece.place.at.y == std::round(piece.place.at.y));
  }
}

TEST_CASE("handles point one way where there is room, and kinds have rows of their own", "[hand]") {
  const Batch batch = one_shelf({studios::piece("mug", 6, studios::handled(80, 28, 18), 100),
                                 studios::piece("tea bowl", 3, studios::round(90), 70)});
  const LoadPlan planned = plan(batch, quick());
  const Level& level = planned.firings.at(0).levels.at(0);
  std::set<double> turns;
  for (const PlacedPiece& piece : level.pieces) {
    if (piece.piece == 0) turns.insert(piece.place.turn_deg);
  }
  CHECK(turns.size() == 1);
  CHECK_FALSE(level.pattern.empty());
}

TEST_CASE("nobody reaches over a set pot: behind is set before in front", "[hand]") {
  const auto seed = GENERATE(range(60U, 64U));
  CAPTURE(seed);
  const Batch batch = studios::studio(seed, 5, 50);
  const LoadPlan planned = plan(batch, quick());
  for (const Finding& finding : check::check_plan(batch, planned)) FAIL_CHECK(finding.message);
  for (const KilnLoad& load : planned.firings) {
    for (const Level& level : load.levels) {
      for (const PlacedPiece& far : level.pieces) {
        for (const PlacedPiece& near : level.pieces) {
          // The arm comes straight from the front: it passes over what lies before the piece.
          const Disc body =
              placed(at(batch.pieces, near.piece).footprint, near.place).discs.empty()
                  ? Disc{near.place.at, 1}
                  : placed(at(batch.pieces, near.piece).footprint, near.place).discs[0];
          const bool before = near.place.at.y + body.radius < far.place.at.y &&
                              std::abs(near.place.at.x - far.place.at.x) < body.radius;
          if (before) CHECK(far.number < near.number);
        }
      }
    }
  }
}

TEST_CASE("kept levels and pinned pieces are not moved", "[hand]") {
  Batch batch = one_shelf({studios::piece("cup", 5, studios::round(80), 80)});
  batch.pieces[0].wishes.pinned = Placement{{-225.25, 10.5}, 33};
  const LoadPlan planned = plan(batch, quick());
  CHECK(planned.ungranted.empty());
  const auto& pieces = planned.firings.at(0).levels.at(0).pieces;
  CHECK(std::any_of(pieces.begin(), pieces.end(), [](const PlacedPiece& piece) {
    return piece.place.at == Point{-225.25, 10.5};
  }));
}

}  // namespace placer::loading
