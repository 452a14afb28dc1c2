/// @file run_in.h
/// Paragraphs that begin with some words in bold on the same line.
#pragma once

#include <string>
#include <vector>

#include "report/sheet.h"

namespace placer::report {

/// A line of such a paragraph. One with an indent stands behind the line before it.
struct RunInLine {
  double indent = 0;
  std::string words;
  Style style;
};

/// @param most mm that a line may be wide.
std::vector<RunInLine> run_in(const Desk& desk, const std::string& lead, const std::string& words,
                              double most, const Style& bold, const Style& plain);
double lines_high(const std::vector<RunInLine>& lines);
/// Returns the y below the last line.
double write_run_in(Page& page, const Desk& desk, Point top_left,
                    const std::vector<RunInLine>& lines);

}  // namespace placer::report
