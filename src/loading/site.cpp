#include "loading/site.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "loading/index.h"
#include "loading/support.h"

namespace placer::loading {
namespace {

constexpr double kFar = 4000;  // mm: farther than any kiln is wide

double dot(Point a, Point b) { return a.x * b.x + a.y * b.y; }

/// Whether it reaches into the heights between two; given no heights, it does everywhere.
bool meets(const KeepOut& keep_out, Length low, Length high) {
  if (keep_out.to <= keep_out.from) return true;
  return keep_out.from < high && low < keep_out.to;
}

Footprint slab_of(const Region& shelf) {
  if (shelf.outline.corners.empty() && shelf.round) return {{*shelf.round}, {}};
  const Outline edge = edge_polygon(shelf);
  return {{}, is_convex(edge) ? std::vector<Outline>{edge} : convex_parts(edge)};
}

bool same_corner(Point a, Point b) { return dot(a - b, a - b) < 1e-12; }

void add_corner(Point p, Outline& outline) {
  if (outline.corners.empty() || !same_corner(outline.corners.back(), p)) {
    outline.corners.push_back(p);
  }
}

/// The part of a polygon on the left of the line from `from` along `along`.
Outline clipped(const Outline& outline, Point from, Point along) {
  const auto side = [&](Point p) { return along.x * (p.y - from.y) - along.y * (p.x - from.x); };
  Outline kept;
  const std::size_t n = outline.corners.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Point a = outline.corners[i];
    const Point b = outline.corners[(i + 1) % n];
    const double at_a = side(a);
    const double at_b = side(b);
    if (at_a >= 0) add_corner(a, kept);
    if ((at_a > 0 && at_b < 0) || (at_a < 0 && at_b > 0)) {
      add_corner(a + (at_a / (at_a - at_b)) * (b - a), kept);
    }
  }
  if (kept.corners.size() > 1 && same_corner(kept.corners.front(), kept.corners.back())) {
    kept.corners.pop_back();
  }
  if (kept.corners.size() < 3) kept.corners.clear();
  return kept;
}

/// Cuts the ground to what lies inside a convex wall and at least `room` from it.
void cut_convex(Region& ground, const Outline& wall, double room) {
  if (ground.outline.corners.empty()) {
    const Disc disc = *ground.round;
    const Point r{disc.radius + 1, disc.radius + 1};
    ground.outline = rectangle(disc.centre - r, disc.centre + r);
  }
  const std::size_t n = wall.corners.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Point a = wall.corners[i];
    const Point along = wall.corners[(i + 1) % n] - a;
    const double length = std::sqrt(dot(along, along));
    if (length == 0) continue;
    const Point inwards{-along.y / length, along.x / length};
    ground.outline = clipped(ground.outline, a + room * inwards, along);
  }
}

/// A wall with corners that point inwards stands in the way edge by edge.
void cut_notched(Region& ground, const Outline& wall, double room, double gap) {
  const double thick = std::max(room - gap, 0.01);
  const std::size_t n = wall.corners.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Point a = wall.corners[i];
    const Point along = wall.corners[(i + 1) % n] - a;
    const double length = std::sqrt(dot(along, along));
    if (length == 0) continue;
    const Point side = (thick / length) * Point{-along.y, along.x};
    ground.keep_outs.push_back(
        {{{a, thick}}, {Outline{{a - side, a + along - side, a + along + side, a + side}}}});
  }
}

void cut_round(Region& ground, Disc wall, double room) {
  wall.radius -= room;
  if (!ground.round) {
    ground.round = wall;
    return;
  }
  const Point apart = wall.centre - ground.round->centre;
  const double distance = std::sqrt(dot(apart, apart));
  if (distance + ground.round->radius <= wall.radius) return;
  if (distance + wall.radius <= ground.round->radius) {
    ground.round = wall;
    return;
  }
  cut_convex(ground, edge_polygon({{}, wall, {}}, 0.05), 0);
}

/// The shelf's ground less what is too near to the wall.
Region ground_of(const Kiln& kiln, const Region& shelf, const Footprint& slab, double gap) {
  Region ground = shelf;
  const double room = kiln.wall_clearance.mm();
  if (inset(slab, kiln.chamber) < room + kChord) {
    const Region& chamber = kiln.chamber;
    if (chamber.round && chamber.round->radius > room) cut_round(ground, *chamber.round, room);
    if (!chamber.outline.corners.empty()) {
      const bool plain = ground.outline.corners.empty() || is_convex(ground.outline);
      if (plain && is_convex(chamber.outline)) {
        cut_convex(ground, chamber.outline, room);
      } else {
        cut_notched(ground, chamber.outline, room, gap);
      }
    }
  }
  if (ground.round) ground.round->radius -= kChord;
  return ground;
}

