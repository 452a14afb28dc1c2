#include "log_time.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <stdexcept>

namespace placer::firing {
namespace {

constexpr double kDay = 86400;

bool digit(char c) { return c >= '0' && c <= '9'; }

/// Whole numbers out of a text, with what stands between them left to the caller.
struct Scan {
  std::string_view text;
  std::size_t at = 0;
  std::optional<int> number(std::size_t most_digits) {
    int value = 0;
    const std::size_t begin = at;
    while (at < text.size() && at - begin < most_digits && digit(text[at])) {
      value = value * 10 + (text[at++] - '0');
    }
    return at == begin ? std::nullopt : std::optional<int>{value};
  }
  bool take(char c) {
    if (at < text.size() && text[at] == c) {
      ++at;
      return true;
    }
    return false;
  }
  char peek() const { return at < text.size() ? text[at] : '\0'; }
};

/// "nov", "november": 11; 0 = no month.
int month_named(std::string_view text) {
  constexpr std::string_view kMonths = "janfebmaraprmayjunjulaugsepoctnovdec";
  if (text.size() < 3) {
    return 0;
  }
  std::string three;
  for (std::size_t i = 0; i < 3; ++i) {
    three += static_cast<char>(std::tolower(static_cast<unsigned char>(text[i])));
  }
  const std::size_t at = kMonths.find(three);
  return at == std::string_view::npos || at % 3 != 0 ? 0 : static_cast<int>(at / 3) + 1;
}

/// "5-Nov-2026": the month by its name, behind the day and its mark.
bool read_named_month(Scan& scan, int day, WallClock& clock) {
  const std::size_t begin = scan.at;
  while (std::isalpha(static_cast<unsigned char>(scan.peek())) != 0) {
    ++scan.at;
  }
  clock.month = month_named(scan.text.substr(begin, scan.at - begin));
  const char mark = scan.peek();
  if (clock.month == 0 || (mark != '-' && mark != '/' && mark != '.') || !scan.take(mark)) {
    return false;
  }
  const auto year = scan.number(4);
  clock.day = day;
  clock.year = year.value_or(0) + (year.value_or(0) < 100 ? 2000 : 0);
  return year && day >= 1 && day <= 31;
}

/// "2026-11-25", "25.11.2026", "25/11/2026", "25-Nov-2026"; with the month first "11/25/2026",
/// which it also is when the second number is over 12.
bool read_date(Scan& scan, WallClock& clock, bool month_first) {
  const std::size_t begin = scan.at;
  const auto a = scan.number(4);
  const std::size_t width = scan.at - begin;
  const char mark = scan.peek();
  if (!a || (mark != '-' && mark != '.' && mark != '/') || !scan.take(mark)) {
    return false;
  }
  const auto b = scan.number(2);
  if (!b) {
    return read_named_month(scan, *a, clock);
  }
  if (!scan.take(mark)) {
    return false;
  }
  const auto c = scan.number(4);
  if (!c) {
    return false;
  }
  clock.month = *b;
  clock.year = width == 4 ? *a : *c;
  clock.day = width == 4 ? *c : *a;
  if (width != 4 && (clock.month > 12 || (month_first && clock.day <= 12))) {
    std::swap(clock.month, clock.day);
  }
  clock.year += clock.year < 100 ? 2000 : 0;
  return clock.month >= 1 && clock.month <= 12 && clock.day >= 1 && clock.day <= 31;
}

/// "0630": a clock without its colon.
bool read_bare_clock(std::string_view text, double& seconds) {
  Scan scan{text};
  const auto value = scan.number(4);
  if (!value || scan.at != text.size() || *value > 2400 || *value % 100 > 59) {
    return false;
  }
  seconds = *value / 100 * 3600.0 + *value % 100 * 60;
  return true;
}

/// True when "Uhr" or am or pm stands behind it: then "6.30" is a clock, too.
bool says_clock(std::string_view text) {
  const char last = text.empty()
                        ? '\0'
                        : static_cast<char>(std::tolower(static_cast<unsigned char>(text.back())));
  return (last == 'r' && text.size() > 3) || last == 'm';
}

/// "6:30", "06:30:15.5", "6:30 pm", "6h30", "6.30 Uhr"; hours over 24 for elapsed time.
bool read_clock(Scan& scan, double& seconds, double& fraction) {
  const auto hour = scan.number(3);
  const bool named = says_clock(scan.text);
  if (!hour || !(scan.take(':') || scan.take('h') || (named && scan.take('.')))) {
    return false;
  }
  const auto minute = scan.number(2);
  if (!minute || *minute > 59) {
    return false;
  }
  int second = 0;
  if (scan.take(':')) {
    const auto s = scan.number(2);
    if (!s || *s > 60) {
      return false;
    }
    second = *s;
    if (scan.peek() == '.' || scan.peek() == ',') {
      ++scan.at;
      double place = 0.1;
      while (digit(scan.peek())) {
        fraction += place * (scan.text[scan.at++] - '0');
        place /= 10;
      }
    }
  }
  int hours = *hour;
  while (scan.take(' ')) {
  }
  const char half = static_cast<char>(std::tolower(static_cast<unsigned char>(scan.peek())));
  if ((half == 'a' || half == 'p') && hours <= 12) {
    hours = hours % 12 + (half == 'p' ? 12 : 0);
    scan.at += 2;
  }
  seconds = hours * 3600.0 + *minute * 60 + second;
  return true;
}

/// "UTC" and "GMT" are an offset of zero; "CET", "Uhr", "h" say nothing that is needed.
void read_zone_word(Scan& scan, std::optional<long>& offset) {
  while (scan.take(' ')) {
  }
  const std::string_view word = scan.text.substr(scan.at);
  if (word == "UTC" || word == "GMT") {
    offset = 0;
  }
  const bool letters = word.size() <= 5 && std::all_of(word.begin(), word.end(), [](char c) {
                         return std::isalpha(static_cast<unsigned char>(c)) != 0;
                       });
  if (letters && word != "Z" && word != "z") {
    scan.at = scan.text.size();
  }
}

/// "Z", "+01:00" or nothing behind a time; false = something else stands there.
bool read_offset(Scan& scan, std::optional<long>& offset) {
  read_zone_word(scan, offset);
  if (scan.take('Z') || scan.take('z')) {
    offset = 0;
  } else if (scan.peek() == '+' || scan.peek() == '-') {
    const long sign = scan.peek() == '-' ? -1 : 1;
    ++scan.at;
    const auto hours = scan.number(2);
    scan.take(':');
    const auto minutes = scan.number(2);
    if (!hours) {
      return false;
    }
    offset = sign * (*hours * 3600L + minutes.value_or(0) * 60L);
  }
  return scan.at >= scan.text.size();
}

}  // namespace

std::optional<Written> time_of(std::string_view date, std::string_view time,
                               const Columns& columns) {
  date = bare(date);
  time = bare(time);
  Written written;
  if (columns.unit == TimeUnit::hhmm) {
    written.how = Written::How::clock;
    return read_bare_clock(time, written.number) ? std::optional{written} : std::nullopt;
  }
  Scan scan{time};
  double seconds = 0;
  bool with_date = false;
  if (!date.empty()) {
    Scan day{date};
    with_date = read_date(day, written.clock, columns.month_first);
    if (!with_date) {
      return std::nullopt;
    }
  } else {
    Scan day{time};
    if (read_date(day, written.clock, columns.month_first) && (day.take('T') || day.take(' '))) {
      with_date = true;
      scan.at = day.at;
      while (scan.take(' ')) {
      }
    }
  }
  if (read_clock(scan, seconds, written.fraction)) {
    std::optional<long> offset;
    if (!read_offset(scan, offset)) {
      return std::nullopt;
    }
    written.number = seconds;
    written.how = with_date ? Written::How::dated : Written::How::clock;
    const auto whole = static_cast<int>(seconds);
    written.clock.hour = whole / 3600;
    written.clock.minute = whole / 60 % 60;
    written.clock.second = whole % 60;
    if (with_date && offset) {
      written.how = Written::How::instant;
      written.utc =
          days_from_civil(written.clock.year, written.clock.month, written.clock.day) * 86400 +
          whole - *offset;
    }
    return written;
  }
  if (with_date) {
    return std::nullopt;
  }
  char unit = '\0';
  const auto number = number_of(time, columns.decimal_comma, &unit);
  if (!number || !std::isfinite(*number)) {
    return std::nullopt;
  }
  written.number = *number;
  return written;
}

std::optional<double> TimeLine::rising(double seconds) {
  // Of an unknown unit only what is a month in none: 10^13 ms are three centuries.
  const bool unknown = how_ == Written::How::number && unit_ == TimeUnit::unknown;
  too_far_ = any_ && seconds - first_ > (unknown ? 1e13 : 31 * kDay);
  if (any_ && (too_far_ || seconds < last_ - 1e-6)) {
    return std::nullopt;
  }
  first_ = any_ ? first_ : seconds;
  any_ = true;
  last_ = seconds;
  return seconds;
}

std::optional<double> TimeLine::dated(const Written& written) {
  dated_ = true;
  double utc = static_cast<double>(written.utc);
  if (written.how == Written::How::dated) {
    if (!zone_) {
      zone_ = Zone::named(zone_name_);
    }
    const Instants instants = zone_->instants(written.clock);
    utc = static_cast<double>(instants.at);
    // In the repeated hour the row is the second one when the first would run backwards.
    if (instants.again && any_ && utc + written.fraction < last_ - 1e-6) {
      utc = static_cast<double>(*instants.again);
    }
    const long offset = zone_->local(static_cast<long long>(utc)).offset_seconds;
    clock_changed_ = any_ && offset != last_offset_;
    last_offset_ = offset;
  }
  const auto seconds = rising(utc + written.fraction);
  if (seconds && !first_utc_) {
    first_utc_ = static_cast<long long>(utc);
  }
  return seconds;
}

std::optional<double> TimeLine::clock(const Written& written) {
  double shown = written.number + written.fraction;
  clock_changed_ = false;
  if (any_ && shown < last_clock_ - 1e-6) {
    const double back = last_clock_ - shown;
    // From 12:50 to 1:10, and never past one o'clock: a dial of twelve hours.
    const bool dial = latest_clock_ < 13 * 3600 && last_clock_ >= 12 * 3600 && back > 9 * 3600;
    if (dial) {
      shift_ += kDay / 2;
      twelve_hours_ = true;
    } else if (back > kDay / 2) {
      shift_ += kDay;  // past midnight
    } else if (back <= 3600 && last_clock_ > 3600 && last_clock_ <= 4 * 3600 &&
               first_clock_ > 600) {
      shift_ += 3600;  // the clocks were put back in the small hours; elapsed time starts at 0
      clock_changed_ = true;
    } else {
      return std::nullopt;
    }
  }
  first_clock_ = any_ ? first_clock_ : shown;
  last_clock_ = shown;
  latest_clock_ = std::max(latest_clock_, shown);
  return rising(shown + shift_);
}

std::optional<double> TimeLine::seconds(const Written& written) {
  how_ = written.how;
  switch (written.how) {
    case Written::How::dated:
    case Written::How::instant:
      return dated(written);
    case Written::How::clock:
      return clock(written);
    case Written::How::number:
      break;
  }
  return number(written.number);
}

double seconds_in(TimeUnit unit) {
  switch (unit) {
    case TimeUnit::days:
      return kDay;
    case TimeUnit::hours:
      return 3600;
    case TimeUnit::minutes:
      return 60;
    case TimeUnit::milliseconds:
      return 1e-3;
    case TimeUnit::seconds:
    case TimeUnit::hhmm:
    case TimeUnit::unknown:
      break;
  }
  return 1;
}

std::optional<double> TimeLine::number(double value) {
  // A counter of 16 or 32 bits begins again when it is full, or turns negative half way.
  const double back = last_number_ - (value + wrapped_);
  for (const int bits : {16, 32}) {
    const double size = std::ldexp(1.0, bits);
    if (any_ && back > 0.97 * size && back < 1.001 * size) {
      wrapped_ += size;
      wrapped_bits_ = bits;
    }
  }
  const double counted = value + wrapped_;
  const auto seconds = rising(counted * seconds_in(unit_));
  last_number_ = seconds ? counted : last_number_;
  return seconds;
}

}  // namespace placer::firing
