/// @file firing_sheet.h
/// The sheet that hangs by the kiln while it fires.
#pragma once

#include <vector>

#include "report/sheet.h"

namespace placer::report {

/// One page or more, without page numbers.
std::vector<Page> firing_pages(const Desk& desk, std::size_t firing);

}  // namespace placer::report
