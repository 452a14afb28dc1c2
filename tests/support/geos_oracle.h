/// @file geos_oracle.h
/// A whole plan looked at from outside: every distance and containment of it from the batch and
/// the places alone, with GEOS and with its own arithmetic for sizes, places and heights. Uses no
/// function of the program's geometry, model, check, packing or loading but the plain types.
#pragma once

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "placer/model/batch.h"
#include "placer/model/load_plan.h"
#include "support/geos_shapes.h"

namespace placer::oracle {

/// Lengths may be short by this much, in mm. Where both sides of a distance have arcs, these are
/// drawn as polygons of so many sides; a circle of 400 mm is then off by 0.005 mm.
constexpr double kShort = 1e-6;
constexpr int kFewSides = 512;
constexpr double kShortOfArcs = 0.01;
/// Overlaps smaller than this, in mm², are an error of the drawn arcs.
constexpr double kSpeck = 1;

class PlanOracle {
 public:
  PlanOracle(const Batch& batch, const LoadPlan& plan) : batch_{batch} {
    for (const KilnLoad& load : plan.firings) look_at(load);
  }

  /// One line for each thing that is wrong; none when the plan is sound.
  const std::vector<std::string>& troubles() const { return troubles_; }
  /// The least room left over in any distance between two pieces, in mm.
  double tightest() const { return tightest_; }

 private:
  struct Thing {
    std::string name;
    Footprint ground;
    double low, high;  // z
    int level;         // index in the load; of a post: the level it stands on, -1 the floor
    const PieceKind* kind = nullptr;
  };
  struct Slab {
    std::string name;
    Region edge;
    double low, high;
    const GEOSGeometry* drawn;
  };
  // A kind of shelf at a place, drawn.
  struct Drawn {
    int shelf;
    Placement at;
    Geometry geometry;
  };

  static double lowest(const Footprint& shape, bool x, bool largest) {
    double extreme = largest ? -1e300 : 1e300;
    const auto hold = [&](double v) {
      extreme = largest ? std::max(extreme, v) : std::min(extreme, v);
    };
    for (const Disc& disc : shape.discs) {
      const double middle = x ? disc.centre.x : disc.centre.y;
      hold(largest ? middle + disc.radius : middle - disc.radius);
    }
    for (const Outline& outline : shape.outlines) {
      for (const Point& p : outline.corners) hold(x ? p.x : p.y);
    }
    return extreme;
  }

  static Point set_at(Point p, const Placement& where, double size) {
    const double turn = where.turn_deg * std::numbers::pi / 180;
    const double x = size * p.x;
    const double y = size * p.y;
    return {where.at.x + x * std::cos(turn) - y * std::sin(turn),
            where.at.y + x * std::sin(turn) + y * std::cos(turn)};
  }

  static Footprint set_at(const Footprint& shape, const Placement& where, double size) {
    Footprint there;
    for (const Disc& disc : shape.discs) {
      there.discs.push_back({set_at(disc.centre, where, size), size * disc.radius});
    }
    for (const Outline& outline : shape.outlines) {
      Outline moved;
      for (const Point& p : outline.corners) moved.corners.push_back(set_at(p, where, size));
      there.outlines.push_back(moved);
    }
    return there;
  }

  static Region set_at(const Region& region, const Placement& where) {
    Region there;
    for (const Point& p : region.outline.corners) {
      there.outline.corners.push_back(set_at(p, where, 1));
    }
    if (region.round)
      there.round = Disc{set_at(region.round->centre, where, 1), region.round->radius};
    return there;
  }

  // Length at a stage, of what was 1 when thrown.
  static double length_at(const Shrinkage& shrinkage, Stage stage) {
    if (stage == Stage::thrown) return 1;
    const double dry = 1 - shrinkage.drying;
    if (stage == Stage::dry) return dry;
    return dry * (1 - (stage == Stage::bisque ? shrinkage.to_bisque : shrinkage.to_fired));
  }

