/// @file job.h
/// All that is the same for every load of one firing, and the room on a shelf.
#pragma once

#include <cstdint>
#include <limits>
#include <vector>

#include "loading/shed.h"
#include "loading/site.h"
#include "loading/sorts.h"
#include "placer/loading/loading.h"

namespace placer::loading {

struct Job {
  const Batch* batch = nullptr;
  int load = 0;
  FiringKind kind = FiringKind::glaze;
  Clearances clearances;
  std::vector<Sort> sorts;
  std::vector<std::vector<Site>> columns;  ///< sites of each, the best shelf first
  std::vector<std::vector<Site>> bridges;  ///< likewise of each bridge
  std::vector<char> needs_bridge;  ///< of each sort: no column's own shelf takes it, a bridge does
  std::vector<PostHeight> heights;
  /// Of one piece of each sort: the height of column that a level of nothing else takes, over the
  /// pieces on such a level. A level well used is worth as much as the height that it takes.
  std::vector<double> worth;
  std::vector<double> holds;         ///< stacks of the sort on an ordinary shelf of nothing else
  std::vector<int> best_stack;       ///< pieces in each stack of such a level
  std::vector<double> level_height;  ///< of such a level with its shelf, mm
};

Job job_of(const Batch& batch, int load);

/// Tops of pieces stay under this.
Length lid(const Kiln& kiln);

/// Ground of a piece with half the gap all round, mm²: what it uses up of a shelf.
double ground_used(const Footprint& shape, double gap);

/// What a shelf offers.
struct Room {
  const Site* site = nullptr;
  int level = 1;
  int round = 1;
  Region ground;  ///< with everything to keep clear of
  Length low;     ///< the shelf's surface
  Length clear;   ///< for pieces: the air under a shelf is already taken off
  double gap = 0;
  double runny_gap = 0;
  double most_kg = std::numeric_limits<double>::infinity();  ///< of ware that may yet be set here
};

/// Room on a site's shelf from its surface up to the next shelf or the lid.
Room room_on(const Job& job, const Site& site, Length low, Length high,
             const std::vector<PlacedPost>& posts);

/// Where a level's shelf lies; nullptr when it may not lie there.
const Site* site_of(const Job& job, const Level& level);

/// The shelf that a column uses where any may lie: the best that there are posts for; nullptr when
/// there is none.
const Site* usual_site(const Job& job, int column);

/// Room on a shelf at any height up to the lid; open, or with posts of any kind on it.
Room room_at_any_height(const Job& job, const Site& site, bool open);

/// What so many pieces of each sort are worth, mm of column.
double worth_of(const Job& job, const std::vector<int>& pieces);

/// Whether a stack of the sort may stand on that shelf as far as height, weight and wishes go (not
/// side, place or company).
bool may_stand(const Job& job, const Sort& sort, int stack, const Room& room);

}  // namespace placer::loading
