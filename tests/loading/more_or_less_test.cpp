// What one piece more or less may do to the number of firings, and what names may not do at all:
// over all kinds of kiln, with handles, stacks, runny glazes and orders that must go.
#include <algorithm>
#include <catch2/catch.hpp>

#include "loading/bound.h"
#include "loading/index.h"
#include "loading/studios.h"
#include "placer/check/check.h"
#include "placer/loading/loading.h"

namespace placer::loading {
namespace {

/// Seeds from 0 to 3 are the four kilns with glaze loads, 4 to 7 the same with stacks of bisque.
Batch varied(unsigned seed, int pieces) {
  Batch batch = studios::studio(seed, 5, pieces);
  batch.glazes.push_back({"copper", true, {}});
  batch.pieces[1].glaze = 1;
  batch.pieces[0].wishes.must_go = true;
  if (seed < 4) return batch;
  batch.loads[0] = {"bisque", FiringKind::bisque, {}};
  for (PieceKind& piece : batch.pieces) {
    piece.measured = Stage::dry;
    piece.glaze.reset();
  }
  batch.pieces.push_back(studios::piece("stacking bowl", 12, studios::round(140), 70));
  batch.pieces.back().stacking = {Stacking::How::nested, 4, Length::from_mm(25)};
  batch.pieces.back().measured = Stage::dry;
  batch.pieces.back().glaze.reset();
  return batch;
}

LoadPlan planned(const Batch& batch, Effort effort = Effort::quick) {
  Options options;
  options.effort = effort;
  LoadPlan plan = loading::plan(batch, options);
  for (const Finding& finding : check::check_plan(batch, plan)) FAIL_CHECK(finding.message);
  return plan;
}

std::vector<int> counts_of(const Job& job) {
  std::vector<int> counts;
  for (const Sort& sort : job.sorts) counts.push_back(sort.count);
  return counts;
}

}  // namespace

TEST_CASE("a piece more of any kind never lowers the bound, whatever the kiln", "[property]") {
  const auto seed = GENERATE(range(0U, 8U));
  const int pieces = GENERATE(60, 240);
  CAPTURE(seed, pieces);
  Batch batch = varied(seed, pieces);
  const Job before = job_of(batch, 0);
  const int bound = fewest_firings(before, counts_of(before));
  CHECK(bound >= 1);
  for (PieceKind& piece : batch.pieces) {
    CAPTURE(piece.name);
    ++piece.count;
    const Job after = job_of(batch, 0);
    CHECK(fewest_firings(after, counts_of(after)) >= bound);
    --piece.count;
  }
}

TEST_CASE("a piece broken never raises the number of firings", "[property]") {
  const auto seed = GENERATE(range(0U, 8U));
  CAPTURE(seed);
  Batch batch = varied(seed, 60);
  const LoadPlan before = planned(batch);
  for (const int i : {0, count_of(batch.pieces) - 1}) {  // must go; stacked, if any is
    PieceKind& piece = at(batch.pieces, i);
    if (piece.count < 2) continue;
    CAPTURE(piece.name);
    --piece.count;
    const LoadPlan after = without_broken(batch, before, i, 1);
    for (const Finding& finding : check::check_plan(batch, after)) FAIL_CHECK(finding.message);
    CHECK(after.firings.size() <= before.firings.size());
    CHECK(after.fewest_firings_possible <= before.fewest_firings_possible);
    ++piece.count;
  }
}

// Glaze loads only: planned anew, a bisque load that is just full with its stacks complete may need
// one load more when a stack is not.
TEST_CASE("planned anew with a piece less, a glaze firing takes no more loads", "[property]") {
  const auto seed = GENERATE(range(0U, 4U));
  CAPTURE(seed);
  Batch batch = varied(seed, 60);
  const LoadPlan before = planned(batch, Effort::normal);
  REQUIRE(before.left_out.empty());
  for (const int i : {0, count_of(batch.pieces) - 1}) {
    PieceKind& piece = at(batch.pieces, i);
    if (piece.count < 2) continue;
    CAPTURE(piece.name);
    --piece.count;
    const LoadPlan after = planned(batch, Effort::normal);
    CHECK(after.left_out.empty());
    CHECK(after.firings.size() <= before.firings.size());
    ++piece.count;
  }
}

TEST_CASE("other names for pieces, glazes, shelves and columns change nothing", "[property]") {
  const auto seed = GENERATE(range(0U, 8U));
  CAPTURE(seed);
  const Batch batch = varied(seed, 60);
  Batch other = batch;
  for (int i = 0; i < count_of(other.pieces); ++i) {
    at(other.pieces, i).name = "thing " + std::to_string(99 - i);
  }
  for (Glaze& glaze : other.glazes) glaze.name += " of another name";
  for (ShelfKind& shelf : other.kiln.shelves) shelf.name = "slab";
  for (int i = 0; i < count_of(other.kiln.columns); ++i) {
    at(other.kiln.columns, i).name = "pile " + std::to_string(9 - i);
  }
  const LoadPlan a = planned(batch);
  const LoadPlan b = planned(other);
  CHECK(a.name == b.name);  // from a hash of all places
  REQUIRE(a.firings.size() == b.firings.size());
  CHECK(a.fewest_firings_possible == b.fewest_firings_possible);
  for (std::size_t f = 0; f < a.firings.size(); ++f) {
    REQUIRE(a.firings[f].levels.size() == b.firings[f].levels.size());
    for (std::size_t v = 0; v < a.firings[f].levels.size(); ++v) {
      const Level& one = a.firings[f].levels[v];
      const Level& two = b.firings[f].levels[v];
      REQUIRE(one.pieces.size() == two.pieces.size());
      CHECK(one.column == two.column);
      CHECK(one.shelf_top == two.shelf_top);
      for (std::size_t i = 0; i < one.pieces.size(); ++i) {
        CHECK(one.pieces[i].piece == two.pieces[i].piece);
        CHECK(one.pieces[i].place == two.pieces[i].place);
      }
    }
  }
}

}  // namespace placer::loading
