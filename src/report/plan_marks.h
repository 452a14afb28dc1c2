/// @file plan_marks.h
/// What is drawn onto the plan of a shelf, kind by kind.
#pragma once

#include <vector>

#include "report/keep_outs.h"
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

/// Dashes round what must be kept clear over the shelf.
void draw_keep_out_rings(Plan& plan);
/// Its sign and its name, clear of the cones.
void draw_keep_out_signs(Plan& plan);

/// The sign of a keep-out alone.
void draw_sign(Page& page, Sign sign, Point middle, double size);

/// A thin dotted line from each cone pack to the spy hole that must see it; under the pieces.
void draw_sight_lines(Plan& plan);
/// The cone packs themselves.
void draw_cone_packs(Plan& plan);

/// Outlines, hatching, stacks, then all numbers and the drops of runny glazes.
void draw_pieces(Plan& plan);

/// A drop: the glaze runs, a cookie goes under it. `middle` of its round part.
void draw_drop(Page& page, Point middle, double radius);

/// Two black arrow heads that meet at every gap that is as narrow as the rules allow (not in
/// bisque, where pieces may touch). When many gaps are, none: a sentence in the key says so.
void draw_tight_gaps(Plan& plan);
/// One such mark, from edge to edge.
void draw_pinch(Page& page, Point from, Point to, double size, bool runny);

/// True when many pieces are smaller on paper than a number to be read at arm's length.
bool has_small_numbers(const Desk& desk, const ShelfView& view, double scale);

/// The size of a number that fits into the spot, or nothing.
std::optional<double> number_size(const Desk& desk, const std::string& number, const Disc& spot);

/// True when two pieces of paper share some.
bool overlap(const Box& a, const Box& b);

}  // namespace placer::report
