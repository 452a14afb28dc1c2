/// @file course.h
/// The line that a firing is expected to follow: the plan up to the top (or what the
/// kiln will manage, when it falls behind), then the kiln's own
/// fall (planned cooling rates are guesses, the simulated fall is not).
#pragma once

#include "placer/firing/forecast.h"

namespace placer::report {

/// When the climb and what is held at the top are over.
Hours climb_end(const firing::Forecast& forecast);

/// In °C; the ends hold outside the forecast's curve.
double course_at(const firing::Forecast& forecast, double hours);

/// The last hour worth drawing: the earliest opening.
double course_end(const firing::Forecast& forecast);

}  // namespace placer::report
