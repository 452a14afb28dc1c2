#include <algorithm>
#include <cmath>

#include "placer/model/cone_place.h"
#include "placer/model/tower.h"
#include "placer/report/report.h"
#include "report/json.h"
#include "report/words.h"

namespace placer::report {
namespace {

template <class T>
const T& at(const std::vector<T>& all, int index) {
  return all.at(static_cast<std::size_t>(index));
}

bool inside(const Disc& small, const Outline& large) {
  return inset(small.centre, large) >= small.radius;
}

/// True when one part of a post's foot covers the other wholly.
bool covers(const Disc& large, const Footprint& all) {
  return std::all_of(all.discs.begin(), all.discs.end(),
                     [&](const Disc& d) {
                       return std::hypot(d.centre.x - large.centre.x, d.centre.y - large.centre.y) +
                                  d.radius <=
                              large.radius;
                     }) &&
         std::all_of(all.outlines.begin(), all.outlines.end(), [&](const Outline& o) {
           return std::all_of(o.corners.begin(), o.corners.end(), [&](Point p) {
             return std::hypot(p.x - large.centre.x, p.y - large.centre.y) <= large.radius;
           });
         });
}

bool covers(const Outline& large, const Footprint& all) {
  return std::all_of(all.discs.begin(), all.discs.end(),
                     [&](const Disc& d) { return inside(d, large); }) &&
         std::all_of(all.outlines.begin(), all.outlines.end(), [&](const Outline& o) {
           return std::all_of(o.corners.begin(), o.corners.end(),
                              [&](Point p) { return inset(p, large) >= 0; });
         });
}

/// A post's ground as one shape: that of its widest part, or a hull round parts that stick out of
/// one another.
void add_foot(Json& to, const Footprint& foot) {
  for (const Disc& disc : foot.discs) {
    if (covers(disc, foot)) return add_obstacle(to, disc);
  }
  for (const Outline& outline : foot.outlines) {
    if (covers(outline, foot)) return add_obstacle(to, outline);
  }
  add_obstacle(to, convex_hull(foot, kSagitta));
}

Json limit_json(const std::optional<Mass>& limit) {
  return limit ? Json(number(limit->kg())) : Json(nullptr);
}

Json posts_json(const Batch& batch, const std::vector<PlacedPost>& posts) {
  Json all = Json::array();
  for (const PlacedPost& post : posts) {
    Json one = {{"x_mm", number(post.at.x)}, {"y_mm", number(post.at.y)}};
    add_foot(one, ground(batch, post));
    Json parts = Json::array();
    for (const int part : post.parts)
      parts.push_back(number(at(batch.kiln.posts, part).height.mm()));
    one["parts_mm"] = parts;
    one["height_mm"] = number(height_of(batch, post).mm());
    one["turn_deg"] = number(post.turn_deg);
    all.push_back(one);
  }
  return all;
}

template <class Part>
void add_keep_out(Json& all, const KeepOut& keep_out, const Part& part) {
  Json one = {{"what", keep_out.what}};
  add_obstacle(one, part);
  one["from_mm"] = number_or_null(keep_out.from.mm());
  one["to_mm"] = number_or_null(keep_out.to.mm());
  one["shelves_too"] = keep_out.shelves_too;
  all.push_back(one);
}

/// Those that reach into the room over the level's shelf. One entry for each simple part.
Json keep_outs_json(const Kiln& kiln, const Level& level) {
  Json all = Json::array();
  const Length top = level.shelf_top + level.clear_height;
  for (const KeepOut& keep_out : kiln.keep_outs) {
    const bool whole_height = keep_out.to <= keep_out.from;
    if (!whole_height && (keep_out.to <= level.shelf_top || keep_out.from >= top)) continue;
    for (const Disc& disc : keep_out.area.discs) add_keep_out(all, keep_out, disc);
    for (const Outline& outline : keep_out.area.outlines) add_keep_out(all, keep_out, outline);
  }
  return all;
}

Json piece_json(const Batch& batch, const KilnLoad& load, const PlacedPiece& placed) {
  const PieceKind& kind = at(batch.pieces, placed.piece);
  Json stack = Json::array();
  for (const int piece : kinds_of(placed)) stack.push_back(at(batch.pieces, piece).name);
  const Glaze* glaze = kind.glaze ? &at(batch.glazes, *kind.glaze) : nullptr;
  return {{"piece", kind.name},
          {"number", placed.number},
          {"x_mm", number(placed.place.at.x)},
          {"y_mm", number(placed.place.at.y)},
          {"turn_deg", number(placed.place.turn_deg)},
          {"height_mm", number(placed.height.mm())},
          {"mass_kg", number(placed.mass.kg())},
          {"stacked", placed.stacked},
          {"stack", stack},
          {"row", placed.row},
          {"glaze", glaze ? Json(glaze->name) : Json(nullptr)},
          {"runny", glaze != nullptr && glaze->runny},
          {"footprint", footprint_json(ground(batch, load, placed))}};
}

/// The hole by its name and its number among those of the kiln, and what it looks through.
Json hole_json(const Kiln& kiln, int spy_hole) {
  const KeepOut& hole = at(kiln.keep_outs, spy_hole);
  int number_of = 0;
  for (int i = 0; i <= spy_hole; ++i) number_of += is_spy_hole(at(kiln.keep_outs, i)) ? 1 : 0;
  const Point eye = eye_of(hole, kiln);
  const Band looks = looks_at(hole, kiln);
  return {{"what", hole.what},
          {"number", number_of},
          {"eye_mm", Json::array({number(eye.x), number(eye.y)})},
          {"from_mm", number(looks.low)},
          {"to_mm", number(looks.high)}};
}

Json cones_json(const Kiln& kiln, const Level& level) {
  Json all = Json::array();
  for (const ConePack& pack : level.cones) {
    all.push_back({{"spy_hole", hole_json(kiln, pack.spy_hole)},
                   {"x_mm", number(pack.place.at.x)},
                   {"y_mm", number(pack.place.at.y)},
                   {"turn_deg", number(pack.place.turn_deg)},
                   {"outline_mm", corners_json(pack_at(pack.place).outlines.front())},
                   {"height_mm", number(kPackHigh)},
                   {"seen", pack.seen}});
  }
  return all;
}

Json no_cones_json(const Kiln& kiln, const KilnLoad& load) {
  Json all = Json::array();
  for (const NoCones& none : load.no_cones) {
    all.push_back({{"spy_hole", hole_json(kiln, none.spy_hole)}, {"reason", none.reason}});
  }
  return all;
}

Json level_json(const Batch& batch, const KilnLoad& load, const Level& level) {
  const ShelfKind& kind = at(batch.kiln.shelves, level.shelf);
  Json shelf = {{"name", kind.name}};
  // Round its arcs: a piece may touch the true one, and must not seem to stick out.
  add_region(shelf, placed(kind.shape, level.shelf_at), ArcsAs::tangents);
  shelf["top_mm"] = number(level.shelf_top.mm());
  shelf["thickness_mm"] = number(kind.thickness.mm());
  Json pieces = Json::array();
  for (const PlacedPiece& piece : level.pieces) pieces.push_back(piece_json(batch, load, piece));
  Json json = {{"column", at(batch.kiln.columns, level.column).name},
               {"level", level.level},
               {"shelf", shelf},
               {"clear_height_mm", number(level.clear_height.mm())},
               {"air_mm", number(level.air.mm())},
               {"pattern", level.pattern},
               {"mass_kg", number(mass_on(level).kg())},
               {"posts", posts_json(batch, level.posts)},
               {"keep_outs", keep_outs_json(batch.kiln, level)},
               {"cones", cones_json(batch.kiln, level)},
               {"pieces", pieces}};
  if (level.bridge < 0) return json;
  json["bridge"] = place_name(batch.kiln, level);
  json["over"] = Json::array();
  for (const int column : columns_of(batch.kiln, level))
    json["over"].push_back(at(batch.kiln.columns, column).name);
  return json;
}

Json firing_of(const Subject& subject, std::size_t index) {
  const Batch& batch = subject.batch;
  const KilnLoad& load = subject.plan.firings.at(index);
  const Load& asked = at(batch.loads, load.load);
  const Clearances& rule = clearances(batch.rules, asked.kind);
  Json chamber = Json::object();
  add_region(chamber, batch.kiln.chamber, ArcsAs::chords);
  chamber["height_mm"] = number(batch.kiln.height.mm());
  Json levels = Json::array();
  for (const Level& level : load.levels) levels.push_back(level_json(batch, load, level));
  return {{"name", asked.name},
          {"kind", asked.kind == FiringKind::bisque ? "bisque" : "glaze"},
          {"round", load.round},
          {"gap_mm", number(rule.gap.mm())},
          {"runny_gap_mm", number(rule.runny_gap.mm())},
          {"least_air_mm", number(rule.air.mm())},
          {"wall_clearance_mm", number(batch.kiln.wall_clearance.mm())},
          {"shelf_clearance_mm", number(batch.kiln.shelf_clearance.mm())},
          {"first_shelf_mm", number(batch.kiln.first_shelf.mm())},
          {"under_lid_mm", number(batch.kiln.under_lid.mm())},
          {"most_on_a_shelf_kg", limit_json(batch.kiln.most_on_shelf)},
          {"most_in_a_load_kg", limit_json(batch.kiln.most_in_load)},
          {"chamber", chamber},
          {"floor_posts", posts_json(batch, load.floor_posts)},
          {"levels", levels},
          {"no_cones", no_cones_json(batch.kiln, load)},
          {"piece_count", pieces_in(load)},
          {"load_mass_kg", number(load.ware.kg())},
          {"furniture_mass_kg", number(load.furniture.kg())}};
}

Json left_out_json(const Subject& subject) {
  Json all = Json::array();
  for (const LeftOut& out : subject.plan.left_out) {
    all.push_back({{"piece", at(subject.batch.pieces, out.piece).name},
                   {"firing", at(subject.batch.loads, out.load).name},
                   {"count", out.count},
                   {"code", out.code},
                   {"reason", out.reason}});
  }
  return all;
}

Json ungranted_json(const Subject& subject) {
  Json all = Json::array();
  for (const Ungranted& wish : subject.plan.ungranted) {
    all.push_back({{"piece", at(subject.batch.pieces, wish.piece).name},
                   {"firing", at(subject.batch.loads, wish.load).name},
                   {"wish", wish.wish},
                   {"reason", wish.reason}});
  }
  return all;
}

Json furniture_json(const Subject& subject) {
  Json shelves = Json::array();
  for (const FurnitureUse& use : subject.plan.shelves) {
    shelves.push_back({{"name", at(subject.batch.kiln.shelves, use.kind).name},
                       {"needed", use.needed},
                       {"owned", use.owned}});
  }
  Json posts = Json::array();
  for (const FurnitureUse& use : subject.plan.posts) {
    posts.push_back({{"height_mm", number(at(subject.batch.kiln.posts, use.kind).height.mm())},
                     {"needed", use.needed},
                     {"owned", use.owned}});
  }
  return {{"shelves", shelves}, {"posts", posts}};
}

}  // namespace

std::string plan_json(const Subject& subject) {
  Json firings = Json::array();
  for (std::size_t i = 0; i < subject.plan.firings.size(); ++i) {
    firings.push_back(firing_of(subject, i));
  }
  const Kiln& kiln = subject.batch.kiln;
  return written(
      {{"plan", subject.plan.name},
       {"seed", subject.plan.seed},
       {"studio", subject.studio},
       {"kiln", {{"name", kiln.name}, {"opens", kiln.opens == Opens::top ? "top" : "front"}}},
       {"firings", firings},
       {"left_out", left_out_json(subject)},
       {"ungranted", ungranted_json(subject)},
       {"furniture", furniture_json(subject)},
       {"fewest_firings_possible", subject.plan.fewest_firings_possible},
       {"remarks", subject.plan.remarks}});
}

}  // namespace placer::report
