#include <catch2/catch.hpp>

#include "placer/base/random.h"
#include "placer/check/check.h"
#include "support/geos_oracle.h"
#include "support/hand_made_plan.h"

namespace placer::check {
namespace {

using namespace support;

TEST_CASE("GEOS finds nothing wrong with the plan set by hand", "[check][geos]") {
  const Batch batch = hand_made_batch();
  const LoadPlan plan = hand_made_plan(batch);
  for (const std::string& trouble : oracle::plan_troubles(batch, plan)) FAIL_CHECK(trouble);
  // Two mugs and a runny bowl: 12.77 mm apart where 12 are asked.
  CHECK(oracle::PlanOracle(batch, plan).tightest() ==
        Approx(std::hypot(110, 65) - 115 - 12).margin(1e-9));
}

// One piece pushed about at random: the rules of spacing are broken for both or for neither.
TEST_CASE("GEOS and check_plan judge 300 pushed pieces alike", "[check][geos]") {
  const std::uint64_t seed = GENERATE(range(0U, 300U));
  CAPTURE(seed);
  Random random{seed};
  Batch batch = hand_made_batch();
  for (PieceKind& piece : batch.pieces) {
    piece.wishes.pinned.reset();
    piece.wishes.turn_deg.reset();
  }
  batch.pieces[kVase].wishes = {};
  LoadPlan plan = hand_made_plan(batch);
  KilnLoad& load = plan.firings[random.below(2)];
  Level& level = load.levels[random.below(load.levels.size())];
  PlacedPiece& piece = level.pieces[random.below(level.pieces.size())];
  piece.place.at.x += random.uniform(-60, 60);
  piece.place.at.y += random.uniform(-60, 60);
  piece.place.turn_deg = random.uniform(0, 360);
  plan.name = spoken_name(plan);
  const auto findings = check_plan(batch, plan);
  const auto troubles = oracle::plan_troubles(batch, plan);
  INFO((findings.empty() ? "check_plan: none" : findings[0].message));
  INFO((troubles.empty() ? "GEOS: none" : troubles[0]));
  CHECK(findings.empty() == troubles.empty());
}

}  // namespace
}  // namespace placer::check
