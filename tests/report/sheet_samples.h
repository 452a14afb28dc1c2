/// @file sheet_samples.h
/// Studios of many shapes with plain loads, to see what the drawn sheets make of them. The loads
/// are set by walking each shelf from the far left to the near right; they keep the gaps, but the
/// heights are only roughly right. Names are invented.
#pragma once

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "placer/model/cone_place.h"
#include "placer/report/report.h"

namespace placer::support {

struct SheetSample {
  std::string name;
  Batch batch;
  LoadPlan plan;
  std::vector<firing::Forecast> forecasts;
  std::string studio = "Yard studio";
  std::string zone = "Europe/Berlin";
  bool inches = false;
  long long made_at = 1764052200;

  report::Subject subject() const {
    return {batch, plan, forecasts, studio, zone, inches, made_at};
  }
};

inline PieceKind round_kind(std::string name, double across, double height, int glaze = -1,
                            double handle = 0) {
  PieceKind kind;
  kind.name = std::move(name);
  kind.footprint.discs = {{{0, 0}, across / 2}};
  if (handle > 0)
    kind.footprint.outlines = {rectangle(Point{0, -9}, Point{across / 2 + handle, 9})};
  kind.height = Length::from_mm(height);
  kind.mass = Mass::from_kg(across * across * 0.00006);
  kind.measured = Stage::bisque;
  if (glaze >= 0) kind.glaze = glaze;
  kind.loads = {0};
  return kind;
}

inline Kiln front_kiln() {
  Kiln kiln;
  kiln.name = "Gas kiln";
  kiln.opens = Opens::front;
  kiln.chamber.outline = rectangle(600, 540);
  kiln.height = Length::from_mm(700);
  ShelfKind shelf;
  shelf.name = "500 x 440";
  shelf.shape.outline = rectangle(500, 440);
  shelf.thickness = Length::from_mm(18);
  shelf.have = 6;
  kiln.shelves = {shelf};
  for (const double height : {150.0, 100.0, 13.0}) {
    PostKind post;
    post.height = Length::from_mm(height);
    post.foot.outlines = {rectangle(30, 30)};
    post.have = 12;
    kiln.posts.push_back(post);
  }
  Column column;
  column.name = "middle";
  column.shelves = {0};
  column.posts = {{-230, 200}, {230, 200}, {0, -200}};
  kiln.columns = {column};
  return kiln;
}

inline void add_keep_out(Kiln& kiln, const std::string& what, Disc area, double from, double to) {
  KeepOut keep_out;
  keep_out.what = what;
  keep_out.area.discs = {area};
  keep_out.from = Length::from_mm(from);
  keep_out.to = Length::from_mm(to);
  keep_out.shelves_too = false;
  kiln.keep_outs.push_back(keep_out);
}

inline Kiln round_kiln() {
  Kiln kiln = front_kiln();
  kiln.name = "Big round";
  kiln.opens = Opens::top;
  kiln.chamber = {{}, Disc{{0, 0}, 290}, {}};
  kiln.height = Length::from_mm(680);
  kiln.shelves[0].name = "half round 540";
  kiln.shelves[0].shape = half_disc(540);
  Column back;
  back.name = "back";
  back.shelves = {0};
  back.at = {{0, 3}, 0};
  back.posts = {{-200, 30}, {200, 30}, {0, 240}};
  Column front = back;
  front.name = "front";
  front.at = {{0, -3}, 180};
  front.posts = {{-200, -30}, {200, -30}, {0, -240}};
  kiln.columns = {back, front};
  return kiln;
}

/// Sets pieces of the batch on one level until it is full or `wanted` (kind indices) are gone.
class Setter {
 public:
  Setter(const Batch& batch, KilnLoad& load, double gap) : batch_{batch}, load_{load}, gap_{gap} {}

