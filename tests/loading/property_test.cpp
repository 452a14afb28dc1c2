// What must hold between plans of batches that differ in one thing.
#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <set>
#include <tuple>

#include "loading/index.h"
#include "loading/plans.h"
#include "loading/studios.h"
#include "placer/check/check.h"
#include "placer/loading/loading.h"

namespace placer::loading {
namespace {

/// A studio with a bag wall at the right: left and right are not alike. One kind must go; from seed
/// 4 on the load is bisque with stacks.
Batch one_sided(unsigned seed) {
  Batch batch = studios::studio(seed, 4, 40);
  batch.pieces[1].wishes.must_go = true;
  if (seed >= 4) {
    batch.loads[0] = {"bisque", FiringKind::bisque, {}};
    batch.pieces.push_back(studios::piece("stacking bowl", 10, studios::round(140), 70));
    batch.pieces.back().stacking = {Stacking::How::nested, 4, Length::from_mm(25)};
    for (PieceKind& piece : batch.pieces) {
      piece.measured = Stage::dry;
      piece.glaze.reset();
    }
  }
  KeepOut wall;
  wall.what = "bag wall";
  wall.area = {{}, {rectangle(Point{150, -60}, Point{200, 60})}};
  wall.to = Length::from_mm(200);
  wall.shelves_too = false;
  batch.kiln.keep_outs.push_back(wall);
  return batch;
}

void mirror(Outline& outline) {
  for (Point& p : outline.corners) p.x = -p.x;
  std::reverse(outline.corners.begin(), outline.corners.end());
}

Kiln mirrored(Kiln kiln) {
  mirror(kiln.chamber.outline);
  for (ShelfKind& shelf : kiln.shelves) mirror(shelf.shape.outline);
  for (Column& column : kiln.columns) {
    column.at = {{-column.at.at.x, column.at.at.y}, -column.at.turn_deg};
  }
  for (KeepOut& keep_out : kiln.keep_outs) {
    for (Outline& outline : keep_out.area.outlines) mirror(outline);
  }
  return kiln;
}

/// Of every load and column, from the bottom up: how many of each kind stand on each level.
using Counted = std::vector<std::vector<std::map<std::string, int>>>;

std::vector<Counted> counted(const Batch& batch, const LoadPlan& plan) {
  std::vector<Counted> loads;
  for (const KilnLoad& load : plan.firings) {
    Counted columns(batch.kiln.columns.size());
    for (const Level& level : load.levels) {
      std::map<std::string, int> kinds;
      for (const PlacedPiece& piece : level.pieces) {
        for (const int kind : kinds_of(piece)) ++kinds[at(batch.pieces, kind).name];
      }
      at(columns, level.column).push_back(kinds);
    }
    loads.push_back(columns);
  }
  return loads;
}

using Place = std::tuple<int, int, int, std::string, double, double, double>;

std::multiset<Place> places(const Batch& batch, const LoadPlan& plan) {
  std::multiset<Place> all;
  for (int f = 0; f < count_of(plan.firings); ++f) {
    for (const Level& level : at(plan.firings, f).levels) {
      for (const PlacedPiece& piece : level.pieces) {
        all.insert({f, level.column, level.level, at(batch.pieces, piece.piece).name,
                    piece.place.at.x, piece.place.at.y, piece.place.turn_deg});
      }
    }
  }
  return all;
}

}  // namespace

TEST_CASE("a kiln the other way round holds the same, the other way round", "[property]") {
  const auto seed = GENERATE(range(0U, 8U));
  CAPTURE(seed);
  const Batch batch = one_sided(seed);
  Batch other = batch;
  other.kiln = mirrored(batch.kiln);
  const LoadPlan planned = plan(other, quick());
  for (const Finding& finding : check::check_plan(other, planned)) FAIL_CHECK(finding.message);
  CHECK(counted(batch, plan(batch, quick())) == counted(other, planned));
}

TEST_CASE("the order of the list changes nothing", "[property]") {
  const auto seed = GENERATE(range(0U, 8U));
  CAPTURE(seed);
  const Batch batch = one_sided(seed);
  Batch other = batch;
  std::rotate(other.pieces.begin(), other.pieces.begin() + 1 + seed % 3, other.pieces.end());
  CHECK(places(batch, plan(batch, quick())) == places(other, plan(other, quick())));
}

TEST_CASE("the order of the columns changes nothing but their names", "[property]") {
  const Batch batch = one_sided(2);
  Batch other = batch;
  std::swap(other.kiln.columns[0], other.kiln.columns[1]);
  LoadPlan planned = plan(other, quick());
  for (const Finding& finding : check::check_plan(other, planned)) FAIL_CHECK(finding.message);
  for (KilnLoad& load : planned.firings) {
    for (Level& level : load.levels) level.column = 1 - level.column;
  }
  CHECK(places(batch, plan(batch, quick())) == places(other, planned));
}

}  // namespace placer::loading
