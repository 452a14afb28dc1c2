/// @file clock.h
/// Clock time of a place: instants are seconds since 1970-01-01 UTC, wall clocks are what hangs in
/// the studio. Read from the system's own time zone files, so that daylight saving nights come out
/// right; nothing here asks what time it is now.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace placer::firing {

/// What a clock on the wall shows: year, month 1-12, day 1-31, hour 0-23.
struct WallClock {
  int year = 1970;
  int month = 1;
  int day = 1;
  int hour = 0;
  int minute = 0;
  int second = 0;
  friend auto operator<=>(const WallClock&, const WallClock&) = default;
};

/// A wall clock at an instant, with what the clock itself does not show.
struct LocalTime {
  WallClock clock;
  int weekday = 0;          ///< 0 = Monday ... 6 = Sunday
  long offset_seconds = 0;  ///< east of UTC
  bool daylight_saving = false;
  std::string abbreviation;  ///< "CET", "CEST", ...
};

/// The instants at which a wall clock shows a time: one on ordinary days, two in the hour that the
/// clocks repeat in autumn, none in the hour that they skip in spring (`at` is then what the clock
/// would show had it not been put forward yet, which people mean by it).
struct Instants {
  long long at = 0;
  std::optional<long long> again;  ///< the second time that it shows
  bool skipped = false;
};

/// The rules of one place.
class Zone {
 public:
  /// @param name IANA name ("Europe/Berlin"); "" = the machine's own (TZ, then /etc/localtime, then
  ///   UTC); "UTC" needs no file.
  /// @throws std::invalid_argument when no such zone is known, with the name in the message;
  ///   std::runtime_error when its file is damaged.
  static Zone named(const std::string& name);
  /// From the bytes of a time zone file (RFC 8536). @throws std::runtime_error when damaged.
  static Zone from_bytes(const std::string& bytes, const std::string& name);

  LocalTime local(long long utc) const;
  Instants instants(const WallClock& clock) const;
  const std::string& name() const { return name_; }

 private:
  struct Type {
    long offset = 0;
    bool daylight = false;
    std::string abbreviation;
  };
  /// One turn of the year of a rule such as "M10.5.0/3": month, week, weekday (Sunday 0), second.
  struct Turn {
    enum class How { month_week_day, julian_day, day_of_year } how = How::month_week_day;
    int month = 1, week = 1, day = 0;
    long second = 7200;
  };
  /// What holds after the last written change: "CET-1CEST,M3.5.0,M10.5.0/3".
  struct Rule {
    Type standard;
    std::optional<Type> summer;
    Turn to_summer, to_standard;
  };

  const Type& type_at(long long utc) const;
  static std::optional<Rule> rule_of(const std::string& text);
  static std::size_t read_turn(const std::string& text, std::size_t at, Turn& turn);
  static long long turn_second(const Turn& turn, int year);

  std::string name_;
  std::vector<long long> changes_;   ///< instants, rising
  std::vector<std::uint8_t> after_;  ///< type after each change
  std::vector<Type> types_;          ///< the first holds before the first change
  std::optional<Rule> rule_;
};

/// Days from 1970-01-01 to a date of the Gregorian calendar.
/// @source Howard Hinnant, "chrono-Compatible Low-Level Date Algorithms"
long long days_from_civil(int year, int month, int day);
/// The date that many days after 1970-01-01 (the clock part is midnight).
WallClock civil_from_days(long long days);

/// "Tue 24 Nov 06:30"; with the year "Tue 24 Nov 2026 06:30".
std::string to_string(const LocalTime& time, bool with_year = false);
/// "06:30"
std::string clock_text(const LocalTime& time);

}  // namespace placer::firing
