#include "loading/crowd.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <vector>

#include "loading/index.h"

namespace placer::loading {
namespace {

constexpr double kPi = 3.14159265358979323846;
constexpr double kNever = std::numeric_limits<double>::infinity();
constexpr int kMostSides = 16;
constexpr int kSteps = 360;       // of half a turn, for what lies along the edge
constexpr int kHalvings = 26;     // of the angle at the edge, where the least is looked for
constexpr double kSafety = 1e-3;  // of a share: more than the steps can be wrong by

/// Area of `s` sides that are seen under `angle` from the middle of a disc of radius 1.
double under_sides(double angle, double s) {
  const double half = angle / (2 * s);
  return half < kPi / 2 - 1e-6 ? s * std::tan(half) : kNever;
}

/// Between a disc that touches the ground's edge and that edge, for each angle away from where it
/// touches: area less what the edge is credited, summed up from 0 to each step.
/// With p the distance from the disc's middle to the edge's tangent, an angle covers
/// (p / 2 - edge) p / cos²(slant) and p >= r: a disc that does not touch has only more.
std::vector<double> along_edge(const Floor& floor, double r, double edge) {
  std::vector<double> sums{0};
  double sum = 0;
  const double step = kPi / kSteps;
  const double flat = (r / 2 - edge) * r;
  for (int i = 0; i < kSteps; ++i) {
    const double angle = i * step;  // the nearer end: both kinds of edge rise with the angle
    double least = kNever;
    if (!floor.normals.empty() && angle < kPi / 2) {
      least = flat / (std::cos(angle) * std::cos(angle));
    }
    if (floor.round) {
      const double big = floor.round->radius;
      const double off = std::max(0.0, big - r);
      const double slant = off * std::sin(angle) / big;
      const double straight = std::sqrt(1 - slant * slant);
      const double reach = big * straight - off * std::cos(angle);
      least = std::min(least, reach * reach / 2 - edge * reach / straight);
    }
    sum += least * step;
    sums.push_back(sum);
  }
  return sums;
}

/// The least that a cell at the edge covers, by the pieces of edge and the sides that it has.
class EdgeCells {
 public:
  EdgeCells(const Floor& floor, double r, double edge)
      : sums_{along_edge(floor, r, edge)}, square_{r * r} {
    const int most = std::min(kMostPieces, floor.corners + 1);
    for (int pieces = 1; pieces <= most; ++pieces) {
      for (int s = 1; s <= kMostSides; ++s) least_.push_back({pieces, s, least(pieces, s)});
    }
  }
  double with(double side, double corner) const {
    double least = kNever;
    for (const auto& [pieces, sides, area] : least_) {
      least = std::min(least, area + side * (sides - 4) + corner * (pieces - 1));
    }
    return least;
  }

 private:
  struct Cell {
    int pieces, sides;
    double area;
  };
  static constexpr int kMostPieces = 4;

  double edge_area(double half) const {
    const double at_step = std::min(half / kPi, 1.0) * kSteps;
    const int i = std::min(kSteps - 1, static_cast<int>(at_step));
    const double part = at_step - i;
    return (1 - part) * at(sums_, i) + (part > 0 ? part * at(sums_, i + 1) : 0);
  }
  /// Both parts are convex in the angle, so halving finds the least.
  double least(int pieces, int sides) const {
    const auto covers = [&](double angle) {
      return 2 * pieces * edge_area(angle / (2 * pieces)) +
             under_sides(2 * kPi - angle, sides) * square_;
    };
    double low = std::max(0.0, 2 * kPi - sides * kPi);  // no side is seen under half a turn
    double high = 2 * kPi;
    for (int i = 0; i < kHalvings; ++i) {
      const double a = low + (high - low) * 0.45;
      const double b = low + (high - low) * 0.55;
      if (covers(a) <= covers(b)) {
        high = b;
      } else {
        low = a;
      }
    }
    return std::min(covers(low), covers((low + high) / 2));
  }

  std::vector<double> sums_;
  double square_;
  std::vector<Cell> least_;
};

double inside(double r, double side) {
  double least = kPi * r * r + side * (kMostSides + 1 - 6);  // more sides than these cover more
  for (int s = 3; s <= kMostSides; ++s) {
    least = std::min(least, under_sides(2 * kPi, s) * r * r + side * (s - 6));
  }
  return least;
}

double whole_of(const Floor& floor, double side, double edge, double corner) {
  return floor.area - 6 * side - edge * floor.perimeter + corner * floor.corners;
}

}  // namespace

double Crowd::share(double radius) const {
  if (edge_ > radius / 2) return 0;
  const double least =
      std::min(inside(radius, side_), EdgeCells{*floor_, radius, edge_}.with(side_, corner_));
  return std::clamp(least * (1 - kSafety), 0.0, std::max(0.0, whole()));
}

double Crowd::share_of_area(double area) const {
  if (edge_ > 0) return 0;
  return std::clamp(area - 3 * side_, 0.0, std::max(0.0, whole()));
}

double Crowd::whole() const { return whole_of(*floor_, side_, edge_, corner_); }

Crowd best_crowd(const Floor& floor, double radius, bool credit) {
  constexpr std::array<double, 5> sides{0.04, 0.08, 0.1, 0.1208, 0.14};
  constexpr std::array<double, 6> edges{0, 0.05, 0.09, 0.12, 0.134, 0.16};
  constexpr std::array<double, 3> corners{0, 0.06, 0.12};
  const double square = radius * radius;
  Crowd best{floor, 0, 0, 0};
  double fewest = kNever;
  for (const double edge : edges) {
    if (edge > 0 && !credit) break;
    const EdgeCells cells{floor, radius, edge * radius};
    for (const double side : sides) {
      const double within = inside(radius, side * square);
      for (const double corner : corners) {
        const double share = std::min(within, cells.with(side * square, corner * square));
        const double whole = whole_of(floor, side * square, edge * radius, corner * square);
        if (share <= 0 || whole >= fewest * share) continue;
        fewest = whole / share;
        best = Crowd{floor, side * square, edge * radius, corner * square};
        if (floor.corners == 0) break;
      }
    }
  }
  return best;
}

}  // namespace placer::loading
