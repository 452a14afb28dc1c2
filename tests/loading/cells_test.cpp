// What a proof says that each cell of a crowd needs: held against the cells themselves, cut out of
// dense packings, and against packings that are known to be the densest.
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <numeric>

#include "loading/crowd.h"
#include "loading/index.h"
#include "placer/base/random.h"
#include "placer/packing/packing.h"

namespace placer::loading {
namespace {

constexpr double kPi = 3.14159265358979323846;

double dot(Point a, Point b) { return a.x * b.x + a.y * b.y; }
double cross(Point a, Point b) { return a.x * b.y - a.y * b.x; }
double length(Point a) { return std::sqrt(dot(a, a)); }

Floor floor_on(Region region) {
  Site site;
  site.ground = std::move(region);
  if (site.ground.round) site.ground.round->radius -= kChord;
  return floor_of(site, 0);
}

Region triangle(double base, double height, double tip) {
  return {{{{0, 0}, {base, 0}, {tip, height}}}, {}, {}};
}

/// The disc of radius 100 round the origin, cut `at` from its middle.
Region cut_disc(double at_y) {
  Region region;
  region.outline = rectangle(Point{-100, at_y}, Point{100, 100});
  region.round = Disc{{0, 0}, 100};
  return region;
}

std::vector<Region> grounds() {
  Region quarter;
  quarter.outline = rectangle(Point{0, 0}, Point{100, 100});
  quarter.round = Disc{{0, 0}, 100};
  return {{{}, Disc{{0, 0}, 100}, {}},
          {rectangle(200, 200), {}, {}},
          {rectangle(300, 110), {}, {}},
          {regular_polygon(8, 200), {}, {}},
          {regular_polygon(6, 200), {}, {}},
          {regular_polygon(20, 200), {}, {}},
          triangle(200, 173.2, 100),
          triangle(300, 90, 20),
          half_disc(200),
          cut_disc(-40),
          cut_disc(30),
          quarter};
}

/// A side of a cell: of the floor's edge, or between it and another.
struct Side {
  Point from;
  bool edge = false;
};
using Cell = std::vector<Side>;

Cell whole_floor(const Floor& floor) {
  Cell cell;
  for (const Point p : floor.edge.corners) cell.push_back({p, true});
  return cell;
}

/// What of the cell lies on the inner side of n · p = reach.
Cell cut(const Cell& cell, Point n, double reach) {
  Cell kept;
  for (std::size_t i = 0; i < cell.size(); ++i) {
    const Side& a = cell[i];
    const Point b = cell[(i + 1) % cell.size()].from;
    const double at_a = dot(n, a.from) - reach;
    const double at_b = dot(n, b) - reach;
    if (at_a <= 0) kept.push_back({a.from, a.edge && (at_a < 0 || at_b <= 0)});
    if (at_a * at_b >= 0) continue;
    const Point there = a.from + at_a / (at_a - at_b) * (b - a.from);
    kept.push_back({there, at_a < 0 ? false : a.edge});
  }
  Cell tidy;
  for (std::size_t i = 0; i < kept.size(); ++i) {
    if (length(kept[(i + 1) % kept.size()].from - kept[i].from) > 1e-7) tidy.push_back(kept[i]);
  }
  return tidy;
}

/// The ground that is nearer to the disc than to any other, by the tangents drawn to them.
Cell cell_of(const Floor& floor, const std::vector<Disc>& discs, std::size_t i) {
  Cell cell = whole_floor(floor);
  const auto power = [](const Disc& disc) {
    return dot(disc.centre, disc.centre) - disc.radius * disc.radius;
  };
  for (std::size_t k = 0; k < discs.size(); ++k) {
    if (k == i) continue;
    const Point way = discs[k].centre - discs[i].centre;
    const double far = length(way);
    cell = cut(cell, 1 / far * way, (power(discs[k]) - power(discs[i])) / 2 / far);
  }
  return cell;
}

double area_of(const Cell& cell) {
  Outline outline;
  for (const Side& side : cell) outline.corners.push_back(side.from);
  return signed_area(outline);
}

/// The edge's direction there: along the arc of a round floor, where it runs there.
Point along_edge(const Floor& floor, Point p, Point way) {
  if (floor.round) {
    const Point out = p - floor.round->centre;
    const Point tangent{-out.y, out.x};
    if (std::abs(length(out) - floor.round->radius) < 0.03 &&
        dot(tangent, way) > 0.999 * length(tangent) * length(way))
      return tangent;
  }
  return way;
}

bool is_corner(const Floor& floor, Point before, Point after) {
  const double turn = std::atan2(cross(before, after), dot(before, after));
  return turn > 1e-6 && !(floor.round && std::abs(turn - 2 * kPi / 360) < 1e-6);
}

/// Its area with all charges.
double charged(const Floor& floor, const Cell& cell, const Charges& charges) {
  double sum = area_of(cell) - 6 * charges.side;
  const std::size_t n = cell.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Side& before = cell[(i + n - 1) % n];
    const Point way = cell[(i + 1) % n].from - cell[i].from;
    const Point came = cell[i].from - before.from;
    if (!cell[i].edge) {
      sum += charges.side;
    } else {
      sum -= charges.edge * length(way);
      if (before.edge && is_corner(floor, came, way)) sum += charges.corner;
      if (!before.edge) sum += 2 * charges.side;
    }
    if (cell[i].edge == before.edge) continue;
    const Point one = before.edge ? along_edge(floor, cell[i].from, came) : came;
    const Point two = cell[i].edge ? along_edge(floor, cell[i].from, way) : way;
    const double within = kPi - std::atan2(cross(one, two), dot(one, two));
    sum += charges.turn * (within - kPi / 2);
  }
  return sum;
}

Charges any_charges(Random& random, double large, double small) {
  Charges charges;
  charges.side = random.uniform(0, 0.2) * large * large;
  charges.edge = random.uniform(0, 0.5) * small;
  charges.corner = random.uniform(0, 0.6) * large * large;
  charges.turn = random.below(3) == 0 ? 0 : random.uniform(0, 0.8) * large * large;
  return charges;
}

/// Of one crowd. Discs without a share are as if they were not there.
void check_cells(const Floor& floor, const std::vector<Disc>& discs, const Charges& charges) {
  const Crowd crowd{floor, charges};
  std::vector<Disc> counted;
  double sum = 0;
  double most = 0;
  for (const Disc& disc : discs) {
    const double share = crowd.share(disc.radius);
    sum += share;
    most = std::max(most, disc.radius);
    if (share > 0) counted.push_back(disc);
  }
  CAPTURE(charges.side, charges.edge, charges.corner, charges.turn);
  CHECK(sum <= crowd.whole() + 1e-6 * most * most);
  if (counted.size() < 2) return;
  for (std::size_t i = 0; i < counted.size(); ++i) {
    const double share = crowd.share(counted[i].radius);
    const double needs = charged(floor, cell_of(floor, counted, i), charges);
    CAPTURE(counted.size(), counted[i].radius, counted[i].centre.x, counted[i].centre.y);
    CHECK(share <= needs + 1e-4 * most * most);
  }
}

void check_crowds(const Floor& floor, const std::vector<Disc>& discs, std::uint64_t seed) {
  if (discs.size() < 2) return;
  double large = 0;
  double small = 1e9;
  for (const Disc& disc : discs) {
    large = std::max(large, disc.radius);
    small = std::min(small, disc.radius);
  }
  Random random{seed};
  for (int t = 0; t < 12; ++t) {
    check_cells(floor, discs, any_charges(random, t % 2 == 0 ? large : small, small));
  }
}

std::vector<Disc> packed(const Region& region, const std::vector<std::pair<double, int>>& sizes,
                         std::uint64_t seed) {
  packing::Problem problem;
  problem.region = region;
  for (const auto& [radius, count] : sizes) {
    packing::Item item;
    item.shape = {{{{0, 0}, radius}}, {}};
    item.count = count;
    problem.items.push_back(item);
  }
  packing::Options options;
  options.seed = seed;
  options.steps = 3000000;
  const packing::Packing packing =
      sizes.size() == 1 ? most_pieces(problem, options) : most_value(problem, options);
  std::vector<Disc> discs;
  for (const packing::Place& place : packing.places) {
    discs.push_back(
        {{place.at.at.x, place.at.at.y}, sizes[static_cast<std::size_t>(place.item)].first});
  }
  return discs;
}

}  // namespace

