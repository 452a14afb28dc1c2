/// @file packing.h
/// The 2D engine: how to set footprints in a region so that nothing comes nearer than the gap.
/// Knows no kilns and no pots. All lengths in mm. Shapes are exact: discs stay discs.
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "placer/geometry/shape.h"

namespace placer::packing {

/// Shapes of one kind, all alike.
struct Item {
  Footprint shape;                ///< about its own origin
  int count = 1;                  ///< >= 0
  double value = 0;               ///< of one; 0 = its area
  std::vector<double> turns_deg;  ///< the turns allowed; empty = free turning
  double halo = 0;                ///< extra room kept round it: gap to another is gap + both halos
};

struct Problem {
  Region region;        ///< with its keep-outs
  double gap = 0;       ///< shape to shape and shape to keep-out, >= 0
  double edge_gap = 0;  ///< shape to the region's edge, >= 0
  std::vector<Item> items;
};

/// glance: rows and a first fill, about a millisecond. quick, normal, thorough: about 0.15 s, 0.8 s
/// and 8 s of one core for one region.
enum class Effort { quick, normal, thorough, glance };

struct Place {
  int item = 0;  ///< index into Problem::items
  Placement at;
};

struct Options {
  // changes the answer
  Effort effort = Effort::normal;  ///< a number of steps, never of seconds
  std::uint64_t seed = 0;
  std::uint64_t steps =
      0;  ///< instead of the effort's own; about one a nanosecond; 0 = the effort's
  std::vector<Place> start;  ///< places known to do: the answer is never worse. Those that do not
                             ///< stand, or are more than the supply, are passed over
  // changes the time
  int threads = 1;                       ///< 1 or 2; the answer is the same
  std::function<bool()> stop = nullptr;  ///< asked now and then; true = best so far, now
};

struct Packing {
  std::vector<Place> places;
  double least_gap = 0;  ///< smallest shape-to-shape or shape-to-keep-out gap less the gap (and
                         ///< halos) asked, or inset less the edge gap; >= 0 always; +inf if empty
  double value = 0;      ///< sum of the values placed
  bool orderly = false;  ///< set in straight rows
  std::string pattern;   ///< "5 rows of 6", "rows of 6 and 5 by turns"; "" when not orderly
};

/// As many of the single item as can be found (at most its count).
/// @throws std::invalid_argument when there is not exactly one item, or a size, gap, count or
///   angle makes no sense (naming the value).
Packing most_pieces(const Problem& problem, const Options& options = {});

/// As many of the single item as straight rows hold (square, by turns, or beside one another), with
/// the rows named; no search. @throws as most_pieces
Packing in_rows(const Problem& problem);

/// The most value from a mixed supply. Items left over are allowed.
Packing most_value(const Problem& problem, const Options& options = {});

/// All of the supply on as few of the regions as can be found, used in the order given (an
/// unlimited number of copies of the last one). Items that fit in no region at all are left out.
std::vector<Packing> fewest_regions(const std::vector<Problem>& regions,
                                    const std::vector<Item>& supply, const Options& options = {});

/// A proven upper bound on how many pieces of the single item any packing can hold.
/// @source N. Oler, "An inequality in the geometry of numbers", Acta Math. 105 (1961), for discs;
///   area of the dilated shape otherwise
int most_possible(const Problem& problem);
/// A proven upper bound on the value placed from a mixed supply (area argument).
double most_value_possible(const Problem& problem);

/// A proven lower bound on how many copies of the region the whole supply needs (area argument).
int fewest_possible(const Problem& region, const std::vector<Item>& supply);

/// True when the shape alone can stand somewhere in the region (searched, exact when found).
bool fits_alone(const Problem& problem, int item);

}  // namespace placer::packing
