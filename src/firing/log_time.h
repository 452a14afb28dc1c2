/// @file log_time.h
/// Times of a log's rows. Internal to firing.
#pragma once

#include <memory>
#include <optional>
#include <string_view>

#include "log_columns.h"
#include "placer/firing/clock.h"

namespace placer::firing {

/// A time as written.
struct Written {
  enum class How { number, clock, dated, instant } how = How::number;
  double number = 0;    ///< number: as it stands; clock: seconds since midnight
  WallClock clock;      ///< dated
  long long utc = 0;    ///< instant: it carried Z or an offset
  double fraction = 0;  ///< of a second
};
std::optional<Written> time_of(std::string_view date, std::string_view time,
                               const Columns& columns);
/// 1 for a unit that is not known.
double seconds_in(TimeUnit unit);

/// Turns written times, row by row, into seconds on one rising scale.
class TimeLine {
 public:
  TimeLine(TimeUnit unit, const std::string& zone) : unit_{unit}, zone_name_{zone} {}

  /// Seconds, or nothing when the row's time runs backwards. Numbers of an unknown unit come out as
  /// they stand.
  std::optional<double> seconds(const Written& written);
  /// The last row was refused because it lies over a month after the first: no firing lasts so
  /// long.
  bool too_far() const { return too_far_; }
  /// True once after a row before which the clocks were put back or forward.
  bool clock_changed() const { return clock_changed_; }
  bool dated() const { return dated_; }
  /// A counter that began again at zero, 16 or 32 bits wide; 0 = none did.
  int wrapped_bits() const { return wrapped_bits_; }
  /// A clock of twelve hours, without am and pm.
  bool twelve_hours() const { return twelve_hours_; }
  Written::How how() const { return how_; }
  /// UTC of the first dated row.
  std::optional<long long> first_utc() const { return first_utc_; }

 private:
  std::optional<double> dated(const Written& written);
  std::optional<double> clock(const Written& written);
  std::optional<double> number(double value);
  std::optional<double> rising(double seconds);

  TimeUnit unit_;
  std::string zone_name_;
  std::optional<Zone> zone_;
  bool any_ = false, dated_ = false, clock_changed_ = false;
  Written::How how_ = Written::How::number;
  bool twelve_hours_ = false, too_far_ = false;
  double first_ = 0;
  int wrapped_bits_ = 0;
  double last_number_ = 0, wrapped_ = 0, latest_clock_ = 0;
  double last_ = 0, last_clock_ = 0, first_clock_ = 0, shift_ = 0;
  long last_offset_ = 0;
  std::optional<long long> first_utc_;
};

}  // namespace placer::firing
