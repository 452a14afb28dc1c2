/// @file piece_list.h
/// The list beside a plan: a box to tick, numbers, name, glaze, height; like pieces on one line.
#pragma once

#include <string>
#include <vector>

#include "report/plan_view.h"

namespace placer::report {

/// Like pieces of a level.
struct SheetLine {
  std::vector<int> numbers;  ///< rising
  std::string name;
  std::string detail;  ///< glaze, height, how a stack is built
  int hatching = 0;
};

/// In the order of their first numbers.
std::vector<SheetLine> sheet_lines(const Desk& desk, const ShelfView& view);

/// "1 to 6", "1 2 5": runs of three and more are shortened.
std::string numbers_words(const std::vector<int>& numbers);

double line_height(const Desk& desk, const SheetLine& line, double width);
void draw_line(Page& page, const Desk& desk, const SheetLine& line, Point top_left, double width);

/// Draws lines from `first` into columns of the room until they are full; returns the first line
/// that found no place (lines.size() when all did).
std::size_t draw_list(Page& page, const Desk& desk, const std::vector<SheetLine>& lines,
                      std::size_t first, const Room& room, int columns);
/// The same without ink.
std::size_t list_fits(const Desk& desk, const std::vector<SheetLine>& lines, std::size_t first,
                      const Room& room, int columns);

}  // namespace placer::report
