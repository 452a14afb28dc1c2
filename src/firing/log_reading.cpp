#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "log_columns.h"
#include "log_time.h"
#include "placer/firing/log.h"
#include "placer/firing/words.h"

namespace placer::firing {
namespace {

constexpr std::size_t kNamedRows = 20;
constexpr double kHottest = 1700;   ///< °C; an open thermocouple reads more, or nothing
constexpr double kWildRate = 3000;  ///< °C/h, up or down: no kiln does it
constexpr double kWildStep = 60;    ///< °C

class Reader {
 public:
  Reader(std::string_view text, const std::string& file, const LogOptions& options)
      : text_{text},
        file_{file},
        options_{options},
        columns_{look_at(text)},
        line_{columns_.unit, options.zone} {}

  FiringLog read() {
    std::size_t at = 0;
    bool heading = columns_.heading;
    log_.rows.reserve(text_.size() / 24);
    while (const auto line = next_line(text_, at)) {
      ++number_;
      if (bare(*line).empty()) {
        continue;
      }
      if (heading) {
        heading = false;
        continue;
      }
      row(*line);
    }
    settle_scale();
    settle_time();
    drop_wild();
    find_gaps();
    describe();
    if (log_.rows.size() < 2) {
      add(Severity::mistake, "log",
          "this log has no two rows that can be used; it needs a time and a temperature in each",
          0);
    }
    if (log_.left_out > kNamedRows) {
      add(Severity::look, "row",
          fmt::format("{} rows in all were left out; the first {} are named", log_.left_out,
                      kNamedRows),
          0);
    }
    return std::move(log_);
  }

 private:
  void add(Severity severity, std::string code, std::string message, int line) {
    Finding finding;
    finding.severity = severity;
    finding.code = std::move(code);
    finding.message = std::move(message);
    finding.where = {file_, line, 0, 0};
    log_.findings.push_back(std::move(finding));
  }

  void leave_out(std::string_view why, std::string_view text) {
    ++log_.left_out;
    if (log_.left_out <= kNamedRows) {
      add(Severity::look, "row",
          fmt::format("{}: '{}'; the row is left out", why, text.substr(0, 60)), number_);
    }
  }

  std::string_view cell(int index) const {
    return index >= 0 && static_cast<std::size_t>(index) < cells_.size()
               ? bare(cells_[static_cast<std::size_t>(index)])
               : std::string_view{};
  }

