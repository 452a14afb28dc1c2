#include "placer/firing/calibration.h"

#include <fmt/core.h>

#include <catch2/catch.hpp>
#include <cmath>

#include "library.h"
#include "placer/base/random.h"

namespace placer::firing {
namespace {

KilnBuild kiln() {
  KilnBuild k;
  k.chamber_volume_m3 = 0.198;
  k.chamber_surface_m2 = 2.04;
  k.power = Power{14};
  k.wall = {{"insulating brick 26", Length::from_mm(76)}};
  return k;
}

HeatLoad load() {
  HeatLoad l;
  l.ware = Mass::from_kg(40);
  l.furniture = Mass::from_kg(30);
  l.shelf_material = "cordierite";
  return l;
}

/// What a kiln that differs from its description would have logged: the forecast of the changed
/// kiln, with a sensor's noise on it.
std::string log_of(const Forecast& f, double noise, std::uint64_t seed) {
  Random random{seed};
  std::string text = "time (h),temperature C\n";
  for (const Moment& m : f.curve) {
    text += fmt::format("{:.4f},{:.2f}\n", m.at.count(),
                        m.kiln.celsius + random.uniform(-noise, noise));
  }
  return text;
}

}  // namespace

TEST_CASE("a past firing teaches what the wall really is", "[calibration]") {
  const double loss = GENERATE(0.75, 1.0, 1.3);
  const double store = GENERATE(0.85, 1.15);
  KilnBuild real = kiln();
  real.learnt = Learnt{loss, store, 1, 0.3, ""};
  const Schedule schedule = schedule_for("mid-range", "6").schedule;
  const Forecast truth = forecast(schedule, library().cones, real, load());
  const FiringLog log = read_log(log_of(truth, 2, 7), "past.csv");
  CAPTURE(loss, store);
  const Calibrated c = calibrate(kiln(), load(), log);
  CHECK(c.learnt.loss == Approx(loss).epsilon(0.10));
  CHECK(c.learnt.store == Approx(store).epsilon(0.12));
  CHECK(c.cooling_miss.kelvin < 6);
  CHECK(c.cooling_miss.kelvin <= c.cooling_miss_before.kelvin + 0.5);
  CHECK(c.learnt.band < 0.2);
  CHECK(c.learnt.band >= 0.08);
  // The point of it: the next firing's energy is foretold better than the new, smaller band.
  KilnBuild learnt = kiln();
  learnt.learnt = c.learnt;
  const Schedule next = schedule_for("bisque-normal", "04").schedule;
  const double told = forecast(next, library().cones, learnt, load()).energy->kwh;
  const double real_kwh = forecast(next, library().cones, real, load()).energy->kwh;
  CHECK(told == Approx(real_kwh).epsilon(c.learnt.band));
  CHECK(std::abs(told - real_kwh) < 0.06 * real_kwh);
}

TEST_CASE("a log that stops at the top teaches nothing about the walls", "[calibration]") {
  const FiringLog log = read_log("0:00,20\n4:00,500\n8:00,1000\n10:00,1200\n", "short.csv");
  const Calibrated c = calibrate(kiln(), load(), log);
  CHECK(c.learnt.loss == 1);
  CHECK(c.learnt.store == 1);
  REQUIRE_FALSE(c.findings.empty());
  CHECK(c.findings[0].message.find("nothing is learnt about its walls") != std::string::npos);
  CHECK(c.climb_heat.kwh > 20);
  CHECK(c.at_least.kw > 4);
}

TEST_CASE("a meter that cannot be is not believed", "[calibration]") {
  const Schedule schedule = schedule_for("mid-range", "6").schedule;
  const Forecast truth = forecast(schedule, library().cones, kiln(), load());
  const FiringLog log = read_log(log_of(truth, 1, 3), "past.csv");
  const Calibrated c = calibrate(kiln(), load(), log, Energy{3});
  REQUIRE_FALSE(c.findings.empty());
  CHECK(c.findings[0].message.find("the meter is not used") != std::string::npos);
  const Calibrated good = calibrate(kiln(), load(), log, Energy{truth.energy->kwh * 1.05});
  CHECK(good.findings.empty());
  CHECK(good.learnt.band <= c.learnt.band);
  CHECK(good.learnt.loss > c.learnt.loss);
}

TEST_CASE("a log that climbs faster than the rating says so", "[calibration]") {
  KilnBuild weak = kiln();
  weak.power = Power{5};
  const Forecast truth =
      forecast(schedule_for("mid-range", "6").schedule, library().cones, kiln(), load());
  const Calibrated c = calibrate(weak, load(), read_log(log_of(truth, 1, 3), "past.csv"));
  CHECK(c.learnt.power > 1.3);
  REQUIRE_FALSE(c.findings.empty());
  CHECK_THROWS_AS(calibrate(kiln(), load(), FiringLog{}), std::invalid_argument);
}

}  // namespace placer::firing
