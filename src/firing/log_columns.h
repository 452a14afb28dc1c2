/// @file log_columns.h
/// How a log's text is laid out: separator, decimal mark, which column is what. Internal to firing.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "placer/firing/log.h"

namespace placer::firing {

/// hhmm: a clock without its colon, 0630.
enum class TimeUnit { days, hours, minutes, seconds, milliseconds, hhmm, unknown };

struct Columns {
  char separator = ',';  ///< ' ' = one blank or more
  bool decimal_comma = false;
  std::size_t skip = 0;  ///< lines before the first row: what a logger says of itself, the heading
  int time = 0;
  int date = -1;  ///< a column of its own; -1 = none
  int temperature = 1;
  int probe = -1;
  int note = -1;
  int sensors = 1;  ///< columns of temperatures, of which the first is used
  TimeUnit unit = TimeUnit::unknown;
  std::optional<Scale> scale;
  bool kelvin = false;
  bool month_first = false;  ///< 11/25/2026
};

/// Cuts a line at the separator; quoted cells may hold it (RFC 4180). Views into the line.
void cut(std::string_view line, char separator, std::vector<std::string_view>& cells);
/// Without blanks and quotes at both ends.
std::string_view bare(std::string_view cell);

/// Looks at the first lines (without the BOM).
Columns look_at(std::string_view text);

/// What the heading says of each column, and of the units.
void read_heading(Columns& columns, const std::vector<std::string_view>& cells);

/// A number with an optional unit behind it; the unit's first letter is told. Thousands may be
/// marked off: 1,222.5 or 1.222,5 or 1'222.
std::optional<double> number_of(std::string_view cell, bool decimal_comma, char* unit = nullptr);

/// The next line without its end; `at` moves on. nullopt at the end of the text.
std::optional<std::string_view> next_line(std::string_view text, std::size_t& at);

}  // namespace placer::firing
