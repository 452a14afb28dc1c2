/// @file legend.h
/// What the hatchings and signs on a plan mean.
#pragma once

#include "report/blocks.h"
#include "report/plan_view.h"

namespace placer::report {

/// Glazes first, then the signs that this plan has.
std::vector<Block> legend(const Desk& desk, const ShelfView& view, double scale, double width);

}  // namespace placer::report
