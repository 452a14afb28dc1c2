/// @file fire_clock.h
/// Moments of a firing in words: hours since the start, and by the clock when the start is known.
#pragma once

#include <optional>
#include <string>

#include "placer/firing/clock.h"
#include "placer/firing/forecast.h"
#include "placer/report/report.h"

namespace placer::report {

class FireClock {
 public:
  FireClock(const Subject& subject, const firing::Forecast& forecast);
  FireClock(const std::string& zone, const firing::Forecast& forecast);

  bool knows_start() const { return start_.has_value(); }
  /// Seconds since 1970 UTC, to the minute; none when no start is known.
  std::optional<long long> instant(Hours at) const;
  std::string elapsed(Hours at) const;   ///< "+7 h 50"
  std::string day_time(Hours at) const;  ///< "Tue 14:20", "" when no start is known
  std::string clock(Hours at) const;     ///< "14:20", likewise
  std::string start_words() const;       ///< "Tue 24 Nov 2026 06:30", likewise
  /// Minutes past the full hour at the start.
  int start_minute() const;

 private:
  firing::LocalTime local(Hours at) const;
  std::optional<long long> start_;
  firing::Zone zone_;
};

}  // namespace placer::report
