/// @file plan_marks.h
/// What is drawn onto the plan of a shelf, kind by kind.
#pragma once

#include <vector>

#include "report/onto_paper.h"
#include "report/plan_view.h"

namespace placer::report {

/// A plan while it is drawn.
struct Plan {
  Page& page;
  const Desk& desk;
  const ShelfView& view;
  OntoPaper onto;
  Room room;               ///< nothing of the plan may leave it
  std::vector<Box> taken;  ///< by words and signs so far
};

/// Keep-outs that reach the height of this shelf and come near it.
std::vector<const KeepOut*> keep_outs_here(const Desk& desk, const ShelfView& view);
/// A dashed ring, its sign and its name.
void draw_keep_outs(Plan& plan);

/// The sign of a keep-out alone: a triangle for cones, a crossed ring for a sensor, a wedge for a
/// spy hole, a barred square for the rest.
void draw_sign(Page& page, const std::string& what, Point middle, double size);

/// Outlines, hatching, stacks, then all numbers.
void draw_pieces(Plan& plan);

/// A bar across every gap that is as narrow as the rules allow (not in bisque, where pieces may
/// touch). When many gaps are, no bars: a sentence in the legend says so.
void draw_tight_gaps(Plan& plan);

/// What the tight gaps of a shelf ask for.
struct TightGaps {
  std::vector<std::pair<Point, Point>> bars;  ///< kiln coordinates, across each gap
  bool everywhere = false;                    ///< too many to mark
  Length least;                               ///< narrowest of them
};
TightGaps tight_gaps(const Desk& desk, const ShelfView& view);

/// True when many pieces are smaller on paper than a number to be read at arm's length.
bool has_small_numbers(const Desk& desk, const ShelfView& view, double scale);

/// The size of a number that fits into the spot, or nothing.
std::optional<double> number_size(const Desk& desk, const std::string& number, const Disc& spot);

}  // namespace placer::report
