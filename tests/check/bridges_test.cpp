// A bridge in a plan: every rule that it can break is found.
#include <algorithm>
#include <catch2/catch.hpp>
#include <string>

#include "placer/check/check.h"
#include "placer/model/batch.h"

namespace placer {
namespace {

Length mm(double v) { return Length::from_mm(v); }

/// Two square columns with posts at given places, and a long shelf that may lie across.
Batch batch() {
  Batch batch;
  batch.clays.push_back({});
  batch.loads.push_back({"glaze", FiringKind::glaze, {}});
  Kiln& kiln = batch.kiln;
  kiln.chamber.outline = rectangle(1000, 600);
  kiln.height = mm(600);
  ShelfKind square;
  square.name = "square";
  square.shape = {rectangle(400, 400), {}, {}};
  square.thickness = mm(20);
  square.have = 4;
  ShelfKind wide = square;
  wide.name = "long";
  wide.shape = {rectangle(810, 400), {}, {}};
  kiln.shelves = {square, wide};
  kiln.posts.push_back({mm(100), {{{{0, 0}, 15}}, {}}, 12, Mass::from_kg(0.2), {}});
  const auto posts = [](double x) {
    return std::vector<Point>{{x - 150, -150}, {x + 150, -150}, {x, 150}};
  };
  kiln.columns.push_back({"left", {0}, {{-205, 0}, 0}, posts(-205), {}});
  kiln.columns.push_back({"right", {0}, {{205, 0}, 0}, posts(205), {}});
  kiln.bridges.push_back({"across", {0, 1}, {1}, {{0, 0}, 0}, {}});
  return batch;
}

std::vector<PlacedPost> posts_of(const Batch& batch, int column) {
  std::vector<PlacedPost> posts;
  for (const Point at : batch.kiln.columns[static_cast<std::size_t>(column)].posts)
    posts.push_back({at, 0, {0}});
  return posts;
}

/// A square shelf at the left and one at the right, the long one across both.
LoadPlan planned(const Batch& batch) {
  KilnLoad load;
  for (int c = 0; c < 2; ++c) {
    const auto posts = posts_of(batch, c);
    load.floor_posts.insert(load.floor_posts.end(), posts.begin(), posts.end());
    Level level;
    level.column = c;
    level.level = 1;
    level.shelf_at = batch.kiln.columns[static_cast<std::size_t>(c)].at;
    level.shelf_top = mm(120);
    level.clear_height = level.air = mm(100);
    level.posts = posts;
    load.levels.push_back(level);
  }
  Level across;
  across.bridge = 0;
  across.level = 2;
  across.shelf = 1;
  across.shelf_at = batch.kiln.bridges[0].at;
  across.shelf_top = mm(240);
  across.clear_height = across.air = batch.kiln.height - batch.kiln.under_lid - mm(240);
  load.levels.push_back(across);
  for (const Level& level : load.levels)
    load.furniture += mass_of(batch.kiln.shelves[static_cast<std::size_t>(level.shelf)]);
  load.furniture += 12 * batch.kiln.posts[0].mass;
  LoadPlan plan;
  plan.firings.push_back(load);
  plan.shelves = {{0, 2, 4}, {1, 1, 4}};
  plan.posts = {{0, 12, 12}};
  plan.fewest_firings_possible = 1;
  plan.name = spoken_name(plan);
  return plan;
}

bool finds(const Batch& batch, LoadPlan plan, const std::string& code) {
  plan.name = spoken_name(plan);
  const auto findings = check::check_plan(batch, plan);
  return std::any_of(findings.begin(), findings.end(),
                     [&](const Finding& finding) { return finding.code == code; });
}

}  // namespace

TEST_CASE("a sound bridge is not found fault with", "[bridges]") {
  const Batch studio = batch();
  for (const Finding& finding : check::check_plan(studio, planned(studio)))
    FAIL_CHECK(finding.code + ": " + finding.message);
}

TEST_CASE("every rule that a bridge breaks is found", "[bridges]") {
  const Batch studio = batch();
  const LoadPlan sound = planned(studio);
  LoadPlan plan = sound;
  auto& levels = plan.firings[0].levels;
  SECTION("no posts in one column") {
    levels[1].posts.clear();
    CHECK(finds(studio, plan, "post-count"));
  }
  SECTION("posts that do not end at one height") {
    for (PlacedPost& post : levels[1].posts) post.parts = {0, 0};
    CHECK(finds(studio, plan, "post-uneven"));
  }
  SECTION("the wrong kind of shelf") {
    levels[2].shelf = 0;
    CHECK(finds(studio, plan, "shelf-kind"));
  }
  SECTION("another place than the bridge's") {
    levels[2].shelf_at.at.x = 3;
    CHECK(finds(studio, plan, "shelf-place"));
  }
  SECTION("a number that does not follow from what lies under it") {
    levels[2].level = 3;
    CHECK(finds(studio, plan, "levels"));
  }
  SECTION("another height than its posts give") {
    levels[2].shelf_top = mm(250);
    CHECK(finds(studio, plan, "shelf-height"));
  }
  SECTION("posts out of line with those below") {
    levels[1].posts[0].at.x += 20;
    CHECK(finds(studio, plan, "post-line"));
  }
  SECTION("a bridge that the studio has not") {
    levels[2].bridge = 1;
    CHECK(finds(studio, plan, "plan"));
  }
  SECTION("another column than its first") {
    levels[2].column = 1;
    CHECK(finds(studio, plan, "plan"));
  }
  SECTION("posts on it that carry nothing") {
    levels[2].posts = posts_of(studio, 0);
    CHECK(finds(studio, plan, "post-idle"));
  }
}

}  // namespace placer
