/// @file to_fetch.h
/// What to bring to the kiln before the first shelf goes in.
#pragma once

#include <string>
#include <vector>

#include "placer/report/report.h"

namespace placer::report {

struct FetchLine {
  std::string words;   ///< "4 shelves, rectangle 500 x 440"
  std::string detail;  ///< smaller print below; may be empty
};

/// Shelves, posts by height, cones, cookies, wax: in the order in which they are picked up.
std::vector<FetchLine> to_fetch(const Subject& subject, std::size_t firing);

}  // namespace placer::report
