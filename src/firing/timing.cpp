#include "placer/firing/timing.h"

#include <fmt/core.h>

#include <cmath>

#include "placer/firing/words.h"

namespace placer::firing {
namespace {

constexpr long long kQuarter = 900;
constexpr int kQuartersInADay = 96;

bool quiet_at(const Wish::Quiet& quiet, const LocalTime& local) {
  const double hour = local.clock.hour + local.clock.minute / 60.0 + local.clock.second / 3600.0;
  const double from = quiet.from.count();
  const double to = quiet.to.count();
  return from <= to ? hour >= from && hour < to : hour >= from || hour < to;
}

int hands_in_quiet(const Forecast& forecast, long long start, const Zone& zone) {
  int count = 0;
  for (const Event& event : forecast.events) {
    const long long at = start + std::llround(event.at.count() * 3600);
    count += event.hands_on && quiet_at(*forecast.schedule.wish.quiet, zone.local(at)) ? 1 : 0;
  }
  return count;
}

void tell(Forecast& forecast, std::string message) {
  Finding finding;
  finding.severity = Severity::look;
  finding.code = "quiet";
  finding.message = std::move(message);
  finding.where = forecast.schedule.wish.where;
  forecast.findings.push_back(std::move(finding));
}

std::string hours_text(const Wish::Quiet& quiet) {
  const auto text = [](Hours h) {
    const auto minutes = static_cast<int>(std::lround(h.count() * 60));
    return fmt::format("{:02}:{:02}", minutes / 60 % 24, minutes % 60);
  };
  return text(quiet.from) + " and " + text(quiet.to);
}

void keep_quiet(Forecast& forecast, const Zone& zone, long long step) {
  Wish& wish = forecast.schedule.wish;
  const long long asked = *wish.starts_at;
  long long best = asked;
  int least = hands_in_quiet(forecast, asked, zone);
  for (int i = 1; i <= kQuartersInADay && least > 0; ++i) {
    const int count = hands_in_quiet(forecast, asked + i * step, zone);
    if (count < least) {
      least = count;
      best = asked + i * step;
    }
  }
  wish.starts_at = best;
  if (best != asked) {
    tell(forecast, fmt::format("the start is moved from {} to {}, so that {} between {}",
                               to_string(zone.local(asked)), to_string(zone.local(best)),
                               least == 0 ? std::string{"nothing needs doing"}
                                          : fmt::format("only {} things need doing", least),
                               hours_text(*wish.quiet)));
  } else if (least > 0) {
    tell(forecast, fmt::format("{} things need doing between {}, and no other start within a day "
                               "is better",
                               least, hours_text(*wish.quiet)));
  }
}

}  // namespace

void set_start(Forecast& forecast, const Zone& zone) {
  Wish& wish = forecast.schedule.wish;
  const bool from_finish = wish.ends_at.has_value();
  if (from_finish) {
    wish.starts_at = *wish.ends_at - std::llround(forecast.off.count() * 3600);
  }
  if (wish.starts_at && wish.quiet && !forecast.events.empty()) {
    keep_quiet(forecast, zone, from_finish ? -kQuarter : kQuarter);
  }
}

std::vector<Appointment> appointments(const Forecast& forecast, const Zone& zone) {
  std::vector<Appointment> all;
  const Wish& wish = forecast.schedule.wish;
  if (!wish.starts_at) {
    return all;
  }
  for (const Event& event : forecast.events) {
    Appointment one;
    one.event = event;
    one.at_utc = *wish.starts_at + std::llround(event.at.count() * 3600);
    one.local = zone.local(one.at_utc);
    one.in_quiet = wish.quiet && event.hands_on && quiet_at(*wish.quiet, one.local);
    all.push_back(std::move(one));
  }
  return all;
}

long long days_later(long long utc, int days, const Zone& zone) {
  WallClock clock = zone.local(utc).clock;
  const WallClock date =
      civil_from_days(days_from_civil(clock.year, clock.month, clock.day) + days);
  clock.year = date.year;
  clock.month = date.month;
  clock.day = date.day;
  return zone.instants(clock).at;
}

}  // namespace placer::firing
