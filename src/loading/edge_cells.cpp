#include "loading/edge_cells.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "loading/index.h"

namespace placer::loading {
namespace {

constexpr double kPi = 3.14159265358979323846;
constexpr double kNever = std::numeric_limits<double>::infinity();
constexpr double kDensest = 3.4641016151377544;  // r²: no disc is said to need more
constexpr int kMostSides = 16;
constexpr int kMostCorners = 12;  // of a ground whose corners are looked at one by one
constexpr int kSteps = 360;       // of half a turn, for what lies along a round edge
constexpr double kSlack = 0.02;   // rad, of a corner where an arc is drawn with straight pieces
constexpr int kRates = 64;
constexpr double kLeastRate = 0.25, kRateStep = 1.05;  // r² for a rad
constexpr int kFewRates = 8;                           // of these one is looked at first
constexpr int kMostArcs = 6;                           // along a round edge; the last: or more

/// What one part of a cell covers beyond a rate, at least; lengths in r. "Far" is what the disc
/// can't be near to together with another.
struct Beyond {
  double rate = 0;
  double half = 0, far_half = 0;    ///< half a stretch of edge, from where the disc is nearest
  double end = 0, far_end = 0;      ///< likewise to where it ends, with half the side there
  double corner = 0;                ///< between the two feet at a corner
  double whole = 0, far_whole = 0;  ///< a stretch from corner to corner
  double side = 0;                  ///< a straight side
  double any_sides = 0;             ///< however many
};

/// The least of covers * tan(angle) - rate * angle, angle >= from: half of what is straight and
/// covers so much for a rad where it is nearest.
double straight(double covers, double rate, double from = 0, double to = kPi / 2) {
  const double best = rate > covers ? std::acos(std::sqrt(covers / rate)) : 0;
  const double angle = std::clamp(best, from, std::max(from, to));
  return angle < kPi / 2 ? covers * std::tan(angle) - rate * angle : kNever;
}

/// What lies along an edge, angle step by angle step, from the nearest point on.
class Along {
 public:
  Along() = default;
  explicit Along(std::vector<double> each) : each_{std::move(each)} {
    // Never falling, and never more than it is.
    for (int i = count_of(each_) - 2; i >= 0; --i) {
      at(each_, i) = std::min(at(each_, i), at(each_, i + 1));
    }
    sums_.push_back(0);
    for (const double one : each_) sums_.push_back(sums_.back() + one);
  }
  bool empty() const { return each_.empty(); }

  /// The least sum less the rate, of angles from..to.
  double beyond(double rate, double from, double to) const {
    const double step = kPi / kSteps;
    const auto best = std::lower_bound(each_.begin(), each_.end(), rate * step) - each_.begin();
    const int last = std::min(kSteps, static_cast<int>(std::ceil(to / step)));
    const int first = std::min(last, static_cast<int>(from / step));
    const int i = std::clamp(static_cast<int>(best), first, last);
    return at(sums_, i) - rate * i * step;
  }

 private:
  std::vector<double> each_, sums_;
};

/// The ground's edge as a disc of radius 1 sees it.
class Edge {
 public:
  Edge(const Floor& floor, double r, const Charges& charges)
      : floor_{&floor},
        r_{r},
        edge_{charges.edge / r},
        turn_{charges.turn / (r * r)},
        flat_{0.5 - edge_},
        far_{flat_} {
    any_ = floor.corners > kMostCorners || floor.normals.size() > 2 * kMostCorners;
    if (floor.round && !any_) sum_up();
    if (!two_near()) return;
    apart_ = half_apart();
    far_ = (apart_ / 2 - edge_) * apart_;
  }

  int corners() const { return any_ ? 0 : floor_->corners; }
  bool many_arcs() const { return any_ || floor_->round; }
  int arcs() const { return many_arcs() ? kMostArcs : corners(); }
  /// Corners inside a cell's edge that has so many arcs.
  int corners_beside(int arcs) const { return many_arcs() ? corners() : corners() - arcs; }
  /// Stretches that go from corner to corner, at least: a straight line has a single one.
  int wholes(int arcs, int corners) const {
    const int lines = many_arcs() ? floor_->lines : corners;
    return std::max(0, corners - std::min(arcs, lines));
  }
  /// Whether all stretches but two, of neighbouring lines, are far.
  bool two_near() const { return !any_ && !floor_->round && floor_->corners >= 4; }