  double size_of(const PieceKind& kind, FiringKind firing) const {
    const Shrinkage& shrinkage = batch_.clays.at(static_cast<std::size_t>(kind.clay)).shrinkage;
    const Stage stage = firing == FiringKind::bisque ? Stage::dry : Stage::bisque;
    return length_at(shrinkage, stage) / length_at(shrinkage, kind.measured);
  }

  Footprint ground_of(const PlacedPiece& piece, FiringKind firing) const {
    Footprint ground;
    std::vector<int> kinds = piece.stack;
    if (kinds.empty()) kinds.assign(static_cast<std::size_t>(piece.stacked), piece.piece);
    for (std::size_t i = 0; i < kinds.size(); ++i) {
      const PieceKind& kind = batch_.pieces.at(static_cast<std::size_t>(kinds[i]));
      Footprint shape = kind.footprint;
      const auto alike = static_cast<double>(std::count(kinds.begin(), kinds.end(), kinds[i]));
      if (alike > 1 && kind.stacking.how == Stacking::How::on_edge) {
        const double width = lowest(shape, true, true) - lowest(shape, true, false);
        const double depth = lowest(shape, false, true) - lowest(shape, false, false);
        const double x = alike * kind.stacking.step.mm() / 2;
        const double y = std::max(width, depth) / 2;
        shape = {{}, {{{{-x, -y}, {x, -y}, {x, y}, {-x, y}}}}};
      }
      const Footprint there = set_at(shape, piece.place, size_of(kind, firing));
      ground.discs.insert(ground.discs.end(), there.discs.begin(), there.discs.end());
      ground.outlines.insert(ground.outlines.end(), there.outlines.begin(), there.outlines.end());
    }
    return ground;
  }

  Thing post_of(const PlacedPost& post, double stands_at, int level) const {
    Thing thing{"post", {}, stands_at, stands_at, level};
    for (const int part : post.parts) {
      const PostKind& kind = batch_.kiln.posts.at(static_cast<std::size_t>(part));
      thing.high += kind.height.mm();
      const Footprint foot = set_at(kind.foot, {post.at, post.turn_deg}, 1);
      thing.ground.discs.insert(thing.ground.discs.end(), foot.discs.begin(), foot.discs.end());
      thing.ground.outlines.insert(thing.ground.outlines.end(), foot.outlines.begin(),
                                   foot.outlines.end());
    }
    return thing;
  }

  void demand(bool holds, const std::string& trouble) {
    if (!holds) troubles_.push_back(trouble);
  }

  void demand_room(double room, double asked, double allowed, const std::string& what) {
    demand(room >= asked - allowed,
           what + ": " + std::to_string(room) + " mm, asked " + std::to_string(asked));
  }

  static bool share_height(double low_a, double high_a, double low_b, double high_b) {
    return low_a < high_b - kShort && low_b < high_a - kShort;
  }

  // Near enough in plan view for a closer look.
  static bool near(const Footprint& a, const Footprint& b, double reach) {
    for (const bool x : {true, false}) {
      if (lowest(a, x, false) > lowest(b, x, true) + reach) return false;
      if (lowest(b, x, false) > lowest(a, x, true) + reach) return false;
    }
    return true;
  }

  double gap_asked(const PieceKind& a, const PieceKind& b, FiringKind firing) const {
    const Clearances& room = firing == FiringKind::glaze ? batch_.rules.glaze : batch_.rules.bisque;
    const auto runny = [this](const PieceKind& kind) {
      return kind.glaze && batch_.glazes.at(static_cast<std::size_t>(*kind.glaze)).runny;
    };
    const bool more = firing == FiringKind::glaze && (runny(a) || runny(b));
    return more ? std::max(room.gap.mm(), room.runny_gap.mm()) : room.gap.mm();
  }

  static bool sound_edge(const Region& edge) {
    return edge.round || edge.outline.corners.size() >= 3;
  }

