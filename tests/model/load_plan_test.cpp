#include "placer/model/load_plan.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <set>

#include "placer/base/random.h"
#include "support/hand_made_plan.h"

namespace placer {
namespace {

using namespace support;

TEST_CASE("ground: a piece lies where it is set, its handle turned with it", "[ground]") {
  const Batch batch = hand_made_batch();
  const KilnLoad load = hand_made_glaze(batch);
  const Footprint mug = ground(batch, load, load.levels[0].pieces[2]);  // (0, 75), turned 270°
  CHECK(mug.discs[0].centre == Point{0, 75});
  CHECK(mug.discs[0].radius == 40);
  CHECK(bounding_box(mug).low == Point{-40, 10});
}

TEST_CASE("ground: a lidded jar covers the ground of both", "[ground]") {
  const Batch batch = hand_made_batch();
  const KilnLoad load = hand_made_glaze(batch);
  const PlacedPiece& jar = load.levels[3].pieces[0];
  CHECK(kinds_of(jar) == std::vector<int>{kJar, kJarLid});
  CHECK(ground(batch, load, jar).discs.size() == 2);
}

TEST_CASE("ground: of a shelf, less the feet of the posts on it", "[ground]") {
  const Batch batch = hand_made_batch();
  const KilnLoad load = hand_made_glaze(batch);
  const Region back = ground(batch, load.levels[0]);
  CHECK(back.keep_outs.size() == 3);
  CHECK(back.round->centre == Point{0, 4});
  // Each post is a square and a round stilt on it: the ground is the square's.
  CHECK(area(Region{back.outline, back.round, {}}) - area(back) == Approx(3 * 900));
  CHECK(ground(batch, load.levels[2]).keep_outs.empty());  // nothing stands on the top shelf
}

TEST_CASE("height_of: the parts of a post add up", "[post]") {
  const Batch batch = hand_made_batch();
  CHECK(height_of(batch, {{0, 0}, 0, {kTallPost, kStilt}}) == mm(163));
  CHECK(height_of(batch, {{0, 0}, 0, {kShortPost, kTallPost, kStilt}}) == mm(223));
}

TEST_CASE("kinds_of: one entry a piece", "[stack]") {
  PlacedPiece piece;
  piece.piece = 4;
  CHECK(kinds_of(piece) == std::vector<int>{4});
  piece.stacked = 3;
  CHECK(kinds_of(piece) == std::vector<int>{4, 4, 4});
  piece.stack = {4, 4, 5};
  CHECK(kinds_of(piece) == std::vector<int>{4, 4, 5});
}

TEST_CASE("spoken_name: a word and two digits", "[name]") {
  const std::string name = spoken_name(LoadPlan{});
  const std::size_t dash = name.find('-');
  REQUIRE(dash != std::string::npos);
  const auto capital = [](char c) { return c >= 'A' && c <= 'Z'; };
  const auto digit = [](char c) { return c >= '0' && c <= '9'; };
  CHECK(std::all_of(name.begin(), name.begin() + static_cast<std::ptrdiff_t>(dash), capital));
  CHECK(dash >= 3);
  CHECK(dash <= 7);
  CHECK(name.size() == dash + 3);
  CHECK(std::all_of(name.begin() + static_cast<std::ptrdiff_t>(dash) + 1, name.end(), digit));
}

TEST_CASE("spoken_name: pinned, so that a plan printed once keeps its name for ever", "[name]") {
  CHECK(spoken_name(LoadPlan{}) == "APPLE-51");
  CHECK(spoken_name(hand_made_plan(hand_made_batch())) == "BRAMBLE-69");
}

TEST_CASE("spoken_name: what does not matter does not change it", "[name]") {
  LoadPlan plan = hand_made_plan(hand_made_batch());
  const std::string name = spoken_name(plan);
  plan.name = "OAK-17";
  plan.seed = 99;
  plan.remarks = {"Set by hand."};
  plan.firings[1].levels[0].pieces[0].place.at.x += 1e-5;  // below a thousandth of a millimetre
  CHECK(spoken_name(plan) == name);
}

TEST_CASE("spoken_name: places, turns, stacks, posts and left-out pieces matter", "[name]") {
  const LoadPlan plan = hand_made_plan(hand_made_batch());
  const auto changed = [&plan](auto change) {
    LoadPlan other = plan;
    change(other);
    return spoken_name(other) != spoken_name(plan);
  };
  CHECK(changed([](LoadPlan& p) { p.firings[1].levels[0].pieces[0].place.at.x += 0.002; }));
  CHECK(changed([](LoadPlan& p) { p.firings[1].levels[0].pieces[0].place.turn_deg += 1; }));
  CHECK(changed([](LoadPlan& p) { p.firings[0].levels[0].pieces[0].stack.pop_back(); }));
  CHECK(changed([](LoadPlan& p) { p.firings[0].levels[0].posts[0].parts = {kTallPost}; }));
  CHECK(changed([](LoadPlan& p) { p.left_out.push_back({0, 0, 1, "tall", "Too tall."}); }));
  CHECK(changed([](LoadPlan& p) { std::swap(p.firings[0], p.firings[1]); }));
}

TEST_CASE("spoken_name: names are spread evenly over 64 words and 90 numbers", "[name]") {
  std::map<std::string, int> words;
  std::set<std::string> names;
  for (int i = 0; i < 2000; ++i) {
    LoadPlan plan;
    plan.left_out.push_back({i, 0, 1, "", ""});
    const std::string name = spoken_name(plan);
    names.insert(name);
    ++words[name.substr(0, name.find('-'))];
  }
  CHECK(words.size() == 64);
  for (const auto& [word, count] : words) {
    CAPTURE(word);
    CHECK(count < 3 * 2000 / 64);
  }
  // 2000 draws from 5760 names give 1690 different ones on average.
  CHECK(names.size() > 1600);
}

}  // namespace
}  // namespace placer