TEST_CASE("cells of discs alike, as tight as they go, need their share", "[cells]") {
  const auto ground = GENERATE(range(0, 12));
  const std::vector<Region> all = grounds();
  const Region& region = at(all, ground);
  const Floor floor = floor_on(region);
  CAPTURE(ground);
  Random random{static_cast<std::uint64_t>(ground)};
  for (int i = 0; i < 14; ++i) {
    const double radius = random.uniform(0.09, 0.4) * std::sqrt(floor.area) * 0.9;
    check_crowds(floor, packed(region, {{radius, 60}}, 1), random.next());
  }
}

TEST_CASE("cells of discs of three sizes need their share", "[cells]") {
  const auto ground = GENERATE(range(0, 12));
  const std::vector<Region> all = grounds();
  const Region& region = at(all, ground);
  const Floor floor = floor_on(region);
  CAPTURE(ground);
  Random random{static_cast<std::uint64_t>(ground) + 100};
  for (int i = 0; i < 10; ++i) {
    const double large = random.uniform(0.12, 0.32) * std::sqrt(floor.area);
    const std::vector<std::pair<double, int>> sizes{{large, 12},
                                                    {large * random.uniform(0.4, 0.9), 10},
                                                    {large * random.uniform(0.2, 0.5), 10}};
    check_crowds(floor, packed(region, sizes, 2), random.next());
  }
}

