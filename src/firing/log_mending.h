/// @file log_mending.h
/// What is settled once all rows are read: scale, unit of time, sensors that slipped, gaps.
/// Internal to firing.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "log_columns.h"

namespace placer::firing {

/// A log while it is read.
struct Draft {
  FiringLog log;
  std::string file;
  std::vector<int> lines;  ///< line of each row in the file, until rows are dropped
  std::size_t fahrenheit_rows = 0, celsius_rows = 0;

  void add(Severity severity, std::string code, std::string message, int line);
  /// Counts a row as left out; the first twenty are named, with what stands there made fit to show.
  void leave_out(std::string_view why, std::string_view text, int line);
};

/// No firing lasts longer: a month.
inline constexpr double kLongestLog = 720;
inline constexpr std::size_t kNamedRows = 20;

void settle_scale(Draft& draft, const Columns& columns, const LogOptions& options);
/// Hours since the first row. @returns the unit that bare numbers turned out to be in.
TimeUnit settle_time(Draft& draft, TimeUnit told, bool bare_numbers);
/// Rows later than any firing lasts.
void drop_late(Draft& draft);
/// Open sensors, single spikes, and stretches in which a sensor had come loose.
void drop_wild(Draft& draft);
void find_gaps(Draft& draft);

}  // namespace placer::firing
