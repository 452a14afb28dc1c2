// Where a pack of cones may stand, against the rules said again in another way: points on its edge
// and on the lines to the eye, tried one by one.
#include "report/cone_place.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "report/keep_outs.h"
#include "report/sheets.h"
#include "sheet_samples.h"

using namespace placer;
using namespace placer::report;

namespace {

bool holds(const Footprint& shape, Point p) {
  return std::any_of(shape.discs.begin(), shape.discs.end(),
                     [&](const Disc& d) {
                       return std::hypot(p.x - d.centre.x, p.y - d.centre.y) < d.radius - 1e-6;
                     }) ||
         std::any_of(shape.outlines.begin(), shape.outlines.end(),
                     [&](const Outline& o) { return inset(p, o) > 1e-6; });
}

std::vector<Point> along(Point from, Point to, int steps) {
  std::vector<Point> points;
  for (int i = 0; i <= steps; ++i) {
    points.push_back(from + (static_cast<double>(i) / steps) * (to - from));
  }
  return points;
}

std::vector<Point> edge_of(const Footprint& pack) {
  std::vector<Point> points;
  const auto& c = pack.outlines.at(0).corners;
  for (std::size_t i = 0; i < c.size(); ++i) {
    for (const Point p : along(c[i], c[(i + 1) % c.size()], 40)) points.push_back(p);
  }
  return points;
}

std::string words_of(const support::SheetSample& sample) {
  const Lettering letters;
  std::string words;
  for (const Page& page : sheets(sample.subject(), letters, Paper::both).pages) {
    for (const Mark& mark : page.marks) {
      if (const Text* text = std::get_if<Text>(&mark)) words += text->words + ' ';
    }
  }
  return words;
}

}  // namespace

TEST_CASE("cone_places: on the shelf that the spy hole looks at, clear of all that stands there",
          "[cones]") {
  auto sample = support::spy_sample();
  const std::size_t wanted = GENERATE(std::size_t{3}, std::size_t{6}, std::size_t{9});
  for (Level& level : sample.plan.firings[0].levels) {
    level.pieces.resize(std::min(level.pieces.size(), wanted));
  }
  const KilnLoad& load = sample.plan.firings[0];
  const auto places = cone_places(sample.batch, load);
  REQUIRE(places.size() == 1);
  REQUIRE(places[0].pack);
  REQUIRE(places[0].level);
  const Level& level = load.levels[*places[0].level];
  CHECK(level.level == 2);  // 162 mm up; the hole looks at 150 to 260
  CHECK(places[0].eye.y == Approx(-270));
  const Region shelf = ground(sample.batch, level);
  const Point ends[] = {places[0].pack->outlines[0].corners[0],
                        places[0].pack->outlines[0].corners[2]};
  CHECK(std::hypot(ends[0].x - ends[1].x, ends[0].y - ends[1].y) ==
        Approx(std::hypot(kPackLong, kPackDeep)));
  for (const Point p : edge_of(*places[0].pack)) {
    CHECK(inset(p, edge_polygon(shelf)) >= -1e-6);
    for (const PlacedPiece& piece : level.pieces) {
      CHECK_FALSE(holds(ground(sample.batch, load, piece), p));
    }
  }
  for (const PlacedPiece& piece : level.pieces) {
    const Footprint shape = ground(sample.batch, load, piece);
    CHECK(gap(shape, *places[0].pack) >= sample.batch.rules.glaze.gap.mm() - 1e-9);
    for (const Point p : along(places[0].eye, places[0].middle, 200)) CHECK_FALSE(holds(shape, p));
  }
}

TEST_CASE("cone_places: the nearest spot is taken, so a bare shelf has it close to the hole",
          "[cones]") {
  auto sample = support::spy_sample();
  for (Level& level : sample.plan.firings[0].levels) level.pieces.clear();
  const auto places = cone_places(sample.batch, sample.plan.firings[0]);
  REQUIRE(places.size() == 1);
  REQUIRE(places[0].pack);
  // The shelf begins 50 mm behind the wall: half the pack and a grid step more.
  CHECK(std::hypot(places[0].middle.x - places[0].eye.x, places[0].middle.y - places[0].eye.y) <
        50 + kPackDeep / 2 + 10);
}

