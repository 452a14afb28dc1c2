#include "loading/support.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "loading/index.h"

namespace placer::loading {
namespace {

constexpr double kPi = 3.14159265358979323846;
constexpr double kRim = 2;             // mm of shelf beyond a post's foot
constexpr int kDirections = 36;        // looked at from the shelf's middle
constexpr double kBetween = 1;         // degrees, beside what is kept clear
constexpr double kStep = 2;            // mm
constexpr double kSteadyEnough = 0.8;  // of the steadiest, where posts make room on a bridge

double cross(Point a, Point b) { return a.x * b.y - a.y * b.x; }
double length(Point a) { return std::sqrt(a.x * a.x + a.y * a.y); }

/// All that decides where a foot may stand.
struct Ground {
  std::vector<Region> shelves;            ///< bare: it must stand on every one of them
  std::vector<Footprint> neighbours;      ///< to keep `gap` from
  const std::vector<KeepOut>* keep_outs;  ///< to stay out of
  Footprint foot;
  double gap = 0;
  std::optional<Point> free_round;  ///< the middle of a shelf across that large pieces need free
};

double nearest_to(Point middle, const std::vector<Point>& posts) {
  double least = std::numeric_limits<double>::infinity();
  for (const Point post : posts) least = std::min(least, length(post - middle));
  return least;
}

bool can_stand(const Ground& ground, Point p) {
  const Footprint foot = placed(ground.foot, {p, 0});
  for (const Region& shelf : ground.shelves) {
    if (inset(foot, shelf) < kRim) return false;
  }
  for (const Footprint& other : ground.neighbours) {
    if (gap(foot, other) < ground.gap) return false;
  }
  return std::all_of(ground.keep_outs->begin(), ground.keep_outs->end(),
                     [&](const KeepOut& keep_out) { return gap(foot, keep_out.area) >= 0; });
}

Point balance_point(const Region& shelf) {
  const Outline edge = edge_polygon(shelf, 0.5);
  Point sum;
  double twice_area = 0;
  for (std::size_t i = 0; i < edge.corners.size(); ++i) {
    const Point a = edge.corners[i];
    const Point b = edge.corners[(i + 1) % edge.corners.size()];
    twice_area += cross(a, b);
    sum = sum + cross(a, b) * (a + b);
  }
  return (1 / (3 * twice_area)) * sum;
}

/// The farthest place for a foot in a direction from the middle, whole millimetres if it can be.
std::optional<Point> farthest(const Ground& ground, Point middle, Point direction, double far) {
  for (double t = far; t > far / 4; t -= kStep) {
    const Point p = middle + t * direction;
    const Point whole{std::round(p.x), std::round(p.y)};
    if (can_stand(ground, whole)) return whole;
    if (can_stand(ground, p)) return p;
  }
  return std::nullopt;
}

/// The directions next to those in which a keep-out holds a foot back from the edge.
std::vector<Point> beside_keep_outs(const Ground& ground, Point middle,
                                    const std::vector<Point>& directions, double far) {
  const std::vector<KeepOut> none;
  Ground bare = ground;
  bare.keep_outs = &none;
  const auto held_back = [&](Point d) {
    const auto free = farthest(bare, middle, d, far);
    if (!free) return false;
    const auto held = farthest(ground, middle, d, far);
    return !held || length(*held - middle) < length(*free - middle) - kStep;
  };
  std::vector<Point> more;
  for (const Point d : directions) {
    if (!held_back(d)) continue;
    const double turn = std::atan2(d.y, d.x) * 180 / kPi;
    for (const double by : {-kBetween, kBetween}) {
      double next = turn + by;
      while (std::abs(next - turn) < 360.0 / kDirections && held_back(direction(next))) next += by;
      more.push_back(direction(next));
    }
  }
  return more;
}

std::vector<Point> places_for_feet(const Ground& ground, Point middle) {
  const Outline edge = edge_polygon(ground.shelves.front(), 0.5);
  double far = 0;
  for (const Point corner : edge.corners) far = std::max(far, length(corner - middle));
  std::vector<Point> directions;
  for (int i = 0; i < kDirections; ++i)
    directions.push_back(direction(90 + 360.0 * i / kDirections));
  if (edge.corners.size() <= 12) {
    for (const Point corner : edge.corners) {
      directions.push_back((1 / length(corner - middle)) * (corner - middle));
    }
  } else if (!ground.shelves.front().outline.corners.empty()) {
    for (std::size_t i = 0; i < edge.corners.size(); ++i) {  // the sharp ends of an arc
      const std::size_t n = edge.corners.size();
      const Point a = edge.corners[i] - edge.corners[(i + n - 1) % n];
      const Point b = edge.corners[(i + 1) % n] - edge.corners[i];
      if (cross(a, b) < 0.5 * length(a) * length(b)) continue;
      directions.push_back((1 / length(edge.corners[i] - middle)) * (edge.corners[i] - middle));
    }
  }
  if (ground.free_round) {
    const std::vector<Point> more = beside_keep_outs(ground, middle, directions, far);
    directions.insert(directions.end(), more.begin(), more.end());
  }
  std::vector<Point> places;
  for (const Point d : directions) {
    if (const auto place = farthest(ground, middle, d, far)) places.push_back(*place);
  }
  std::sort(places.begin(), places.end(), [&](Point a, Point b) {
    return std::atan2(a.y - middle.y, a.x - middle.x) < std::atan2(b.y - middle.y, b.x - middle.x);
  });
  places.erase(std::unique(places.begin(), places.end()), places.end());
  return places;
}

/// How far the middle lies from the nearest side of the polygon, negative outside.
double steadiness(const std::vector<Point>& posts, Point middle) {
  double least = std::numeric_limits<double>::infinity();
  const std::size_t n = posts.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Point a = posts[i];
    const Point along = posts[(i + 1) % n] - a;
    if (length(along) < 1) return -1;
    least = std::min(least, cross(along, middle - a) / length(along));
    const Point next = posts[(i + 2) % n] - posts[(i + 1) % n];
    if (cross(along, next) <= 0) return -1;
  }
  return least;
}

struct Choice {
  std::vector<Point> posts;
  double steady = 0;
  /// Of those that are steady enough, the ones whose nearest is farthest from there; none: the
  /// steadiest.
  std::optional<Point> away_from;
  double enough = 0;
  double away = 0;
};

bool better(const Choice& best, double steady, const std::vector<Point>& posts) {
  if (!best.away_from) return steady > best.steady + 0.5;
  return steady >= best.enough && nearest_to(*best.away_from, posts) > best.away + 0.5;
}

void extend(const std::vector<Point>& places, Point middle, std::size_t from, int how_many,
            std::vector<Point>& chosen, Choice& best) {
  if (count_of(chosen) == how_many) {
    const double steady = steadiness(chosen, middle);
    if (better(best, steady, chosen)) {
      best.posts = chosen;
      best.steady = steady;
      if (best.away_from) best.away = nearest_to(*best.away_from, chosen);
    }
    return;
  }
  for (std::size_t i = from; i < places.size(); ++i) {
    chosen.push_back(places[i]);
    extend(places, middle, i + 1, how_many, chosen, best);
    chosen.pop_back();
  }
}

std::vector<Point> chosen_posts(const Ground& ground, int how_many) {
  const Point middle = balance_point(ground.shelves.front());
  const std::vector<Point> places = places_for_feet(ground, middle);
  Choice best;
  std::vector<Point> chosen;
  extend(places, middle, 0, how_many, chosen, best);
  if (!ground.free_round || best.posts.empty()) return best.posts;
  Choice wide;
  wide.away_from = ground.free_round;
  wide.enough = kSteadyEnough * best.steady;
  extend(places, middle, 0, how_many, chosen, wide);
  return wide.posts;
}

Region bare_shelf(const Kiln& kiln, const Site& site) {
  const Placement& place =
      site.bridge < 0 ? at(kiln.columns, site.column).at : at(kiln.bridges, site.bridge).at;
  return placed(at(kiln.shelves, site.shelf).shape, place);
}

/// Larger shelves that may rest on the column's posts.
std::vector<Region> shelves_across(const Kiln& kiln, int column) {
  std::vector<Region> all;
  for (const Bridge& bridge : kiln.bridges) {
    if (std::find(bridge.over.begin(), bridge.over.end(), column) == bridge.over.end()) continue;
    for (const int shelf : bridge.shelves) {
      if (at(kiln.shelves, shelf).have > 0)
        all.push_back(placed(at(kiln.shelves, shelf).shape, bridge.at));
    }
  }
  return all;
}

bool carries(const Region& shelf, const Footprint& foot, const std::vector<Point>& posts) {
  return std::all_of(posts.begin(), posts.end(), [&](Point post) {
    return inset(placed(foot, {post, 0}), shelf) >= -1e-9;
  });
}

/// @param across shelves that they should carry too.
std::vector<Point> choose(const Batch& batch, double gap, const std::vector<const Site*>& sites,
                          const std::vector<Region>& across = {}) {
  Ground ground;
  for (const Site* site : sites) {
    ground.shelves.push_back(bare_shelf(batch.kiln, *site));
    ground.neighbours.insert(ground.neighbours.end(), site->ground.keep_outs.begin(),
                             site->ground.keep_outs.end());
  }
  ground.shelves.insert(ground.shelves.end(), across.begin(), across.end());
  if (!across.empty()) ground.free_round = balance_point(across.front());
  ground.keep_outs = &batch.kiln.keep_outs;
  ground.foot = widest_foot(batch.kiln);
  ground.gap = gap;
  return chosen_posts(ground, batch.kiln.posts_per_shelf);
}

}  // namespace

