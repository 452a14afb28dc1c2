/// @file crowd.h
/// How densely discs of several sizes can stand in a convex ground.
#pragma once

#include "loading/floor.h"

namespace placer::loading {

/// Share the ground among discs that do not overlap so that each has a convex cell (their power
/// diagram). A cell of radius r with s straight sides covers at least s tan(pi / s) r². A plane map
/// of N cells has few sides: the sides between cells, and twice the pieces of the ground's edge,
/// are together at most 6 N - 6. (Shapes other than discs have such cells too: grow them, convex,
/// until none can grow; what is left between has no part of the edge.) So every side may be charged
/// `side` beyond six, every mm of edge credited `edge`, every corner charged `corner`, and what a
/// disc then needs at least is its share: for all N >= 2 discs, sum of shares <= area - 6 side -
/// edge * perimeter + corner * corners. With discs alike this is as good as Oler's inequality.
/// @source the cells and their sides: L. Fejes Tóth, "Lagerungen in der Ebene" (1953), from memory;
///   the edge worked out here
class Crowd {
 public:
  /// @param side mm² >= 0; @param edge mm, of 0 to half the radius of the smallest disc asked for;
  /// @param corner mm² >= 0
  Crowd(const Floor& floor, double side, double edge, double corner)
      : floor_{&floor}, side_{side}, edge_{edge}, corner_{corner} {}

  /// The least that a disc needs; 0 for those too small for this `edge`.
  double share(double radius) const;
  /// The least that a rectangle (or any four-sided shape round its middle) of this area needs,
  /// where the edge is credited nothing: no cell is smaller than what stands in it.
  double share_of_area(double area) const;
  /// What all together cannot exceed.
  double whole() const;

 private:
  const Floor* floor_;
  double side_, edge_, corner_;
};

/// The charges that leave least room for discs of this radius. @param credit whether the edge is
/// credited anything.
Crowd best_crowd(const Floor& floor, double radius, bool credit = true);

}  // namespace placer::loading
