/// @file firing_blocks.h
/// The parts of a firing sheet, each for the width of a portrait page.
#pragma once

#include <optional>

#include "report/blocks.h"
#include "report/fire_clock.h"

namespace placer::report {

constexpr double kSheetWidth = kShortSide - 2 * kMargin;

/// One firing of a subject.
struct Fire {
  const Desk& desk;
  const firing::Forecast& forecast;
  FireClock clock;
};

/// The names over the columns of the steps.
Block steps_head(const Fire& fire);
/// One block a step: figures, two empty boxes, then what to do and what to mind.
/// @param smaller how much smaller the words are set than usual, 0 to 0.15 of their size.
std::vector<Block> step_blocks(const Fire& fire, double smaller = 0);

/// The planned curve on a grid of 1 h by 100 °C, with a band for a tenth early or late.
/// @param height of it all, mm.
Block curve_block(const Fire& fire, double height);

/// Rows of an hour each with empty boxes, in two tables side by side.
Block log_block(const Fire& fire);

/// START with room to write, and what must be seen to before.
Block start_block(const Fire& fire);
/// A paragraph; `heading` in bold before it (may be empty).
Block paragraph(const Desk& desk, const std::string& heading, const std::string& words,
                double size);
/// When somebody must be at the kiln, a line a moment with its time in front; nothing when the
/// forecast names no such moment.
std::optional<Block> be_there_block(const Fire& fire, double size);
/// OFF, and the earliest opening: on the first page, where it cannot be missed.
Block off_block(const Fire& fire);
/// Energy and cost, and room to write for the next time.
Block next_time_block(const Fire& fire);

}  // namespace placer::report