  /// Returns how many of `wanted` it has set, in that order.
  std::size_t set(Level& level, const std::vector<int>& wanted, double step = 10) const {
    const Region shelf = ground(batch_, level);
    const Box box = bounding_box(shelf);
    std::vector<Footprint> there;
    Point at{box.low.x, box.high.y};
    std::size_t count = 0;
    for (; count < wanted.size(); ++count) {
      PlacedPiece piece;
      piece.piece = wanted[count];
      piece.height = batch_.pieces[static_cast<std::size_t>(piece.piece)].height;
      piece.mass = batch_.pieces[static_cast<std::size_t>(piece.piece)].mass;
      if (!find(piece, shelf, there, at, box, step)) break;
      piece.number = static_cast<int>(level.pieces.size()) + 1;
      there.push_back(ground(batch_, load_, piece));
      level.pieces.push_back(piece);
    }
    return count;
  }

 private:
  bool fits(const Footprint& shape, const Region& shelf,
            const std::vector<Footprint>& there) const {
    if (inset(shape, shelf) < 0 || keep_out_gap(shape, shelf) < gap_) return false;
    for (const KeepOut& keep_out : batch_.kiln.keep_outs) {
      if (gap(shape, keep_out.area) < 0) return false;
    }
    return std::all_of(there.begin(), there.end(),
                       [&](const Footprint& other) { return gap(shape, other) >= gap_; });
  }

  bool find(PlacedPiece& piece, const Region& shelf, const std::vector<Footprint>& there, Point& at,
            const Box& box, double step) const {
    while (at.y > box.low.y) {
      piece.place = {at, std::fmod(37.0 * static_cast<double>(there.size()), 360)};
      if (fits(ground(batch_, load_, piece), shelf, there)) return true;
      at.x += step;
      if (at.x > box.high.x) at = {box.low.x, at.y - step};
    }
    return false;
  }

