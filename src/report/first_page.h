/// @file first_page.h
/// The page that comes before the shelves: what was left out, the whole kiln, what to fetch.
#pragma once

#include <vector>

#include "report/blocks.h"

namespace placer::report {

/// One page, and more when its lists are long. Without page numbers.
std::vector<Page> first_pages(const Desk& desk, std::size_t firing);

/// One block for each kind left out: how many, what, and why.
std::vector<Block> left_out_blocks(const Desk& desk, const std::vector<LeftOut>& left_out,
                                   double width);

}  // namespace placer::report
