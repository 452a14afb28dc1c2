/// @file events.h
/// The moments of a firing at which something must be done. Internal to firing.
#pragma once

#include <optional>

#include "placer/firing/forecast.h"

namespace placer::firing {

/// @param source what heats the kiln; none when nothing is known of it. A fuel kiln is turned by
///   hand: each change of its fire is a moment of its own.
std::vector<Event> events_of(const Forecast& answer, std::optional<HeatSource> source);

}  // namespace placer::firing
