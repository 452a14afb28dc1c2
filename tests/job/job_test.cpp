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

workbook::Studio demo() {
  const std::string file = PLACER_ROOT "/demo/studio.yaml";
  return workbook::read_studio(slurp(file), file, library(), kNow).studio.value();
}

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
