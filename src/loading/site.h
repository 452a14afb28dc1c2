/// @file site.h
/// Where a kind of shelf lies in a column, seen from above: the ground that pieces may use, and
/// where the posts stand.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "placer/model/batch.h"

namespace placer::loading {

/// Arcs reach a file as chords that lie up to 0.01 mm inside them: a site's ground is this much
/// smaller at its arcs, so that pieces stay inside the chords.
constexpr double kChord = 0.02;

/// A kind of shelf in a column, or across several. Kiln coordinates.
struct Site {
  int column = 0;
  int bridge = -1;  ///< it lies across columns, of which `column` is the first
  int shelf = 0;
  Region ground;   ///< the shelf where it is far enough from the wall; its keep-outs are what the
                   ///< pieces of neighbouring columns may need
  Footprint slab;  ///< the shelf itself; arcs as chords
  std::vector<Point> posts;
  std::string trouble;  ///< why it cannot be used; "" = it can
};

/// The sites of a column, the best shelf first. Pieces keep `gap` from each other across columns;
/// `far` is the most that any two may ask for.
std::vector<Site> sites_of(const Batch& batch, int column, double gap, double far);

/// The sites of a bridge, whose posts are those of the columns that it lies over. @param columns
/// the sites of every column.
std::vector<Site> sites_of_bridge(const Batch& batch, int bridge, double gap, double far,
                                  const std::vector<std::vector<Site>>& columns);

/// Where the middle of a disc may be that lies wholly inside a region without notches: a region
/// itself, its keep-outs left out; nullopt when there is no such place.
std::optional<Region> middles_of(const Region& region, double radius);

/// The kiln's keep-outs for pieces between two heights.
std::vector<Footprint> keep_outs_between(const Kiln& kiln, Length low, Length high);

/// True when a shelf with this surface comes upon nothing of the kiln.
bool shelf_is_free(const Kiln& kiln, const Site& site, Length top);

}  // namespace placer::loading