  Beyond beyond(double rate) const {
    Beyond b;
    b.rate = rate;
    b.half = half(rate, 0, kPi);
    b.far_half = straight(far_, rate);
    const double side_end = straight(0.5, rate + turn_) + turn_ * kPi / 2;
    b.end = end(rate) + side_end;
    b.far_end = straight(far_, rate + turn_) + side_end;
    const auto [least, most] = turns();
    b.corner = 2 * half(rate, least / 2, most / 2);
    b.whole = whole(1, rate);
    if (two_near()) b.far_whole = whole(apart_, rate);
    b.side = 2 * straight(0.5, rate);
    b.any_sides = std::min(0.0, (0.5 - rate) * 2 * kPi);
    return b;
  }

 private:
  /// For a round edge: what lies along it from the nearest point on.
  void sum_up() {
    const double big = floor_->round->radius / r_;
    const double off = std::max(0.0, big - 1);
    const double step = kPi / kSteps;
    std::vector<double> either, round;
    double slant = 0;
    for (int i = 0; i < kSteps; ++i) {
      const double angle = i * step;  // it rises with the angle: the step counts as where it begins
      const double sine = off * std::sin(angle) / big;
      const double straight = std::sqrt(1 - sine * sine);
      const double reach = big * straight - off * std::cos(angle);
      const double covers = reach * reach / 2 - edge_ * reach / straight;
      const bool line = floor_->straight > 0 && angle < kPi / 2;
      const double flat = line ? flat_ / (std::cos(angle) * std::cos(angle)) : kNever;
      const double slant_then = std::asin(off * std::sin(angle + step) / big);
      either.push_back(step * std::min(covers, flat));
      round.push_back(step * covers - turn_ * (slant_then - slant));
      slant = slant_then;
    }
    either_ = Along{std::move(either)};
    round_ = Along{std::move(round)};
  }

  /// Of the edge at a corner.
  std::pair<double, double> turns() const {
    if (!floor_->round) return {floor_->least_turn, std::min(kPi, floor_->most_turn)};
    // Where lines leave out no more than the disc's radius beyond the middle, the nearest point of
    // the round edge is on what is left of it.
    const bool before = floor_->beyond <= r_;
    return {before ? std::max(0.0, floor_->least_turn - kSlack) : 0, 2 * kPi};
  }

  double half(double rate, double from, double to) const {
    if (any_) return std::min(0.0, (flat_ - rate) * kPi);
    if (either_.empty()) return straight(flat_, rate, from, to);
    return either_.beyond(rate, from, to);
  }

  double end(double rate) const {
    if (any_) return std::min(0.0, (flat_ - rate - turn_) * kPi);
    double least = kNever;
    if (floor_->straight > 0) least = straight(flat_, rate + turn_);
    if (!round_.empty()) least = std::min(least, round_.beyond(rate, 0, kPi));
    return least;
  }

  /// @param away how far from the disc's middle at least
  double whole(double away, double rate) const {
    double least = kNever;
    if (floor_->arc > 0) least = flat_ * floor_->arc / r_ - rate * 2 * kPi;
    if (floor_->straight > 0) {
      const double half_seen = std::atan(floor_->straight / r_ / 2 / away);
      least = std::min(least, 2 * straight((away / 2 - edge_) * away, rate, half_seen));
    }
    return least;
  }

  /// Half the least sum of the distances to two lines of the edge that are no neighbours.
  double half_apart() const {
    const std::vector<Point>& p = floor_->edge.corners;
    const std::size_t n = p.size();
    const auto to = [&](std::size_t i, Point c) {
      const Point along = p[(i + 1) % n] - p[i];
      const Point v = c - p[i];
      const double length = std::sqrt(along.x * along.x + along.y * along.y);
      return length > 0 ? (along.x * v.y - along.y * v.x) / length : 0;
    };
    double least = kNever;
    for (const Point c : middles_on(*floor_, r_).corners) {
      for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t k = i + 2; k < n; ++k) {
          if (i > 0 || k + 1 < n) least = std::min(least, to(i, c) + to(k, c));
        }
      }
    }
    return std::isfinite(least) ? std::max(1.0, least / 2 / r_) : 1;
  }

