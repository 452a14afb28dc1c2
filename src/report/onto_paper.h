/// @file onto_paper.h
/// From the kiln to the paper, and shapes drawn there.
#pragma once

#include "placer/geometry/shape.h"
#include "report/drawing.h"
#include "report/sheet.h"

namespace placer::report {

/// From kiln coordinates (mm, y to the back) to the paper (mm, y down): far is up.
struct OntoPaper {
  Point far_left;    ///< kiln
  Point origin;      ///< the same point on the paper
  double scale = 1;  ///< 1 : scale

  Point operator()(Point p) const;
  Outline operator()(Outline outline) const;
  Footprint operator()(const Footprint& shape) const;
};

/// The outline of all parts together, as heavy as `line`.
void draw_union(Page& page, const Footprint& shape, double line, Fill fill);
/// White, with a line along the inner side of its edge: shapes that touch keep their outlines.
void draw_inside(Page& page, const Footprint& shape, double line);
/// A ring of dashes along the outer edge of all parts, as far as it lies in the room.
void draw_dashed_ring(Page& page, const Footprint& shape, const Room& room);
/// The same, no dashes, thin: for what is seen inside a piece.
void draw_thin(Page& page, const Footprint& shape);

/// The edge of a shape as runs of points, `step` mm apart at most; parts of the edge that lie
/// inside another part are left out.
std::vector<std::vector<Point>> edge_runs(const Footprint& shape, double step);

/// The roomiest spot of a shape: a circle that lies inside one of its parts.
Disc roomiest(const Footprint& shape);

}  // namespace placer::report
