/// @file crowd.h
/// How densely discs of several sizes can stand in a convex ground.
#pragma once

#include <vector>

#include "loading/edge_cells.h"
#include "loading/floor.h"

namespace placer::loading {

/// A convex shape as a cell round it sees it.
struct Convex {
  double area = 0;   ///< mm²; 0: none
  double inner = 0;  ///< radius of a disc in it, mm
  double boxed = 0;  ///< area of a rectangle in it, mm²
};

/// Share the ground among discs that do not overlap so that each has a convex cell (their power
/// diagram). A cell of radius r with s straight sides covers at least s tan(pi / s) r². A plane map
/// of N cells has few sides: the sides between cells, and twice the pieces of the ground's edge,
/// are together at most 6 N - 6. (Other convex shapes have such cells too: grow them, convex, until
/// none can grow; what is left between has no part of the edge. A handle is one beside its disc.)
/// So every cell may have the charges of edge_cells.h, and what a disc then needs at least is its
/// share: of all N >= 2, sum of shares <= area - 6 side - edge * perimeter + corner * corners. One
/// that needs less than nothing is as if it were not there. With discs alike this is about as good
/// as Oler's inequality.
/// @source the cells and their sides: L. Fejes Tóth, "Lagerungen in der Ebene" (1953), and for
///   convex shapes H. Edelsbrunner, A. Robison, X. Shen, "Covering convex sets with non-overlapping
///   polygons" (1990), both from memory; the edge and the turns worked out here
class Crowd {
 public:
  /// @param charges edge from 0 to half the radius of the smallest disc asked for
  Crowd(const Floor& floor, const Charges& charges) : floor_{&floor}, charges_{charges} {}

  /// The least that a disc needs; 0 for those too small for the credit of the edge.
  double share(double radius) const;
  /// The least that a convex shape needs, where nothing is charged for turns.
  double share(const Convex& shape) const;
  /// What all together cannot exceed.
  double whole() const;

 private:
  const Floor* floor_;
  Charges charges_;
};

/// Some that stand on a floor: each a disc with a convex shape beside it, or a convex shape, or
/// either.
struct Member {
  double disc = 0;
  Convex beside, all;
  double count = 1;
};

/// Which charges are tried: plain, where the edge is credited nothing and no turns are charged; or
/// those that mostly do best as well.
enum class Looks { plain, usual };

/// The charges by which these need most of the whole.
Crowd best_crowd(const Floor& floor, const std::vector<Member>& members, Looks looks);

}  // namespace placer::loading