/// Where a shape begins and ends along a direction.
struct Span {
  double low = std::numeric_limits<double>::infinity();
  double high = -std::numeric_limits<double>::infinity();
};

Span span_of(const Footprint& shape, Point direction) {
  Span span;
  for (const Disc& disc : shape.discs) {
    const double middle = dot(disc.centre, direction);
    span.low = std::min(span.low, middle - disc.radius);
    span.high = std::max(span.high, middle + disc.radius);
  }
  for (const Outline& outline : shape.outlines) {
    for (const Point corner : outline.corners) {
      span.low = std::min(span.low, dot(corner, direction));
      span.high = std::max(span.high, dot(corner, direction));
    }
  }
  return span;
}

void add_directions(const Footprint& shape, std::vector<Point>& directions) {
  for (const Outline& outline : shape.outlines) {
    const std::size_t n = outline.corners.size();
    for (std::size_t i = 0; i < n; ++i) {
      const Point along = outline.corners[(i + 1) % n] - outline.corners[i];
      const double length = std::sqrt(dot(along, along));
      if (length > 0) directions.push_back({along.y / length, -along.x / length});
    }
  }
}

Point middle_of(const Footprint& shape) {
  const Box box = bounding_box(shape);
  return 0.5 * (box.low + box.high);
}

/// A half plane that holds the other shelf and nothing of this one: what keeps the gap from it
/// keeps the gap from that shelf and from all that stands on it. None when they are far apart.
std::optional<Footprint> beyond(const Footprint& slab, const Footprint& other, double far) {
  std::vector<Point> directions;
  add_directions(slab, directions);
  add_directions(other, directions);
  for (std::size_t i = 0, n = directions.size(); i < n; ++i)
    directions.push_back(-1.0 * directions[i]);
  const Point between = middle_of(other) - middle_of(slab);
  const double length = std::sqrt(dot(between, between));
  if (length > 0) directions.push_back((1 / length) * between);
  double widest = -std::numeric_limits<double>::infinity();
  Point best;
  for (const Point direction : directions) {
    const double room = span_of(other, direction).low - span_of(slab, direction).high;
    if (room <= widest + 1e-9) continue;
    widest = room;
    best = direction;
  }
  if (widest >= far) return std::nullopt;
  if (widest < -kChord) return other;  // no straight line parts them
  const double line = span_of(other, best).low;
  const Point origin = line * best;
  const Point side{-best.y, best.x};
  return Footprint{{},
                   {Outline{{origin - kFar * side, origin + kFar * best - kFar * side,
                             origin + kFar * best + kFar * side, origin + kFar * side}}}};
}

std::string trouble_of(const Kiln& kiln, const ShelfKind& shelf, const Footprint& slab) {
  const double room = inset(slab, kiln.chamber);
  const double asked = shelf.snug ? 0 : kiln.shelf_clearance.mm();
  if (room < -1e-6) {
    return fmt::format("the shelf \"{}\" is {:.0f} mm too large for the kiln there", shelf.name,
                       -room);
  }
  if (room < asked - 1e-6) {
    return fmt::format("the shelf \"{}\" leaves {:.0f} mm to the wall, and {:.0f} mm are asked",
                       shelf.name, room, asked);
  }
  for (const KeepOut& keep_out : kiln.keep_outs) {
    const bool always =
        keep_out.to <= keep_out.from || (keep_out.from <= Length{} && keep_out.to >= kiln.height);
    if (keep_out.shelves_too && always && gap(slab, keep_out.area) < -1e-9) {
      return fmt::format("the {} is in the way of the shelf \"{}\"", keep_out.what, shelf.name);
    }
  }
  return "";
}

Site bare_site(const Batch& batch, int column, int shelf, const Placement& place, double gap) {
  const Kiln& kiln = batch.kiln;
  const Region placed_shelf = placed(at(kiln.shelves, shelf).shape, place);
  Site site;
  site.column = column;
  site.shelf = shelf;
  site.slab = slab_of(placed_shelf);
  site.trouble = trouble_of(kiln, at(kiln.shelves, shelf), site.slab);
  site.ground = ground_of(kiln, placed_shelf, site.slab, gap);
  if (site.ground.outline.corners.empty() && !site.ground.round) {
    site.trouble = fmt::format("the shelf \"{}\" lies too near to the wall for any piece",
                               at(kiln.shelves, shelf).name);
  }
  return site;
}

