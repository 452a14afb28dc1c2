#include "loading/crowd.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>

#include "loading/index.h"

namespace placer::loading {
namespace {

constexpr double kPi = 3.14159265358979323846;
constexpr double kNever = std::numeric_limits<double>::infinity();
constexpr int kMostSides = 16;
constexpr double kSafety = 2e-5;  // of a share: a round floor is drawn round its arcs

/// Area of `s` sides that are seen under `angle` from the middle of a disc of radius 1.
double under_sides(double angle, double s) {
  const double half = angle / (2 * s);
  return half < kPi / 2 - 1e-6 ? s * std::tan(half) : kNever;
}

double inside(double r, double side) {
  double least = kPi * r * r + side * (kMostSides + 1 - 6);  // more sides than these cover more
  for (int s = 3; s <= kMostSides; ++s) {
    least = std::min(least, under_sides(2 * kPi, s) * r * r + side * (s - 6));
  }
  return least;
}

double whole_of(const Floor& floor, const Charges& charges) {
  return floor.area - 6 * charges.side - charges.edge * floor.perimeter +
         charges.corner * floor.corners;
}

/// The least that a cell of the shape needs: with three straight sides it covers twice the
/// rectangle. Edge of length l makes a triangle with what of the shape is farthest from it; edges,
/// with the disc in the shape. Round edges bulge: there a cell with few sides is no triangle.
double convex_share(const Floor& floor, const Convex& shape, const Charges& charges) {
  const double a = shape.area;
  const double three = std::max(a, 2 * shape.boxed);
  const double with_edge = floor.round ? a : three;
  const double side = charges.side;
  const double edges = 1 - 2 * charges.edge / shape.inner;
  if (edges <= 0) return 0;
  double least = std::min({three - 3 * side, a - 2 * side, a * edges});
  if (floor.round) {
    least = std::min(least, a * edges - 3 * side);
  } else {
    const double edge = 1 - charges.edge / shape.inner;
    least = std::min({least, three * edge - 2 * side, a * edge - side});
  }
  if (floor.corners == 0) return least;
  const double corner = charges.corner;
  return std::min({least, with_edge * edges + corner - 3 * side, a * edges + corner - 2 * side,
                   a * edges + 2 * corner - 3 * side});
}

/// A few charges of the edge and of turns that mostly do best; for each, all sides and corners.
class Search {
 public:
  Search(const Floor& floor, const std::vector<Member>& members)
      : floor_{&floor}, members_{&members} {
    for (const Member& member : members) {
      const double unit = member.disc > 0 ? member.disc : std::sqrt(member.all.area / kPi);
      unit_ = std::max(unit_, unit);
      convex_ = convex_ || member.beside.area > 0 || member.all.area > 0;
    }
  }

  Crowd run(Looks looks) {
    look(0, 0);
    if (looks == Looks::plain) return Crowd{*floor_, best_};
    if (convex_) look(kEdge, 0);
    look(kEdge, kTurn);  // where turns are charged, convex shapes count as the discs in them
    return Crowd{*floor_, best_};
  }

 private:
  static constexpr double kEdge = 0.12, kTurn = 0.25;

  /// In units of the largest radius.
  void look(double edge, double turn) {
    constexpr std::array<double, 8> sides{0.02, 0.04, 0.06, 0.08, 0.1, 0.1208, 0.14, 0.17};
    constexpr std::array<double, 9> corners{0, 0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5};
    const double square = unit_ * unit_;
    Charges charges;
    charges.edge = edge * unit_;
    charges.turn = turn * square;
    std::vector<std::optional<EdgeCells>> cells(members_->size());
    for (std::size_t i = 0; i < cells.size(); ++i) {
      const double r = (*members_)[i].disc;
      if (r > 0 && charges.edge <= r / 2) cells[i].emplace(*floor_, r, charges);
    }
    for (const double side : sides) {
      charges.side = side * square;
      for (const double corner : corners) {
        charges.corner = corner * square;
        const double part = part_of_whole(cells, charges);
        if (part > most_) {
          most_ = part;
          best_ = charges;
        }
        if (floor_->corners == 0) break;
      }
    }
  }

  double part_of_whole(const std::vector<std::optional<EdgeCells>>& cells,
                       const Charges& charges) const {
    const double whole = whole_of(*floor_, charges);
    if (whole <= 0) return 0;
    double sum = 0;
    for (std::size_t i = 0; i < cells.size(); ++i) {
      const Member& member = (*members_)[i];
      double share = 0;
      if (cells[i]) {
        share = std::min(inside(member.disc, charges.side),
                         cells[i]->least(charges.side, charges.corner));
      }
      if (charges.turn <= 0) {
        if (member.beside.area > 0)
          share += std::max(0.0, convex_share(*floor_, member.beside, charges));
        if (member.all.area > 0)
          share = std::max(share, convex_share(*floor_, member.all, charges));
      }
      sum += member.count * std::max(0.0, share);
    }
    return sum / whole;
  }

  const Floor* floor_;
  const std::vector<Member>* members_;
  double unit_ = 1e-3;
  bool convex_ = false;
  double most_ = 0;
  Charges best_;
};

}  // namespace

double Crowd::share(double radius) const {
  if (charges_.edge > radius / 2) return 0;
  const double least =
      std::min(inside(radius, charges_.side),
               EdgeCells{*floor_, radius, charges_}.least(charges_.side, charges_.corner));
  return std::clamp(least * (1 - kSafety), 0.0, std::max(0.0, whole()));
}

double Crowd::share(const Convex& shape) const {
  if (charges_.turn > 0 || shape.area <= 0) return 0;
  return std::clamp(convex_share(*floor_, shape, charges_) * (1 - kSafety), 0.0,
                    std::max(0.0, whole()));
}

double Crowd::whole() const { return whole_of(*floor_, charges_); }

Crowd best_crowd(const Floor& floor, const std::vector<Member>& members, Looks looks) {
  return Search{floor, members}.run(looks);
}

}  // namespace placer::loading
