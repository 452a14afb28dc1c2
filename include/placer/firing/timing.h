/// @file timing.h
/// When a firing starts on the clock: given, worked back from its finish, or moved so that nothing
/// needs doing in the quiet hours.
#pragma once

#include <string>
#include <vector>

#include "placer/firing/clock.h"
#include "placer/firing/forecast.h"

namespace placer::firing {

/// An event on the clock.
struct Appointment {
  Event event;
  long long at_utc = 0;
  LocalTime local;
  bool in_quiet = false;  ///< hands are needed in the quiet hours
};

/// Sets schedule.wish.starts_at. With a start given: that. With a finish (heat off): worked back.
/// With quiet hours the start is then moved, in steps of a quarter of an hour and by at most a day
/// (later from a given start, earlier from a given finish), to where the fewest hands-on events
/// fall into them; the nearest of equals. What is left in the quiet hours, or that it was moved, is
/// told in the findings.
void set_start(Forecast& forecast, const Zone& zone);

/// Every event with its clock time; empty when no start is known.
std::vector<Appointment> appointments(const Forecast& forecast, const Zone& zone);

/// The same time on the clock `days` later, also over a night on which the clocks change.
long long days_later(long long utc, int days, const Zone& zone);

}  // namespace placer::firing