TEST_CASE("cone_places: a full shelf has none, and the page says which piece is in the way",
          "[cones]") {
  auto sample = support::spy_sample();
  KilnLoad& load = sample.plan.firings[0];
  Level& full = load.levels[1];
  full.pieces.clear();
  // Rows of bowls, 2 mm apart, from edge to edge.
  for (int row = 0; row < 3; ++row) {
    for (int i = 0; i < 3; ++i) {
      PlacedPiece bowl;
      bowl.piece = 1;
      bowl.number = static_cast<int>(full.pieces.size()) + 1;
      bowl.place = {{-142.0 + 142 * i, 142.0 - 142 * row}, 0};
      bowl.height = Length::from_mm(60);
      full.pieces.push_back(bowl);
    }
  }
  const auto places = cone_places(sample.batch, load);
  REQUIRE(places.size() == 1);
  CHECK_FALSE(places[0].pack);
  REQUIRE(places[0].level == std::size_t{1});
  REQUIRE(places[0].instead_of > 0);
  // Without that piece there is a place.
  auto fewer = load;
  std::erase_if(fewer.levels[1].pieces,
                [&](const PlacedPiece& piece) { return piece.number == places[0].instead_of; });
  const auto then = cone_places(sample.batch, fewer);
  REQUIRE(then.size() == 1);
  CHECK(then[0].pack.has_value());
  const std::string words = words_of(sample);
  CHECK(words.find("NO ROOM FOR CONES on this shelf") != std::string::npos);
  CHECK(words.find("NO ROOM for it: shelf 2") != std::string::npos);
}

TEST_CASE("cone_places: no shelf at the height of the hole is said, with the height", "[cones]") {
  auto sample = support::spy_sample();
  sample.batch.kiln.keep_outs[0].from = Length::from_mm(600);
  sample.batch.kiln.keep_outs[0].to = Length::from_mm(660);
  const auto places = cone_places(sample.batch, sample.plan.firings[0]);
  REQUIRE(places.size() == 1);
  CHECK_FALSE(places[0].level);
  CHECK(places[0].trouble ==
        "no shelf stands where the Spy hole looks, at 600 mm to 660 mm: a prop under the pack may "
        "lift it there");
  // A shelf is there, but the next one is too close over it.
  sample.batch.kiln.keep_outs[0].from = Length::from_mm(150);
  sample.batch.kiln.keep_outs[0].to = Length::from_mm(260);
  sample.plan.firings[0].levels[1].clear_height = Length::from_mm(60);
  const auto low = cone_places(sample.batch, sample.plan.firings[0]);
  REQUIRE(low.size() == 1);
  CHECK(low[0].level == std::size_t{1});
  CHECK_FALSE(low[0].pack);
  CHECK(low[0].trouble == "there are 60 mm of room over it, and cones need 75 mm");
}

TEST_CASE("cone_places: places kept in the studio file are the cones' own", "[cones]") {
  const auto sample = support::everyday_sample();  // it has a spy hole and a place for cones
  CHECK(keeps_cone_places(sample.batch.kiln));
  CHECK(cone_places(sample.batch, sample.plan.firings[0]).empty());
  const auto none = support::tower_sample();  // neither
  CHECK_FALSE(keeps_cone_places(none.batch.kiln));
  CHECK(cone_places(none.batch, none.plan.firings[0]).empty());
}

TEST_CASE("sign_of: small and large letters, and the trade's other words", "[cones]") {
  const auto sign = [](const char* what) {
    KeepOut keep_out;
    keep_out.what = what;
    return sign_of(keep_out);
  };
  CHECK(sign("Spy hole") == Sign::spy_hole);
  CHECK(sign("peephole") == Sign::spy_hole);
  CHECK(sign("CONE PACK") == Sign::cones);
  CHECK(sign("thermocouple") == Sign::sensor);
  CHECK(sign("bag wall") == Sign::other);
}

TEST_CASE("keep_out_words: only the height that is kept, and where cones are set", "[cones]") {
  auto sample = support::spy_sample();
  const Batch& batch = sample.batch;
  const Level& low = sample.plan.firings[0].levels[0];   // top at 31 mm
  const Level& high = sample.plan.firings[0].levels[1];  // top at 162 mm
  KeepOut pack;
  pack.what = "cone pack";
  pack.area.discs = {{{0, -150}, 40}};
  pack.from = Length::from_mm(140);
  pack.to = Length::from_mm(240);
  CHECK(keep_out_words(batch, low, pack, false, false) == "cone pack: keep clear from 109 mm up");
  CHECK_FALSE(stands_here(low, pack));
  CHECK(keep_out_words(batch, high, pack, false, false) == "cone pack: set it here");
  CHECK(stands_here(high, pack));
  KeepOut hole = pack;
  hole.what = "spy hole";
  CHECK(keep_out_words(batch, low, hole, false, true) ==
        "spy hole: keep clear from 4 5/16 in (109 mm) up");
  CHECK(keep_out_words(batch, high, hole, true, false) == "spy hole: keep clear but for the cones");
  hole.area.discs[0].centre = {0, -255};
  CHECK(keep_out_words(batch, high, hole, false, false) == "spy hole: keep clear");
  hole.area.discs[0].centre = {0, -265};
  hole.area.discs[0].radius = 20;
  CHECK(keep_out_words(batch, high, hole, false, false) == "spy hole, beside the shelf");
}
