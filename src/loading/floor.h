/// @file floor.h
/// A shelf's ground as a proof sees it: convex, and larger all round by what the pieces' gaps may
/// hang over its edge. Never smaller than the truth.
#pragma once

#include <optional>
#include <vector>

#include "loading/site.h"

namespace placer::loading {

struct Floor {
  std::optional<Disc> round;   ///< its edge runs along this disc's
  Disc around;                 ///< it lies inside this disc
  std::vector<Point> normals;  ///< and on the inner side of lines: normal · p <= reach
  std::vector<double> reaches;
  Outline edge;  ///< drawn round its arcs
  double area = 0;
  double perimeter = 0;
  int corners = 0;                       ///< where it has no tangent
  double least_turn = 0, most_turn = 0;  ///< of the edge at a corner, rad
  int lines = 0;                         ///< straight stretches from corner to corner
  double straight = 0, arc = 0;  ///< shortest stretches of edge from corner to corner; 0: none
  double beyond = 0;  ///< how far its lines lie beyond the middle of `round`, at most; mm
};

/// The site's ground without keep-outs, grown by `halo`. No corners in `edge` when there is none.
Floor floor_of(const Site& site, double halo);

/// A round floor that is cut by lines: for the line nearest to its middle, a round floor that holds
/// the ground and its mirror image in that line. nullopt when it is not round or not cut.
std::optional<Floor> mirrored(const Floor& floor);

/// Where the middles of discs may be that lie inside the floor.
Outline middles_on(const Floor& floor, double radius);

/// True when all of the first lies on the second.
bool lies_on(const Floor& inner, const Floor& outer);

double perimeter_of(const Outline& outline);

}  // namespace placer::loading
