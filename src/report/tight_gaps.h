/// @file tight_gaps.h
/// Where pieces stand as near each other as the rules allow.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "placer/report/report.h"

namespace placer::report {

/// One of them, kiln coordinates, from edge to edge.
struct TightGap {
  Point from, to;
  double small = 0;    ///< mm: radius of the roomiest circle in the smaller of the two pieces
  bool runny = false;  ///< one of the two has a glaze that may run: more room is asked for
};

/// What the tight gaps of a shelf ask for.
struct TightGaps {
  std::vector<TightGap> bars;
  bool everywhere = false;                   ///< too many to mark one by one
  std::optional<Length> least, least_runny;  ///< narrowest without and with a runny glaze
};

/// Gaps within 1 mm of the rule; none in a bisque firing whose pieces may touch.
TightGaps tight_gaps(const Batch& batch, const KilnLoad& load, const Level& level);

/// "6 mm, a pencil's width": what to hold between two pots in place of a ruler. Widths of a pencil
/// (7 mm), a little finger (12 mm) and a finger (15 to 20 mm): common knowledge, no source.
std::string gap_words(Length gap, bool inches);

/// A line for the key of a map; each kind of gap has a mark of its own.
struct TightLine {
  std::string words;
  bool runny = false;
};

/// "tight: 6 mm, a pencil's width, no less", and one more where a glaze runs; sentences when they
/// are everywhere; none without tight gaps.
std::vector<TightLine> tight_words(const TightGaps& tight, bool inches);

}  // namespace placer::report