  void row(std::string_view line) {
    cut(line, columns_.separator, cells_);
    const auto written = time_of(cell(columns_.date), cell(columns_.time), columns_.decimal_comma);
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
      (unit == 'f' ? fahrenheit_rows_ : celsius_rows_)++;
    }
    std::optional<double> seconds;
    try {
      seconds = line_.seconds(*written);
    } catch (const std::exception& problem) {
      if (!zone_told_) {
        zone_told_ = true;
        add(Severity::mistake, "zone", problem.what(), number_);
      }
      return;
    }
    if (!seconds) {
      leave_out("the time runs backwards", line);
      return;
    }
    LogRow r;
    r.hours = *seconds / 3600;
    r.celsius = *value;
    r.millivolts = std::numeric_limits<float>::quiet_NaN();
    if (columns_.probe >= 0) {
      probe(r);
    }
    if (line_.clock_changed()) {
      log_.breaks.push_back({Break::What::clock_change, Hours{r.hours}, Hours{r.hours}, {}, {}});
    }
    log_.rows.push_back(r);
    numbers_.push_back(number_);
    if (columns_.note >= 0 && !cell(columns_.note).empty()) {
      log_.notes.push_back({Hours{r.hours}, std::string{cell(columns_.note)}});
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
      if (const auto seconds = line_.seconds(written)) {
        log_.notes.push_back({Hours{*seconds / 3600}, std::string{cell(columns_.note)}});
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
    if (!value || *value < -50 || *value > 1400) {
      leave_probe_out(text);
      return;
    }
    r.millivolts = static_cast<float>(*value);
    log_.has_probe = true;
  }

  void leave_probe_out(std::string_view text) {
    if (++bad_probes_ <= kNamedRows) {
      add(Severity::look, "probe",
          fmt::format("'{}' is not a probe's reading in mV (-50 to 1400); the row is used without "
                      "it",
                      text.substr(0, 30)),
          number_);
    }
  }

  void settle_scale() {
    double hottest = 0;
    for (const LogRow& r : log_.rows) {
      hottest = std::max(hottest, r.celsius);
    }
    const bool told = columns_.scale.has_value() || fahrenheit_rows_ + celsius_rows_ > 0;
    Scale scale =
        columns_.scale.value_or(fahrenheit_rows_ > celsius_rows_ ? Scale::fahrenheit
                                : celsius_rows_ > 0              ? Scale::celsius
                                                    : options_.scale.value_or(Scale::celsius));
    std::size_t over = 0;  // a few rows over 1450 are a broken sensor, many are °F
    for (const LogRow& r : log_.rows) {
      over += r.celsius > 1450 && r.celsius < 2600 ? 1 : 0;
    }
    if (scale == Scale::celsius && over > 3 && over * 50 > log_.rows.size()) {
      scale = Scale::fahrenheit;
      add(Severity::look, "scale",
          fmt::format("{:.0f} °C is hotter than any potter's kiln, so the log is read as °F{}: "
                      "{:.0f} °F is {:.0f} °C",
                      hottest, told ? " although it says °C" : "", hottest, (hottest - 32) / 1.8),
          0);
    }
    log_.scale = scale;
    if (scale == Scale::fahrenheit) {
      for (LogRow& r : log_.rows) {
        r.celsius = (r.celsius - 32) / 1.8;
      }
    }
  }

  /// The unit of bare numbers, from what kilns do: the climb to the top must take 2 to 100 hours.
  void settle_time() {
    if (log_.rows.empty()) {
      return;
    }
    const double first = log_.rows.front().hours;
    double factor = 1;
    if (line_.how() == Written::How::number && columns_.unit == TimeUnit::unknown) {
      std::size_t top = 0;
      for (std::size_t i = 0; i < log_.rows.size(); ++i) {
        top = log_.rows[i].celsius > log_.rows[top].celsius ? i : top;
      }
      const double written = (log_.rows[top].hours - first) * 3600;  // as it stands
      const double rise = log_.rows[top].celsius - log_.rows.front().celsius;
      const auto plausible = [&](double hours) {
        return hours > 0 && rise / hours > 8 && rise / hours < 700;
      };
      unit_ = plausible(written)        ? TimeUnit::hours
              : plausible(written / 60) ? TimeUnit::minutes
                                        : TimeUnit::seconds;
      factor = unit_ == TimeUnit::hours ? 3600 : unit_ == TimeUnit::minutes ? 60 : 1;
    }
    for (LogRow& r : log_.rows) {
      r.hours = (r.hours - first) * factor;
    }
    for (LogNote& note : log_.notes) {
      note.at = Hours{std::max(0.0, (note.at.count() - first) * factor)};
    }
    for (Break& b : log_.breaks) {
      b.from = b.to = Hours{(b.from.count() - first) * factor};
    }
    log_.starts_at = line_.first_utc();
  }

  /// Open sensors and single spikes: away from both neighbours, which agree with each other.
  void drop_wild() {
    std::vector<LogRow>& rows = log_.rows;
    std::size_t kept = 0;
    for (std::size_t i = 0; i < rows.size(); ++i) {
      const bool impossible = rows[i].celsius > kHottest || rows[i].celsius < -40;
      bool spike = false;
      if (kept > 0 && i + 1 < rows.size()) {
        const double before = rows[kept - 1].celsius;
        const double after = rows[i + 1].celsius;
        const double away =
            std::min(std::abs(rows[i].celsius - before), std::abs(rows[i].celsius - after));
        spike = away > kWildStep && std::abs(after - before) < away / 2;
      }
      if (impossible || spike) {
        number_ = numbers_[i];
        leave_out("no kiln does this, the sensor slipped",
                  fmt::format("{:.0f} °C", rows[i].celsius));
        continue;
      }
      rows[kept++] = rows[i];
    }
    rows.resize(kept);
  }

  void find_gaps() {
    const std::vector<LogRow>& rows = log_.rows;
    if (rows.size() < 3) {
      return;
    }
    std::vector<double> steps;
    steps.reserve(std::min<std::size_t>(rows.size(), 10001));
    const std::size_t stride = rows.size() / 10000 + 1;
    for (std::size_t i = 1; i < rows.size(); i += stride) {
      steps.push_back(rows[i].hours - rows[i - 1].hours);
    }
    std::nth_element(steps.begin(), steps.begin() + static_cast<std::ptrdiff_t>(steps.size() / 2),
                     steps.end());
    const double longest = std::max(0.5, 6 * steps[steps.size() / 2]);
    for (std::size_t i = 1; i < rows.size(); ++i) {
      const double hours = rows[i].hours - rows[i - 1].hours;
      const double step = rows[i].celsius - rows[i - 1].celsius;
      const bool jump = std::abs(step) > kWildStep && std::abs(step) > kWildRate * hours;
      if ((hours > longest || jump) && log_.breaks.size() < 1000) {
        log_.breaks.push_back({jump ? Break::What::jump : Break::What::gap,
                               Hours{rows[i - 1].hours},
                               Hours{rows[i].hours},
                               {rows[i - 1].celsius},
                               {rows[i].celsius}});
      }
    }
    std::stable_sort(log_.breaks.begin(), log_.breaks.end(),
                     [](const Break& a, const Break& b) { return a.from < b.from; });
    for (std::size_t i = 0; i < std::min<std::size_t>(log_.breaks.size(), 20); ++i) {
      tell(log_.breaks[i]);
    }
  }

  void tell(const Break& b) {
    if (b.what == Break::What::clock_change) {
      add(Severity::look, "clock",
          fmt::format("the clocks were changed {} after the start; the time is counted on",
                      in_words(b.from)),
          0);
    } else if (b.what == Break::What::gap) {
      add(Severity::look, "gap",
          fmt::format("no rows for {} from {} after the start ({} to {}); a straight line is taken",
                      in_words(b.to - b.from), in_words(b.from), both_scales(b.before),
                      both_scales(b.after)),
          0);
    } else {
      add(Severity::look, "jump",
          fmt::format("a jump from {} to {} at {} after the start: no kiln does this; check the "
                      "sensor",
                      both_scales(b.before), both_scales(b.after), in_words(b.from)),
          0);
    }
  }

  void describe() {
    const char* separator = columns_.separator == ';'    ? "';'"
                            : columns_.separator == '\t' ? "tab"
                                                         : "','";
    const TimeUnit unit = columns_.unit == TimeUnit::unknown ? unit_ : columns_.unit;
    const char* time = line_.how() == Written::How::clock    ? "hours and minutes"
                       : line_.how() != Written::How::number ? "date and time"
                       : unit == TimeUnit::hours             ? "hours"
                       : unit == TimeUnit::minutes           ? "minutes"
                                                             : "seconds";
    log_.understood = fmt::format(
        "{} rows, columns by {}, decimal {}, time in {}, {}{}", log_.rows.size(), separator,
        columns_.decimal_comma ? "comma" : "point", time,
        log_.scale == Scale::fahrenheit ? "°F" : "°C", log_.has_probe ? ", probe mV" : "");
  }

  std::string_view text_;
  std::string file_;
  LogOptions options_;
  Columns columns_;
  TimeLine line_;
  FiringLog log_;
  std::vector<std::string_view> cells_;
  std::vector<int> numbers_;  ///< line of each row, until wild ones are dropped
  TimeUnit unit_ = TimeUnit::unknown;
  int number_ = 0;
  std::size_t fahrenheit_rows_ = 0, celsius_rows_ = 0, bad_probes_ = 0;
  bool zone_told_ = false;
};

}  // namespace

FiringLog read_log(std::string_view text, const std::string& file, const LogOptions& options) {
  constexpr std::string_view kBom = "\xEF\xBB\xBF";
  if (text.substr(0, kBom.size()) == kBom) {
    text.remove_prefix(kBom.size());
  }
  return Reader{text, file, options}.read();
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
