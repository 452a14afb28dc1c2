#include "log_mending.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "log_text.h"
#include "log_time.h"
#include "placer/firing/words.h"

namespace placer::firing {
namespace {

constexpr double kHottest = 1700;   ///< °C; an open thermocouple reads more, or nothing
constexpr double kWildRate = 3000;  ///< °C/h, up or down: no kiln does it
constexpr double kWildStep = 60;    ///< °C
constexpr double kLooseHours = 2;   ///< longest stretch that is taken for a loose sensor
constexpr std::size_t kMostBreaks = 1000;

double hottest_of(const FiringLog& log) {
  double hottest = 0;
  for (const LogRow& row : log.rows) {
    hottest = std::max(hottest, row.celsius);
  }
  return hottest;
}

/// Rows between two figures; a few are a broken sensor, one in fifty is how the log is written.
bool many_between(const FiringLog& log, double low, double high) {
  const auto count = std::count_if(log.rows.begin(), log.rows.end(), [&](const LogRow& row) {
    return row.celsius > low && row.celsius < high;
  });
  return count > 3 && static_cast<std::size_t>(count) * 50 > log.rows.size();
}

/// 12220 for 1222.0: tenths of a degree, as some instruments keep them.
void take_tenths(Draft& draft) {
  if (!many_between(draft.log, 2700, 27000) || hottest_of(draft.log) > 27000) {
    return;
  }
  draft.add(Severity::look, "scale",
            fmt::format("{:.0f} ° is hotter than any kiln, so the figures are read as tenths of a "
                        "degree",
                        hottest_of(draft.log)),
            0);
  for (LogRow& row : draft.log.rows) {
    row.celsius /= 10;
  }
}

/// Climb from the first row to the hottest, °C, and how long it took as the numbers stand.
struct Climb {
  double rise = 0, took = 0;
};

Climb climb_of(const FiringLog& log) {
  const auto top =
      std::max_element(log.rows.begin(), log.rows.end(),
                       [](const LogRow& a, const LogRow& b) { return a.celsius < b.celsius; });
  return {top->celsius - log.rows.front().celsius, top->hours - log.rows.front().hours};
}

/// The unit in which the climb is one that kilns do: 8 to 700 °C/h, hours first.
TimeUnit guess_unit(Draft& draft) {
  const Climb climb = climb_of(draft.log);
  constexpr TimeUnit kUnits[] = {TimeUnit::hours, TimeUnit::minutes, TimeUnit::seconds,
                                 TimeUnit::milliseconds, TimeUnit::days};
  for (const TimeUnit unit : kUnits) {
    const double hours = climb.took * seconds_in(unit) / 3600;
    if (hours > 0 && climb.rise / hours > 8 && climb.rise / hours < 700) {
      return unit;
    }
  }
  draft.add(
      Severity::look, "time",
      "nothing says whether the times are hours, minutes or seconds, and none of them makes "
      "a climb that a kiln does; seconds are taken. Write the unit in the heading: time (min)",
      0);
  return TimeUnit::seconds;
}

/// Where a sensor that slipped before `begin` reads true again: the first row near what it read, as
/// far as kilns climb meanwhile. `begin` itself when it does not come back.
std::size_t back_again(const std::vector<LogRow>& rows, const LogRow& before, std::size_t begin) {
  for (std::size_t i = begin; i < rows.size(); ++i) {
    const double hours = rows[i].hours - before.hours;
    if (hours > kLooseHours) {
      break;
    }
    if (std::abs(rows[i].celsius - before.celsius) < kWildStep + 300 * hours) {
      return i;
    }
  }
  return begin;
}

/// Far from both neighbours, which agree with each other, and faster than kilns are either way.
bool is_spike(const LogRow& before, const LogRow& row, const LogRow& after) {
  constexpr double kTooFast = 700;  // °C/h
  const double away =
      std::min(std::abs(row.celsius - before.celsius), std::abs(row.celsius - after.celsius));
  const double hours = std::max(row.hours - before.hours, after.hours - row.hours);
  return away > kWildStep && std::abs(after.celsius - before.celsius) < away / 2 &&
         away > kTooFast * hours;
}

bool jumps(const LogRow& a, const LogRow& b) {
  const double step = std::abs(b.celsius - a.celsius);
  return step > kWildStep && step > kWildRate * (b.hours - a.hours);
}

/// "900 °C", "1e+300 °C": figures that no kiln has may be long.
std::string degrees_text(double celsius) {
  return std::abs(celsius) < 1e6 ? fmt::format("{:.0f} °C", celsius)
                                 : fmt::format("{:.3g} °C", celsius);
}

double usual_step(const std::vector<LogRow>& rows) {
  std::vector<double> steps;
  const std::size_t stride = rows.size() / 10000 + 1;
  for (std::size_t i = 1; i < rows.size(); i += stride) {
    steps.push_back(rows[i].hours - rows[i - 1].hours);
  }
  const auto middle = steps.begin() + static_cast<std::ptrdiff_t>(steps.size() / 2);
  std::nth_element(steps.begin(), middle, steps.end());
  return *middle;
}

void tell(Draft& draft, const Break& b) {
  if (b.what == Break::What::clock_change) {
    draft.add(Severity::look, "clock",
              fmt::format("the clocks were changed {} after the start; the time is counted on",
                          in_words(b.from)),
              0);
  } else if (b.what == Break::What::gap) {
    draft.add(Severity::look, "gap",
              fmt::format("no rows for {} from {} after the start ({} to {}); a straight line is "
                          "taken",
                          in_words(b.to - b.from), in_words(b.from), both_scales(b.before),
                          both_scales(b.after)),
              0);
  } else {
    draft.add(
        Severity::look, "jump",
        fmt::format("a jump from {} to {} at {} after the start: no kiln does this; check the "
                    "sensor",
                    both_scales(b.before), both_scales(b.after), in_words(b.from)),
        0);
  }
}

}  // namespace

void Draft::add(Severity severity, std::string code, std::string message, int line) {
  Finding finding;
  finding.severity = severity;
  finding.code = std::move(code);
  finding.message = std::move(message);
  finding.where = {file, line, 0, 0};
  log.findings.push_back(std::move(finding));
}

void Draft::leave_out(std::string_view why, std::string_view text, int line) {
  ++log.left_out;
  if (log.left_out <= kNamedRows) {
    add(Severity::look, "row",
        fmt::format("{}: '{}'; the row is left out", why, printable(text, 60)), line);
  }
}

void settle_scale(Draft& draft, const Columns& columns, const LogOptions& options) {
  FiringLog& log = draft.log;
  if (columns.kelvin) {
    for (LogRow& row : log.rows) {
      row.celsius -= 273.15;
    }
    return;
  }
  take_tenths(draft);
  const bool told = columns.scale.has_value() || draft.fahrenheit_rows + draft.celsius_rows > 0;
  Scale scale =
      columns.scale.value_or(draft.fahrenheit_rows > draft.celsius_rows ? Scale::fahrenheit
                             : draft.celsius_rows > 0                   ? Scale::celsius
                                                      : options.scale.value_or(Scale::celsius));
  if (scale == Scale::celsius && many_between(log, 1450, 2600)) {
    scale = Scale::fahrenheit;
    const double hottest = hottest_of(log);
    draft.add(
        Severity::look, "scale",
        fmt::format("{:.0f} °C is hotter than any potter's kiln, so the log is read as °F{}: "
                    "{:.0f} °F is {:.0f} °C",
                    hottest, told ? " although it says °C" : "", hottest, (hottest - 32) / 1.8),
        0);
  }
  log.scale = scale;
  if (scale == Scale::fahrenheit) {
    for (LogRow& row : log.rows) {
      row.celsius = (row.celsius - 32) / 1.8;
    }
  }
}

TimeUnit settle_time(Draft& draft, TimeUnit told, bool bare_numbers) {
  FiringLog& log = draft.log;
  if (log.rows.empty()) {
    return told;
  }
  TimeUnit unit = told;
  double factor = 1.0 / 3600;  // rows hold seconds, or bare numbers, so far
  if (bare_numbers && told == TimeUnit::unknown) {
    unit = guess_unit(draft);
    factor *= seconds_in(unit);
  }
  const double first = log.rows.front().hours;
  for (LogRow& row : log.rows) {
    row.hours = (row.hours - first) * factor;
  }
  for (LogNote& note : log.notes) {
    note.at = Hours{std::max(0.0, (note.at.count() - first) * factor)};
  }
  for (Break& b : log.breaks) {
    b.from = b.to = Hours{(b.from.count() - first) * factor};
  }
  return unit;
}

void drop_late(Draft& draft) {
  std::vector<LogRow>& rows = draft.log.rows;
  const auto late = std::find_if(rows.begin(), rows.end(),
                                 [](const LogRow& row) { return !(row.hours <= kLongestLog); });
  for (auto row = late; row != rows.end(); ++row) {
    draft.leave_out("over a month after the first row, and no firing lasts so long",
                    degrees_text(row->celsius),
                    draft.lines[static_cast<std::size_t>(row - rows.begin())]);
  }
  rows.erase(late, rows.end());
  std::erase_if(draft.log.notes, [](const LogNote& n) { return n.at.count() > kLongestLog; });
  std::erase_if(draft.log.breaks, [](const Break& b) { return b.from.count() > kLongestLog; });
}

void drop_wild(Draft& draft) {
  constexpr const char* kSlipped = "no kiln does this, the sensor slipped";
  std::vector<LogRow>& rows = draft.log.rows;
  std::size_t kept = 0;
  std::size_t searches = 0;
  std::size_t loose_until = 0;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const bool impossible = !(rows[i].celsius <= kHottest && rows[i].celsius >= -40);
    const bool inside = kept > 0 && i + 1 < rows.size();
    bool slipped = i < loose_until || (inside && is_spike(rows[kept - 1], rows[i], rows[i + 1]));
    if (!impossible && !slipped && kept > 0 && jumps(rows[kept - 1], rows[i]) &&
        searches < kMostBreaks) {
      ++searches;
      const LogRow before = rows[kept - 1];
      loose_until = back_again(rows, before, i);
      slipped = i < loose_until;
    }
    if (impossible || slipped) {
      draft.leave_out(kSlipped, degrees_text(rows[i].celsius), draft.lines[i]);
      continue;
    }
    rows[kept++] = rows[i];
  }
  rows.resize(kept);
}

void find_gaps(Draft& draft) {
  const std::vector<LogRow>& rows = draft.log.rows;
  std::vector<Break>& breaks = draft.log.breaks;
  if (rows.size() < 3) {
    return;
  }
  const double longest = std::max(0.5, 6 * usual_step(rows));
  for (std::size_t i = 1; i < rows.size(); ++i) {
    const bool jump = jumps(rows[i - 1], rows[i]);
    if ((rows[i].hours - rows[i - 1].hours > longest || jump) && breaks.size() < kMostBreaks) {
      breaks.push_back({jump ? Break::What::jump : Break::What::gap,
                        Hours{rows[i - 1].hours},
                        Hours{rows[i].hours},
                        {rows[i - 1].celsius},
                        {rows[i].celsius}});
    }
  }
  std::stable_sort(breaks.begin(), breaks.end(),
                   [](const Break& a, const Break& b) { return a.from < b.from; });
  for (std::size_t i = 0; i < std::min<std::size_t>(breaks.size(), kNamedRows); ++i) {
    tell(draft, breaks[i]);
  }
}

}  // namespace placer::firing
