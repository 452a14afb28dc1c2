/// @file setting.h
/// One load of the kiln built up: columns, levels, posts and what stands on them.
#pragma once

#include <vector>

#include "loading/fill.h"
#include "loading/shed.h"
#include "loading/site.h"
#include "placer/model/load_plan.h"

namespace placer::loading {

/// All that is the same for every load of one firing.
struct Job {
  const Batch* batch = nullptr;
  int load = 0;
  FiringKind kind = FiringKind::glaze;
  Clearances clearances;
  std::vector<Sort> sorts;
  std::vector<std::vector<Site>> columns;  ///< sites of each, the best shelf first
  std::vector<PostHeight> heights;
  Effort effort = Effort::normal;
  int threads = 1;
};

Job job_of(const Batch& batch, int load, Effort effort, int threads);

/// Where the lowest shelf's surface is at least, and the room under the lid counts from there.
Length lid(const Kiln& kiln);

/// Room on a site's shelf between two heights; `low` is the shelf's surface.
Room room_on(const Job& job, const Site& site, Length low, Length high,
             const std::vector<PlacedPost>& posts);

/// Fills one load of the kiln from `left`, taking off what it sets.
KilnLoad set_load(const Job& job, std::vector<int>& left);

}  // namespace placer::loading