  const Floor* floor_;
  double r_, edge_, turn_, flat_, far_;
  double apart_ = 1;
  bool any_ = false;  ///< a ground of too many corners: as any convex edge
  Along either_;      ///< of a round edge and lines, whichever is less
  Along round_;       ///< of the round edge, less what it turns
};

struct Counts {
  int sides, arcs, corners, wholes;  ///< wholes: stretches from corner to corner
};

double edges_beyond(const Beyond& b, const Counts& cell, bool two_near) {
  const int others = cell.arcs + cell.corners - cell.wholes;
  const int ends = 2 * cell.arcs;
  if (!two_near || cell.arcs + cell.corners <= 2) {
    if (cell.wholes > 0) return cell.wholes * b.whole + ends * b.end + (2 * others - ends) * b.half;
    return (cell.corners > 0 ? cell.corners * b.corner : 0) + ends * b.end;
  }
  double least = kNever;
  for (int near = std::max(0, 2 - others); near <= std::min(2, cell.wholes); ++near) {
    const int halves = 2 * (2 - near);
    const int far_halves = 2 * others - halves;
    const double wholes = near * b.whole + (cell.wholes - near) * b.far_whole;
    for (const int near_ends : {std::max(0, ends - far_halves), std::min(ends, halves)}) {
      const int far_ends = ends - near_ends;
      least = std::min(least, wholes + near_ends * b.end + (halves - near_ends) * b.half +
                                  far_ends * b.far_end + (far_halves - far_ends) * b.far_half);
    }
  }
  return least;
}

double covers_at(const Beyond& b, const Counts& cell, bool two_near) {
  const double sides = cell.sides > kMostSides ? b.any_sides : (cell.sides - cell.arcs) * b.side;
  return 2 * kPi * b.rate + sides + edges_beyond(b, cell, two_near);
}

/// @param or_more also of cells with more arcs and a side more for each. @param enough no more than
/// that need be found.
double covers(const std::vector<Beyond>& rates, const Counts& cell, bool two_near, bool or_more,
              double enough) {
  double most = 0;
  for (int first = 0; first < kFewRates && most < enough; ++first) {
    for (int i = first; i < count_of(rates); i += kFewRates) {
      if (or_more && at(rates, i).end < 0) continue;
      most = std::max(most, covers_at(at(rates, i), cell, two_near));
    }
  }
  return most;
}

}  // namespace

EdgeCells::EdgeCells(const Floor& floor, double r, const Charges& charges) : square_{r * r} {
  const Edge edge{floor, r, charges};
  std::vector<Beyond> rates;
  double rate = kLeastRate;
  for (int i = 0; i < kRates; ++i, rate *= kRateStep) rates.push_back(edge.beyond(rate));
  const auto least_of = [&](int sides, int arcs, int corners, double enough) {
    const bool or_more = edge.many_arcs() && arcs == edge.arcs();
    double least = kNever;
    for (int wholes = edge.wholes(arcs, corners); wholes <= std::max(0, corners - 1); ++wholes) {
      const Counts cell{sides, arcs, corners, wholes};
      least = std::min(least, covers(rates, cell, edge.two_near(), or_more, enough));
    }
    return least;
  };
  for (int arcs = 1; arcs <= edge.arcs(); ++arcs) {
    for (int corners = 0; corners <= edge.corners_beside(arcs); ++corners) {
      // More sides cover less: where any number of them is too much, only those that are charged
      // less than nothing count.
      const bool too_much = least_of(kMostSides + 1, arcs, corners, kDensest) >= kDensest;
      for (int sides = arcs; sides <= kMostSides + 1; ++sides) {
        const bool charged = sides + 2 * arcs >= 6;
        if (charged && too_much) break;
        const double enough = charged ? kDensest : kNever;
        const double least = least_of(sides, arcs, corners, enough);
        if (least < enough) sorts_.push_back({sides, arcs, corners, least});
      }
    }
  }
}

double EdgeCells::least(double side, double corner) const {
  double least = kNever;
  for (const Sort& sort : sorts_) {
    const double charged = side * (sort.sides + 2 * sort.arcs - 6) + corner * sort.corners;
    least = std::min(least, sort.covers * square_ + charged);
  }
  return least;
}

}  // namespace placer::loading