TEST_CASE("the densest packings there are keep the sum", "[cells]") {
  // Triangles of discs in rows, each row one less: Oler's inequality is an equation there.
  for (int rows = 2; rows <= 7; ++rows) {
    const double side = 2.0 * 10 * (rows - 1) + 2 * 10 * std::sqrt(3.0);
    const Floor floor = floor_on(triangle(side, side * std::sqrt(3.0) / 2, side / 2));
    std::vector<Disc> discs;
    for (int row = 0; row < rows; ++row) {
      for (int i = 0; i + row < rows; ++i) {
        discs.push_back(
            {{10 * std::sqrt(3.0) + 20 * i + 10 * row, 10 + 10 * std::sqrt(3.0) * row}, 10});
      }
    }
    CAPTURE(rows);
    check_crowds(floor, discs, static_cast<std::uint64_t>(rows));
    const Crowd best = best_crowd(floor, {{10, {}, {}, 1}}, Looks::usual);
    CHECK(best.share(10) * count_of(discs) <= best.whole());
    CHECK(best.share(10) * (count_of(discs) + 1) > 0.9 * best.whole());  // nor far from it
  }
  // Squares of discs.
  for (int n = 1; n <= 5; ++n) {
    const Floor floor = floor_on({rectangle(Point{0, 0}, Point{20.0 * n, 40}), {}, {}});
    std::vector<Disc> discs;
    for (int i = 0; i < 2 * n; ++i)
      discs.push_back({{10.0 + 20 * (i / 2), 10.0 + 20 * (i % 2)}, 10});
    check_crowds(floor, discs, static_cast<std::uint64_t>(n) + 50);
  }
}

TEST_CASE("rectangles that fill the ground keep the sum", "[cells]") {
  Random random{7};
  for (const auto& [across, along] : {std::pair{1, 2}, {2, 2}, {3, 4}, {1, 5}, {6, 5}}) {
    const Floor floor = floor_on({rectangle(30.0 * across, 50.0 * along), {}, {}});
    const Convex tile{1500 * (1 - 1e-9), 15, 1500 * (1 - 1e-9)};
    for (int t = 0; t < 200; ++t) {
      Charges charges = any_charges(random, 22, 15);
      charges.turn = 0;
      const Crowd crowd{floor, charges};
      CAPTURE(across, along, charges.side, charges.edge, charges.corner);
      CHECK(crowd.share(tile) * across * along <= crowd.whole() + 1e-6);
    }
  }
}

TEST_CASE("a rectangle that fills most of a round ground, and a disc beside it, keep the sum",
          "[cells]") {
  // The rectangle takes 71 % of what is left when the disc's part is cut off.
  const Floor floor = floor_on({{}, Disc{{0, 0}, 100}, {}});
  const Convex tile{152.0 * 129.8 * (1 - 1e-9), 64.9, 152.0 * 129.8 * (1 - 1e-9)};
  Random random{8};
  for (int t = 0; t < 400; ++t) {
    Charges charges = any_charges(random, t % 2 == 0 ? 70 : 17, t % 3 == 0 ? 64 : 17);
    charges.side *= t % 5 == 0 ? 4 : 1;
    charges.turn = 0;
    const Crowd crowd{floor, charges};
    CAPTURE(charges.side, charges.edge);
    CHECK(crowd.share(tile) + crowd.share(17.4) <= crowd.whole() + 1e-6);
  }
}

}  // namespace placer::loading
