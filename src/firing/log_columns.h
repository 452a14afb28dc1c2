/// @file log_columns.h
/// How a log's text is laid out: separator, decimal mark, which column is what. Internal to firing.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "placer/firing/log.h"

namespace placer::firing {

enum class TimeUnit { hours, minutes, seconds, clock, unknown };

struct Columns {
  char separator = ',';
  bool decimal_comma = false;
  bool heading = false;
  int time = 0;
  int date = -1;  ///< a column of its own; -1 = none
  int temperature = 1;
  int probe = -1;
  int note = -1;
  TimeUnit unit = TimeUnit::unknown;
  std::optional<Scale> scale;
};

/// Cuts a line at the separator; quoted cells may hold it (RFC 4180). Views into the line.
void cut(std::string_view line, char separator, std::vector<std::string_view>& cells);
/// Without blanks and quotes at both ends.
std::string_view bare(std::string_view cell);

/// Looks at the first lines (without the BOM).
Columns look_at(std::string_view text);

/// A number with an optional unit behind it; the unit's first letter is told.
std::optional<double> number_of(std::string_view cell, bool decimal_comma, char* unit = nullptr);

/// The next line without its end; `at` moves on. nullopt at the end of the text.
std::optional<std::string_view> next_line(std::string_view text, std::size_t& at);

}  // namespace placer::firing
