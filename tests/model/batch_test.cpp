#include "placer/model/batch.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "placer/model/load_plan.h"

namespace placer {
namespace {

Length mm(double v) { return Length::from_mm(v); }

// One clay; mug, bowl, plate, tile, lid as measured when fired.
Batch studio() {
  Batch batch;
  batch.clays = {Clay{}};
  batch.glazes = {{"celadon", false, {}}, {"ash", true, {}}};
  batch.loads = {{"bisque", FiringKind::bisque, {}}, {"glaze", FiringKind::glaze, {}}};
  PieceKind mug;
  mug.name = "Mug";
  mug.footprint = {{{{0, 0}, 40}}, {rectangle({0, -8}, {65, 8})}};
  mug.height = mm(100);
  mug.mass = Mass::from_kg(0.35);
  PieceKind bowl = mug;
  bowl.name = "Bowl";
  bowl.glaze = 1;
  bowl.footprint = {{{{0, 0}, 80}}, {}};
  bowl.stacking = {Stacking::How::nested, 4, mm(20)};
  PieceKind tile = mug;
  tile.name = "Tile";
  tile.footprint = {{}, {rectangle(150, 100)}};
  tile.height = mm(10);
  tile.stacking = {Stacking::How::on_edge, 6, mm(12)};
  PieceKind lid = mug;
  lid.name = "Lid";
  lid.glaze = 0;
  lid.footprint = {{{{0, 0}, 45}}, {}};
  lid.height = mm(25);
  lid.mass = Mass::from_kg(0.1);
  lid.wishes.inside = "Mug";
  batch.pieces = {mug, bowl, tile, lid};
  return batch;
}

enum { kMug, kBowl, kTile, kLid };

// How much larger than fired a piece is when it goes into a bisque or a glaze firing.
double dry_size(const Batch& batch) {
  return scale(batch.clays[0].shrinkage, Stage::fired, Stage::dry);
}

TEST_CASE("sized: a piece goes dry into a bisque and bisque into a glaze firing", "[sized]") {
  CHECK(stage_going_in(FiringKind::bisque) == Stage::dry);
  CHECK(stage_going_in(FiringKind::glaze) == Stage::bisque);
  const Batch batch = studio();
  const SizedPiece dry = sized(batch, batch.pieces[kMug], FiringKind::bisque);
  // 7 % of the dry length is lost in the fire, so dry is 1/0.93 of fired.
  CHECK(dry.height.mm() == Approx(100 / 0.93));
  CHECK(dry.footprint.discs[0].radius == Approx(40 / 0.93));
  CHECK(dry.footprint.outlines[0].corners[1].x == Approx(65 / 0.93));
  CHECK(dry.mass.kg() == Approx(0.35 / 0.93));  // 7 % of the dry mass, too
  const SizedPiece bisque = sized(batch, batch.pieces[kMug], FiringKind::glaze);
  CHECK(bisque.height.mm() == Approx(100 * 0.99 / 0.93));
  CHECK(bisque.mass.kg() == Approx(0.35));
}

TEST_CASE("sized: measured at the stage it goes in, a piece stays as it is", "[sized]") {
  Batch batch = studio();
  batch.pieces[kMug].measured = Stage::dry;
  CHECK(sized(batch, batch.pieces[kMug], FiringKind::bisque).height == mm(100));
  CHECK(sized(batch, batch.pieces[kMug], FiringKind::bisque).mass == Mass::from_kg(0.35));
}

TEST_CASE("sized: thrown pieces are larger still", "[sized]") {
  Batch batch = studio();
  batch.pieces[kMug].measured = Stage::thrown;
  const SizedPiece dry = sized(batch, batch.pieces[kMug], FiringKind::bisque);
  CHECK(dry.height.mm() == Approx(94));
  CHECK(dry.mass.kg() == Approx(0.35 / 1.22));
}

TEST_CASE("stacked: nested bowls add a step each", "[stacked]") {
  const Batch batch = studio();
  const SizedPiece three = stacked(batch, batch.pieces[kBowl], FiringKind::bisque, 3);
  CHECK(three.height.mm() == Approx((100 + 2 * 20) * dry_size(batch)));
  CHECK(three.footprint.discs[0].radius == Approx(80 * dry_size(batch)));
  CHECK(three.mass.kg() == Approx(3 * 0.35 / 0.93));
}

TEST_CASE("stacked: rim to rim adds whole heights, flat the step", "[stacked]") {
  Batch batch = studio();
  batch.pieces[kBowl].stacking.how = Stacking::How::rim_to_rim;
  CHECK(stacked(batch, batch.pieces[kBowl], FiringKind::bisque, 4).height.mm() ==
        Approx(400 * dry_size(batch)));
  batch.pieces[kBowl].stacking.how = Stacking::How::flat;
  CHECK(stacked(batch, batch.pieces[kBowl], FiringKind::bisque, 4).height.mm() ==
        Approx(160 * dry_size(batch)));
}

TEST_CASE("stacked: tiles on edge are a row, the shorter side up", "[stacked]") {
  const Batch batch = studio();
  const SizedPiece row = stacked(batch, batch.pieces[kTile], FiringKind::bisque, 5);
  const Box box = bounding_box(row.footprint);
  CHECK(box.high.x - box.low.x == Approx(60 * dry_size(batch)));
  CHECK(box.high.y - box.low.y == Approx(150 * dry_size(batch)));
  CHECK(row.height.mm() == Approx(100 * dry_size(batch)));
}

TEST_CASE("stacked: what the kind does not allow is refused", "[stacked]") {
  const Batch batch = studio();
  CHECK_THROWS_AS(stacked(batch, batch.pieces[kBowl], FiringKind::bisque, 5),
                  std::invalid_argument);
  CHECK_THROWS_AS(stacked(batch, batch.pieces[kBowl], FiringKind::bisque, 0),
                  std::invalid_argument);
  CHECK_THROWS_AS(stacked(batch, batch.pieces[kMug], FiringKind::bisque, 2), std::invalid_argument);
  CHECK_THROWS_AS(stacked(batch, batch.pieces[kBowl], FiringKind::glaze, 2), std::invalid_argument);
  CHECK(stacked(batch, batch.pieces[kBowl], FiringKind::glaze, 1).height ==
        sized(batch, batch.pieces[kBowl], FiringKind::glaze).height);
}

TEST_CASE("standing: a pot with its lid is as high as both and covers the ground of both",
          "[stacked]") {
  const Batch batch = studio();
  const std::vector<int> kinds{kMug, kLid};
  const SizedPiece whole = standing(batch, kinds, FiringKind::glaze);
  const double size = scale(batch.clays[0].shrinkage, Stage::fired, Stage::bisque);
  CHECK(whole.height.mm() == Approx(125 * size));
  CHECK(whole.mass.kg() == Approx(0.45));
  CHECK(whole.footprint.discs.size() == 2);
  CHECK(whole.footprint.discs[1].radius == Approx(45 * size));
  CHECK_THROWS_AS(standing(batch, std::vector<int>{}, FiringKind::glaze), std::invalid_argument);
}

TEST_CASE("gap_between: a runny glaze on either piece asks for more, but not in a bisque",
          "[clearances]") {
  const Batch batch = studio();
  const PieceKind& plain = batch.pieces[kMug];
  const PieceKind& runny = batch.pieces[kBowl];
  CHECK(gap_between(batch, plain, plain, FiringKind::glaze) == mm(6));
  CHECK(gap_between(batch, plain, runny, FiringKind::glaze) == mm(12));
  CHECK(gap_between(batch, runny, plain, FiringKind::glaze) == mm(12));
  CHECK(gap_between(batch, plain, runny, FiringKind::bisque) == mm(0));
  CHECK(clearances(batch.rules, FiringKind::bisque).air == mm(6));
  CHECK(clearances(batch.rules, FiringKind::glaze).air == mm(8));
}

// Source: weights of 12 x 24 in shelves given by potters: 1 in high alumina 22 to 33 lb, 5/16 in
// nitride-bonded silicon carbide 9 lb.
TEST_CASE("mass_of: a shelf of 12 x 24 in weighs what potters' scales say", "[shelf]") {
  ShelfKind shelf;
  shelf.shape = {rectangle(12 * 25.4, 24 * 25.4), std::nullopt, {}};
  shelf.thickness = mm(25.4);
  shelf.material = ShelfMaterial::high_alumina;
  const double lb = 0.45359237;
  CHECK(mass_of(shelf).kg() > 22 * lb);
  CHECK(mass_of(shelf).kg() < 33 * lb);
  shelf.thickness = mm(5.0 / 16 * 25.4);
  shelf.material = ShelfMaterial::nitride_bonded_carbide;
  CHECK(mass_of(shelf).kg() == Approx(9 * lb).epsilon(0.01));
}

TEST_CASE("mass_of: half a round shelf weighs half", "[shelf]") {
  ShelfKind shelf;
  shelf.thickness = mm(15);
  shelf.shape = {{}, Disc{{0, 0}, 280}, {}};
  const double whole = mass_of(shelf).kg();
  CHECK(whole == Approx(std::numbers::pi * 0.28 * 0.28 * 0.015 * 2100));
  shelf.shape = half_disc(560);
  CHECK(mass_of(shelf).kg() == Approx(whole / 2));
}

TEST_CASE("zone_at and side_at: thirds of the height, halves of the depth", "[kiln]") {
  Kiln kiln;
  kiln.height = mm(600);
  kiln.chamber = {rectangle({0, 100}, {500, 700}), std::nullopt, {}};
  CHECK(zone_at(kiln, mm(199)) == Zone::low);
  CHECK(zone_at(kiln, mm(200)) == Zone::middle);
  CHECK(zone_at(kiln, mm(400)) == Zone::middle);
  CHECK(zone_at(kiln, mm(401)) == Zone::high);
  CHECK(side_at(kiln, {10, 399}) == Side::front);
  CHECK(side_at(kiln, {10, 401}) == Side::back);
}

}  // namespace
}  // namespace placer
