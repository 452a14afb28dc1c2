#include "report/fire_clock.h"

#include <cmath>

#include "report/words.h"

namespace placer::report {
namespace {

std::optional<long long> start_of(const firing::Forecast& forecast) {
  const firing::Wish& wish = forecast.schedule.wish;
  if (wish.starts_at) return wish.starts_at;
  if (!wish.ends_at) return std::nullopt;
  return *wish.ends_at - std::llround(forecast.off.count() * 3600);
}

}  // namespace

FireClock::FireClock(const Subject& subject, const firing::Forecast& forecast)
    : FireClock{subject.zone, forecast} {}

FireClock::FireClock(const std::string& zone, const firing::Forecast& forecast)
    : start_{start_of(forecast)}, zone_{firing::Zone::named(zone)} {}

std::optional<long long> FireClock::instant(Hours at) const {
  if (!start_) return std::nullopt;
  // To the nearest minute, as everything else on the sheet.
  return *start_ + 60 * std::llround(at.count() * 60);
}

firing::LocalTime FireClock::local(Hours at) const { return zone_.local(instant(at).value_or(0)); }

std::string FireClock::elapsed(Hours at) const { return "+" + hours_text(at); }

std::string FireClock::day_time(Hours at) const {
  if (!start_) return "";
  const firing::LocalTime time = local(at);
  return firing::to_string(time).substr(0, 3) + " " + firing::clock_text(time);
}

std::string FireClock::clock(Hours at) const { return start_ ? firing::clock_text(local(at)) : ""; }

std::string FireClock::start_words() const {
  return start_ ? firing::to_string(local(Hours{0}), true) : "";
}

int FireClock::start_minute() const { return start_ ? local(Hours{0}).clock.minute : 0; }

}  // namespace placer::report
