/// @file hand_made_plan.h
/// A small studio and a plan for it, set by hand: a round kiln with two columns of half shelves
/// that step past each other, a bisque load with stacks, and a glaze load.
#pragma once

#include <algorithm>
#include <utility>
#include <vector>

#include "placer/model/batch.h"
#include "placer/model/load_plan.h"

namespace placer::support {

inline Length mm(double v) { return Length::from_mm(v); }

// Indices into the hand-made batch.
enum { kMug, kBowl, kJar, kJarLid, kVase, kTile };
enum { kBisqueLoad, kGlazeLoad };
enum { kTallPost, kShortPost, kStilt };  // 150, 60 and 13 mm
enum { kBack, kFront };

inline Kiln hand_made_kiln() {
  Kiln kiln;
  kiln.name = "Round";
  kiln.chamber = {{}, Disc{{0, 0}, 300}, {}};
  kiln.height = mm(600);
  kiln.wall_clearance = mm(30);
  kiln.keep_outs = {
      {"spy hole", {{}, {rectangle({255, -20}, {300, 20})}}, mm(200), mm(260), false, {}},
      {"sensor", {{{{0, 290}, 12}}, {}}, mm(480), mm(520), true, {}}};
  kiln.shelves = {
      {"half round 540", half_disc(540), mm(15), 8, ShelfMaterial::cordierite, false, {}}};
  const Footprint square{{}, {rectangle(30, 30)}};
  kiln.posts = {{mm(150), square, 12, Mass::from_kg(0.9), {}},
                {mm(60), square, 12, Mass::from_kg(0.4), {}},
                {mm(13), {{{{0, 0}, 12}}, {}}, 6, Mass::from_kg(0.1), {}}};
  kiln.columns = {{"back", {0}, {{0, 4}, 0}, {}, {}}, {"front", {0}, {{0, -4}, 180}, {}, {}}};
  return kiln;
}

inline PieceKind piece_kind(std::string name, int count, Footprint shape, double height, double kg,
                            std::vector<int> loads) {
  PieceKind kind;
  kind.name = std::move(name);
  kind.count = count;
  kind.footprint = std::move(shape);
  kind.height = mm(height);
  kind.mass = Mass::from_kg(kg);
  kind.measured = Stage::bisque;  // so that sizes in the glaze load are as written
  kind.loads = std::move(loads);
  return kind;
}

inline Batch hand_made_batch() {
  Batch batch;
  batch.kiln = hand_made_kiln();
  batch.clays = {Clay{}};
  batch.clays[0].name = "stoneware";
  batch.glazes = {{"celadon", false, {}}, {"ash", true, {}}};
  batch.loads = {{"bisque", FiringKind::bisque, {}}, {"glaze", FiringKind::glaze, {}}};
  const std::vector<int> both{kBisqueLoad, kGlazeLoad};
  const auto disc = [](double r) { return Footprint{{{{0, 0}, r}}, {}}; };
  batch.pieces = {
      piece_kind("Mug", 4, {{{{0, 0}, 40}}, {rectangle({0, -8}, {65, 8})}}, 100, 0.35, both),
      piece_kind("Bowl", 3, disc(75), 70, 0.8, both),
      piece_kind("Jar", 1, disc(60), 140, 1.0, both),
      piece_kind("Jar lid", 1, disc(50), 30, 0.2, both),
      piece_kind("Vase", 1, disc(45), 225, 1.2, {kGlazeLoad}),
      piece_kind("Tile", 2, {{}, {rectangle(100, 100)}}, 10, 0.2, {kBisqueLoad})};
  for (const int glazed : {kMug, kJar, kJarLid, kVase}) {
    batch.pieces[static_cast<std::size_t>(glazed)].glaze = 0;
  }
  batch.pieces[kBowl].glaze = 1;
  batch.pieces[kBowl].stacking = {Stacking::How::nested, 3, mm(20)};
  batch.pieces[kTile].stacking = {Stacking::How::flat, 2, mm(11)};
  batch.pieces[kTile].flat_ware = true;
  batch.pieces[kTile].wishes.turn_deg = 0;
  batch.pieces[kJarLid].wishes.inside = "Jar";
  batch.pieces[kMug].wishes.pinned = Placement{{0, 120}, 90};
  batch.pieces[kJar].wishes.set = "gift";
  Wishes& vase = batch.pieces[kVase].wishes;
  vase.zone = Zone::high;
  vase.side = Side::front;
  vase.level = 2;
  vase.first_firing = true;
  vase.set = "gift";
  vase.apart = {"ash"};
  return batch;
}

inline std::vector<PlacedPost> three_posts(int column, std::vector<int> parts) {
  const double side = column == kBack ? 1 : -1;
  return {{{-200, side * 30}, 0, parts}, {{200, side * 30}, 0, parts}, {{0, side * 240}, 0, parts}};
}

inline PlacedPiece set_piece(const Batch& batch, int load, std::vector<int> kinds, Point at,
                             double turn_deg) {
  const SizedPiece size = standing(batch, kinds, batch.loads[static_cast<std::size_t>(load)].kind);
  PlacedPiece piece{kinds.front(),
                    0,
                    {at, turn_deg},
                    size.height,
                    size.mass,
                    static_cast<int>(kinds.size()),
                    {},
                    0};
  if (kinds.size() > 1) piece.stack = std::move(kinds);
  return piece;
}

/// A level whose top is at `top`, with `clear` mm over it.
inline Level hand_made_level(int column, int number, double top, double clear,
                             std::vector<PlacedPost> posts, std::vector<PlacedPiece> pieces) {
  Level level;
  level.column = column;
  level.level = number;
  level.shelf_at = column == kBack ? Placement{{0, 4}, 0} : Placement{{0, -4}, 180};
  level.shelf_top = mm(top);
  level.clear_height = mm(clear);
  level.posts = std::move(posts);
  Length tallest;
  int next = 1;
  for (PlacedPiece& piece : pieces) {
    piece.number = next++;
    tallest = std::max(tallest, piece.height);
  }
  level.air = level.clear_height - tallest;
  level.pieces = std::move(pieces);
  return level;
}

inline void weigh(const Batch& batch, KilnLoad& load) {
  const auto posts_mass = [&batch](const std::vector<PlacedPost>& posts) {
    Mass mass;
    for (const PlacedPost& post : posts) {
      for (const int part : post.parts)
        mass += batch.kiln.posts[static_cast<std::size_t>(part)].mass;
    }
    return mass;
  };
  load.ware = {};
  load.furniture = posts_mass(load.floor_posts);
  for (const Level& level : load.levels) {
    load.furniture += mass_of(batch.kiln.shelves[static_cast<std::size_t>(level.shelf)]);
    load.furniture += posts_mass(level.posts);
    for (const PlacedPiece& piece : level.pieces) load.ware += piece.mass;
  }
}

inline std::vector<PlacedPost> hand_made_floor_posts() {
  std::vector<PlacedPost> posts = three_posts(kBack, {kShortPost});
  for (const PlacedPost& post : three_posts(kFront, {kShortPost})) posts.push_back(post);
  return posts;
}

/// The mugs at the back hide the spy hole's side, and nothing more is set there.
inline std::vector<NoCones> hand_made_no_cones() { return {{0, "Left out in this load."}}; }

inline KilnLoad hand_made_bisque(const Batch& batch) {
  const auto set = [&batch](std::vector<int> kinds, Point at, double turn_deg) {
    return set_piece(batch, kBisqueLoad, std::move(kinds), at, turn_deg);
  };
  KilnLoad load;
  load.load = kBisqueLoad;
  load.floor_posts = hand_made_floor_posts();
  load.levels = {
      hand_made_level(kBack, 1, 75, 163, three_posts(kBack, {kTallPost, kStilt}),
                      {set({kBowl, kBowl, kBowl}, {0, 120}, 0)}),
      hand_made_level(
          kBack, 2, 253, 322, {},
          {set({kMug}, {-100, 120}, 90), set({kMug}, {0, 120}, 90), set({kMug}, {100, 120}, 90)}),
      hand_made_level(kFront, 1, 75, 223, three_posts(kFront, {kShortPost, kTallPost, kStilt}),
                      {set({kTile, kTile}, {0, -120}, 0), set({kJar, kJarLid}, {-120, -120}, 0)}),
      hand_made_level(kFront, 2, 313, 262, {}, {set({kMug}, {0, -120}, 0)})};
  load.no_cones = hand_made_no_cones();
  weigh(batch, load);
  return load;
}

inline KilnLoad hand_made_glaze(const Batch& batch) {
  const auto set = [&batch](std::vector<int> kinds, Point at, double turn_deg) {
    return set_piece(batch, kGlazeLoad, std::move(kinds), at, turn_deg);
  };
  KilnLoad load;
  load.load = kGlazeLoad;
  load.floor_posts = hand_made_floor_posts();
  load.levels = {
      hand_made_level(
          kBack, 1, 75, 163, three_posts(kBack, {kTallPost, kStilt}),
          {set({kBowl}, {-110, 140}, 0), set({kBowl}, {110, 140}, 0), set({kMug}, {0, 75}, 270)}),
      hand_made_level(kBack, 2, 253, 150, three_posts(kBack, {kTallPost}),
                      {set({kMug}, {-100, 120}, 90), set({kMug}, {0, 120}, 90)}),
      hand_made_level(kBack, 3, 418, 157, {}, {set({kMug}, {0, 120}, 90)}),
      hand_made_level(kFront, 1, 75, 223, three_posts(kFront, {kShortPost, kTallPost, kStilt}),
                      {set({kJar, kJarLid}, {20, -120}, 0), set({kBowl}, {-130, -130}, 0)}),
      hand_made_level(kFront, 2, 313, 262, {}, {set({kVase}, {0, -120}, 0)})};
  load.no_cones = hand_made_no_cones();
  weigh(batch, load);
  return load;
}

/// Holds every rule.
inline LoadPlan hand_made_plan(const Batch& batch) {
  LoadPlan plan;
  plan.firings = {hand_made_bisque(batch), hand_made_glaze(batch)};
  plan.shelves = {{0, 5, 8}};
  plan.posts = {{kTallPost, 9, 12}, {kShortPost, 9, 12}, {kStilt, 6, 6}};
  plan.fewest_firings_possible = 2;
  plan.name = spoken_name(plan);
  return plan;
}

}  // namespace placer::support
