/// @file keep_outs.h
/// Places to keep clear, as far as they matter to one shelf; and the sign of each kind.
#pragma once

#include <string>
#include <vector>

#include "placer/report/report.h"

namespace placer::report {

/// A triangle, a crossed ring, a wedge, a barred square.
enum class Sign { cones, sensor, spy_hole, other };

/// From the word in the studio file, large or small letters.
Sign sign_of(const KeepOut& keep_out);

/// True when it reaches into these heights.
bool reaches(const KeepOut& keep_out, Length from, Length to);

/// Keep-outs that reach the room over this shelf and come near it.
std::vector<const KeepOut*> keep_outs_here(const Batch& batch, const Level& level);

/// True when some of it lies over the shelf; else it only stands beside.
bool lies_over(const Batch& batch, const Level& level, const KeepOut& keep_out);

/// Height over the shelf at which it begins; 0 when it begins at the shelf or below.
Length begins_over(const Level& level, const KeepOut& keep_out);

/// False for a place kept for cones that stand on another shelf: only room is kept for them here.
bool stands_here(const Level& level, const KeepOut& keep_out);

/// For the key of a map: "spy hole: keep clear", "sensor: keep clear from 122 mm up", "flue, beside
/// the shelf". `cones`: a cone pack stands before this spy hole.
std::string keep_out_words(const Batch& batch, const Level& level, const KeepOut& keep_out,
                           bool cones, bool inches);

}  // namespace placer::report
