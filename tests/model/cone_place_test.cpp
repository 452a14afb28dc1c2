// Where a pack of cones may stand, against the rules said again in another way: points on its edge
// and on the lines to the eye, tried one by one.
#include "placer/model/cone_place.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

namespace placer {
namespace {

Length mm(double v) { return Length::from_mm(v); }

/// One shelf of 500 x 440 mm, 162 mm up, in a chamber of 600 x 540; a spy hole in front.
struct Shelf {
  Batch batch;
  KilnLoad load;

  Shelf() {
    Kiln& kiln = batch.kiln;
    kiln.chamber.outline = rectangle(600, 540);
    kiln.height = mm(700);
    ShelfKind shelf;
    shelf.shape.outline = rectangle(500, 440);
    shelf.thickness = mm(18);
    kiln.shelves = {shelf};
    PostKind post;
    post.height = mm(150);
    post.foot.outlines = {rectangle(30, 30)};
    kiln.posts = {post};
    kiln.columns = {{"middle", {0}, {}, {}, {}}};
    KeepOut hole;
    hole.what = "Spy hole";
    hole.area.discs = {{{0, -270}, 45}};
    hole.from = mm(150);
    hole.to = mm(260);
    hole.shelves_too = false;
    kiln.keep_outs = {hole};
    batch.clays.emplace_back();
    batch.glazes = {{"clear", false, {}}, {"copper", true, {}}};
    batch.loads = {{"glaze", FiringKind::glaze, {}}};
    for (const int glaze : {0, 1}) {
      PieceKind cup;
      cup.footprint.discs = {{{0, 0}, 40}};
      cup.height = mm(85);
      cup.measured = Stage::bisque;
      cup.glaze = glaze;
      cup.loads = {0};
      batch.pieces.push_back(cup);
    }
    Level level;
    level.level = 1;
    level.shelf_top = mm(162);
    level.clear_height = mm(150);
    level.posts = {{{-230, 200}, 0, {0}}, {{230, 200}, 0, {0}}, {{0, -200}, 0, {0}}};
    load.levels = {level};
  }
  Level& level() { return load.levels[0]; }
  void add(Point at, int kind = 0, double high = 85) {
    PlacedPiece piece;
    piece.piece = kind;
    piece.number = static_cast<int>(level().pieces.size()) + 1;
    piece.place = {at, 0};
    piece.height = mm(high);
    level().pieces.push_back(piece);
  }
  std::optional<Placement> spot(bool seen = true) const {
    return free_cone_spot(batch, load, 0, 0, seen);
  }
};

std::vector<Point> along(Point from, Point to, int steps) {
  std::vector<Point> points;
  for (int i = 0; i <= steps; ++i) {
    points.push_back(from + (static_cast<double>(i) / steps) * (to - from));
  }
  return points;
}

std::vector<Point> corners_of(const Placement& place) {
  const Point x = 40.0 * direction(place.turn_deg);
  const Point y = 15.0 * direction(place.turn_deg + 90);
  return {place.at - x - y, place.at + x - y, place.at + x + y, place.at - x + y};
}

double away(Point a, Point b) { return std::hypot(a.x - b.x, a.y - b.y); }

}  // namespace

TEST_CASE("is_spy_hole: small and large letters, and the trade's other word", "[cones]") {
  const auto named = [](const char* what) {
    KeepOut keep_out;
    keep_out.what = what;
    return keep_out;
  };
  CHECK(is_spy_hole(named("Spy hole")));
  CHECK(is_spy_hole(named("peephole")));
  CHECK_FALSE(is_spy_hole(named("CONE PACK")));
  CHECK(is_for_cones(named("CONE PACK")));
  CHECK_FALSE(is_for_cones(named("spy hole for cones")));
  CHECK_FALSE(is_for_cones(named("bag wall")));
  Shelf shelf;
  CHECK(holes_for_cones(shelf.batch.kiln) == std::vector<int>{0});
  shelf.batch.kiln.keep_outs.push_back(named("cone pack"));
  CHECK(keeps_cone_places(shelf.batch.kiln));
  CHECK(holes_for_cones(shelf.batch.kiln).empty());
}

TEST_CASE("eye_of: where the hole goes through the wall", "[cones]") {
  Shelf shelf;
  KeepOut hole = shelf.batch.kiln.keep_outs[0];
  CHECK(eye_of(hole, shelf.batch.kiln) == Point{0, -270});
  hole.area.discs = {{{300, 40}, 20}};
  CHECK(eye_of(hole, shelf.batch.kiln).x == Approx(300));
  CHECK(eye_of(hole, shelf.batch.kiln).y == Approx(40));
  hole.area = {{}, {rectangle(Point{100, -280}, Point{160, -200})}};
  CHECK(eye_of(hole, shelf.batch.kiln).x == Approx(130));
  CHECK(eye_of(hole, shelf.batch.kiln).y == Approx(-270));
  Kiln round = shelf.batch.kiln;
  round.chamber = {{}, Disc{{10, 20}, 300}, {}};
  hole.area = {{{{10, -250}, 30}}, {}};
  CHECK(eye_of(hole, round).x == Approx(10));
  CHECK(eye_of(hole, round).y == Approx(-280));
}

TEST_CASE("free_cone_spot: clear of all that stands there, and seen from end to end", "[cones]") {
  const unsigned seed = GENERATE(range(0U, 12U));
  CAPTURE(seed);
  Shelf shelf;
  // Cups here and there, one of four of them in a glaze that runs.
  for (unsigned i = 0; i < 3 + seed % 6; ++i) {
    const auto u = static_cast<double>((i * 97 + seed * 131) % 400);
    const auto v = static_cast<double>((i * 57 + seed * 71) % 340);
    const Point at{u - 200, v - 150};
    const auto& pieces = shelf.level().pieces;
    const bool free = std::all_of(pieces.begin(), pieces.end(), [&](const PlacedPiece& other) {
      return away(other.place.at, at) > 95;
    });
    if (free) shelf.add(at, i % 4 == 3 ? 1 : 0);
  }
  const auto spot = shelf.spot();
  REQUIRE(spot);
  const Point eye{0, -270};
  const std::vector<Point> corners = corners_of(*spot);
  for (std::size_t i = 0; i < 4; ++i) {
    for (const Point p : along(corners[i], corners[(i + 1) % 4], 40)) {
      CHECK(std::abs(p.x) <= 250 + 1e-9);
      CHECK(std::abs(p.y) <= 220 + 1e-9);
      for (const PlacedPiece& piece : shelf.level().pieces) {
        const double asked = piece.piece == 1 ? 12 : 6;
        CHECK(away(p, piece.place.at) >= 40 + asked - 1e-6);
      }
      for (const PlacedPost& post : shelf.level().posts) {
        const Point off{std::abs(p.x - post.at.x), std::abs(p.y - post.at.y)};
        CHECK_FALSE((off.x < 15 + 4.9 && off.y < 15 + 1e-9));
        CHECK_FALSE((off.x < 15 + 1e-9 && off.y < 15 + 4.9));
      }
    }
  }
  const Point half = 40.0 * direction(spot->turn_deg);
  for (const Point target : along(spot->at - half, spot->at + half, 8)) {
    for (const Point p : along(eye, target, 200)) {
      for (const PlacedPiece& piece : shelf.level().pieces) {
        CHECK(away(p, piece.place.at) >= 40 - 1e-6);
      }
      CHECK_FALSE((std::abs(p.x) < 15 - 1e-9 && std::abs(p.y + 200) < 15 - 1e-9));
    }
  }
  CHECK(is_seen(shelf.batch, shelf.load, 0, 0, *spot));
}

TEST_CASE("free_cone_spot: the nearest spot is taken, so a bare shelf has it close to the hole",
          "[cones]") {
  Shelf shelf;
  shelf.level().posts.pop_back();  // the one right before the hole
  const auto spot = shelf.spot();
  REQUIRE(spot);
  // The shelf begins 50 mm behind the wall: half the pack and a grid step more.
  CHECK(away(spot->at, {0, -270}) < 50 + kPackDeep / 2 + 10);
}

TEST_CASE("cone_spots: a full shelf names the pieces that would have to go", "[cones]") {
  Shelf shelf;
  shelf.level().posts.pop_back();
  for (int x = -2; x <= 2; ++x) {
    for (int y = -2; y <= 2; ++y) shelf.add({x * 90.0, y * 88.0});
  }
  CHECK_FALSE(shelf.spot());
  CHECK_FALSE(shelf.spot(false));
  CHECK(cone_spots(shelf.batch, shelf.load, 0, 0, true, 0).empty());
  const auto spots = cone_spots(shelf.batch, shelf.load, 0, 0, true, 2);
  REQUIRE_FALSE(spots.empty());
  for (const ConeSpot& spot : spots) {
    REQUIRE((!spot.in_the_way.empty() && spot.in_the_way.size() <= 2));
    // Without those, and with all others, the spot is free.
    Shelf fewer = shelf;
    for (auto i = spot.in_the_way.rbegin(); i != spot.in_the_way.rend(); ++i) {
      fewer.level().pieces.erase(fewer.level().pieces.begin() + *i);
    }
    CHECK(is_seen(fewer.batch, fewer.load, 0, 0, spot.place));
    CHECK(fewer.spot());
  }
}

TEST_CASE("free_cone_spot: what is low enough is looked over", "[cones]") {
  Shelf shelf;
  shelf.level().posts.pop_back();
  shelf.batch.kiln.keep_outs[0].from = mm(200);  // 38 mm over the shelf
  for (int x = -2; x <= 2; ++x) shelf.add({x * 86.0, -175}, 0, 30);
  REQUIRE(shelf.spot());
  CHECK(shelf.spot()->at.y > -120);
  for (PlacedPiece& piece : shelf.level().pieces) piece.height = mm(54);
  CHECK_FALSE(shelf.spot());
  CHECK(shelf.spot(false));
}

TEST_CASE("levels_in_sight: at the hole's height, and high enough for cones", "[cones]") {
  Shelf shelf;
  CHECK(levels_in_sight(shelf.batch, shelf.load, 0) == std::vector<int>{0});
  CHECK(levels_for_cones(shelf.batch, shelf.load, 0) == std::vector<int>{0});
  KeepOut& hole = shelf.batch.kiln.keep_outs[0];
  hole.from = mm(221.9);  // a little more than 15 mm of the cones' 75
  CHECK(levels_in_sight(shelf.batch, shelf.load, 0).size() == 1);
  hole.from = mm(222.1);
  CHECK(levels_in_sight(shelf.batch, shelf.load, 0).empty());
  CHECK_FALSE(shelf.spot());
  CHECK(shelf.spot(false));
  hole.from = mm(150);
  shelf.level().clear_height = mm(74);
  CHECK(levels_in_sight(shelf.batch, shelf.load, 0).empty());
  CHECK(levels_for_cones(shelf.batch, shelf.load, 0).empty());
}

TEST_CASE("cone_spots: packs keep off each other and do not hide one another", "[cones]") {
  Shelf shelf;
  const auto first = shelf.spot();
  REQUIRE(first);
  shelf.level().cones = {{0, *first, true}};
  CHECK(is_seen(shelf.batch, shelf.load, 0, 0, *first));
  const auto second = shelf.spot();
  REQUIRE(second);
  CHECK(gap(pack_at(*first), pack_at(*second)) >= kPackGap);
  const Footprint sight{{}, {line_of_sight({0, -270}, *first)}};
  CHECK(gap(sight, pack_at(*second)) >= 0);
}

}  // namespace placer
