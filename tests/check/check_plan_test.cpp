#include <algorithm>
#include <catch2/catch.hpp>
#include <functional>
#include <limits>
#include <set>
#include <string>

#include "placer/check/check.h"
#include "support/hand_made_plan.h"

namespace placer::check {
namespace {

using namespace support;

struct Case {
  Batch batch = hand_made_batch();
  LoadPlan plan = hand_made_plan(batch);

  KilnLoad& bisque() { return plan.firings[0]; }
  KilnLoad& glaze() { return plan.firings[1]; }
  // Levels of the glaze load.
  Level& back(std::size_t number) { return glaze().levels[number - 1]; }
  Level& front(std::size_t number) { return glaze().levels[2 + number]; }
  PieceKind& kind(int i) { return batch.pieces[static_cast<std::size_t>(i)]; }
  /// A pack on the second shelf at the back of the glaze load, seen from the spy hole on the right.
  void set_pack() {
    batch.kiln.keep_outs[0].to = mm(300);
    back(2).cones = {{0, {{100, 180}, 45}, true}};
    glaze().no_cones.clear();
  }
  void say_weights() {
    for (KilnLoad& load : plan.firings) weigh(batch, load);
  }
};

double heaviest_shelf(const Case& c) {
  double most = 0;
  for (const KilnLoad& load : c.plan.firings) {
    for (const Level& level : load.levels) {
      double kg = 0;
      for (const PlacedPiece& piece : level.pieces) kg += piece.mass.kg();
      most = std::max(most, kg);
    }
  }
  return most;
}

double heaviest_load(const Case& c) {
  double most = 0;
  for (const KilnLoad& load : c.plan.firings) most = std::max(most, load.ware.kg());
  return most;
}

std::set<std::string> codes(const std::vector<Finding>& findings) {
  std::set<std::string> codes;
  for (const Finding& finding : findings) codes.insert(finding.code);
  return codes;
}

std::string all_messages(const std::vector<Finding>& findings) {
  std::string all;
  for (const Finding& finding : findings) all += finding.code + ": " + finding.message + "\n";
  return all;
}

TEST_CASE("check_plan: the plan set by hand holds every rule", "[check]") {
  const Case good;
  const auto findings = check_plan(good.batch, good.plan);
  INFO(all_messages(findings));
  CHECK(findings.empty());
}

TEST_CASE("check_plan: a plan with a pack of cones that its hole sees holds", "[check]") {
  Case good;
  good.set_pack();
  CHECK(all_messages(check_plan(good.batch, good.plan)) == "");
}

TEST_CASE("check_plan: cones want 75 mm of room over their shelf", "[check]") {
  Case c;
  c.set_pack();
  c.back(2).clear_height = mm(74);  // that it is not so is found as well
  const std::string all = all_messages(check_plan(c.batch, c.plan));
  CHECK(all.find("has 74 mm of room over the shelf; 75 mm are asked") != std::string::npos);
}

TEST_CASE("check_plan: a plan as heavy as the limits allow holds", "[check]") {
  Case good;
  good.batch.kiln.most_on_shelf = Mass::from_kg(heaviest_shelf(good));
  good.batch.kiln.most_in_load = Mass::from_kg(heaviest_load(good));
  CHECK(all_messages(check_plan(good.batch, good.plan)) == "");
}

TEST_CASE("check_plan: an empty plan with every piece left out holds", "[check]") {
  const Batch batch = hand_made_batch();
  LoadPlan plan;
  for (std::size_t kind = 0; kind < batch.pieces.size(); ++kind) {
    for (const int load : batch.pieces[kind].loads) {
      plan.left_out.push_back(
          {static_cast<int>(kind), load, batch.pieces[kind].count, "tall", "Too tall."});
    }
  }
  plan.name = spoken_name(plan);
  CHECK(check_plan(batch, plan).empty());
}

struct Broken {
  const char* what;
  const char* code;
  std::function<void(Case&)> by;
  bool renamed = true;  // the plan's name is brought in line with its places
};

// Each breaks one rule, by little where the rule is a length.
const std::vector<Broken>& broken_plans() {
  static const std::vector<Broken> broken{
      // What the plan names.
      {"a piece that is not there", "plan", [](Case& c) { c.back(1).pieces[0].piece = 17; }, false},
      {"a shelf that is not there", "plan", [](Case& c) { c.back(1).shelf = -1; }, false},
      {"a column that is not there", "plan", [](Case& c) { c.back(1).column = 2; }, false},
      {"a load that is not there", "plan", [](Case& c) { c.glaze().load = 5; }, false},
      {"a post that is not there", "plan", [](Case& c) { c.back(1).posts[0].parts = {3}; }, false},
      {"a post of nothing", "plan", [](Case& c) { c.back(1).posts[0].parts.clear(); }, false},
      {"a kind in a stack that is not there", "plan",
       [](Case& c) { c.front(1).pieces[0].stack[1] = 99; }, false},
      {"a place that is no number", "plan",
       [](Case& c) { c.back(1).pieces[0].place.at.x = std::numeric_limits<double>::quiet_NaN(); },
       false},
      {"furniture that is not there", "plan", [](Case& c) { c.plan.posts[0].kind = 9; }},
      {"a left-out piece that is not there", "plan",
       [](Case& c) {
         c.plan.left_out = {{9, 0, 1, "tall", "Too tall."}};
       }},
      {"a wish of a piece that is not there", "plan",
       [](Case& c) {
         c.plan.ungranted = {{9, 0, "zone", "No."}};
       }},
      // Counts and claims.
      {"a load's number twice", "rounds",
       [](Case& c) {
         KilnLoad empty;
         empty.load = kGlazeLoad;
         empty.no_cones = hand_made_no_cones();
         c.plan.firings.push_back(empty);
       }},
      {"loads that start at 2", "rounds", [](Case& c) { c.bisque().round = 2; }},
      {"a mug too few", "count", [](Case& c) { c.kind(kMug).count = 5; }},
      {"a mug too many", "count", [](Case& c) { c.kind(kMug).count = 3; }},
      {"a piece set that was also left out", "count",
       [](Case& c) {
         c.plan.left_out = {{kVase, kGlazeLoad, 1, "tall", "Too tall."}};
       }},
      {"a piece in a load that it does not need", "count",
       [](Case& c) { c.kind(kTile).loads = {}; }},
      {"left out without a reason", "left-out",
       [](Case& c) {
         c.kind(kTile).count = 3;
         c.plan.left_out = {{kTile, kBisqueLoad, 1, "tall", ""}};
       }},
      {"more stilts in use than owned", "owned",
       [](Case& c) {
         c.batch.kiln.posts[kStilt].have = 5;
         c.plan.posts[2].owned = 5;
       }},
      {"more shelves in use than owned", "owned",
       [](Case& c) {
         c.batch.kiln.shelves[0].have = 4;
         c.plan.shelves[0].owned = 4;
       }},
      {"fewer posts needed than said", "furniture", [](Case& c) { c.plan.posts[1].needed = 8; }},
      {"more owned than there are", "furniture", [](Case& c) { c.plan.posts[1].owned = 13; }},
      {"posts in use but not listed", "furniture", [](Case& c) { c.plan.posts.pop_back(); }},
      {"shelves listed twice", "furniture",
       [](Case& c) { c.plan.shelves.push_back(c.plan.shelves[0]); }},
      {"more firings proven necessary than there are", "fewest",
       [](Case& c) { c.plan.fewest_firings_possible = 3; }},
      {"another plan's name", "name", [](Case& c) { c.plan.name = "OAK-00"; }, false},
      {"too little ware", "mass", [](Case& c) { c.glaze().ware = Mass::from_kg(0.5); }},
      {"a shelf heavier than its limit", "too-heavy",
       [](Case& c) { c.batch.kiln.most_on_shelf = Mass::from_kg(heaviest_shelf(c) - 1e-5); }},
      {"a load heavier than its limit", "too-heavy",
       [](Case& c) { c.batch.kiln.most_in_load = Mass::from_kg(heaviest_load(c) - 1e-5); }},
      {"too little furniture", "mass",
       [](Case& c) { c.glaze().furniture = c.glaze().furniture - Mass::from_kg(1e-5); }},
      {"a piece that is said to be lower", "size",
       [](Case& c) {
         c.back(1).pieces[0].height = mm(69);  // not the tallest: the air stays
       }},
      {"a piece that is said to be lighter", "size",
       [](Case& c) { c.back(1).pieces[0].mass = Mass::from_kg(0.79); }},
      // Levels and their heights.
      {"a level's number left out", "levels",
       [](Case& c) {
         c.front(2).level = 3;
         c.kind(kVase).wishes.level.reset();
       }},
      {"levels listed from the top", "levels", [](Case& c) { std::swap(c.front(1), c.front(2)); }},
      {"a piece's number twice", "numbers", [](Case& c) { c.back(1).pieces[2].number = 2; }},
      {"piece numbers that start at 0", "numbers",
       [](Case& c) {
         for (PlacedPiece& piece : c.back(1).pieces) --piece.number;
       }},
      {"the top shelf a hair lower than its posts hold it", "shelf-height",
       [](Case& c) {
         c.front(2).shelf_top = mm(312.99);
         c.front(2).clear_height = mm(262.01);
         c.front(2).air = mm(37.01);
         c.front(1).clear_height = mm(222.99);
         c.front(1).air = mm(52.99);
       }},
      {"more room over a shelf than there is", "clear-height",
       [](Case& c) {
         c.back(2).clear_height += mm(0.01);
         c.back(2).air += mm(0.01);
       }},
      {"more air than there is", "air-said", [](Case& c) { c.back(2).air += mm(0.01); }},
      {"the lowest shelves too near to the floor", "floor",
       [](Case& c) { c.batch.kiln.first_shelf = mm(60.01); }},
      // Posts.
      {"a post a stilt too low", "post-uneven",
       [](Case& c) {
         c.back(2).posts[0].parts = {kShortPost, kShortPost, kStilt};
         c.back(2).posts[1].parts = {kShortPost, kShortPost};
         c.batch.kiln.posts[kStilt].have = c.plan.posts[2].owned = 30;
         c.plan.posts = {{kTallPost, 7, 12}, {kShortPost, 13, 13}, {kStilt, 7, 30}};
         c.batch.kiln.posts[kShortPost].have = 13;
         c.say_weights();
       }},
      {"a shelf on two posts", "post-count",
       [](Case& c) {
         c.back(2).posts.pop_back();
         c.plan.posts[0].needed = 8;
         c.say_weights();
       }},
      {"posts that stand elsewhere than the studio says", "post-place",
       [](Case& c) {
         c.batch.kiln.columns[kBack].posts = {{-200, 30}, {200, 30}, {0, 241}};
       }},
      {"a post out of line by a tenth", "post-line",
       [](Case& c) { c.back(2).posts[0].at.x += 0.1; }},
      {"a post of four parts", "post-parts",
       [](Case& c) {
         c.batch.kiln.posts.push_back(c.batch.kiln.posts[kShortPost]);
         c.batch.kiln.posts[3].height = mm(30);
         c.batch.kiln.posts[3].have = 30;
         c.batch.kiln.posts[3].mass = c.batch.kiln.posts[kShortPost].mass;
         for (PlacedPost& post : c.back(2).posts) post.parts = {3, 3, 3, kShortPost};
         c.plan.posts = {{kTallPost, 6, 12}, {kShortPost, 12, 12}, {kStilt, 6, 6}, {3, 9, 30}};
         c.say_weights();
       }},
      {"a post that carries nothing", "post-idle",
       [](Case& c) {
         c.front(2).posts = {{{100, -100}, 0, {kTallPost}}};
         c.plan.posts[0].needed = 10;
         c.say_weights();
       }},
      {"posts that stand out over the edge", "post-off",
       [](Case& c) {
         // 53 deep at 26 from the shelf's straight side.
         c.batch.kiln.posts[kTallPost].foot = {{}, {rectangle(30, 53)}};
       }},
      {"posts out from under the shelf they carry", "post-off",
       [](Case& c) {
         // The upper back shelf is of a smaller kind.
         c.batch.kiln.shelves.push_back(c.batch.kiln.shelves[0]);
         c.batch.kiln.shelves[1].shape = half_disc(500);
         c.batch.kiln.columns[kBack].shelves = {0, 1};
         c.back(3).shelf = 1;
         c.plan.shelves = {{0, 4, 8}, {1, 1, 8}};
         c.say_weights();
       }},
      {"a post in the place of another", "post-touch",
       [](Case& c) {
         c.back(2).posts.push_back(c.back(2).posts[0]);
         c.batch.kiln.columns[kBack].posts = {{-200, 30}, {200, 30}, {0, 240}, {-200, 30}};
         c.glaze().floor_posts.push_back(c.glaze().floor_posts[0]);
         c.back(1).posts.push_back(c.back(1).posts[0]);
         c.bisque().floor_posts.push_back(c.bisque().floor_posts[0]);
         c.bisque().levels[0].posts.push_back(c.bisque().levels[0].posts[0]);
         c.batch.kiln.posts[kStilt].have = 7;
         c.plan.posts = {{kTallPost, 11, 12}, {kShortPost, 10, 12}, {kStilt, 7, 7}};
         c.say_weights();
       }},
      {"posts that do not hold the shelf's middle", "tips",
       [](Case& c) {
         const auto move = [](std::vector<PlacedPost>& posts) {
           for (PlacedPost& post : posts) {
             if (post.at == Point{0, -240}) post.at = {0, -100};
           }
         };
         c.bisque().levels.erase(c.bisque().levels.begin() + 2, c.bisque().levels.end());
         auto& floor = c.bisque().floor_posts;
         floor.erase(floor.begin() + 3, floor.end());
         c.kind(kMug).loads = {kGlazeLoad};
         c.kind(kJar).loads = c.kind(kJarLid).loads = {kGlazeLoad};
         c.kind(kTile).loads = {};
         c.bisque().levels[1].pieces.clear();
         c.bisque().levels[1].air = c.bisque().levels[1].clear_height;
         move(c.glaze().floor_posts);
         move(c.front(1).posts);
         c.front(1).pieces[0].place.at = {20, -185};
         c.say_weights();
       }},
      // Shelves.
      {"a shelf that the column may not use", "shelf-kind",
       [](Case& c) {
         c.batch.kiln.shelves.push_back(c.batch.kiln.shelves[0]);
         c.batch.kiln.columns[kBack].shelves = {1};
         for (KilnLoad& load : c.plan.firings) {
           for (Level& level : load.levels) level.shelf = level.column == kBack ? 1 : 0;
         }
         c.back(3).shelf = 0;
         c.plan.shelves = {{0, 3, 8}, {1, 2, 8}};
       }},
      {"a shelf out of line with its column", "shelf-place",
       [](Case& c) { c.back(2).shelf_at.at.x += 0.1; }},
      {"shelves too near to the wall", "shelf-wall",
       [](Case& c) { c.batch.kiln.shelf_clearance = mm(26.01); }},
      {"shelves in each other's way", "shelf-touch",
       [](Case& c) {
         for (Column& column : c.batch.kiln.columns) column.at.at.y *= -0.01;
         for (KilnLoad& load : c.plan.firings) {
           for (Level& level : load.levels) level.shelf_at.at.y *= -0.01;
         }
       }},
      {"a shelf in the sensor's way", "keep-out",
       [](Case& c) {
         c.batch.kiln.keep_outs[1].from = mm(410);
         c.batch.kiln.keep_outs[1].area.discs[0].radius = 16.01;  // the rim is at y 274
       }},
      // Stacks.
      {"four bowls in a stack for three", "stack",
       [](Case& c) {
         c.kind(kBowl).stacking.most = 2;
         PlacedPiece& stack = c.bisque().levels[0].pieces[0];
         const Length lower = Length::from_mm(70 / 0.99);
         c.bisque().levels[0].air = c.bisque().levels[0].clear_height - lower;
         stack.mass = stacked(c.batch, c.kind(kBowl), FiringKind::bisque, 1).mass;
         weigh(c.batch, c.bisque());
       }},
      {"a count that the stack does not have", "stack",
       [](Case& c) {
         c.front(1).pieces[0].stacked = 1;
         c.front(1).pieces[0].mass = Mass::from_kg(1);
         weigh(c.batch, c.glaze());
         c.front(1).air = mm(83);
       }},
      {"a lid on a pot that is not its own", "stack",
       [](Case& c) {
         c.kind(kJarLid).wishes.inside = "Vase";
         c.plan.ungranted = {{kJarLid, kBisqueLoad, "inside", "No."},
                             {kJarLid, kGlazeLoad, "inside", "No."}};
         for (KilnLoad* load : {&c.glaze(), &c.bisque()}) {
           Level& level = load == &c.glaze() ? c.front(1) : load->levels[2];
           for (PlacedPiece& piece : level.pieces) {
             if (piece.piece == kJar)
               piece.mass = sized(c.batch, c.kind(kJar),
                                  c.batch.loads[static_cast<std::size_t>(load->load)].kind)
                                .mass;
           }
           const Length jar = sized(c.batch, c.kind(kJar),
                                    c.batch.loads[static_cast<std::size_t>(load->load)].kind)
                                  .height;
           level.air = level.clear_height - jar;
         }
         c.say_weights();
       }},
      // Pieces and their room.
      {"mugs a hair too near", "close", [](Case& c) { c.back(2).pieces[0].place.at.x += 14.001; }},
      {"a runny glaze too near, though far enough for another", "close",
       [](Case& c) {
         c.back(1).pieces[2].place.at.y += 2;
         c.back(1).pieces[2].place.turn_deg = 270;
       }},
      {"mugs on top of each other", "close",
       [](Case& c) {
         c.back(2).pieces[0].place.at = {0, 120};
       }},
      {"pieces that overlap in a bisque", "close",
       [](Case& c) { c.bisque().levels[2].pieces[1].place.at.x = -111; }},
      {"a tall piece near one of the other column", "close",
       [](Case& c) {
         c.kind(kVase).glaze = 1;
         c.kind(kVase).wishes.apart.clear();
         c.back(3).pieces[0].place = {{0, 45}, 90};
         c.front(2).pieces[0].place.at = {0, -50};  // 10 apart over both shelves' edges
       }},
      {"a handle over the edge of the shelf", "overhang",
       [](Case& c) {
         c.back(1).pieces[2].place = {{0, 68.99}, 270};
       }},
      {"a bowl over the edge of the shelf", "overhang",
       [](Case& c) {
         c.batch.kiln.wall_clearance = mm(20);
         c.back(1).pieces[0].place.at = {-110, 165.1};
       }},
      {"a piece too near to the wall", "wall",
       [](Case& c) { c.batch.kiln.wall_clearance = mm(49); }},
      {"a piece too near to a post", "post-near",
       [](Case& c) {
         c.back(2).pieces[0].place.at = {-139.01, 45};
       }},
      {"a piece in sight of the spy hole", "keep-out",
       [](Case& c) {
         c.batch.kiln.keep_outs[0].area = {{{{100, -120}, 35.01}}, {}};
       }},
      // Heights.
      {"too little air over the tallest piece", "air",
       [](Case& c) { c.batch.rules.glaze.air = mm(50.01); }},
      {"a piece beside the edge of the next column's shelf", "shelf-near",
       [](Case& c) {
         c.batch.rules.glaze.gap = mm(12.5);
         c.front(1).pieces[0].place.at = {20, -68.49};
       }},
      {"too little room under the lid", "lid-room",
       [](Case& c) {
         c.kind(kVase).height = c.front(2).pieces[0].height = mm(262.01);
         c.front(2).air = mm(262) - mm(262.01);
       }},
      // Wishes.
      {"high, but in the middle", "wish-zone",
       [](Case& c) {
         c.kind(kVase).height = c.front(2).pieces[0].height = mm(173.9);
         c.front(2).air = mm(262) - mm(173.9);
       }},
      {"at the front, but behind", "wish-side",
       [](Case& c) { c.kind(kVase).wishes.side = Side::back; }},
      {"on level 2, but on 1", "wish-level", [](Case& c) { c.kind(kVase).wishes.level = 1; }},
      {"in the first load, but in the second", "wish-first",
       [](Case& c) {
         KilnLoad first;
         first.load = kGlazeLoad;
         first.no_cones = hand_made_no_cones();
         c.glaze().round = 2;
         c.plan.firings.push_back(first);
       }},
      {"a set over two loads", "wish-set",
       [](Case& c) {
         c.kind(kVase).wishes.first_firing = false;
         KilnLoad second = c.glaze();
         second.round = 2;
         second.levels.erase(second.levels.begin(), second.levels.begin() + 3);
         second.floor_posts.erase(second.floor_posts.begin(), second.floor_posts.begin() + 3);
         second.levels[0].pieces.clear();
         second.levels[0].air = second.levels[0].clear_height;
         c.front(2).pieces.clear();
         c.front(2).air = c.front(2).clear_height;
         c.plan.firings.push_back(second);
         c.say_weights();
       }},
      {"kept apart from a glaze on the same level", "wish-apart",
       [](Case& c) { c.kind(kJar).wishes.apart = {"ash"}; }},
      {"turned", "wish-turn", [](Case& c) { c.bisque().levels[2].pieces[0].place.turn_deg = 90; }},
      {"pinned elsewhere", "wish-pinned", [](Case& c) { c.kind(kMug).wishes.pinned->at.x = 1; }},
      {"a lid beside its pot", "wish-lid",
       [](Case& c) {
         Level& level = c.front(1);
         level.pieces[0] = set_piece(c.batch, kGlazeLoad, {kJar}, {20, -120}, 0);
         level.pieces[0].number = 1;
         level.pieces.push_back(set_piece(c.batch, kGlazeLoad, {kJarLid}, {160, -120}, 0));
         level.pieces.back().number = 3;
         level.air = mm(83);
         weigh(c.batch, c.glaze());
       }},
      // Packs of cones.
      {"a pack for a hole that is not there", "plan",
       [](Case& c) {
         c.set_pack();
         c.back(2).cones[0].spy_hole = 7;
       }},
      {"a hole without cones and without a word", "plan",
       [](Case& c) { c.glaze().no_cones[0].reason.clear(); }},
      {"a hole forgotten", "cones", [](Case& c) { c.glaze().no_cones.clear(); }},
      {"a pack and a reason why there is none", "cones",
       [](Case& c) {
         c.set_pack();
         c.glaze().no_cones = hand_made_no_cones();
       }},
      {"a pack for the sensor", "cones",
       [](Case& c) {
         c.set_pack();
         c.back(2).cones[0].spy_hole = 1;
         c.back(2).cones[0].seen = false;
         c.glaze().no_cones = hand_made_no_cones();
       }},
      {"two packs for one hole", "cones",
       [](Case& c) {
         c.set_pack();
         c.back(2).cones.push_back(c.back(2).cones[0]);
       }},
      {"a pack over the edge", "cones-place",
       [](Case& c) {
         c.set_pack();
         c.back(2).cones[0].place = {{100, 211}, 45};
         c.back(2).cones[0].seen = false;
         c.batch.kiln.wall_clearance = mm(0);
       }},
      {"a pack too near to the wall", "cones-place",
       [](Case& c) {
         c.set_pack();
         c.back(2).cones[0].place = {{126.75, 219.54}, -30};  // on its shelf, 28.6 mm from it
         c.back(2).cones[0].seen = false;
       }},
      {"a pack 5 mm from a mug, where 6 are asked", "cones-place",
       [](Case& c) {
         c.set_pack();
         c.back(2).cones[0].place = {{85, 120}, 0};
         c.back(2).cones[0].seen = false;
       }},
      {"a pack 4 mm from a post", "cones-place",
       [](Case& c) {
         c.set_pack();
         c.back(2).cones[0].place = {{200, 64}, 0};
         c.back(2).cones[0].seen = false;
       }},
      {"a pack said to be seen past a post", "cones-hidden",
       [](Case& c) {
         c.set_pack();
         c.back(2).cones[0].place = {{130, 100}, 60};
       }},
      {"a pack said to be seen past a mug", "cones-hidden",
       [](Case& c) {
         c.set_pack();
         c.back(2).cones[0].place = {{-165, 60}, 90};
       }},
      {"a pack where the hole does not look", "cones-hidden",
       [](Case& c) {
         c.set_pack();
         c.batch.kiln.keep_outs[0].to = mm(267.9);
       }},
  };
  return broken;
}

TEST_CASE("check_plan: there are plans broken in more than forty ways", "[check]") {
  std::set<std::string> kinds;
  for (const Broken& broken : broken_plans()) kinds.insert(broken.code);
  CHECK(broken_plans().size() >= 60);
  CHECK(kinds.size() >= 40);
}

TEST_CASE("check_plan: each broken rule is found, and no other", "[check]") {
  for (const Broken& broken : broken_plans()) {
    DYNAMIC_SECTION(broken.code << ": " << broken.what) {
      Case c;
      broken.by(c);
      if (broken.renamed) c.plan.name = spoken_name(c.plan);
      const auto findings = check_plan(c.batch, c.plan);
      INFO(all_messages(findings));
      CHECK(codes(findings) == std::set<std::string>{broken.code});
      CHECK(has_mistakes(findings));
    }
  }
}

TEST_CASE("check_plan: a post through another column's shelf", "[check]") {
  Case c;
  // The front shelves now reach under the back ones' posts.
  c.batch.kiln.columns[kFront].at.at.y = 20;
  for (Level* level : {&c.front(1), &c.front(2)}) level->shelf_at.at.y = 20;
  CHECK(codes(check_plan(c.batch, c.plan)).count("post-shelf") == 1);
}

TEST_CASE("check_plan: a wish that the plan lets go is no mistake", "[check]") {
  Case c;
  c.kind(kVase).wishes.side = Side::back;
  CHECK_FALSE(check_plan(c.batch, c.plan).empty());
  c.plan.ungranted = {{kVase, kGlazeLoad, "side", "No room there."}};
  CHECK(check_plan(c.batch, c.plan).empty());
  c.plan.ungranted[0].load = kBisqueLoad;
  CHECK(codes(check_plan(c.batch, c.plan)) == std::set<std::string>{"wish-side"});
}

TEST_CASE("check_plan: a length counts as short from a millionth of a millimetre on", "[check]") {
  Case c;
  c.back(2).pieces[0].place.at.x = -100 + 14 + 5e-7;
  c.plan.name = spoken_name(c.plan);
  CHECK(check_plan(c.batch, c.plan).empty());
  c.back(2).pieces[0].place.at.x = -100 + 14 + 3e-6;
  CHECK(codes(check_plan(c.batch, c.plan)) == std::set<std::string>{"close"});
}

TEST_CASE("check_plan: messages give both numbers with as many digits as tell them apart",
          "[check][message]") {
  Case c;
  const auto first_message = [&c] {
    c.plan.name = spoken_name(c.plan);
    return check_plan(c.batch, c.plan).at(0).message;
  };
  SECTION("pieces too near") {
    c.back(2).pieces[0].place.at.x += 17.25;
    CHECK(first_message() ==
          "'Mug' 1 on back, shelf 2 (glaze, load 1) and 'Mug' 2 on back, shelf 2 (glaze, load 1) "
          "are 2.8 mm apart; 6 mm are asked.");
  }
  SECTION("pieces nearly far enough") {
    c.back(2).pieces[0].place.at.x += 14.0002;
    CHECK(first_message() ==
          "'Mug' 1 on back, shelf 2 (glaze, load 1) and 'Mug' 2 on back, shelf 2 (glaze, load 1) "
          "are 5.9998 mm apart; 6 mm are asked.");
  }
  SECTION("pieces that overlap") {
    c.back(2).pieces[0].place.at.x += 40;
    CHECK(first_message() ==
          "'Mug' 1 on back, shelf 2 (glaze, load 1) and 'Mug' 2 on back, shelf 2 (glaze, load 1) "
          "overlap by 20 mm.");
  }
  SECTION("a count") {
    c.kind(kMug).count = 5;
    CHECK(first_message() == "'Mug': 4 set and 0 left out in bisque, but there are 5 to fire.");
  }
  SECTION("posts") {
    c.batch.kiln.posts[kStilt].have = 4;
    c.plan.posts[2].owned = 4;
    CHECK(first_message() == "The plan needs 6 posts of 13 mm at once, but only 4 are owned.");
  }
  SECTION("under the lid") {
    c.batch.kiln.height = mm(520);
    const auto findings = check_plan(c.batch, c.plan);
    const auto lid = std::ranges::find(findings, "lid-room", &Finding::code);
    REQUIRE(lid != findings.end());
    CHECK(lid->message ==
          "There are 2 mm between 'Mug' 1 on back, shelf 3 (glaze, load 1) and the lid or roof; "
          "25 mm are asked.");
  }
}

// The whole studio in a mirror: left is right.
Point mirrored(Point p) { return {-p.x, p.y}; }
Placement mirrored(const Placement& where) { return {mirrored(where.at), -where.turn_deg}; }
Outline mirrored(const Outline& outline) {
  Outline result;
  for (const Point& corner : outline.corners) result.corners.push_back(mirrored(corner));
  std::ranges::reverse(result.corners);
  return result;
}
Footprint mirrored(const Footprint& shape) {
  Footprint result;
  for (const Disc& disc : shape.discs) result.discs.push_back({mirrored(disc.centre), disc.radius});
  for (const Outline& outline : shape.outlines) result.outlines.push_back(mirrored(outline));
  return result;
}
Region mirrored(const Region& region) {
  Region result{mirrored(region.outline), region.round, {}};
  if (result.round) result.round->centre = mirrored(result.round->centre);
  return result;
}

void mirror(Batch& batch) {
  batch.kiln.chamber = mirrored(batch.kiln.chamber);
  for (KeepOut& keep_out : batch.kiln.keep_outs) keep_out.area = mirrored(keep_out.area);
  for (ShelfKind& shelf : batch.kiln.shelves) shelf.shape = mirrored(shelf.shape);
  for (PostKind& post : batch.kiln.posts) post.foot = mirrored(post.foot);
  for (Column& column : batch.kiln.columns) column.at = mirrored(column.at);
  for (PieceKind& piece : batch.pieces) {
    piece.footprint = mirrored(piece.footprint);
    if (piece.wishes.pinned) piece.wishes.pinned = mirrored(*piece.wishes.pinned);
    if (piece.wishes.turn_deg) piece.wishes.turn_deg = -*piece.wishes.turn_deg;
  }
}

void mirror(std::vector<PlacedPost>& posts) {
  for (PlacedPost& post : posts) {
    post.at = mirrored(post.at);
    post.turn_deg = -post.turn_deg;
  }
}

void mirror(LoadPlan& plan) {
  for (KilnLoad& load : plan.firings) {
    mirror(load.floor_posts);
    for (Level& level : load.levels) {
      mirror(level.posts);
      level.shelf_at = mirrored(level.shelf_at);
      for (PlacedPiece& piece : level.pieces) piece.place = mirrored(piece.place);
      for (ConePack& pack : level.cones) pack.place = mirrored(pack.place);
    }
  }
  plan.name = spoken_name(plan);
}

TEST_CASE("check_plan: in a mirror, a good plan is good and a broken one broken", "[check]") {
  Case good;
  mirror(good.batch);
  mirror(good.plan);
  INFO(all_messages(check_plan(good.batch, good.plan)));
  CHECK(check_plan(good.batch, good.plan).empty());
  for (const Broken& broken : broken_plans()) {
    CAPTURE(broken.code, broken.what);
    if (std::string{broken.code} == "plan" || std::string{broken.code} == "name") continue;
    Case c;
    broken.by(c);
    mirror(c.batch);
    for (Column& column : c.batch.kiln.columns) {
      for (Point& post : column.posts) post = mirrored(post);
    }
    mirror(c.plan);
    CHECK(codes(check_plan(c.batch, c.plan)) == std::set<std::string>{broken.code});
  }
}

TEST_CASE("check_plan: a kiln turned as a whole, its file's own coordinates, holds too",
          "[check]") {
  const double turn = GENERATE(1.0, 37.0, 90.0, 200.5);
  CAPTURE(turn);
  const Placement whole{{100, -50}, turn};
  const auto moved = [&whole](const Placement& where) {
    return Placement{placed(where.at, whole), where.turn_deg + whole.turn_deg};
  };
  Case c;
  Kiln& kiln = c.batch.kiln;
  kiln.chamber = placed(kiln.chamber, whole);
  for (KeepOut& keep_out : kiln.keep_outs) keep_out.area = placed(keep_out.area, whole);
  for (Column& column : kiln.columns) column.at = moved(column.at);
  c.kind(kMug).wishes.pinned = moved(*c.kind(kMug).wishes.pinned);
  c.kind(kTile).wishes.turn_deg = turn;
  c.kind(kVase).wishes.side.reset();
  const auto move_posts = [&](std::vector<PlacedPost>& posts) {
    for (PlacedPost& post : posts) {
      post.at = placed(post.at, whole);
      post.turn_deg += turn;
    }
  };
  for (KilnLoad& load : c.plan.firings) {
    move_posts(load.floor_posts);
    for (Level& level : load.levels) {
      move_posts(level.posts);
      level.shelf_at = moved(level.shelf_at);
      for (PlacedPiece& piece : level.pieces) piece.place = moved(piece.place);
    }
  }
  c.plan.name = spoken_name(c.plan);
  const auto findings = check_plan(c.batch, c.plan);
  INFO(all_messages(findings));
  CHECK(findings.empty());
}

// A shelf as large as a hall, full of cups at exactly the gap asked.
Case hall(int rows) {
  Case c;
  const double side = rows * 86.0;
  c.batch.pieces.resize(1);
  PieceKind& cup = c.kind(0);
  cup = piece_kind("Cup", rows * rows, {{{{0, 0}, 40}}, {}}, 90, 0.3, {kGlazeLoad});
  Kiln& kiln = c.batch.kiln;
  kiln.chamber = {rectangle(side + 200, side + 200), std::nullopt, {}};
  kiln.keep_outs.clear();
  kiln.shelves[0].shape = {rectangle(side + 90, side + 90), std::nullopt, {}};
  kiln.columns = {{"all", {0}, {}, {}, {}}};
  KilnLoad load;
  load.load = kGlazeLoad;
  const double corner = side / 2 + 30;
  load.floor_posts = {{{-corner, -corner}, 0, {kShortPost}},
                      {{corner, -corner}, 0, {kShortPost}},
                      {{0, corner}, 0, {kShortPost}}};
  std::vector<PlacedPiece> cups;
  for (int i = 0; i < rows * rows; ++i) {
    const Point at{(i % rows - (rows - 1) / 2.0) * 86, (i / rows - (rows - 1) / 2.0) * 86};
    cups.push_back(set_piece(c.batch, kGlazeLoad, {0}, at, 0));
  }
  load.levels = {hand_made_level(kBack, 1, 75, 500, {}, std::move(cups))};
  load.levels[0].shelf_at = {};
  weigh(c.batch, load);
  c.plan = {};
  c.plan.firings = {load};
  c.plan.shelves = {{0, 1, 8}};
  c.plan.posts = {{kShortPost, 3, 12}};
  c.plan.name = spoken_name(c.plan);
  return c;
}

TEST_CASE("check_plan: 5041 cups on one shelf, and the one that is a hair off is found",
          "[check][large]") {
  Case c = hall(71);
  const auto findings = check_plan(c.batch, c.plan);
  INFO(all_messages(findings));
  CHECK(findings.empty());
  c.plan.firings[0].levels[0].pieces[2500].place.at.x += 1e-5;
  c.plan.name = spoken_name(c.plan);
  const auto one_off = check_plan(c.batch, c.plan);
  REQUIRE(one_off.size() == 1);
  CHECK(one_off[0].message ==
        "'Cup' 2501 on shelf 1 (glaze, load 1) and 'Cup' 2502 on shelf 1 (glaze, load 1) are "
        "5.99999 mm apart; 6 mm are asked.");
}

}  // namespace
}  // namespace placer::check
