// The general-purpose packer that Debian packages (libnest2d 5.0), in its default setting.
//
// It packs polygons: discs and the shapes with handles go in as their hulls, discs drawn round by
// 64 corners. What it answers is looked at with our own distances, and a piece that is too near
// another is not counted.
#include <algorithm>
#include <cmath>
#include <ctime>
#include <libnest2d/common.hpp>
#include <vector>

// Written for C++17: what its own angles convert to is ambiguous since.
namespace libnest2d {
inline bool operator!=(const Radians& a, const Radians& b) {
  const double first = a;
  const double second = b;
  return first != second;
}
}  // namespace libnest2d

#include <libnest2d/libnest2d.hpp>

#include "peer.h"

namespace placer::bench {

namespace {

namespace nest = libnest2d;

constexpr double kScale = 1e6;   // its whole numbers a mm
constexpr double kLimit = 40;    // seconds of processor time
constexpr double kShort = 0.01;  // mm: a clearance that lacks more than this is broken
constexpr int kCorners = 64;
constexpr double kPi = 3.14159265358979323846;

nest::PointImpl whole(Point p) { return {std::llround(p.x * kScale), std::llround(p.y * kScale)}; }

/// Points of a disc drawn round by a polygon.
void add_disc(const Disc& disc, std::vector<Point>& points) {
  const double corner = disc.radius / std::cos(kPi / kCorners);
  for (int i = 0; i < kCorners; ++i) {
    const double angle = 2 * kPi * i / kCorners;
    points.push_back(disc.centre + Point{corner * std::cos(angle), corner * std::sin(angle)});
  }
}

double turn_side(Point a, Point b, Point c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

/// Clockwise and closed, as the peer wants it.
nest::PolygonImpl hull_of(std::vector<Point> points) {
  std::sort(points.begin(), points.end(),
            [](Point a, Point b) { return a.x < b.x || (a.x == b.x && a.y < b.y); });
  std::vector<Point> hull;
  for (int side = 0; side < 2; ++side) {
    const std::size_t from = hull.size();
    for (const Point p : points) {
      while (hull.size() >= from + 2 && turn_side(hull[hull.size() - 2], hull.back(), p) >= 0) {
        hull.pop_back();
      }
      hull.push_back(p);
    }
    hull.pop_back();
    std::reverse(points.begin(), points.end());
  }
  nest::PolygonImpl polygon;
  for (const Point p : hull) polygon.Contour.push_back(whole(p));
  polygon.Contour.push_back(polygon.Contour.front());
  return polygon;
}

/// The hull of the shape with half the gap round it.
nest::PolygonImpl grown(const Footprint& shape, double by) {
  std::vector<Point> points;
  for (const Disc& disc : shape.discs) add_disc({disc.centre, disc.radius + by}, points);
  for (const Outline& outline : shape.outlines) {
    const bool square = outline.corners.size() == 4;
    for (const Point corner : outline.corners) {
      if (square && by > 0) {  // mitred corners: right for shapes that lie square
        for (const double x : {-by, by}) {
          for (const double y : {-by, by}) points.push_back(corner + Point{x, y});
        }
      } else if (by > 0) {
        add_disc({corner, by}, points);
      } else {
        points.push_back(corner);
      }
    }
  }
  return hull_of(std::move(points));
}

/// Drawn in to the ground that pieces may stand on: it takes nothing that hangs over the bin.
nest::PolygonImpl clamped(nest::PolygonImpl polygon, const packing::Problem& problem) {
  const placer::Box box = bounding_box(problem.region);
  const double out = problem.gap / 2 - problem.edge_gap;
  const auto low = whole(box.low - Point{out, out});
  const auto high = whole(box.high + Point{out, out});
  for (auto& p : polygon.Contour) {
    p.X = std::clamp(p.X, low.X, high.X);
    p.Y = std::clamp(p.Y, low.Y, high.Y);
  }
  return polygon;
}

/// One piece of the supply as it goes in.
struct Piece {
  int item;
  double area;
};

/// The whole supply; of one kind no more than the ground could hold.
std::vector<Piece> pieces_of(const Instance& instance) {
  std::vector<Piece> pieces;
  for (std::size_t k = 0; k < instance.problem.items.size(); ++k) {
    const packing::Item& item = instance.problem.items[k];
    for (int i = 0; i < item.count; ++i) pieces.push_back({static_cast<int>(k), area(item.shape)});
  }
  std::stable_sort(pieces.begin(), pieces.end(),
                   [](const Piece& a, const Piece& b) { return a.area > b.area; });
  if (instance.objective == "count") {
    const auto most = static_cast<std::size_t>(packing::most_possible(instance.problem));
    pieces.resize(std::min(pieces.size(), most));
  }
  return pieces;
}

Footprint placed_by(const Footprint& shape, const nest::Item& item) {
  const auto moved = item.translation();
  Placement at;
  const nest::Radians turn = item.rotation();
  at.turn_deg = double{turn} * 180 / kPi;
  at.at = {static_cast<double>(moved.X) / kScale, static_cast<double>(moved.Y) / kScale};
  return placed(shape, at);
}

bool stands(const Instance& instance, const Footprint& shape, const std::vector<Footprint>& set) {
  const packing::Problem& problem = instance.problem;
  if (inset(shape, problem.region) < problem.edge_gap - kShort) return false;
  if (keep_out_gap(shape, problem.region) < problem.gap - kShort) return false;
  return std::all_of(set.begin(), set.end(), [&](const Footprint& other) {
    return gap(shape, other) >= problem.gap - kShort;
  });
}

/// What the peer placed, bin by bin: counts, area and how many bins, as the instance asks.
std::optional<double> judged(const Instance& instance, const std::vector<Piece>& pieces,
                             const std::vector<nest::Item>& items) {
  std::vector<std::vector<Footprint>> bins;
  double covered = 0;
  int unset = 0;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const int bin = items[i].binId();
    if (bin < 0) ++unset;
    if (bin < 0 || (bin > 0 && instance.objective != "bins")) continue;
    if (bins.size() <= static_cast<std::size_t>(bin))
      bins.resize(static_cast<std::size_t>(bin) + 1);
    const auto k = static_cast<std::size_t>(pieces[i].item);
    const Footprint shape = placed_by(instance.problem.items[k].shape, items[i]);
    std::vector<Footprint>& set = bins[static_cast<std::size_t>(bin)];
    if (!stands(instance, shape, set)) {
      ++unset;
      continue;
    }
    covered += pieces[i].area;
    set.push_back(shape);
  }
  if (instance.objective == "bins") {
    return unset > 0 ? std::nullopt : std::optional<double>{static_cast<double>(bins.size())};
  }
  if (bins.empty()) return 0;
  if (instance.objective == "count") return static_cast<double>(bins[0].size());
  Region bare = instance.problem.region;
  bare.keep_outs.clear();
  return 100 * covered / area(bare);
}

template <class Bin>
std::optional<double> packed(const Instance& instance, const Bin& bin) {
  const std::vector<Piece> pieces = pieces_of(instance);
  const double by = instance.problem.gap / 2;
  std::vector<nest::Item> items;
  for (const Piece& piece : pieces) {
    items.emplace_back(
        grown(instance.problem.items[static_cast<std::size_t>(piece.item)].shape, by));
  }
  constexpr int kBinsWithPosts = 30;
  const int bins = instance.objective == "bins" ? kBinsWithPosts : 1;
  for (const Footprint& keep_out : instance.problem.region.keep_outs) {
    for (int b = 0; b < bins; ++b) {
      items.emplace_back(clamped(grown(keep_out, by), instance.problem));
      items.back().markAsFixedInBin(b);
    }
  }
  const std::clock_t end = std::clock() + static_cast<std::clock_t>(kLimit * CLOCKS_PER_SEC);
  nest::NestControl control;
  control.stopcond = [end] { return std::clock() > end; };
  using Placer = nest::_NfpPlacer<Bin>;
  nest::NestConfig<Placer, nest::FirstFitSelection> config;
  if (items.size() > pieces.size()) {  // aligning the pile would move it against the keep-outs
    config.placer_config.alignment = Placer::Config::Alignment::DONT_ALIGN;
  }
  nest::nest<Placer, nest::FirstFitSelection>(items.begin(), items.end(), bin, 0, config, control);
  return judged(instance, pieces, items);
}

}  // namespace

bool has_peer() { return true; }

std::optional<double> peer_answer(const Instance& instance) {
  const packing::Problem& problem = instance.problem;
  const double out = problem.gap / 2 - problem.edge_gap;  // half a gap hangs over the edge
  if (problem.region.round) {
    const double radius = problem.region.round->radius + out;
    return packed(instance, nest::Circle{whole(problem.region.round->centre), radius * kScale});
  }
  const std::vector<Point>& corners = problem.region.outline.corners;
  const placer::Box box = bounding_box(problem.region);
  const double size = (box.high.x - box.low.x) * (box.high.y - box.low.y);
  Region bare = problem.region;
  bare.keep_outs.clear();
  if (corners.size() == 4 && std::abs(area(bare) - size) < 1e-6 * size) {
    const Point wide = box.high - box.low + Point{2 * out, 2 * out};
    const Point middle = 0.5 * (box.low + box.high);
    return packed(instance, nest::Box{static_cast<nest::Coord>(wide.x * kScale),
                                      static_cast<nest::Coord>(wide.y * kScale), whole(middle)});
  }
  nest::PolygonImpl bin = hull_of(edge_polygon(problem.region, 0.1).corners);
  if (out != 0) nest::shapelike::offset(bin, static_cast<nest::Coord>(out * kScale));
  return packed(instance, bin);
}

}  // namespace placer::bench
