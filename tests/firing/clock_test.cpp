#include "placer/firing/clock.h"

#include <catch2/catch.hpp>

namespace placer::firing {

TEST_CASE("dates and day numbers are each other's inverse over four centuries", "[clock]") {
  CHECK(days_from_civil(1970, 1, 1) == 0);
  CHECK(days_from_civil(2000, 3, 1) == 11017);
  CHECK(days_from_civil(2026, 11, 25) == 20782);
  for (long long day = -80000; day < 80000; day += 7) {
    const WallClock date = civil_from_days(day);
    REQUIRE(days_from_civil(date.year, date.month, date.day) == day);
  }
}

TEST_CASE("a local time of an instant, summer and winter", "[clock]") {
  const Zone berlin = Zone::named("Europe/Berlin");
  // RFC 8536 files of the IANA database; EU rule: last Sunday of March and October, 01:00 UTC.
  const LocalTime winter = berlin.local(1764055800);  // 2025-11-25 07:30 UTC
  CHECK(to_string(winter, true) == "Tue 25 Nov 2025 08:30");
  CHECK(winter.abbreviation == "CET");
  const LocalTime summer = berlin.local(1782882000);  // 2026-07-01 05:00 UTC
  CHECK(clock_text(summer) == "07:00");
  CHECK(summer.daylight_saving);
  CHECK(summer.offset_seconds == 7200);
}

TEST_CASE("the night on which the clocks go back shows an hour twice", "[clock]") {
  const Zone berlin = Zone::named("Europe/Berlin");
  const Instants twice = berlin.instants({2026, 10, 25, 2, 30});
  REQUIRE(twice.again);
  CHECK(*twice.again - twice.at == 3600);
  CHECK(clock_text(berlin.local(twice.at)) == "02:30");
  CHECK(clock_text(berlin.local(*twice.again)) == "02:30");
  CHECK(berlin.local(twice.at).abbreviation == "CEST");
  CHECK(berlin.local(*twice.again).abbreviation == "CET");
  const Instants once = berlin.instants({2026, 10, 25, 4, 0});
  CHECK_FALSE(once.again);
  // From 20:00 the evening before to 08:00 it is thirteen hours, not twelve.
  CHECK(berlin.instants({2026, 10, 25, 8, 0}).at - berlin.instants({2026, 10, 24, 20, 0}).at ==
        13 * 3600);
}

TEST_CASE("the night on which the clocks go forward skips an hour", "[clock]") {
  const Zone berlin = Zone::named("Europe/Berlin");
  const Instants none = berlin.instants({2026, 3, 29, 2, 30});
  CHECK(none.skipped);
  CHECK(clock_text(berlin.local(none.at)) == "03:30");
  CHECK(berlin.instants({2026, 3, 29, 8, 0}).at - berlin.instants({2026, 3, 28, 20, 0}).at ==
        11 * 3600);
}

TEST_CASE("zones with other rules, and years after the file's last written change", "[clock]") {
  const Zone chicago = Zone::named("America/Chicago");
  CHECK(chicago.local(chicago.instants({2044, 7, 1, 12, 0}).at).abbreviation == "CDT");
  CHECK(chicago.local(chicago.instants({2044, 12, 1, 12, 0}).at).abbreviation == "CST");
  const Zone sydney = Zone::named("Australia/Sydney");  // summer over the turn of the year
  CHECK(sydney.local(sydney.instants({2044, 1, 10, 12, 0}).at).daylight_saving);
  CHECK_FALSE(sydney.local(sydney.instants({2044, 7, 10, 12, 0}).at).daylight_saving);
  const Zone kolkata = Zone::named("Asia/Kolkata");
  CHECK(kolkata.local(0).offset_seconds == 19800);
  CHECK(Zone::named("UTC").local(0).clock == WallClock{});
}

TEST_CASE("every hour of two years comes back from its wall clock", "[clock]") {
  const char* name = GENERATE("Europe/Berlin", "America/St_Johns", "Australia/Lord_Howe",
                              "America/Santiago", "Asia/Tokyo");
  CAPTURE(name);
  const Zone zone = Zone::named(name);
  for (long long utc = 1767225600; utc < 1767225600 + 730LL * 86400; utc += 3600) {
    const Instants found = zone.instants(zone.local(utc).clock);
    const bool hit = found.at == utc || found.again == utc;
    if (!hit) {
      CAPTURE(utc);
      REQUIRE(hit);
    }
  }
}

TEST_CASE("a zone that is none is refused with a way out", "[clock]") {
  const char* name = GENERATE("Europe/Bisqueville", "../../etc/passwd", "/etc/localtime", "a b");
  CHECK_THROWS_WITH(Zone::named(name), Catch::Contains("Europe/Berlin"));
}

TEST_CASE("a damaged zone file is refused", "[clock]") {
  CHECK_THROWS_AS(Zone::from_bytes("", "x"), std::runtime_error);
  CHECK_THROWS_AS(Zone::from_bytes("TZif2", "x"), std::runtime_error);
  std::string huge = "TZif2" + std::string(15, '\0') + std::string(24, '\xff');
  CHECK_THROWS_AS(Zone::from_bytes(huge, "x"), std::runtime_error);
}

}  // namespace placer::firing
