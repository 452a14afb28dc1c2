/// @file events.h
/// The moments of a firing at which something must be done. Internal to firing.
#pragma once

#include "placer/firing/forecast.h"

namespace placer::firing {

std::vector<Event> events_of(const Forecast& answer);

}  // namespace placer::firing
