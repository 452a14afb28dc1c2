/// @file upright.h
/// What the views from the side share: heights onto paper, the chamber, its shelves.
#pragma once

#include <vector>

#include "report/sheet.h"

namespace placer::report {

constexpr double kRoofWords = 5;  ///< mm for the words over the roof

/// Heights of the kiln onto y of the paper.
struct Upright {
  double floor_y = 0;
  double scale = 1;  ///< kiln mm per paper mm
  double operator()(Length z) const { return floor_y - z.mm() / scale; }
};

/// The chamber as high as the room, less the words over its roof.
Upright upright_in(const Desk& desk, const Room& room);

/// Walls, floor, roof; dashes under what is kept free below the roof.
void draw_chamber(Page& page, const Desk& desk, double left, double right, const Upright& up);

void draw_shelf_bar(Page& page, const Desk& desk, const Level& level, double left, double right,
                    const Upright& up, bool black);

/// Base lines of blocks of words that end at `wanted` (from the bottom up, so y falls) and are
/// `heights` high: pushed up where they crowd, then down again from `top`.
std::vector<double> spread(std::vector<double> wanted, const std::vector<double>& heights,
                           double top);

}  // namespace placer::report