/// Whether the site lies in or over the column.
bool takes(const Kiln& kiln, const Site& site, int column) {
  if (site.bridge < 0) return site.column == column;
  const std::vector<int>& over = at(kiln.bridges, site.bridge).over;
  return std::find(over.begin(), over.end(), column) != over.end();
}

void keep_clear_of(const Kiln& kiln, const std::vector<int>& shelves, const Placement& place,
                   double far, Site& site) {
  for (const int shelf : shelves) {
    const Footprint slab = slab_of(placed(at(kiln.shelves, shelf).shape, place));
    if (const auto keep_out = beyond(site.slab, slab, far)) {
      site.ground.keep_outs.push_back(*keep_out);
    }
  }
}

/// What may stand on the shelves of the other columns, and on those across them.
void mind_neighbours(const Batch& batch, double far, Site& site) {
  const Kiln& kiln = batch.kiln;
  for (int other = 0; other < count_of(kiln.columns); ++other) {
    if (takes(kiln, site, other)) continue;
    const Column& column = at(kiln.columns, other);
    keep_clear_of(kiln, column.shelves, column.at, far, site);
  }
  for (const Bridge& bridge : kiln.bridges) {
    const bool beside = std::none_of(bridge.over.begin(), bridge.over.end(),
                                     [&](int column) { return takes(kiln, site, column); });
    if (beside) keep_clear_of(kiln, bridge.shelves, bridge.at, far, site);
  }
}

/// Posts whose places the file gives may stand nearer to a neighbour's ground than chosen ones.
void mind_given_posts(const Batch& batch, double far, Site& site) {
  const Footprint foot = widest_foot(batch.kiln);
  for (int other = 0; other < count_of(batch.kiln.columns); ++other) {
    if (takes(batch.kiln, site, other)) continue;
    for (const Point post : at(batch.kiln.columns, other).posts) {
      const Footprint there = placed(foot, {post, 0});
      if (gap(there, site.slab) < far) site.ground.keep_outs.push_back(there);
    }
  }
}

}  // namespace

std::vector<Site> sites_of(const Batch& batch, int column, double gap, double far) {
  const Column& here = at(batch.kiln.columns, column);
  std::vector<Site> sites;
  for (const int shelf : here.shelves) {
    sites.push_back(bare_site(batch, column, shelf, here.at, gap));
    mind_neighbours(batch, far, sites.back());
    mind_given_posts(batch, far, sites.back());
  }
  set_posts(batch, gap, sites);
  return sites;
}

std::vector<Site> sites_of_bridge(const Batch& batch, int bridge, double gap, double far,
                                  const std::vector<std::vector<Site>>& columns) {
  const Bridge& here = at(batch.kiln.bridges, bridge);
  std::vector<Site> sites;
  for (const int shelf : here.shelves) {
    sites.push_back(bare_site(batch, here.over.front(), shelf, here.at, gap));
    sites.back().bridge = bridge;
    mind_neighbours(batch, far, sites.back());
    mind_given_posts(batch, far, sites.back());
  }
  set_posts_of_bridge(batch, columns, sites);
  return sites;
}

std::optional<Region> middles_of(const Region& region, double radius) {
  Region middles;
  middles.round = region.round;
  if (middles.round) {
    middles.round->radius -= radius;
    if (middles.round->radius <= 0) return std::nullopt;
  }
  middles.outline = region.outline;
  if (!region.outline.corners.empty()) {
    cut_convex(middles, region.outline, radius);
    if (middles.outline.corners.size() < 3 || !is_simple(middles.outline)) return std::nullopt;
  }
  return middles;
}

std::vector<Footprint> keep_outs_between(const Kiln& kiln, Length low, Length high) {
  std::vector<Footprint> areas;
  for (const KeepOut& keep_out : kiln.keep_outs) {
    if (meets(keep_out, low, high)) areas.push_back(keep_out.area);
  }
  return areas;
}

bool shelf_is_free(const Kiln& kiln, const Site& site, Length top) {
  const Length bottom = top - at(kiln.shelves, site.shelf).thickness;
  return std::none_of(kiln.keep_outs.begin(), kiln.keep_outs.end(), [&](const KeepOut& keep_out) {
    return keep_out.shelves_too && meets(keep_out, bottom, top) &&
           gap(site.slab, keep_out.area) < -1e-9;
  });
}

}  // namespace placer::loading
