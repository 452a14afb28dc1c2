// A broken piece: the plan again with the least change.
#include <catch2/catch.hpp>
#include <set>
#include <tuple>

#include "loading/index.h"
#include "loading/studios.h"
#include "placer/check/check.h"
#include "placer/loading/loading.h"

namespace placer::loading {
namespace {

using Place = std::tuple<int, int, int, int, double, double>;

std::set<Place> places(const LoadPlan& plan) {
  std::set<Place> all;
  for (int f = 0; f < count_of(plan.firings); ++f) {
    for (const Level& level : at(plan.firings, f).levels) {
      for (const PlacedPiece& piece : level.pieces) {
        all.insert({f, level.column, level.level, piece.piece, piece.place.at.x, piece.place.at.y});
      }
    }
  }
  return all;
}

Options quick() {
  Options options;
  options.effort = Effort::quick;
  return options;
}

void sound(const Batch& batch, const LoadPlan& plan) {
  for (const Finding& finding : check::check_plan(batch, plan)) FAIL_CHECK(finding.message);
}

}  // namespace

TEST_CASE("a broken piece leaves its place, and nothing else moves", "[broken]") {
  const auto seed = GENERATE(50U, 53U);
  CAPTURE(seed);
  Batch batch = studios::studio(seed, 4, 60);
  const LoadPlan before = plan(batch, quick());
  for (int kind = 0; kind < count_of(batch.pieces); ++kind) {
    if (at(batch.pieces, kind).count < 2) continue;
    Batch after = batch;
    --at(after.pieces, kind).count;
    const LoadPlan planned = without_broken(after, before, kind, 1);
    sound(after, planned);
    const std::set<Place> was = places(before);
    const std::set<Place> is = places(planned);
    CHECK(is.size() + 1 == was.size());
    CHECK(std::includes(was.begin(), was.end(), is.begin(), is.end()));
    CHECK(count_of(planned.firings) <= count_of(before.firings));
    CHECK(planned.fewest_firings_possible <= count_of(planned.firings));
  }
}

TEST_CASE("all of a kind broken: its shelves and its loads go with it", "[broken]") {
  Batch batch = studios::studio(1, 1, 1);
  batch.pieces = {studios::piece("mug", 4, studios::round(85), 100),
                  studios::piece("tower", 1, studios::round(90), 500)};
  const LoadPlan before = plan(batch, quick());
  batch.pieces[0].count = 0;
  const LoadPlan after = without_broken(batch, before, 0, 4);
  sound(batch, after);
  CHECK(places(after).size() == 1);
}

TEST_CASE("one of a stack broken: the stack is one lower", "[broken]") {
  Batch batch = studios::studio(1, 1, 1);
  batch.loads[0] = {"bisque", FiringKind::bisque, {}};
  batch.pieces = {studios::piece("bowl", 9, studios::round(160), 70)};
  batch.pieces[0].measured = Stage::dry;
  batch.pieces[0].stacking = {Stacking::How::nested, 3, Length::from_mm(20)};
  const LoadPlan before = plan(batch, quick());
  batch.pieces[0].count = 8;
  const LoadPlan after = without_broken(batch, before, 0, 1);
  sound(batch, after);
  CHECK(places(after) == places(before));
}

TEST_CASE("a broken pot with its lid on: planned anew, the lid stands alone", "[broken]") {
  Batch batch = studios::studio(2, 1, 1);
  batch.pieces = {studios::piece("jar", 2, studios::round(120), 140),
                  studios::piece("lid", 2, studios::round(90), 30)};
  batch.pieces[1].wishes.inside = "jar";
  const LoadPlan before = plan(batch, quick());
  batch.pieces[0].count = 1;
  const LoadPlan after = without_broken(batch, before, 0, 1);
  sound(batch, after);
  CHECK(after.left_out.empty());
}

}  // namespace placer::loading
