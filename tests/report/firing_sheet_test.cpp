// The sheet that hangs by the kiln: how many pages real firings take, and what it must say.
#include "report/firing_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <catch2/catch.hpp>

#include "placer/firing/builder.h"
#include "placer/firing/forecast.h"
#include "placer/workbook/studio.h"
#include "report/fire_words.h"
#include "sheet_samples.h"

using namespace placer;
using namespace placer::report;

namespace {

const workbook::Library& library() {
  static const workbook::Library shipped =
      workbook::read_library(std::string{PLACER_ROOT} + "/schedules");
  return shipped;
}

firing::Forecast forecast_of(const std::string& profile, const std::string& cone,
                             firing::HeatSource source, bool flat, bool reduction = false) {
  firing::Wish wish;
  wish.profile = profile;
  wish.target.end = cone;
  wish.starts_at = 1794294000;  // 10 November 2026, 07:00 UTC
  for (const firing::Profile& one : library().profiles) {
    if (one.name != profile) continue;
    wish.kind = one.kind;
    wish.atmosphere = one.atmosphere;
  }
  if (reduction) wish.atmosphere = firing::Atmosphere::reduction;
  firing::WareSummary ware;
  ware.flat_ware = flat;
  firing::KilnBuild kiln;
  kiln.source = source;
  kiln.chamber_volume_m3 = 0.2;
  kiln.chamber_surface_m2 = 2;
  kiln.power = Power{source == firing::HeatSource::electric ? 14.0 : 40.0};
  kiln.price_per_kwh = 0.31;
  kiln.currency = "EUR";
  firing::HeatLoad load;
  load.ware = Mass::from_kg(30);
  load.furniture = Mass::from_kg(30);
  const firing::Built built =
      firing::plan_schedule(library().profiles, wish, ware, library().cones);
  return firing::forecast(built.schedule, library().cones, kiln, load);
}

std::vector<Page> pages_of(const firing::Forecast& forecast) {
  support::SheetSample sample = support::everyday_sample();
  sample.forecasts = {forecast};
  const Subject subject = sample.subject();
  const Lettering letters;
  return firing_pages(Desk{subject, letters}, 0);
}

std::string words_of(const std::vector<Page>& pages) {
  std::string all;
  for (const Page& page : pages) {
    for (const Mark& mark : page.marks) {
      if (const Text* text = std::get_if<Text>(&mark)) all += text->words + "\n";
    }
  }
  return all;
}

std::size_t times(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) {
    ++count;
  }
  return count;
}

}  // namespace

TEST_CASE("a plain oxidation firing takes two pages, a reduction firing three", "[firing-sheet]") {
  using firing::HeatSource;
  CHECK(pages_of(forecast_of("mid-range", "6", HeatSource::electric, false)).size() <= 2);
  CHECK(pages_of(forecast_of("stoneware-oxidation", "9", HeatSource::electric, false)).size() <= 2);
  CHECK(pages_of(forecast_of("earthenware", "04", HeatSource::electric, false)).size() <= 2);
  CHECK(pages_of(forecast_of("stoneware-reduction", "10", HeatSource::propane, true)).size() <= 3);
  CHECK(pages_of(forecast_of("porcelain-reduction", "10", HeatSource::propane, true)).size() <= 3);
  CHECK(pages_of(forecast_of("bisque-normal", "06", HeatSource::electric, true)).size() <= 3);
  CHECK(pages_of(forecast_of("built", "10", HeatSource::propane, true, true)).size() <= 3);
}

TEST_CASE("every moment at which somebody must be there has a line of its own", "[firing-sheet]") {
  const auto forecast = forecast_of("stoneware-reduction", "10", firing::HeatSource::propane, true);
  const std::string words = words_of(pages_of(forecast));
  const FireClock clock{"Europe/Berlin", forecast};
  std::size_t moments = 0;
  for (const firing::Event& event : forecast.events) {
    if (!event.hands_on) continue;
    ++moments;
    CAPTURE(event.what);
    CHECK(words.find("\n" + clock.day_time(event.at) + "\n" + event.what.substr(0, 20)) !=
          std::string::npos);
  }
  CHECK(moments >= 8);
}

TEST_CASE("a pack is the cone aimed at with its neighbours", "[firing-sheet]") {
  using firing::HeatSource;
  const auto pack = [](const char* cone) {
    return forecast_of("mid-range", cone, HeatSource::electric, false).pack;
  };
  CHECK(pack("6") == std::vector<std::string>{"5", "6", "7"});
  CHECK(forecast_of("bisque-normal", "06", HeatSource::electric, true).pack ==
        std::vector<std::string>{"07", "06", "05"});
}

