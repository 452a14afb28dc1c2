#include "placer/firing/timing.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "library.h"

namespace placer::firing {
namespace {

Forecast forecast_of(const Wish& wish) {
  const Built built = plan_schedule(library().profiles, wish, {}, library().cones);
  return forecast(built.schedule, library().cones, std::nullopt, {});
}

Wish mid_range() {
  Wish wish;
  wish.profile = "mid-range";
  wish.target.end = std::string{"6"};
  return wish;
}

int in_quiet(const Forecast& f, const Zone& zone) {
  const auto all = appointments(f, zone);
  return static_cast<int>(
      std::count_if(all.begin(), all.end(), [](const Appointment& a) { return a.in_quiet; }));
}

}  // namespace

TEST_CASE("events come in order of time and name what a person must do", "[timing]") {
  Wish wish;
  wish.profile = "stoneware-reduction";
  wish.atmosphere = Atmosphere::reduction;
  wish.target.end = std::string{"10"};
  const Forecast f = forecast_of(wish);
  std::string all;
  double last = 0;
  for (const Event& e : f.events) {
    CHECK(e.at.count() >= last);
    last = e.at.count();
    all += e.what + "\n";
  }
  for (const char* part : {"light it; stay by the flames up to 760 °C", "start reduction",
                           "read the cones", "heat off", "may be opened", "may be unloaded"}) {
    CAPTURE(part);
    CHECK(all.find(part) != std::string::npos);
  }
}

TEST_CASE("a firing over the night on which the clocks go back is an hour longer on the wall",
          "[timing]") {
  const Zone berlin = Zone::named("Europe/Berlin");
  Wish wish = mid_range();
  wish.starts_at = berlin.instants({2026, 10, 24, 20, 0}).at;
  Forecast f = forecast_of(wish);
  set_start(f, berlin);
  const auto all = appointments(f, berlin);
  const auto off = std::find_if(all.begin(), all.end(), [](const Appointment& a) {
    return a.event.what.find("heat off") != std::string::npos;
  });
  REQUIRE(off != all.end());
  // 9 h 28 min after 20:00 of summer time is 04:28 of winter time.
  const double shown = off->local.clock.hour + off->local.clock.minute / 60.0;
  CHECK(shown == Approx(20 + f.off.count() - 24 - 1).margin(0.02));
  CHECK(off->local.abbreviation == "CET");
}

TEST_CASE("the start is worked back from the finish", "[timing]") {
  const Zone berlin = Zone::named("Europe/Berlin");
  Wish wish = mid_range();
  wish.ends_at = berlin.instants({2026, 3, 29, 8, 0}).at;  // the night loses an hour
  Forecast f = forecast_of(wish);
  set_start(f, berlin);
  REQUIRE(f.schedule.wish.starts_at);
  CHECK(*wish.ends_at - *f.schedule.wish.starts_at == std::llround(f.off.count() * 3600));
  const WallClock clock = berlin.local(*f.schedule.wish.starts_at).clock;
  CHECK(clock.day == 28);
  CHECK(clock.hour + clock.minute / 60.0 == Approx(24 + 8 - 1 - f.off.count()).margin(0.02));
}

TEST_CASE("quiet hours move the start, later from a start and earlier from a finish", "[timing]") {
  const Zone zone = Zone::named("Europe/Berlin");
  Wish wish = mid_range();
  wish.quiet = Wish::Quiet{Hours{23}, Hours{6}};
  wish.starts_at = zone.instants({2026, 11, 25, 18, 0}).at;  // off at 03:28
  Forecast f = forecast_of(wish);
  CHECK(in_quiet(f, zone) > 0);
  set_start(f, zone);
  CHECK(in_quiet(f, zone) == 0);
  CHECK(*f.schedule.wish.starts_at > *wish.starts_at);
  CHECK(f.findings.back().code == "quiet");
  CHECK(f.findings.back().message.find("moved from") != std::string::npos);

  Wish finish = mid_range();
  finish.quiet = wish.quiet;
  finish.ends_at = zone.instants({2026, 11, 26, 3, 0}).at;
  Forecast g = forecast_of(finish);
  set_start(g, zone);
  CHECK(in_quiet(g, zone) == 0);
  CHECK(*g.schedule.wish.starts_at + std::llround(g.off.count() * 3600) < *finish.ends_at);

  Wish fine = mid_range();
  fine.quiet = wish.quiet;
  fine.starts_at = zone.instants({2026, 11, 25, 7, 0}).at;
  Forecast h = forecast_of(fine);
  set_start(h, zone);
  CHECK(*h.schedule.wish.starts_at == *fine.starts_at);
}

TEST_CASE("quiet hours over the nights on which the clocks change, against every start tried",
          "[timing]") {
  const Zone zone = Zone::named("Europe/Berlin");
  const auto by_hand = [&](const Forecast& f, long long start) {
    int count = 0;
    for (const Event& event : f.events) {
      const WallClock c = zone.local(start + std::llround(event.at.count() * 3600)).clock;
      const int minute = c.hour * 60 + c.minute;
      count += event.hands_on && (minute >= 23 * 60 || minute < 6 * 60) ? 1 : 0;
    }
    return count;
  };
  // Put back on 25 October 2026 at 3:00, forward on 29 March at 2:00.
  for (const WallClock begins : {WallClock{2026, 10, 24, 15, 0}, WallClock{2026, 10, 24, 23, 30},
                                 WallClock{2026, 3, 28, 15, 0}, WallClock{2026, 3, 28, 21, 15}}) {
    for (const bool from_finish : {false, true}) {
      Wish wish = mid_range();
      wish.quiet = Wish::Quiet{Hours{23}, Hours{6}};
      (from_finish ? wish.ends_at : wish.starts_at) = zone.instants(begins).at;
      Forecast f = forecast_of(wish);
      set_start(f, zone);
      const long long asked =
          from_finish ? *wish.ends_at - std::llround(f.off.count() * 3600) : *wish.starts_at;
      long long best = asked;
      for (int i = 1; i <= 96; ++i) {
        const long long start = asked + (from_finish ? -900 : 900) * i;
        best = by_hand(f, start) < by_hand(f, best) ? start : best;
      }
      CAPTURE(begins.month, begins.hour, from_finish);
      CHECK(*f.schedule.wish.starts_at == best);
      CHECK(in_quiet(f, zone) == by_hand(f, best));
      CHECK(in_quiet(f, zone) == 0);  // a firing of ten hours always finds a day
    }
  }
}

TEST_CASE("when no start is quiet enough it is said", "[timing]") {
  const Zone zone = Zone::named("UTC");
  Wish wish = mid_range();
  wish.quiet = Wish::Quiet{Hours{0}, Hours{23.9}};
  wish.starts_at = 1'800'000'000;
  Forecast f = forecast_of(wish);
  set_start(f, zone);
  CHECK(f.findings.back().code == "quiet");
}

TEST_CASE("days later is the same time on the clock", "[timing]") {
  const Zone berlin = Zone::named("Europe/Berlin");
  const long long before = berlin.instants({2026, 10, 23, 6, 30}).at;
  const long long after = days_later(before, 3, berlin);
  CHECK(clock_text(berlin.local(after)) == "06:30");
  CHECK(after - before == 3 * 86400 + 3600);
}

TEST_CASE("without a start there are no appointments", "[timing]") {
  Forecast f = forecast_of(mid_range());
  set_start(f, Zone::named("UTC"));
  CHECK(appointments(f, Zone::named("UTC")).empty());
}

}  // namespace placer::firing
