/// @file made_log.h
/// Logs made up for tests, in the ways that notebooks and loggers write them.
#pragma once

#include <fmt/core.h>

#include <cmath>
#include <string>
#include <vector>

#include "placer/firing/heat_work.h"

namespace placer::firing {

struct LogStyle {
  char separator = ',';
  bool decimal_comma = false;
  bool fahrenheit = false;
  bool heading = true;
  bool bom = false;
  enum class Time { hours, minutes, seconds, elapsed, clock, dated } time = Time::elapsed;
  double starts_at_hour = 6.5;  ///< clock
  double every_minutes = 10;
};

inline double at_hour(const History& h, double hours) {
  for (std::size_t i = 1; i < h.size(); ++i) {
    if (hours <= h[i].at.count()) {
      const double span = (h[i].at - h[i - 1].at).count();
      const double share = span > 0 ? (hours - h[i - 1].at.count()) / span : 1;
      return h[i - 1].kiln.celsius + share * (h[i].kiln - h[i - 1].kiln).kelvin;
    }
  }
  return h.back().kiln.celsius;
}

inline std::string number_text(double v, bool comma) {
  std::string s = fmt::format("{:.2f}", v);
  if (comma) {
    s[s.find('.')] = ',';
  }
  return s;
}

inline std::string time_text(double hours, const LogStyle& style) {
  switch (style.time) {
    case LogStyle::Time::hours:
      return number_text(hours, style.decimal_comma);
    case LogStyle::Time::minutes:
      return number_text(hours * 60, style.decimal_comma);
    case LogStyle::Time::seconds:
      return fmt::format("{}", std::llround(hours * 3600));
    case LogStyle::Time::elapsed:
    case LogStyle::Time::clock:
    case LogStyle::Time::dated:
      break;
  }
  const bool elapsed = style.time == LogStyle::Time::elapsed;
  const long long minutes = std::llround((hours + (elapsed ? 0 : style.starts_at_hour)) * 60);
  const long long shown = elapsed ? minutes : minutes % 1440;
  std::string text = fmt::format("{:02}:{:02}", shown / 60, shown % 60);
  if (style.time == LogStyle::Time::dated) {
    text = fmt::format("2026-11-{:02} {}", 5 + minutes / 1440, text);
  }
  return text;
}

inline std::string made_log(const History& history, const LogStyle& style = {}) {
  std::string text = style.bom ? "\xEF\xBB\xBF" : "";
  if (style.heading) {
    const char* unit = style.time == LogStyle::Time::hours     ? " (h)"
                       : style.time == LogStyle::Time::minutes ? " (min)"
                       : style.time == LogStyle::Time::seconds ? " (s)"
                                                               : "";
    text += fmt::format("time{}{}temperature {}\n", unit, style.separator,
                        style.fahrenheit ? "°F" : "°C");
  }
  const double end = history.back().at.count();
  for (double h = 0; h <= end + 1e-9; h += style.every_minutes / 60) {
    const double c = at_hour(history, h);
    text += fmt::format("{}{}{}\n", time_text(h, style), style.separator,
                        number_text(style.fahrenheit ? c * 1.8 + 32 : c, style.decimal_comma));
  }
  return text;
}

/// Cone 6 at 60 °C/h at the end, 9.3 h up, then 10 h down.
inline History good_firing() {
  return {{Hours{0}, {20}},
          {Hours{1}, {120}},
          {Hours{4.2}, {600}},
          {Hours{7.6}, {1122}},
          {Hours{7.6 + 100.0 / 60}, {1222}},
          {Hours{10.3}, {1010}},
          {Hours{14}, {560}},
          {Hours{20}, {300}}};
}

}  // namespace placer::firing
