#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "log_columns.h"
#include "log_mending.h"
#include "log_text.h"
#include "log_time.h"
#include "placer/firing/log.h"

namespace placer::firing {
namespace {

class Reader {
 public:
  Reader(std::string_view text, const std::string& file, const LogOptions& options,
         const Columns& columns)
      : text_{text}, options_{options}, columns_{columns}, line_{columns_.unit, options.zone} {
    draft_.file = file;
  }

  void read_rows() {
    std::size_t at = 0;
    draft_.log.rows.reserve(text_.size() / 24);
    while (const auto line = next_line(text_, at)) {
      ++number_;
      const bool before_rows = static_cast<std::size_t>(number_) <= columns_.skip;
      if (!before_rows && !bare(*line).empty() && !is_comment(*line)) {
        row(*line);
      }
    }
  }
  /// The newest row stands first.
  bool newest_first() const { return backwards_ > 2 && backwards_ > 4 * draft_.log.rows.size(); }
  /// Read day first, the days lie months apart; month first, they follow each other.
  bool other_dates() const { return months_apart_ > 0 && !columns_.month_first; }

  FiringLog finished(bool turned) {
    settle_scale(draft_, columns_, options_);
    const bool bare_numbers = line_.how() == Written::How::number;
    unit_ = settle_time(draft_, columns_.unit, bare_numbers);
    draft_.log.starts_at = line_.first_utc();
    drop_late(draft_);
    drop_wild(draft_);
    find_gaps(draft_);
    describe();
    tell_of_clocks(turned);
    refuse_none();
    return std::move(draft_.log);
  }

 private:
  std::string_view cell(int index) const {
    return index >= 0 && static_cast<std::size_t>(index) < cells_.size()
               ? bare(cells_[static_cast<std::size_t>(index)])
               : std::string_view{};
  }

  void leave_out(std::string_view why, std::string_view text) {
    draft_.leave_out(why, text, number_);
  }

  void row(std::string_view line) {
    cut(line, columns_.separator, cells_);
    const auto written = time_of(cell(columns_.date), cell(columns_.time), columns_);
    if (!written) {
      leave_out("no time can be read", line);
      return;
    }
    char unit = '\0';
    const auto value = number_of(cell(columns_.temperature), columns_.decimal_comma, &unit);
    if (!value || !std::isfinite(*value)) {
      note(*written, line);
      return;
    }
    if (unit == 'f' || unit == 'c') {
      (unit == 'f' ? draft_.fahrenheit_rows : draft_.celsius_rows)++;
    }
    const auto seconds = seconds_of(*written);
    if (!seconds) {
      if (line_.too_far()) {
        leave_out("over a month after the first row, and no firing lasts so long", line);
      } else if (!zone_told_) {
        ++backwards_;
        leave_out("the time runs backwards", line);
      }
      return;
    }
    keep(*seconds, *value, *written);
  }

  std::optional<double> seconds_of(const Written& written) {
    try {
      return line_.seconds(written);
    } catch (const std::exception& problem) {
      if (!zone_told_) {
        zone_told_ = true;
        draft_.add(Severity::mistake, "zone", problem.what(), number_);
      }
      return std::nullopt;
    }
  }

  void keep(double seconds, double value, const Written& written) {
    FiringLog& log = draft_.log;
    LogRow r;
    r.hours = seconds;  // settled once all rows are read
    r.celsius = value;
    r.millivolts = std::numeric_limits<float>::quiet_NaN();
    if (columns_.probe >= 0) {
      probe(r);
    }
    if (line_.clock_changed()) {
      log.breaks.push_back({Break::What::clock_change, Hours{seconds}, Hours{seconds}, {}, {}});
    }
    if (written.how == Written::How::dated && !log.rows.empty()) {
      const double days = (seconds - log.rows.back().hours) / 86400;
      months_apart_ += days > 26 && written.clock.day <= 12 ? 1 : 0;
    }
    log.rows.push_back(r);
    draft_.lines.push_back(number_);
    if (columns_.note >= 0 && !cell(columns_.note).empty()) {
      log.notes.push_back({Hours{seconds}, printable(cell(columns_.note), 200)});
    }
  }

  /// A row without a temperature may still be a note, or millivolts that say nothing.
  void note(const Written& written, std::string_view line) {
    const bool has_probe = !cell(columns_.probe).empty();
    if (has_probe && cell(columns_.temperature).empty()) {
      leave_out("probe millivolts without a temperature say nothing", line);
      return;
    }
    if (columns_.note >= 0 && !cell(columns_.note).empty() && cell(columns_.temperature).empty()) {
      if (const auto seconds = seconds_of(written)) {
        draft_.log.notes.push_back({Hours{*seconds}, printable(cell(columns_.note), 200)});
        return;
      }
    }
    leave_out("no temperature can be read", line);
  }

