/// @file shelf_page.h
/// The page to hold while one shelf is set.
#pragma once

#include <vector>

#include "report/plan_view.h"

namespace placer::report {

/// One page, and more when its list is long. Without page numbers.
std::vector<Page> shelf_pages(const Desk& desk, std::size_t firing, const Level& level);

}  // namespace placer::report
