/// @file telling.h
/// Findings on standard error, each with the line that it is about.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "cli/request.h"
#include "placer/base/error.h"

namespace placer::cli {

/// Whether messages are coloured: --color, NO_COLOR, or a terminal that is not dumb.
bool wants_colour(const Request& request);

/// Tells findings that are all about one file with this text. Past a hundred the rest is counted.
void tell(const std::vector<Finding>& findings, std::string_view text, const Request& request);

/// The same for findings of several files: `file` has this text, the others are read again.
void tell(const std::vector<Finding>& findings, const std::string& file, std::string_view text,
          const Request& request);

}  // namespace placer::cli
