/// @file laying_out.h
/// From a profile's steps and a top temperature to segments, and back to a history. Internal.
#pragma once

#include "placer/firing/heat_work.h"
#include "placer/firing/schedule.h"

namespace placer::firing {

struct LaidOut {
  std::vector<Segment> segments;
  std::size_t top_segment = 0;
  std::vector<std::string> left_out;  ///< stages that lie above the top or do not rise
};

/// @param soak replaces the profile's own hold at the top when it is over zero.
/// @param reduction_from moves the start of the body reduction and its end with it.
LaidOut lay_out(const Profile& profile, Temperature start, Temperature top, Hours soak,
                std::optional<Temperature> reduction_from);

/// The clear flame after the top. The burner is still on: the heat goes off when it ends.
bool is_clean_up(const std::string& stage);

/// Straight lines through the segments, natural ones at their guessed rate.
History history_of(Temperature start, const std::vector<Segment>& segments);

/// Rate over the last 100 °C of the climb that ends with segment `top_segment`.
Ramp final_rate(Temperature start, const std::vector<Segment>& segments, std::size_t top_segment);

}  // namespace placer::firing
