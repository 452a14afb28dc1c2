// The sheet that hangs by the kiln: how many pages real firings take, and what it must say.
#include "report/firing_sheet.h"

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
                             firing::HeatSource source, bool flat) {
  firing::Wish wish;
  wish.profile = profile;
  wish.target.end = cone;
  wish.starts_at = 1794294000;  // 10 November 2026, 07:00 UTC
  for (const firing::Profile& one : library().profiles) {
    if (one.name != profile) continue;
    wish.kind = one.kind;
    wish.atmosphere = one.atmosphere;
  }
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
}

TEST_CASE("the box says the hour, the degrees and the reason of the opening", "[firing-sheet]") {
  const auto forecast = forecast_of("mid-range", "6", firing::HeatSource::electric, true);
  const std::string words = words_of(pages_of(forecast));
  CHECK(words.find("and under 60 °C / 140 °F.") != std::string::npos);
  CHECK(words.find("Flat or wide ware is in it and cracks in a draught.") != std::string::npos);
  CHECK(words.find("Cooling hours ± ") != std::string::npos);
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
        "80,000 ppm", "450 mm (18 in)", "Sunglasses", "do not open.", "never sweep dry",
        "at least four", "then close damper and ports", "stay out of the kiln room"}) {
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