  const Batch& batch_;
  KilnLoad& load_;
  double gap_;
};

/// Levels of every column with these clear heights, filled with pieces dealt in turn from `kinds`
/// until `most` stand on a level.
inline KilnLoad filled(const Batch& batch, const std::vector<double>& clear_heights,
                       const std::vector<int>& kinds, std::size_t most, double gap = 6,
                       double step = 10) {
  KilnLoad load;
  std::size_t next = 0;
  for (std::size_t c = 0; c < batch.kiln.columns.size(); ++c) {
    const Column& column = batch.kiln.columns[c];
    double top = 13 + 18;
    for (const Point at : column.posts) load.floor_posts.push_back({at, 0, {2}});
    for (std::size_t i = 0; i < clear_heights.size(); ++i) {
      Level level;
      level.column = static_cast<int>(c);
      level.level = static_cast<int>(i) + 1;
      level.shelf = column.shelves[0];
      level.shelf_at = column.at;
      level.shelf_top = Length::from_mm(top);
      level.clear_height = Length::from_mm(clear_heights[i]);
      if (i + 1 < clear_heights.size()) {
        for (const Point at : column.posts) {
          level.posts.push_back(
              {at, 0, clear_heights[i] > 150 ? std::vector<int>{0, 2} : std::vector<int>{1, 2}});
        }
      }
      std::vector<int> wanted;
      for (std::size_t k = 0; k < most; ++k) wanted.push_back(kinds[(next + k) % kinds.size()]);
      next += Setter{batch, load, gap}.set(level, wanted, step);
      Length tallest;
      for (const PlacedPiece& piece : level.pieces) tallest = std::max(tallest, piece.height);
      level.air = level.clear_height - tallest;
      load.levels.push_back(level);
      top += clear_heights[i] + 18;
    }
  }
  for (const Level& level : load.levels) {
    for (const PlacedPiece& piece : level.pieces) load.ware += piece.mass;
  }
  load.furniture = Mass::from_kg(12 * static_cast<double>(load.levels.size()));
  return load;
}

inline firing::Forecast sample_forecast(bool reduction) {
  struct Row {
    const char* stage;
    double to, rate, hold;
    bool natural;
    const char* note;
    const char* caution;
  };
  const std::vector<Row> rows{
      {"candling", 90, 60, 1, false, "Lid open a finger, spy holes open.", ""},
      {"water smoking", 200, 80, 0, false,
       "Close the lid when a mirror at the spy hole stays clear.", ""},
      {"quartz", 600, 150, 0, false, "573 °C: quartz grows by about 1 percent. Steady, no draught.",
       ""},
      {"climb", 950, 150, 0, false, "Vent on: sulphur and carbon burn out.",
       "Sulphur fumes: keep out of the room."},
      {reduction ? "body reduction" : "steady", 960, 30, 0.5, false,
       "Damper in until a soft flame as long as a hand shows at the spy hole, for 30 to 45 "
       "minutes.",
       "Carbon monoxide: alarm on, doors open. Stand aside when you open the spy hole."},
      {"climb", 1200, 90, 0, false, "The flame at the spy hole just licks out.", ""},
      {"finish", 1285, 60, 0, false, "Look at the cones every 15 minutes.",
       "Dark glasses to look in."},
      {"soak", 1285, 60, 0.25, false, "Damper out a little: ten minutes clear.", ""},
      {"cooling", 1000, 250, 0, true, "Heat off, close the damper.", ""},
      {"cooling", 100, 60, 0, true, "573 °C and 226 °C again: no opening.", ""}};
  firing::Forecast forecast;
  firing::Schedule& schedule = forecast.schedule;
  schedule.profile = reduction ? "stoneware-reduction" : "stoneware-oxidation";
  schedule.wish.target.end = std::string{"10"};
  schedule.wish.atmosphere =
      reduction ? firing::Atmosphere::reduction : firing::Atmosphere::oxidation;
  schedule.wish.starts_at = 1764052200;
  schedule.top = {1285};
  schedule.top_segment = 6;
  double hours = 0;
  double celsius = 20;
  for (const Row& row : rows) {
    firing::TimedSegment step;
    step.segment.stage = row.stage;
    step.segment.target = {row.to};
    step.segment.rate = {row.rate};
    step.segment.hold = Hours{row.hold};
    step.segment.natural = row.natural;
    step.segment.notes = {row.note};
    if (*row.caution != 0) step.segment.cautions = {row.caution};
    step.from = {celsius};
    step.starts = Hours{hours};
    const double ramp = std::abs(row.to - celsius) / row.rate;
    for (int i = 0; i <= 20; ++i) {
      firing::Moment moment;
      moment.at = Hours{hours + ramp * i / 20};
      moment.planned = {celsius + (row.to - celsius) * i / 20};
      moment.kiln = moment.planned;
      forecast.curve.push_back(moment);
    }
    hours += ramp + row.hold;
    step.ends = Hours{hours};
    celsius = row.to;
    forecast.steps.push_back(step);
    schedule.segments.push_back(step.segment);
  }
  forecast.off = forecast.steps[7].ends;
  forecast.earliest_opening = forecast.duration = Hours{hours};
  forecast.unload = Hours{hours + 6};
  forecast.cone = "10";
  forecast.cone_band = "± 7 °C, about half a cone; trust witness cones";
  forecast.energy = Energy{180};
  forecast.cost = 45.0;
  forecast.events = {
      {Hours{0}, "light or switch on", true},
      {Hours{8.5}, "start reduction: damper in, flame at the spy hole", true},
      {forecast.off, "heat off at about 1285 °C (2345 °F): see that it is off", true},
      {forecast.unload, "under 60 °C (140 °F): may be unloaded, with gloves", false}};
  forecast.cautions = {
      "Carbon monoxide comes out of every kiln: alarm in the room, doors open, nobody sleeps "
      "above.",
      "Never look straight into a spy hole: stand aside, wear dark glasses.",
      "The kiln's manual and the local rules come first."};
  return forecast;
}

inline Batch batch_with(Kiln kiln, FiringKind kind) {
  Batch batch;
  batch.kiln = std::move(kiln);
  batch.clays = {Clay{}};
  for (const char* name : {"clear", "tenmoku", "celadon", "shino", "copper red", "ash", "nuka",
                           "chun", "matt white", "iron", "rutile", "slip"}) {
    batch.glazes.push_back({name, std::string{name} == "copper red", {}});
  }
  batch.loads = {{kind == FiringKind::glaze ? "glaze" : "bisque", kind, {}}};
  return batch;
}

/// Mugs, bowls, jugs and plates in a front loader, with every sign.
inline SheetSample everyday_sample() {
  SheetSample sample{"everyday", batch_with(front_kiln(), FiringKind::glaze), {}, {}};
  add_keep_out(sample.batch.kiln, "spy hole", {{220, -190}, 40}, 0, 700);
  add_keep_out(sample.batch.kiln, "cone pack", {{160, -150}, 28}, 0, 700);
  add_keep_out(sample.batch.kiln, "sensor", {{120, 215}, 35}, 250, 700);
  sample.batch.pieces = {round_kind("Mug", 82, 105, 0, 28),
                         round_kind("Bowl, wide", 150, 70, 1),
                         round_kind("Tall jug", 120, 200, 2, 30),
                         round_kind("Plate", 200, 30, 3),
                         round_kind("Cup", 64, 80, 4),
                         round_kind("Bud vase", 56, 110, 5)};
  sample.plan.name = "OAK-17";
  KilnLoad load = filled(sample.batch, {113, 113, 163, 220}, {0, 0, 0, 1, 4, 4, 5, 3}, 24);
  sample.plan.firings = {load};
  sample.plan.left_out = {
      {3, 0, 2, "wide",
       "410 mm across, and a shelf of 500 x 440 mm holds nothing wider than 400 mm."}};
  sample.plan.remarks = {"One more shelf would let in 8 more mugs."};
  sample.forecasts = {sample_forecast(true)};
  return sample;
}

/// A round top loader with half shelves in two columns, names long and in many scripts.
inline SheetSample many_scripts_sample() {
  SheetSample sample{"many-scripts", batch_with(round_kiln(), FiringKind::glaze), {}, {}};
  add_keep_out(sample.batch.kiln, "cone pack", {{0, -235}, 30}, 0, 680);
  sample.batch.pieces = {
      round_kind("Big jug with two handles and a spout for the harvest table, no. 12", 110, 150, 0,
                 30),
      round_kind("茶碗", 120, 80, 1),
      round_kind("Чашка с блюдцем", 90, 90, 2, 25),
      round_kind("Tasse à café “Été”", 70, 70, 3, 20),
      round_kind("Teapot 🫖", 130, 110, 4, 35),
      round_kind("Donaudampfschifffahrtsgesellschaftskapitänstasse", 80, 100, 5, 20)};
  sample.batch.glazes[1].name = "天目";
  sample.studio = "Студия на дворе, Überlingen";
  sample.plan.name = "ELM-4";
  sample.plan.firings = {filled(sample.batch, {163, 113, 163}, {0, 1, 2, 3, 4, 5}, 9)};
  sample.forecasts = {sample_forecast(true)};
  sample.inches = true;
  return sample;
}

/// Sixty kinds on one shelf.
inline SheetSample crowded_sample() {
  SheetSample sample{"crowded", batch_with(front_kiln(), FiringKind::glaze), {}, {}};
  std::vector<int> kinds;
  for (int i = 0; i < 60; ++i) {
    sample.batch.pieces.push_back(
        round_kind("Test cup no. " + std::to_string(i + 1), 44 + i % 4, 60 + i, i % 12));
    kinds.push_back(i);
  }
  sample.plan.name = "FIR-60";
  sample.plan.firings = {filled(sample.batch, {163, 300}, kinds, 60, 6, 5)};
  sample.forecasts = {sample_forecast(false)};
  return sample;
}

/// Two hundred beads of 18 mm: numbers wider than the pieces.
inline SheetSample beads_sample() {
  SheetSample sample{"beads", batch_with(front_kiln(), FiringKind::glaze), {}, {}};
  sample.batch.pieces = {round_kind("Bead", 18, 18, 2), round_kind("Button", 24, 8, 6)};
  sample.plan.name = "BAY-2";
  sample.plan.firings = {filled(sample.batch, {113}, {0, 0, 1}, 200, 4, 4)};
  sample.forecasts = {sample_forecast(false)};
  return sample;
}

/// A test kiln no larger than a brick, one piece, no known start.
inline SheetSample tiny_sample() {
  Kiln kiln = front_kiln();
  kiln.name = "";
  kiln.opens = Opens::top;
  kiln.chamber.outline = rectangle(140, 140);
  kiln.height = Length::from_mm(120);
  kiln.shelves[0].name = "test shelf";
  kiln.shelves[0].shape.outline = rectangle(100, 100);
  kiln.columns[0].posts = {};
  SheetSample sample{"tiny", batch_with(kiln, FiringKind::glaze), {}, {}};
  sample.batch.pieces = {round_kind("Ring dish", 80, 25, 0)};
  sample.plan.name = "ASH-1";
  sample.plan.firings = {filled(sample.batch, {60}, {0}, 1)};
  sample.forecasts = {sample_forecast(false)};
  sample.forecasts[0].schedule.wish.starts_at.reset();
  sample.made_at = 0;
  sample.studio.clear();
  return sample;
}

/// Twelve low levels in an octagon, tiles, and a shelf cut from a polygon.
inline SheetSample tower_sample() {
  Kiln kiln = front_kiln();
  kiln.name = "Octagon";
  kiln.opens = Opens::top;
  kiln.chamber.outline = regular_polygon(8, 620);
  kiln.height = Length::from_mm(1100);
  kiln.shelves[0].name = "octagon 560";
  kiln.shelves[0].shape.outline = regular_polygon(8, 560);
  kiln.columns[0].posts = {{-180, 180}, {180, 180}, {0, -230}};
  SheetSample sample{"tower", batch_with(kiln, FiringKind::glaze), {}, {}};
  PieceKind tile = round_kind("Tile", 10, 12, 7);
  tile.footprint = {{}, {rectangle(110, 70)}};
  tile.wishes.turn_deg = 0;
  sample.batch.pieces = {tile, round_kind("Saucer", 140, 24, 8)};
  sample.plan.name = "YEW-12";
  sample.plan.firings = {filled(sample.batch, std::vector<double>(12, 60.0), {0, 0, 1}, 9)};
  sample.forecasts = {sample_forecast(false)};
  return sample;
}

/// Bisque with every kind of stack, three loads, forty kinds left out.
inline SheetSample bisque_sample() {
  SheetSample sample{"bisque", batch_with(round_kiln(), FiringKind::bisque), {}, {}};
  using How = Stacking::How;
  sample.batch.pieces = {round_kind("Bowl", 140, 60), round_kind("Mug", 90, 100, -1, 25),
                         round_kind("Plate", 170, 28), round_kind("Jar with lid", 110, 120)};
  sample.batch.pieces[0].stacking = {How::nested, 4, Length::from_mm(18)};
  sample.batch.pieces[1].stacking = {How::rim_to_rim, 2, Length::from_mm(100)};
  sample.batch.pieces[2].stacking = {How::flat, 3, Length::from_mm(12)};
  KilnLoad load = filled(sample.batch, {163, 213, 150}, {0, 1, 2, 3}, 7, 0);
  for (Level& level : load.levels) {
    for (PlacedPiece& piece : level.pieces) {
      const int counts[] = {4, 2, 3, 1};
      piece.stacked = counts[piece.piece];
      piece.stack.assign(static_cast<std::size_t>(piece.stacked), piece.piece);
      if (piece.piece == 0) piece.height = Length::from_mm(114);
    }
  }
  sample.plan.name = "OAK-99";
  sample.plan.firings = {load, load, load};
  for (int round = 0; round < 3; ++round) {
    sample.plan.firings[static_cast<std::size_t>(round)].round = round + 1;
    sample.forecasts.push_back(sample_forecast(false));
  }
  for (int i = 0; i < 40; ++i) {
    sample.batch.pieces.push_back(round_kind("Big planter no. " + std::to_string(i + 1), 600, 900));
    sample.plan.left_out.push_back(
        {4 + i, 0, i + 1, "tall", "900 mm high, and under the lid there are only 655 mm."});
  }
  sample.plan.shelves = {{0, 6, 6}};
  sample.plan.posts = {{0, 12, 12}, {1, 14, 12}, {2, 30, 12}};
  sample.plan.fewest_firings_possible = 2;
  sample.plan.remarks = {"Two more posts of 100 mm would save a load."};
  return sample;
}

/// Two hundred kinds in two loads, with names that fill a line each.
inline SheetSample kinds_sample() {
  SheetSample sample{"kinds", batch_with(front_kiln(), FiringKind::glaze), {}, {}};
  std::vector<int> kinds;
  for (int i = 0; i < 200; ++i) {
    sample.batch.pieces.push_back(round_kind(
        "Test piece of a long row, no. " + std::to_string(i + 1), 40 + i % 7, 40 + i % 60, i % 12));
    kinds.push_back(i);
  }
  sample.plan.name = "ROW-200";
  const std::vector<int> second(kinds.begin() + 100, kinds.end());
  sample.plan.firings = {filled(sample.batch, {163, 300}, kinds, 50, 6, 5),
                         filled(sample.batch, {163, 300}, second, 50, 6, 5)};
  sample.plan.firings[1].round = 2;
  sample.plan.shelves = {{0, 8, 6}};
  sample.plan.posts = {{0, 3, 12}, {2, 6, 12}};
  sample.forecasts = {sample_forecast(false), sample_forecast(false)};
  return sample;
}

/// A spy hole in the front wall and no place kept for cones; the second shelf is full.
/// A pack on the first free spot that its hole sees, or the reason why not.
inline void set_cones(SheetSample& sample) {
  for (KilnLoad& load : sample.plan.firings) {
    load.no_cones.clear();
    for (Level& level : load.levels) level.cones.clear();
    for (const int hole : holes_for_cones(sample.batch.kiln)) {
      bool any = false;
      for (const int level : levels_in_sight(sample.batch, load, hole)) {
        const auto place = free_cone_spot(sample.batch, load, level, hole, true);
        if (!place) continue;
        load.levels[static_cast<std::size_t>(level)].cones = {{hole, *place, true}};
        any = true;
        break;
      }
      if (!any) load.no_cones = {{hole, "No spot of 80 x 30 mm is free."}};
    }
  }
}

inline SheetSample spy_sample() {
  SheetSample sample{"spy", batch_with(front_kiln(), FiringKind::glaze), {}, {}};
  add_keep_out(sample.batch.kiln, "Spy hole", {{0, -270}, 45}, 150, 260);
  sample.batch.pieces = {round_kind("Cup", 80, 85, 4), round_kind("Bowl", 140, 60, 1)};
  sample.plan.name = "EYE-1";
  sample.plan.firings = {filled(sample.batch, {113, 163}, {0, 0, 1}, 14, 12)};
  set_cones(sample);
  sample.forecasts = {sample_forecast(true)};
  return sample;
}

inline std::vector<SheetSample> sheet_samples() {
  return {everyday_sample(), many_scripts_sample(), crowded_sample(), beads_sample(), tiny_sample(),
          tower_sample(),    bisque_sample(),       kinds_sample(),   spy_sample()};
}

}  // namespace placer::support
