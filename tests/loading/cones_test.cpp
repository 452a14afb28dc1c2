// Packs of witness cones. The same batch is planned twice: with a spy hole, and with a mark of the
// same size in its place, which asks for nothing. What differs was done for the cones.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <map>
#include <tuple>

#include "loading/index.h"
#include "loading/plans.h"
#include "placer/check/check.h"
#include "placer/model/cone_place.h"

namespace placer::loading {
namespace {

Length mm(double v) { return Length::from_mm(v); }

void add_hole(Kiln& kiln, const char* what, Point at, double from, double to) {
  KeepOut hole;
  hole.what = what;
  hole.area.discs = {{at, 40}};
  hole.from = mm(from);
  hole.to = mm(to);
  hole.shelves_too = false;
  kiln.keep_outs.push_back(hole);
}

/// A point of the wall in front; before the right column of a front loader.
Point in_front(const Kiln& kiln) {
  const Box box = bounding_box(kiln.chamber);
  return {kiln.columns.size() > 1 && kiln.opens == Opens::front ? 225.0 : 0.0, box.low.y};
}

Batch with_hole(Batch batch, const char* what) {
  const double high = batch.kiln.height.mm();
  add_hole(batch.kiln, what, in_front(batch.kiln), 0.1 * high, 0.85 * high);
  return batch;
}

struct Found {
  int load = 0;
  int level = 0;
  ConePack pack;
};

std::vector<Found> packs_of(const LoadPlan& plan) {
  std::vector<Found> all;
  for (int f = 0; f < count_of(plan.firings); ++f) {
    for (int i = 0; i < count_of(at(plan.firings, f).levels); ++i) {
      for (const ConePack& pack : at(at(plan.firings, f).levels, i).cones) {
        all.push_back({f, i, pack});
      }
    }
  }
  return all;
}

using Shelf = std::tuple<int, int, int>;  // load, column, level

/// How many of each kind stand on each shelf.
std::map<Shelf, std::map<int, int>> kinds_on(const LoadPlan& plan) {
  std::map<Shelf, std::map<int, int>> all;
  for (int f = 0; f < count_of(plan.firings); ++f) {
    for (const Level& level : at(plan.firings, f).levels) {
      for (const PlacedPiece& piece : level.pieces) {
        for (const int kind : kinds_of(piece)) ++all[{f, level.column, level.level}][kind];
      }
    }
  }
  return all;
}

std::map<Shelf, std::vector<std::pair<double, double>>> places_on(const LoadPlan& plan) {
  std::map<Shelf, std::vector<std::pair<double, double>>> all;
  for (int f = 0; f < count_of(plan.firings); ++f) {
    for (const Level& level : at(plan.firings, f).levels) {
      for (const PlacedPiece& piece : level.pieces) {
        all[{f, level.column, level.level}].emplace_back(piece.place.at.x, piece.place.at.y);
      }
    }
  }
  return all;
}

int rows_in(const LoadPlan& plan) {
  int rows = 0;
  for (const KilnLoad& load : plan.firings) {
    for (const Level& level : load.levels) rows += level.pattern.empty() ? 0 : 1;
  }
  return rows;
}

void sound(const Batch& batch, const LoadPlan& plan) {
  for (const Finding& finding : check::check_plan(batch, plan)) FAIL_CHECK(finding.message);
}

struct Twice {
  Batch batch;
  LoadPlan without, with;
  explicit Twice(const Batch& bare)
      : batch{with_hole(bare, "spy hole")},
        without{plan(with_hole(bare, "mark"), quick())},
        with{plan(batch, quick())} {}
};

/// Nothing is lost for the cones, and every load has its pack or says why not.
void same_but_for_the_cones(const Twice& both) {
  sound(both.batch, both.with);
  CHECK(packs_of(both.without).empty());
  REQUIRE(both.with.firings.size() == both.without.firings.size());
  CHECK(both.with.fewest_firings_possible == both.without.fewest_firings_possible);
  CHECK(both.with.left_out.size() == both.without.left_out.size());
  std::size_t none = 0;
  for (const KilnLoad& load : both.with.firings) none += load.no_cones.size();
  CHECK(packs_of(both.with).size() + none == both.with.firings.size());
  std::map<int, int> before;
  std::map<int, int> after;
  for (const auto& [shelf, kinds] : kinds_on(both.without)) {
    for (const auto& [kind, n] : kinds) before[kind] += n;
  }
  for (const auto& [shelf, kinds] : kinds_on(both.with)) {
    for (const auto& [kind, n] : kinds) after[kind] += n;
  }
  CHECK(before == after);
}

}  // namespace

TEST_CASE("cones: a half empty kiln has a free spot, and no piece is moved for it", "[cones]") {
  const auto seed = GENERATE(0U, 1U, 2U, 3U);
  CAPTURE(seed);
  const Twice both{studios::studio(seed, 2, 12)};
  same_but_for_the_cones(both);
  CHECK(places_on(both.with) == places_on(both.without));
  for (const Found& found : packs_of(both.with)) {
    CHECK(found.pack.seen);
    const KilnLoad& load = at(both.with.firings, found.load);
    CHECK(is_seen(both.batch, load, found.level, found.pack.spy_hole, found.pack.place));
    const auto levels = levels_in_sight(both.batch, load, found.pack.spy_hole);
    CHECK(std::find(levels.begin(), levels.end(), found.level) != levels.end());
    // Its broad side is to the hole, but for the steps of 15 degrees in which it is turned.
    const Point to = eye_of(at(both.batch.kiln.keep_outs, found.pack.spy_hole), both.batch.kiln) -
                     found.pack.place.at;
    const Point along = direction(found.pack.place.turn_deg);
    const double off = std::abs(to.x * along.x + to.y * along.y) / std::hypot(to.x, to.y);
    CHECK(off <= std::sin(7.6 * 3.14159265358979 / 180));
  }
}

TEST_CASE("cones: full kilns make room, with no firing more and nothing left out", "[cones]") {
  int loads = 0;
  int seen = 0;
  int free = 0;
  int moved_on_its_shelf = 0;
  int moved_elsewhere = 0;
  for (const unsigned seed : {20U, 21U, 22U, 23U, 25U, 27U, 31U, 40U, 42U}) {
    CAPTURE(seed);
    const Twice both{studios::studio(seed, 5, 90)};
    same_but_for_the_cones(both);
    loads += count_of(both.with.firings);
    for (const Found& found : packs_of(both.with)) seen += found.pack.seen ? 1 : 0;
    if (places_on(both.with) == places_on(both.without)) {
      ++free;
    } else if (kinds_on(both.with) == kinds_on(both.without)) {
      ++moved_on_its_shelf;
    } else {
      ++moved_elsewhere;
    }
    // Rows stay rows wherever that can be.
    CHECK(rows_in(both.with) + 1 >= rows_in(both.without));
  }
  CAPTURE(loads, seen, free, moved_on_its_shelf, moved_elsewhere);
  CHECK(10 * seen >= 9 * loads);
  CHECK(free > 0);
  CHECK(moved_on_its_shelf > 0);
  CHECK(moved_elsewhere > 0);
}

TEST_CASE("cones: what must go, belongs to a set or wishes for a level stays on its shelf",
          "[cones]") {
  int changed = 0;
  for (const unsigned seed : {20U, 24U, 31U, 40U, 42U}) {
    CAPTURE(seed);
    Batch bare = studios::studio(seed, 5, 90);
    bare.pieces[0].wishes.must_go = true;
    bare.pieces[1].wishes.level = 1;
    bare.pieces[2].wishes.set = "gift";
    const Twice both{bare};
    same_but_for_the_cones(both);
    if (kinds_on(both.with) != kinds_on(both.without)) ++changed;
    for (auto& [shelf, kinds] : kinds_on(both.with)) {
      auto before = kinds_on(both.without)[shelf];
      for (const int kind : {0, 1, 2}) CHECK(kinds[kind] == before[kind]);
    }
  }
  CHECK(changed > 0);
}

TEST_CASE("cones: no shelf where the hole looks, so the pack stands out of sight", "[cones]") {
  Batch batch = studios::studio(2, 2, 12);
  add_hole(batch.kiln, "peephole", in_front(batch.kiln), 880, 930);
  const LoadPlan planned = plan(batch, quick());
  sound(batch, planned);
  REQUIRE(planned.firings.size() == 1);
  CHECK(planned.firings[0].no_cones.empty());
  const auto packs = packs_of(planned);
  REQUIRE(packs.size() == 1);
  CHECK_FALSE(packs[0].pack.seen);
  CHECK(levels_in_sight(batch, planned.firings[0], 0).empty());
  // On the shelf of the nearest column that is nearest to the hole's height.
  CHECK(packs[0].level == levels_for_cones(batch, planned.firings[0], 0).front());
}

TEST_CASE("cones: none where every shelf is too low for them, and the load says so", "[cones]") {
  Batch batch = mugs_vases_bowls();
  batch.pieces = {studios::piece("tile", 40, {{}, {rectangle(100, 100)}}, 12)};
  batch.kiln.height = mm(125);
  add_hole(batch.kiln, "spy hole", in_front(batch.kiln), 30, 110);
  const LoadPlan planned = plan(batch, quick());
  sound(batch, planned);
  REQUIRE_FALSE(planned.firings.empty());
  CHECK(packs_of(planned).empty());
  for (const KilnLoad& load : planned.firings) {
    REQUIRE(load.no_cones.size() == 1);
    CHECK(load.no_cones[0].reason ==
          "No shelf of this load has the 75 mm of room over it that cones need.");
  }
}

TEST_CASE("cones: a place kept for them in the studio file is theirs", "[cones]") {
  Batch batch = with_hole(studios::studio(2, 2, 12), "spy hole");
  add_hole(batch.kiln, "cone pack", {225, -200}, 300, 380);
  const LoadPlan planned = plan(batch, quick());
  sound(batch, planned);
  CHECK(packs_of(planned).empty());
  for (const KilnLoad& load : planned.firings) CHECK(load.no_cones.empty());
}

TEST_CASE("cones: of two holes, the one that sees a shelf has the first choice", "[cones]") {
  const Batch bare = studios::studio(2, 2, 12);
  Batch batch = bare;
  add_hole(batch.kiln, "spy hole", in_front(batch.kiln), 880, 930);  // over all shelves
  batch = with_hole(batch, "spy hole");
  const LoadPlan planned = plan(batch, quick());
  sound(batch, planned);
  const LoadPlan alone = plan(with_hole(bare, "spy hole"), quick());
  REQUIRE(packs_of(alone).size() == 1);
  const auto packs = packs_of(planned);
  REQUIRE(packs.size() == 2);
  for (const Found& found : packs) {
    CHECK(found.pack.seen == (found.pack.spy_hole == 1));
    if (found.pack.seen) CHECK(found.pack.place == packs_of(alone)[0].pack.place);
  }
}

TEST_CASE("cones: two holes beside each other look at one pack", "[cones]") {
  Batch batch = with_hole(studios::studio(2, 2, 12), "spy hole");
  add_hole(batch.kiln, "Spy hole", {325, -310}, 94, 799);
  const LoadPlan planned = plan(batch, quick());
  sound(batch, planned);
  const auto packs = packs_of(planned);
  REQUIRE(packs.size() == 2);
  CHECK(packs[0].pack.place == packs[1].pack.place);
  CHECK(packs[0].pack.spy_hole != packs[1].pack.spy_hole);
  CHECK((packs[0].pack.seen && packs[1].pack.seen));
}

TEST_CASE("cones: a mirrored kiln with its holes in another order has the same packs, mirrored",
          "[cones]") {
  const auto seed = GENERATE(22U, 26U);
  CAPTURE(seed);
  Batch batch = studios::studio(seed, 4, 80);
  for (PieceKind& piece : batch.pieces) piece.footprint.outlines.clear();
  std::erase_if(batch.pieces, [](const PieceKind& piece) { return piece.footprint.discs.empty(); });
  REQUIRE(batch.kiln.opens == Opens::front);
  Batch other = batch;
  add_hole(batch.kiln, "spy hole", {225, -310}, 150, 700);
  add_hole(batch.kiln, "sensor", {-225, -310}, 150, 700);
  add_hole(batch.kiln, "spy hole", {480, 60}, 100, 400);
  add_hole(other.kiln, "spy hole", {-480, 60}, 100, 400);
  add_hole(other.kiln, "spy hole", {-225, -310}, 150, 700);
  add_hole(other.kiln, "sensor", {225, -310}, 150, 700);
  const LoadPlan one = plan(batch, quick());
  const LoadPlan two = plan(other, quick());
  sound(batch, one);
  sound(other, two);
  using Mark = std::tuple<int, int, double, double, double, int, bool>;
  const auto marks = [](const LoadPlan& planned, double side, const std::vector<int>& holes) {
    std::vector<Mark> all;
    for (const Found& found : packs_of(planned)) {
      const Level& level = at(at(planned.firings, found.load).levels, found.level);
      const int column = side > 0 ? level.column : 1 - level.column;
      const double turn = std::remainder(side * found.pack.place.turn_deg, 180);
      all.emplace_back(found.load, 10 * column + level.level, side * found.pack.place.at.x,
                       found.pack.place.at.y, turn <= -90 ? 90 : turn + 0.0,
                       at(holes, found.pack.spy_hole), found.pack.seen);
    }
    std::sort(all.begin(), all.end());
    return all;
  };
  const auto here = marks(one, 1, {0, 1, 2});
  CHECK(here == marks(two, -1, {2, 0, 1}));
  CHECK(here.size() == 2 * one.firings.size());
}

TEST_CASE("cones: a level that is set already keeps its pack and its pieces", "[cones]") {
  const auto seed = GENERATE(22U, 25U);
  CAPTURE(seed);
  const Batch batch = with_hole(studios::studio(seed, 4, 70), "spy hole");
  const LoadPlan before = plan(batch, quick());
  const auto packs = packs_of(before);
  REQUIRE_FALSE(packs.empty());
  REQUIRE(packs[0].load == 0);
  const Level& own = at(before.firings[0].levels, packs[0].level);
  Options options = quick();
  for (const Level& level : before.firings[0].levels) {
    if (level.column == own.column && level.level <= own.level) options.keep.push_back(level);
  }
  const LoadPlan again = plan(batch, options);
  sound(batch, again);
  const auto there = std::find_if(
      again.firings[0].levels.begin(), again.firings[0].levels.end(),
      [&](const Level& level) { return level.column == own.column && level.level == own.level; });
  REQUIRE(there != again.firings[0].levels.end());
  REQUIRE(there->cones.size() == 1);
  CHECK(there->cones[0].place == own.cones[0].place);
  for (const Level& kept : options.keep) {
    for (const Level& level : again.firings[0].levels) {
      if (level.column != kept.column || level.level != kept.level) continue;
      REQUIRE(level.pieces.size() == kept.pieces.size());
      for (std::size_t i = 0; i < kept.pieces.size(); ++i) {
        CHECK(level.pieces[i].place == kept.pieces[i].place);
      }
    }
  }
}

TEST_CASE("cones: a kept level without a pack takes one where it is free, and is not changed",
          "[cones]") {
  const Batch bare = studios::studio(2, 2, 12);
  const LoadPlan before = plan(with_hole(bare, "mark"), quick());
  Options options = quick();
  options.keep = before.firings[0].levels;
  const Batch batch = with_hole(bare, "spy hole");
  const LoadPlan again = plan(batch, options);
  sound(batch, again);
  CHECK(places_on(again) == places_on(before));
  CHECK(packs_of(again).size() == again.firings.size());
}

TEST_CASE("cones: a broken piece leaves the packs where they are", "[cones]") {
  const auto seed = GENERATE(24U, 25U, 26U, 27U);
  CAPTURE(seed);
  Batch batch = with_hole(studios::studio(seed, 4, 70), "spy hole");
  const LoadPlan before = plan(batch, quick());
  for (int kind = 0; kind < count_of(batch.pieces); ++kind) {
    if (at(batch.pieces, kind).count < 2) continue;
    Batch after = batch;
    --at(after.pieces, kind).count;
    const LoadPlan planned = without_broken(after, before, kind, 1);
    sound(after, planned);
    const auto is = packs_of(planned);
    for (const Found& was : packs_of(before)) {
      if (!was.pack.seen || was.load >= count_of(planned.firings)) continue;
      CHECK(std::any_of(is.begin(), is.end(), [&](const Found& one) {
        return one.load == was.load && one.pack.place == was.pack.place && one.pack.seen;
      }));
    }
  }
}

TEST_CASE("cones: room that is left is left beside the packs", "[cones]") {
  // One kind that would fill the pack's spot: the plan with the pack has no more room than that
  // without it.
  Batch bare = studios::studio(2, 1, 1);
  bare.pieces = {studios::piece("mug", 4, studios::round(85), 100)};
  const Batch batch = with_hole(bare, "spy hole");
  const LoadPlan with = plan(batch, quick());
  REQUIRE(packs_of(with).size() == 1);
  LoadPlan without = with;
  for (Level& level : without.firings[0].levels) level.cones.clear();
  CHECK(room_left(batch, with)[0] < room_left(batch, without)[0]);
}

}  // namespace placer::loading