  void look_at(const KilnLoad& load) {
    const FiringKind firing = batch_.loads.at(static_cast<std::size_t>(load.load)).kind;
    std::vector<Thing> pieces;
    std::vector<Thing> posts;
    std::vector<Slab> slabs;
    for (const PlacedPost& post : load.floor_posts) posts.push_back(post_of(post, 0, -1));
    for (std::size_t i = 0; i < load.levels.size(); ++i) {
      const Level& level = load.levels[i];
      const ShelfKind& shelf = batch_.kiln.shelves.at(static_cast<std::size_t>(level.shelf));
      const double top = level.shelf_top.mm();
      const std::string name = batch_.kiln.columns.at(static_cast<std::size_t>(level.column)).name +
                               " " + std::to_string(level.level);
      const Region edge = set_at(shelf.shape, level.shelf_at);
      slabs.push_back(
          {name, edge, top - shelf.thickness.mm(), top, drawn(level.shelf, level.shelf_at, edge)});
      for (const PlacedPost& post : level.posts) {
        posts.push_back(post_of(post, top, static_cast<int>(i)));
      }
      for (const PlacedPiece& piece : level.pieces) {
        const PieceKind& kind = batch_.pieces.at(static_cast<std::size_t>(piece.piece));
        pieces.push_back({kind.name + " " + std::to_string(piece.number) + " on " + name,
                          ground_of(piece, firing), top, top + piece.height.mm(),
                          static_cast<int>(i), &kind});
      }
    }
    look_at_slabs(slabs);
    look_at_heights(load, slabs, posts);
    look_at_posts(slabs, posts, load);
    look_at_pieces(slabs, posts, pieces, firing);
  }

  // Drawn once for all levels at the same place, and held against the chamber.
  const GEOSGeometry* drawn(int shelf, const Placement& at, const Region& edge) {
    for (const Drawn& known : drawn_) {
      if (known.shelf == shelf && known.at == at) return known.geometry.get();
    }
    const Kiln& kiln = batch_.kiln;
    const Region walls{kiln.chamber.outline, kiln.chamber.round, {}};
    const Geometry chamber = oracle::ground(walls, kFewSides);
    Geometry geometry = oracle::ground(edge, kFewSides);
    demand(area(without(geometry, chamber)) < kSpeck, "a shelf is outside the chamber");
    drawn_.push_back({shelf, at, std::move(geometry)});
    return drawn_.back().geometry.get();
  }

  static bool overlap(const GEOSGeometry* a, const GEOSGeometry* b) {
    return area(owned(GEOSIntersection_r(geos(), a, b))) >= kSpeck;
  }

  void look_at_slabs(const std::vector<Slab>& slabs) {
    const Kiln& kiln = batch_.kiln;
    for (std::size_t i = 0; i < slabs.size(); ++i) {
      demand(sound_edge(slabs[i].edge), slabs[i].name + " has no edge");
      for (std::size_t j = i + 1; j < slabs.size(); ++j) {
        if (!share_height(slabs[i].low, slabs[i].high, slabs[j].low, slabs[j].high)) continue;
        demand(!overlap(slabs[i].drawn, slabs[j].drawn),
               slabs[i].name + " and " + slabs[j].name + " overlap");
      }
      for (const KeepOut& keep_out : kiln.keep_outs) {
        const bool here =
            share_height(slabs[i].low, slabs[i].high, keep_out.from.mm(), keep_out.to.mm());
        if (!here || !keep_out.shelves_too) continue;
        demand(!overlap(slabs[i].drawn, oracle::ground(keep_out.area, kFewSides).get()),
               slabs[i].name + " is in the way of the " + keep_out.what);
      }
    }
  }

  // The columns that a level is in: its own, or those that its bridge lies over.
  bool in_column(const Level& level, int column) const {
    if (level.bridge < 0) return level.column == column;
    const auto& over = batch_.kiln.bridges.at(static_cast<std::size_t>(level.bridge)).over;
    return std::find(over.begin(), over.end(), column) != over.end();
  }

