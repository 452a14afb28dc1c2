/// @file support.h
/// Where the posts of a column stand: three or four, in line from the floor to the top shelf.
#pragma once

#include <vector>

#include "loading/site.h"

namespace placer::loading {

/// Every kind of post's foot laid over one another, about the middle.
Footprint widest_foot(const Kiln& kiln);

/// Sets `posts` of all the sites of one column, the same for each: those of the file, or three or
/// four near the rim that carry the shelf's middle well. A site that they do not suit gets
/// `trouble`.
void set_posts(const Batch& batch, double gap, std::vector<Site>& sites);

/// Sets `posts` of a bridge's sites: those of all the columns that it lies over. A site that does
/// not rest on them all gets `trouble`.
void set_posts_of_bridge(const Batch& batch, const std::vector<std::vector<Site>>& columns,
                         std::vector<Site>& sites);

}  // namespace placer::loading