Footprint widest_foot(const Kiln& kiln) {
  Footprint all;
  for (const PostKind& post : kiln.posts) {
    all.discs.insert(all.discs.end(), post.foot.discs.begin(), post.foot.discs.end());
    all.outlines.insert(all.outlines.end(), post.foot.outlines.begin(), post.foot.outlines.end());
  }
  return all;
}

void set_posts(const Batch& batch, double gap, std::vector<Site>& sites) {
  const Footprint foot = widest_foot(batch.kiln);
  std::vector<const Site*> usable;
  for (const Site& site : sites) {
    if (site.trouble.empty()) usable.push_back(&site);
  }
  if (usable.empty() || batch.kiln.posts.empty()) return;
  std::vector<Point> posts = at(batch.kiln.columns, usable.front()->column).posts;
  const std::vector<Region> across = shelves_across(batch.kiln, usable.front()->column);
  if (posts.empty() && !across.empty()) posts = choose(batch, gap, usable, across);
  if (posts.empty()) posts = choose(batch, gap, usable);
  if (posts.empty()) posts = choose(batch, gap, {usable.front()});
  for (Site& site : sites) {
    site.posts = posts;
    if (site.trouble.empty() && !posts.empty() &&
        !carries(bare_shelf(batch.kiln, site), foot, posts)) {
      site.trouble = fmt::format("the posts do not all stand under the shelf \"{}\"",
                                 at(batch.kiln.shelves, site.shelf).name);
    }
  }
}

void set_posts_of_bridge(const Batch& batch, const std::vector<std::vector<Site>>& columns,
                         std::vector<Site>& sites) {
  const Kiln& kiln = batch.kiln;
  const Footprint foot = widest_foot(kiln);
  for (Site& site : sites) {
    const std::string& name = at(kiln.shelves, site.shelf).name;
    for (const int column : at(kiln.bridges, site.bridge).over) {
      const auto& own = at(columns, column);
      const auto usable = std::find_if(own.begin(), own.end(), [](const Site& one) {
        return one.trouble.empty() && !one.posts.empty();
      });
      if (usable == own.end()) {
        if (site.trouble.empty()) {
          site.trouble = fmt::format("no posts stand in the column \"{}\" for the shelf \"{}\"",
                                     at(kiln.columns, column).name, name);
        }
        continue;
      }
      site.posts.insert(site.posts.end(), usable->posts.begin(), usable->posts.end());
    }
    if (site.trouble.empty() && !carries(bare_shelf(kiln, site), foot, site.posts)) {
      site.trouble = fmt::format("the posts do not all stand under the shelf \"{}\"", name);
    }
  }
}

}  // namespace placer::loading
