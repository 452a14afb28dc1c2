/// @file calibration.h
/// What a past firing teaches about a kiln.
///
/// The log's temperatures are laid on the model, so that its walls and load are as hot as they were
/// when the heat went off; then three things are fitted, as far as the log holds them:
/// - cooling from 50 °C under the top to 150 °C: conductivity and heat capacity of the wall, least
///   squares of the temperatures (Gauss-Newton with a prior of a factor 1.5 on conductivity
///   and 1.25 on capacity, which are about the spread between makes of brick);
/// - the meter's reading, if given: what the source delivers against what was drawn;
/// - the steepest climb kept for half an hour: the kiln can give at least that much.
/// The load, furniture and leaks are taken as described; what they are wrong by goes into the
/// factors. The band left is the scatter of the fit and 8 % for those, never below 8 %.
#pragma once

#include <optional>

#include "placer/firing/forecast.h"
#include "placer/firing/log.h"

namespace placer::firing {

struct Calibrated {
  Learnt learnt;
  Warming cooling_miss{0};         ///< rms of the fitted cooling curve
  Warming cooling_miss_before{0};  ///< rms of the defaults
  Energy climb_heat{0};            ///< heat that the climb took, by the fitted model
  Power at_least{0};               ///< steepest heat kept for half an hour
  std::size_t rows_used = 0;
  std::vector<Finding> findings;  ///< what the log could not tell
};

/// @param meter energy drawn from start to heat off: from the meter, or fuel times its lower
/// heating
///   value.
/// @throws std::invalid_argument for a log of fewer than two rows.
Calibrated calibrate(const KilnBuild& kiln, const HeatLoad& load, const FiringLog& log,
                     std::optional<Energy> meter = std::nullopt);

}  // namespace placer::firing
