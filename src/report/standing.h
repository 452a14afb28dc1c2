/// @file standing.h
/// What stands on a shelf, as every drawing, list and page of it needs to know.
#pragma once

#include <vector>

#include "placer/report/report.h"

namespace placer::report {

/// Pieces of the lowest kind in a stack; a pot with its lid on is no stack: 1.
int like_ones(const PlacedPiece& piece);

/// True in a glaze firing when a glaze of what stands there may run: it needs a cookie under it.
bool needs_cookie(const Batch& batch, const KilnLoad& load, const PlacedPiece& piece);

/// Heights over the shelf at which one piece of the stack ends and the next begins, rising; none
/// for a single piece and for a row on edge.
std::vector<Length> joints(const Batch& batch, const KilnLoad& load, const PlacedPiece& piece);

/// True when the pieces of the stack stand side by side on edge.
bool on_edge(const Batch& batch, const PlacedPiece& piece);

/// Levels of one column from the bottom up, bridges over it among them.
std::vector<const Level*> levels_of(const Batch& batch, const KilnLoad& load, int column);

/// Posts on the floor that carry the lowest shelf of a column, or a bridge.
std::vector<PlacedPost> feet_under(const Batch& batch, const KilnLoad& load, const Level& lowest);

/// True for a shelf with nothing on it, not even cones, that only lifts a larger one across columns.
bool only_lifts(const Kiln& kiln, const KilnLoad& load, const Level& level);

/// The tallest that stands on a level; 0 when nothing does.
Length tallest_on(const Level& level);

}  // namespace placer::report