  // Whether level j is the next over level i in some column.
  bool lies_next_over(const KilnLoad& load, std::size_t i, std::size_t j) const {
    for (int c = 0; c < static_cast<int>(batch_.kiln.columns.size()); ++c) {
      if (!in_column(load.levels[i], c) || !in_column(load.levels[j], c)) continue;
      const Length low = load.levels[i].shelf_top;
      const Length high = load.levels[j].shelf_top;
      if (high <= low) continue;
      const bool between =
          std::any_of(load.levels.begin(), load.levels.end(), [&](const Level& other) {
            return in_column(other, c) && other.shelf_top > low && other.shelf_top < high;
          });
      if (!between) return true;
    }
    return false;
  }

  // Nothing lies under it in any of its columns.
  bool lies_lowest(const KilnLoad& load, std::size_t i) const {
    for (int c = 0; c < static_cast<int>(batch_.kiln.columns.size()); ++c) {
      if (!in_column(load.levels[i], c)) continue;
      for (const Level& other : load.levels) {
        if (in_column(other, c) && other.shelf_top < load.levels[i].shelf_top) return false;
      }
    }
    return true;
  }

  // Every level's height follows from the posts and shelves under it.
  void look_at_heights(const KilnLoad& load, const std::vector<Slab>& slabs,
                       const std::vector<Thing>& posts) {
    for (std::size_t i = 0; i < slabs.size(); ++i) {
      const Level& level = load.levels[i];
      for (std::size_t j = 0; j < slabs.size(); ++j) {
        if (!lies_next_over(load, i, j)) continue;
        for (const Thing& post : posts) {
          const bool carries = oracle::inset(post.ground, slabs[j].edge) >= -kShort;
          if (post.level != static_cast<int>(i) || (level.bridge >= 0 && !carries)) continue;
          demand(std::abs(post.high - slabs[j].low) <= kShort,
                 "a post on " + slabs[i].name + " ends " +
                     std::to_string(slabs[j].low - post.high) + " mm under the shelf it carries");
        }
        demand(std::abs(level.clear_height.mm() - (slabs[j].low - slabs[i].high)) <= kShort,
               "clear height over " + slabs[i].name);
      }
      if (!lies_lowest(load, i)) continue;
      demand_room(slabs[i].low, batch_.kiln.first_shelf.mm(), kShort, "under " + slabs[i].name);
      int carried = 0;
      for (const Thing& post : posts) {
        const bool ends_here = post.level < 0 && std::abs(post.high - slabs[i].low) <= kShort;
        if (ends_here && oracle::inset(post.ground, slabs[i].edge) >= -kShort) ++carried;
      }
      demand(carried >= 3 || slabs[i].low <= kShort,
             slabs[i].name + " stands on " + std::to_string(carried) + " posts");
    }
  }

  void look_at_posts(const std::vector<Slab>& slabs, const std::vector<Thing>& posts,
                     const KilnLoad& load) {
    std::vector<int> used(batch_.kiln.posts.size());
    const auto count = [&used](const std::vector<PlacedPost>& all) {
      for (const PlacedPost& post : all) {
        for (const int part : post.parts) ++used.at(static_cast<std::size_t>(part));
      }
    };
    count(load.floor_posts);
    std::vector<int> shelves(batch_.kiln.shelves.size());
    for (const Level& level : load.levels) {
      count(level.posts);
      ++shelves.at(static_cast<std::size_t>(level.shelf));
    }
    for (std::size_t kind = 0; kind < used.size(); ++kind) {
      demand(used[kind] <= batch_.kiln.posts[kind].have, "more posts in use than owned");
    }
    for (std::size_t kind = 0; kind < shelves.size(); ++kind) {
      demand(shelves[kind] <= batch_.kiln.shelves[kind].have, "more shelves in use than owned");
    }
    for (const Thing& post : posts) {
      if (post.level < 0) continue;
      const Slab& below = slabs[static_cast<std::size_t>(post.level)];
      demand_room(oracle::inset(post.ground, below.edge), 0, kShort, "a post on " + below.name);
    }
  }

