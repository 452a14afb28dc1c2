#include "placer/firing/clock.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>

namespace placer::firing {
namespace {

constexpr long long kDay = 86400;
constexpr std::array<const char*, 7> kWeekdays = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
constexpr std::array<const char*, 12> kMonths = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                 "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};

long long floor_div(long long a, long long b) { return a / b - (a % b != 0 && (a < 0) != (b < 0)); }

bool leap(int year) { return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0; }

}  // namespace

long long days_from_civil(int year, int month, int day) {
  const int y = month <= 2 ? year - 1 : year;
  const long long era = floor_div(y, 400);
  const long long year_of_era = y - era * 400;
  const long long day_of_year = (153 * (month + (month > 2 ? -3 : 9)) + 2) / 5 + day - 1;
  const long long day_of_era =
      year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_year;
  return era * 146097 + day_of_era - 719468;
}

WallClock civil_from_days(long long days) {
  const long long z = days + 719468;
  const long long era = floor_div(z, 146097);
  const long long day_of_era = z - era * 146097;
  const long long year_of_era =
      (day_of_era - day_of_era / 1460 + day_of_era / 36524 - day_of_era / 146096) / 365;
  const long long day_of_year =
      day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
  const long long month_index = (5 * day_of_year + 2) / 153;
  WallClock date;
  date.day = static_cast<int>(day_of_year - (153 * month_index + 2) / 5 + 1);
  date.month = static_cast<int>(month_index < 10 ? month_index + 3 : month_index - 9);
  date.year = static_cast<int>(year_of_era + era * 400 + (date.month <= 2 ? 1 : 0));
  return date;
}

long long Zone::turn_second(const Turn& turn, int year) {
  const long long new_year = days_from_civil(year, 1, 1);
  switch (turn.how) {
    case Turn::How::julian_day:  // 29 February is never counted
      return (new_year + turn.day - 1 + (leap(year) && turn.day >= 60 ? 1 : 0)) * kDay +
             turn.second;
    case Turn::How::day_of_year:
      return (new_year + turn.day) * kDay + turn.second;
    case Turn::How::month_week_day:
      break;
  }
  const long long first = days_from_civil(year, turn.month, 1);
  const long long first_weekday = ((first + 4) % 7 + 7) % 7;  // Sunday = 0
  long long day = first + (turn.day - first_weekday + 7) % 7 + 7 * (turn.week - 1);
  const long long next_month =
      turn.month == 12 ? days_from_civil(year + 1, 1, 1) : days_from_civil(year, turn.month + 1, 1);
  while (day >= next_month) {
    day -= 7;  // week 5 means the last one
  }
  return day * kDay + turn.second;
}

const Zone::Type& Zone::type_at(long long utc) const {
  if (changes_.empty() || utc < changes_.front()) {
    return changes_.empty() && rule_ && !rule_->summer ? rule_->standard : types_.front();
  }
  if (!rule_ || utc < changes_.back()) {
    const auto next = std::upper_bound(changes_.begin(), changes_.end(), utc);
    return types_[after_[static_cast<std::size_t>(next - changes_.begin() - 1)]];
  }
  if (!rule_->summer) {
    return rule_->standard;
  }
  const int year = civil_from_days(floor_div(utc + rule_->standard.offset, kDay)).year;
  const long long begins = turn_second(rule_->to_summer, year) - rule_->standard.offset;
  const long long ends = turn_second(rule_->to_standard, year) - rule_->summer->offset;
  const bool in_summer = begins < ends ? utc >= begins && utc < ends : utc >= begins || utc < ends;
  return in_summer ? *rule_->summer : rule_->standard;
}

LocalTime Zone::local(long long utc) const {
  const Type& type = type_at(utc);
  const long long shown = utc + type.offset;
  const long long days = floor_div(shown, kDay);
  const auto second = static_cast<int>(shown - days * kDay);
  LocalTime time;
  time.clock = civil_from_days(days);
  time.clock.hour = second / 3600;
  time.clock.minute = second / 60 % 60;
  time.clock.second = second % 60;
  time.weekday = static_cast<int>(((days + 3) % 7 + 7) % 7);
  time.offset_seconds = type.offset;
  time.daylight_saving = type.daylight;
  time.abbreviation = type.abbreviation;
  return time;
}

Instants Zone::instants(const WallClock& clock) const {
  const long long shown = days_from_civil(clock.year, clock.month, clock.day) * kDay +
                          clock.hour * 3600LL + clock.minute * 60LL + clock.second;
  // Any offset in force within a day of it may be the one; a day covers every zone's offset.
  std::vector<long long> hits;
  for (const long long near : {shown - kDay, shown + kDay}) {
    const long long utc = shown - type_at(near).offset;
    if (utc + type_at(utc).offset == shown) {
      hits.push_back(utc);
    }
  }
  std::sort(hits.begin(), hits.end());
  hits.erase(std::unique(hits.begin(), hits.end()), hits.end());
  Instants found;
  if (hits.empty()) {
    found.at = shown - type_at(shown - kDay).offset;
    found.skipped = true;
    return found;
  }
  found.at = hits.front();
  if (hits.size() > 1) {
    found.again = hits.back();
  }
  return found;
}

std::string to_string(const LocalTime& time, bool with_year) {
  const WallClock& c = time.clock;
  const char* weekday = kWeekdays[static_cast<std::size_t>(time.weekday)];
  const char* month = kMonths[static_cast<std::size_t>(c.month - 1)];
  return with_year ? fmt::format("{} {} {} {} {:02}:{:02}", weekday, c.day, month, c.year, c.hour,
                                 c.minute)
                   : fmt::format("{} {} {} {:02}:{:02}", weekday, c.day, month, c.hour, c.minute);
}

std::string clock_text(const LocalTime& time) {
  return fmt::format("{:02}:{:02}", time.clock.hour, time.clock.minute);
}

}  // namespace placer::firing