  void probe(LogRow& r) {
    const std::string_view text = cell(columns_.probe);
    if (text.empty()) {
      return;
    }
    const auto value = number_of(text, columns_.decimal_comma);
    if (value && *value >= -50 && *value <= 1400) {
      r.millivolts = static_cast<float>(*value);
      draft_.log.has_probe = true;
    } else if (++bad_probes_ <= kNamedRows) {
      draft_.add(Severity::look, "probe",
                 fmt::format("'{}' is not a probe's reading in mV (-50 to 1400); the row is used "
                             "without it",
                             printable(text, 30)),
                 number_);
    }
  }

  const char* time_words() const {
    if (line_.how() == Written::How::clock) {
      return "hours and minutes";
    }
    if (line_.how() != Written::How::number) {
      return "date and time";
    }
    switch (unit_) {
      case TimeUnit::days:
        return "days";
      case TimeUnit::hours:
        return "hours";
      case TimeUnit::minutes:
        return "minutes";
      case TimeUnit::milliseconds:
        return "milliseconds";
      case TimeUnit::seconds:
      case TimeUnit::hhmm:
      case TimeUnit::unknown:
        break;
    }
    return "seconds";
  }

  void describe() {
    FiringLog& log = draft_.log;
    const char* separator = columns_.separator == ';'    ? "';'"
                            : columns_.separator == '\t' ? "tab"
                            : columns_.separator == ' '  ? "blanks"
                                                         : "','";
    log.understood = fmt::format(
        "{} rows, columns by {}, decimal {}, time in {}, {}{}{}", log.rows.size(), separator,
        columns_.decimal_comma ? "comma" : "point", time_words(),
        columns_.kelvin                  ? "kelvin"
        : log.scale == Scale::fahrenheit ? "°F"
                                         : "°C",
        log.has_probe ? ", probe mV" : "",
        columns_.sensors > 1 ? fmt::format(", the first of {} temperatures", columns_.sensors)
                             : "");
  }

  void tell_of_clocks(bool turned) {
    if (turned) {
      draft_.add(Severity::look, "order", "the newest row stands first: read from the end", 0);
    }
    if (columns_.month_first) {
      draft_.add(Severity::look, "date", "the dates are read with the month first (11/25/2026)", 0);
    }
    if (line_.twelve_hours()) {
      draft_.add(
          Severity::look, "clock",
          "after 12:59 comes 1:00 and no row says am or pm: a clock of twelve hours is taken", 0);
    }
    if (line_.wrapped_bits() > 0) {
      draft_.add(Severity::look, "time",
                 fmt::format("the logger's counter was full ({} bits) and began again: the time is "
                             "counted on",
                             line_.wrapped_bits()),
                 0);
    }
  }

  void refuse_none() {
    FiringLog& log = draft_.log;
    const bool still = log.rows.size() >= 2 && log.rows.back().hours <= 0;
    if (log.rows.size() < 2) {
      draft_.add(Severity::mistake, "log",
                 "this log has no two rows that can be used; it needs a time and a temperature in "
                 "each",
                 0);
    } else if (still) {
      draft_.add(Severity::mistake, "time",
                 "all rows carry the same time, so nothing can be said of rates or cones", 0);
    }
    if (log.left_out > kNamedRows) {
      draft_.add(Severity::look, "row",
                 fmt::format("{} rows in all were left out; the first {} are named", log.left_out,
                             kNamedRows),
                 0);
    }
  }

  std::string_view text_;
  LogOptions options_;
  Columns columns_;
  TimeLine line_;
  Draft draft_;
  std::vector<std::string_view> cells_;
  TimeUnit unit_ = TimeUnit::unknown;
  int number_ = 0;
  std::size_t bad_probes_ = 0, backwards_ = 0, months_apart_ = 0;
  bool zone_told_ = false;
};

FiringLog no_text(const std::string& file) {
  Draft draft;
  draft.file = file;
  draft.add(Severity::mistake, "log",
            "this is no text: a log is rows of a time and a temperature, as a spreadsheet saves "
            "them (CSV)",
            0);
  return std::move(draft.log);
}

}  // namespace

FiringLog read_log(std::string_view bytes, const std::string& file, const LogOptions& options) {
  const PlainText plain{bytes};
  if (!plain.is_text()) {
    return no_text(file);
  }
  Columns columns = look_at(plain.view());
  Reader reader{plain.view(), file, options, columns};
  reader.read_rows();
  if (reader.newest_first()) {
    const std::string turned = turned_round(plain.view(), columns.skip);
    Reader again{turned, file, options, columns};
    again.read_rows();
    return again.finished(true);
  }
  if (reader.other_dates()) {
    columns.month_first = true;
    Reader again{plain.view(), file, options, columns};
    again.read_rows();
    return again.finished(false);
  }
  return reader.finished(false);
}

History FiringLog::history() const {
  History history;
  history.reserve(rows.size());
  for (const LogRow& row : rows) {
    history.push_back({Hours{row.hours}, {row.celsius}});
  }
  return history;
}

}  // namespace placer::firing
