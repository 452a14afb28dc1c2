/// @file edge_cells.h
/// What the cell of a disc at the edge of a convex ground covers at least.
#pragma once

#include <vector>

#include "loading/floor.h"

namespace placer::loading {

/// What a proof takes for the parts of a plane map of cells; all >= 0.
struct Charges {
  double side = 0;    ///< mm², for each side of a cell beyond six; a stretch of edge counts two
  double edge = 0;    ///< mm, credited for each mm of the ground's edge
  double corner = 0;  ///< mm², for each corner of the ground inside a cell's edge
  double turn = 0;    ///< mm² for a rad, of what sides and edge meet in beyond a right angle
};

/// A disc's cell is seen from the disc's middle as straight sides, each at least the radius away,
/// and stretches of the ground's edge. Stretches hang together in arcs; an arc has one stretch more
/// than there are corners of the ground inside it, and its stretches between two corners are whole
/// lengths of edge. The least area with all charges is looked for over the angles under which these
/// are seen: for any rate in mm² for a rad, what each of them covers beyond that rate at least, and
/// the rate for the whole turn, are together no more than what the cell covers.
/// - With p >= r the distance from the disc's middle to the edge's tangent, the edge covers
///   (p / 2 - edge) p / cos²(slant) for a rad, never less than where the disc touches it.
/// - Where a side ends on the edge, both slant away from a right angle there by what is seen of
///   them from the foot of the perpendicular on; two cells that share the side have two right
///   angles between them, so that no charge is left over.
/// - The feet of the perpendiculars on two stretches that meet in a corner are seen the corner's
///   turn apart, and tan a + tan(turn - a) is least half way.
/// - A straight line has one stretch in a cell. Of two lines that are no neighbours, the disc can
///   be near to one alone.
/// @source worked out here; held against known packings in corners, in rows and at random
class EdgeCells {
 public:
  /// @param r of the disc, mm. charges.edge at most half of r; side and corner are not looked at.
  EdgeCells(const Floor& floor, double r, const Charges& charges);

  /// mm², all charges in it.
  double least(double side, double corner) const;

 private:
  /// Cells with so many sides, arcs and corners, and what they cover at least, in r².
  struct Sort {
    int sides, arcs, corners;
    double covers;
  };
  double square_;
  std::vector<Sort> sorts_;
};

}  // namespace placer::loading
