/// @file batch_sheet.h
/// The sheet over all firings: what goes into which, furniture, days.
#pragma once

#include <vector>

#include "report/blocks.h"

namespace placer::report {

/// Pages for a batch of several firings, or of none; empty for a single firing, whose first page
/// tells it all.
std::vector<Page> batch_pages(const Desk& desk);

/// What the planner remarks, a block a sentence.
std::vector<Block> remark_blocks(const Desk& desk, double width);

}  // namespace placer::report