TEST_CASE("the box says the hour, the degrees and the reason of the opening", "[firing-sheet]") {
  const auto forecast = forecast_of("mid-range", "6", firing::HeatSource::electric, true);
  const std::string words = words_of(pages_of(forecast));
  CHECK(words.find("and when it reads under 60 °C / 140 °F.") != std::string::npos);
  CHECK(words.find("Flat or wide ware is in it and cracks in a draught.") != std::string::npos);
  CHECK(words.find("Cooling hours ± ") != std::string::npos);
}

TEST_CASE("a sheet speaks of what its kiln has: gas by the cubic metre, its own setting",
          "[firing-sheet]") {
  using firing::HeatSource;
  const auto natural = forecast_of("mid-range", "6", HeatSource::natural_gas, false);
  REQUIRE(natural.fuel_kg);
  const std::string gas = fuel_words(natural);
  // A mole of an ideal gas takes 23.64 litres at 15 °C and 1 atm; methane 16.04 g/mol.
  CHECK(gas == fmt::format("gas about {:.0f} m³", *natural.fuel_kg / 0.678));
  CHECK(words_of(pages_of(natural)).find("setting: damper, gas\n") != std::string::npos);
  const auto bottled = forecast_of("mid-range", "6", HeatSource::propane, false);
  CHECK(fuel_words(bottled).find(" kg") != std::string::npos);
  const auto electric = forecast_of("mid-range", "6", HeatSource::electric, false);
  CHECK(fuel_words(electric).empty());
  CHECK(words_of(pages_of(electric)).find("setting: switch or controller") != std::string::npos);
}

TEST_CASE("a kiln too weak: its row shows the real rate, the hours are named for what they are",
          "[firing-sheet]") {
  firing::TimedSegment step;
  step.from = {600};
  step.segment.target = {900};
  step.segment.rate = {150};
  step.ends = Hours{2};
  CHECK(real_rate(step).kelvin_per_hour == 150);
  step.ends = Hours{2.5};
  CHECK(real_rate(step).kelvin_per_hour == Approx(120));
  step.segment.hold = Hours{0.5};  // a hold is no climb
  CHECK(real_rate(step).kelvin_per_hour == 150);

  auto forecast = forecast_of("mid-range", "6", firing::HeatSource::electric, false);
  CHECK(words_of(pages_of(forecast)).find("what it will manage") == std::string::npos);
  forecast.falls_behind = Hours{6};
  CHECK(words_of(pages_of(forecast)).find("what it will manage") != std::string::npos);
}

TEST_CASE("the hour from which a kiln is too weak is told by the clock", "[firing-sheet]") {
  firing::Forecast forecast;
  forecast.falls_behind = Hours{6.1};
  Finding finding;
  finding.message = "from about 6 h 6 min after the start it cannot keep 150 °C/h";
  CHECK(finding_words(finding, forecast, FireClock{"UTC", forecast}) == finding.message);
  forecast.schedule.wish.starts_at = 1764052200;  // Tuesday 25 November 2025, 06:30 UTC
  CHECK(finding_words(finding, forecast, FireClock{"UTC", forecast}) ==
        "from about Tue 12:36 it cannot keep 150 °C/h");
}

TEST_CASE("the chart goes on to the opening", "[firing-sheet]") {
  const auto forecast = forecast_of("mid-range", "6", firing::HeatSource::electric, true);
  CHECK(words_of(pages_of(forecast)).find("open\n") != std::string::npos);
}

TEST_CASE("every caution of the firing stands on the sheet in full, once", "[firing-sheet]") {
  const auto forecast = forecast_of("stoneware-reduction", "10", firing::HeatSource::propane, true);
  std::string words = words_of(pages_of(forecast));
  std::replace(words.begin(), words.end(), '\n', ' ');
  for (const char* said :  // wherever lines break, and no more than once
       {"No reduction below 760 °C (1400 °F): gas", "keep your face", "licensed", "never over 200",
        "80,000 ppm", "450 mm (18 in)", "Sunglasses", "Opening: not over", "never sweep dry",
        "Light from the side", "then close damper and ports", "stay out of the kiln room"}) {
    CAPTURE(said);
    CHECK(times(words, said) == 1);
  }
  CHECK(times(words, "⚠") >= 9);
}

TEST_CASE("the cost carries its currency, before or behind", "[firing-sheet]") {
  firing::Forecast forecast;
  CHECK(cost_words(forecast).empty());
  forecast.cost = 12.4;
  forecast.currency = "EUR";
  CHECK(cost_words(forecast) == "cost about 12.40 EUR");
  forecast.currency = "$";
  CHECK(cost_words(forecast) == "cost about $12.40");
  forecast.currency = "";
  CHECK(cost_words(forecast) == "cost about 12.40");
}