  void look_at_pieces(const std::vector<Slab>& slabs, const std::vector<Thing>& posts,
                      const std::vector<Thing>& pieces, FiringKind firing) {
    const Kiln& kiln = batch_.kiln;
    const Clearances& room = firing == FiringKind::glaze ? batch_.rules.glaze : batch_.rules.bisque;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
      const Thing& piece = pieces[i];
      const Slab& own = slabs[static_cast<std::size_t>(piece.level)];
      demand_room(oracle::inset(piece.ground, own.edge), 0, kShort, piece.name + " over the edge");
      demand_room(oracle::inset(piece.ground, Region{kiln.chamber.outline, kiln.chamber.round, {}}),
                  kiln.wall_clearance.mm(), kShort, piece.name + " to the wall");
      demand_room(kiln.height.mm() - piece.high, kiln.under_lid.mm(), kShort,
                  piece.name + " to the lid");
      for (const Thing& post : posts) {
        if (!share_height(piece.low, piece.high, post.low, post.high)) continue;
        if (!near(piece.ground, post.ground, room.gap.mm() + 1)) continue;
        demand_apart(piece.ground, post.ground, room.gap.mm(), piece.name + " to a post");
      }
      for (const KeepOut& keep_out : kiln.keep_outs) {
        if (!share_height(piece.low, piece.high, keep_out.from.mm(), keep_out.to.mm())) continue;
        demand_apart(piece.ground, keep_out.area, 0, piece.name + " to the " + keep_out.what);
      }
      for (const Slab& slab : slabs) look_up(piece, own, slab, room);
      for (std::size_t j = i + 1; j < pieces.size(); ++j) {
        const Thing& other = pieces[j];
        if (!share_height(piece.low, piece.high, other.low, other.high)) continue;
        const double asked = gap_asked(*piece.kind, *other.kind, firing);
        if (!near(piece.ground, other.ground, asked + 20)) continue;
        tightest_ = std::min(tightest_, oracle::gap(piece.ground, other.ground) - asked);
        demand_apart(piece.ground, other.ground, asked, piece.name + " to " + other.name);
      }
    }
  }

  // Shelves over the piece, or beside its upper part.
  void look_up(const Thing& piece, const Slab& own, const Slab& slab, const Clearances& room) {
    if (&slab == &own || piece.low >= slab.high - kShort) return;
    const double air = slab.low - piece.high;
    if (air >= room.air.mm() - kShort) return;
    if (!near(piece.ground, box_of(slab.edge), room.gap.mm() + 1)) return;
    const Geometry ground = oracle::ground(piece.ground, kFewSides);
    demand(!overlap(slab.drawn, ground.get()),
           piece.name + " has " + std::to_string(air) + " mm of air under " + slab.name);
    if (air >= -kShort) return;
    double beside = 0;
    GEOSDistance_r(geos(), slab.drawn, ground.get(), &beside);
    demand_room(beside, room.gap.mm(), kShortOfArcs,
                piece.name + " beside the edge of " + slab.name);
  }

  // As a shape, for near().
  static Footprint box_of(const Region& edge) {
    if (edge.outline.corners.empty()) return {{*edge.round}, {}};
    return {{}, {edge.outline}};
  }

  // GEOS calls the distance of any overlap 0, and no gap at all may be asked: look at the area.
  void demand_apart(const Footprint& a, const Footprint& b, double asked, const std::string& what) {
    const double apart = oracle::gap(a, b);
    demand_room(apart, asked, kShort, what);
    if (asked > 0 || apart > 0) return;
    demand(!overlap(oracle::ground(a, kFewSides).get(), oracle::ground(b, kFewSides).get()),
           what + ": overlap");
  }

  const Batch& batch_;
  std::vector<Drawn> drawn_;
  std::vector<std::string> troubles_;
  double tightest_ = std::numeric_limits<double>::infinity();
};

/// Everything wrong with the plan, from outside. Empty when it is sound.
inline std::vector<std::string> plan_troubles(const Batch& batch, const LoadPlan& plan) {
  return PlanOracle{batch, plan}.troubles();
}

}  // namespace placer::oracle
