#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "placer/firing/clock.h"
#include "workbook/broken_text.h"
#include "workbook/draft.h"

namespace placer::workbook {
namespace {

constexpr std::array<std::string_view, 7> kDays = {"monday", "tuesday",  "wednesday", "thursday",
                                                   "friday", "saturday", "sunday"};
constexpr long long kDay = 86400;

struct ClockTime {
  int hour = 0, minute = 0;
};

/// "6:30", "18:00", "6:30 pm".
std::optional<ClockTime> clock_time(std::string_view text) {
  int noon = -1;
  if (text.ends_with("am")) noon = 0;
  if (text.ends_with("pm")) noon = 12;
  if (noon >= 0) text = trimmed(text.substr(0, text.size() - 2));
  const std::size_t colon = text.find(':');
  if (colon == std::string_view::npos || colon < 1 || colon > 2) return std::nullopt;
  const auto hour = plain_decimal(text.substr(0, colon));
  const auto minute = plain_decimal(text.substr(colon + 1));
  const bool whole = text.find('.') == std::string_view::npos && text.size() == colon + 3;
  if (!hour || !minute || !whole || *minute > 59 || *hour > 23) return std::nullopt;
  int h = static_cast<int>(*hour);
  if (noon >= 0 && (h < 1 || h > 12)) return std::nullopt;
  if (noon >= 0) h = h % 12 + noon;
  return ClockTime{h, static_cast<int>(*minute)};
}

/// "2026-11-25" as days since 1970-01-01, if there is such a day.
std::optional<long long> calendar_day(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  const auto year = plain_decimal(text.substr(0, 4));
  const auto month = plain_decimal(text.substr(5, 2));
  const auto day = plain_decimal(text.substr(8, 2));
  if (text.find('.') != std::string_view::npos || !year || !month || !day) return std::nullopt;
  if (*month < 1 || *month > 12 || *day < 1 || *year < 1970) return std::nullopt;
  const long long days = firing::days_from_civil(static_cast<int>(*year), static_cast<int>(*month),
                                                 static_cast<int>(*day));
  const firing::WallClock back = firing::civil_from_days(days);
  if (back.month != static_cast<int>(*month) || back.day != static_cast<int>(*day)) {
    return std::nullopt;
  }
  return days;
}

/// The day that a word means, as days since 1970-01-01; today for no word at all.
std::optional<long long> day_of(std::string_view word, long long today, int weekday) {
  if (word.empty() || word == "today") return today;
  if (word == "tomorrow") return today + 1;
  for (std::size_t i = 0; i < kDays.size(); ++i) {
    if (word != kDays[i] && word != kDays[i].substr(0, 3)) continue;
    return today + (static_cast<int>(i) - weekday + 7) % 7;
  }
  return calendar_day(word);
}

/// "2026-02-30" looks like a day.
bool like_a_date(std::string_view word) {
  return word.size() == 10 && word[4] == '-' && word[7] == '-';
}

void tell_no_clock(Block& block, std::string_view key, const std::string& given) {
  block.desk().mistake("clock", block.where(key),
                       fmt::format("\"{}\" is no time of a day: write for example 6:30, tomorrow "
                                   "6:30, Saturday 6:30 or 2026-11-25 6:30",
                                   shortened(given)));
}

/// Splits "tomorrow 6:30 pm" at the blank before the clock.
std::pair<std::string, std::string> day_and_clock(const std::string& text) {
  const std::size_t colon = text.find(':');
  const std::size_t blank = colon == std::string::npos ? std::string::npos : text.rfind(' ', colon);
  if (blank == std::string::npos) return {"", text};
  return {std::string{trimmed(std::string_view{text}.substr(0, blank))}, text.substr(blank + 1)};
}

}  // namespace

std::optional<long long> read_clock(Block& block, std::string_view key, Draft& draft) {
  const auto given = block.text(key);
  if (!given) return std::nullopt;
  const auto [day_word, clock_word] = day_and_clock(lower_case(*given));
  const auto clock = clock_time(clock_word);
  const firing::Zone zone = firing::Zone::named(draft.studio.zone);
  const firing::LocalTime now = zone.local(draft.now);
  const long long today = firing::days_from_civil(now.clock.year, now.clock.month, now.clock.day);
  const auto day = day_of(day_word, today, now.weekday);
  if (clock && !day && like_a_date(day_word)) {
    block.desk().mistake("day", block.where(key),
                         fmt::format("no calendar has the day {}", day_word));
    return std::nullopt;
  }
  if (!clock || !day) {
    tell_no_clock(block, key, *given);
    return std::nullopt;
  }
  firing::WallClock wall = firing::civil_from_days(*day);
  wall.hour = clock->hour;
  wall.minute = clock->minute;
  firing::Instants found = zone.instants(wall);
  const bool next_one = day_word.empty() || *day == today;
  if (next_one && day_word != "today" && found.at < draft.now &&
      calendar_day(day_word) == std::nullopt) {
    wall = firing::civil_from_days(*day + (day_word.empty() ? 1 : 7));
    wall.hour = clock->hour;
    wall.minute = clock->minute;
    found = zone.instants(wall);
  }
  draft.desk.readings.push_back(
      {block.where(key), std::string{key}, *given, to_string(zone.local(found.at), true)});
  if (found.skipped) {
    draft.desk.look(
        "clock", block.where(key),
        fmt::format("the clocks go forward that night and no clock shows {}", clock_word));
  }
  if (found.at < draft.now - kDay) {
    draft.desk.look("past", block.where(key),
                    fmt::format("{} is over: the times on the sheets will be past", *given));
  }
  return found.at;
}

std::optional<firing::Wish::Quiet> read_quiet(Block& block, std::string_view key) {
  const auto given = block.text(key);
  if (!given) return std::nullopt;
  const std::string text = lower_case(*given);
  const std::size_t to = text.find(" to ");
  if (to != std::string::npos) {
    const auto from = clock_time(trimmed(std::string_view{text}.substr(0, to)));
    const auto until = clock_time(trimmed(std::string_view{text}.substr(to + 4)));
    if (from && until) {
      return firing::Wish::Quiet{Hours{from->hour + from->minute / 60.0},
                                 Hours{until->hour + until->minute / 60.0}};
    }
  }
  block.desk().mistake(
      "clock", block.where(key),
      fmt::format("\"{}\" names no hours: write for example 22:00 to 6:00", shortened(*given)));
  return std::nullopt;
}

}  // namespace placer::workbook
