#include "placer/job/job.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "placer/check/check.h"
#include "support/geos_oracle.h"

using namespace placer;

namespace {

constexpr long long kNow = 1793750400;  // 2026-11-04 00:00 UTC

std::string slurp(const std::filesystem::path& path) {
  std::ifstream in{path, std::ios::binary};
  return {std::istreambuf_iterator<char>{in}, std::istreambuf_iterator<char>{}};
}

const workbook::Library& library() {
  static const workbook::Library read = workbook::read_library(PLACER_ROOT "/schedules");
  return read;
}

workbook::Studio read(const std::string& file) {
  return workbook::read_studio(slurp(file), file, library(), kNow).studio.value();
}

workbook::Studio demo() { return read(PLACER_ROOT "/demo/studio.yaml"); }

}  // namespace

TEST_CASE("the demo studio: every rule holds, by our own check and by GEOS", "[job]") {
  const workbook::Studio studio = demo();
  const job::Outcome outcome = job::run(studio, library());
  CHECK(check::check_plan(studio.batch, outcome.plan).empty());
  CHECK(oracle::plan_troubles(studio.batch, outcome.plan).empty());
  CHECK(outcome.plan.left_out.empty());
  CHECK(outcome.forecasts.size() == outcome.plan.firings.size());
}

TEST_CASE("the demo studio: its firings reach their cones and say when to open", "[job]") {
  const workbook::Studio studio = demo();
  const job::Outcome outcome = job::run(studio, library());
  REQUIRE(outcome.forecasts.size() >= 2);
  for (const firing::Forecast& forecast : outcome.forecasts) {
    CAPTURE(forecast.schedule.profile);
    const auto& end = forecast.schedule.wish.target.end;
    REQUIRE(std::holds_alternative<std::string>(end));
    CHECK(forecast.cone == std::get<std::string>(end));
    CHECK(forecast.off < forecast.earliest_opening);
    CHECK(forecast.earliest_opening == forecast.unload);  // plates and wide bowls wait for 60 °C
    CHECK(forecast.energy.value().kwh > 0);
    CHECK_FALSE(forecast.cautions.empty());
    CHECK_FALSE(has_mistakes(forecast.findings));
  }
}

TEST_CASE("the same studio gives the same plan, on one thread or two", "[job][same]") {
  const workbook::Studio studio = demo();
  loading::Options one;
  one.threads = 1;
  loading::Options two;
  two.threads = 2;
  CHECK(job::run(studio, library(), one).plan.name == job::run(studio, library(), two).plan.name);
}

TEST_CASE("a load's heat: masses from the plan, water from the ware", "[job]") {
  const workbook::Studio studio = demo();
  const LoadPlan plan = loading::plan(studio.batch);
  for (const KilnLoad& load : plan.firings) {
    const firing::HeatLoad heat = job::heat_load(studio.batch, load);
    CHECK(heat.ware == load.ware);
    CHECK(heat.furniture == load.furniture);
    CHECK(heat.water.kg() == Approx(0.02 * load.ware.kg()).epsilon(1e-6));
    const bool bisque =
        studio.batch.loads[static_cast<std::size_t>(load.load)].kind == FiringKind::bisque;
    CHECK((heat.bound_water.kg() > 0) == bisque);
  }
}

TEST_CASE("a firing that starts before the kiln can be unloaded is told", "[job]") {
  workbook::Studio studio = demo();
  const auto told = [&] {
    const job::Outcome outcome = job::run(studio, library());
    return std::ranges::any_of(outcome.findings,
                               [](const Finding& f) { return f.code == "overlap"; });
  };
  CHECK_FALSE(told());
  studio.firings[1].starts_at = *studio.firings[0].starts_at + 20 * 3600;
  CHECK(told());
}

TEST_CASE("a firing lit before anybody can unload the last one and set the kiln is told", "[job]") {
  workbook::Studio studio = demo();
  const LoadPlan plan = loading::plan(studio.batch);
  const auto planned = [&] { return job::run_plan(studio, library(), plan); };
  const auto told = [](const job::Outcome& outcome) {
    return std::ranges::any_of(outcome.findings,
                               [](const Finding& f) { return f.code == "overlap"; });
  };
  const job::Outcome first = planned();
  REQUIRE(first.forecasts.size() > 1);
  const firing::Forecast& before = first.forecasts[0];
  // Four hours to unload and set: common practice, no source; more where the hour is less sure.
  const double band = before.time_band * (before.unload - before.off).count();
  const double needed = before.unload.count() + std::max(4.0, band);
  const auto after = [&](double hours) {
    studio.firings[1].starts_at =
        *before.schedule.wish.starts_at + static_cast<long long>(hours * 3600);
    studio.firings[1].ends_at.reset();
    return told(planned());
  };
  CHECK(after(before.unload.count() + 0.5));
  CHECK(after(needed - 0.1));
  CHECK_FALSE(after(needed + 0.1));
  std::swap(studio.firings[0].starts_at, studio.firings[1].starts_at);
  studio.firings[0].starts_at = *studio.firings[1].starts_at + 3600;  // the later one comes first
  CHECK(told(planned()));
}

TEST_CASE("the next load of a firing is lit when the kiln can be unloaded and set before it",
          "[job]") {
  const workbook::Studio studio = read(PLACER_TEST_DATA "/studios/bisque-stacks.yaml");
  loading::Options quick;
  quick.effort = loading::Effort::quick;
  const job::Outcome outcome = job::run(studio, library(), quick);
  REQUIRE(outcome.forecasts.size() > 1);
  for (std::size_t i = 1; i < outcome.forecasts.size(); ++i) {
    const firing::Forecast& before = outcome.forecasts[i - 1];
    const double band = before.time_band * (before.unload - before.off).count();
    const auto apart =
        *outcome.forecasts[i].schedule.wish.starts_at - *before.schedule.wish.starts_at;
    CHECK(static_cast<double>(apart) / 3600 - before.unload.count() >= std::max(4.0, band));
  }
}
