/// @file piece_list.h
/// The list beside a plan: a box to tick, numbers, name, glaze, height; like pieces on one line.
#pragma once

#include <string>
#include <vector>

#include "report/blocks.h"
#include "report/plan_view.h"

namespace placer::report {

/// "1–6", "1 2 5": runs of three and more are shortened.
std::string numbers_words(const std::vector<int>& numbers);

/// One block a line, in setting order.
std::vector<Block> piece_list(const Desk& desk, const ShelfView& view, double width);

/// A line with a box to tick: words, and a smaller line below.
Block tick_line(const Desk& desk, const std::string& words, const std::string& detail,
                double width);

}  // namespace placer::report
