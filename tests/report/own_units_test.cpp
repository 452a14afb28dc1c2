// Sentences in the units and under the names that the studio reads.
#include "report/own_units.h"

#include <catch2/catch.hpp>

#include "sheet_samples.h"

using namespace placer;
using namespace placer::report;

TEST_CASE("in_own_units: °F before °C, of one temperature, two, a rate and a difference",
          "[units]") {
  const auto swapped = [](const char* words) { return in_own_units(words, true); };
  CHECK(swapped("falls through 573 °C (1063 °F) at 102 °C/h (183 °F/h)") ==
        "falls through 1063 °F (573 °C) at 183 °F/h (102 °C/h)");
  CHECK(swapped("from 200 to 1000 °C (392 to 1832 °F).") ==
        "from 392 to 1832 °F (200 to 1000 °C).");
  CHECK(swapped("reckoned to -14 to +19 °C (-25 to +34 °F): it") ==
        "reckoned to -25 to +34 °F (-14 to +19 °C): it");
  CHECK(swapped("± 7 °C (13 °F)") == "± 13 °F (7 °C)");
  CHECK(in_own_units("at 573 °C (1063 °F), 216 mm", false) == "at 573 °C (1063 °F), 216 mm");
}

TEST_CASE("in_own_units: inches and pounds first, each number once", "[units]") {
  const auto read = [](const char* words) { return in_own_units(words, true); };
  CHECK(read("at 216 mm to 305 mm: a prop") == "at 8 1/2 in (216 mm) to 12 in (305 mm): a prop");
  CHECK(read("spot of 80 x 30 mm.") == "spot of 3 1/8 x 1 3/16 in (80 x 30 mm).");
  CHECK(read("6 to 10 mm where") == "1/4 to 3/8 in (6 to 10 mm) where");
  CHECK(read("within 450 mm (18 in) around") == "within 18 in (450 mm) around");
  CHECK(read("15.875 mm thick") == "5/8 in (16 mm) thick");
  CHECK(read("bears 2.5 kg of ware") == "bears 5.5 lb (2.5 kg) of ware");
  CHECK(read("0.1 mg/m³ and 40 mm² stay") == "0.1 mg/m³ and 40 mm² stay");
  CHECK(read("Reader of 12 mmx") == "Reader of 12 mmx");
}

TEST_CASE("with_names_of_sheets: loads and columns are named as on the sheets", "[units]") {
  const auto one = support::everyday_sample();  // one column, one load
  const std::string column = one.batch.kiln.columns[0].name;
  CHECK(with_names_of_sheets(
            one.batch, one.plan,
            "In one load the heaviest shelf (glaze load 1, " + column + ", shelf 1) bears much") ==
        "In one load the heaviest shelf (glaze, shelf 1) bears much");
  CHECK(with_names_of_sheets(one.batch, one.plan, "glaze load 1, " + column + ", shelf 10") ==
        "glaze load 1, " + column + ", shelf 10");
  const auto many = support::bisque_sample();
  CHECK(with_names_of_sheets(many.batch, many.plan, "in bisque load 2, back, shelf 1: more") ==
        "in bisque, load 2 of 3, back, shelf 1: more");
}

TEST_CASE("put_as_read: all that a plan and a firing say", "[units]") {
  auto sample = support::everyday_sample();
  sample.plan.remarks = {"it bears 2.0 kg"};
  sample.plan.left_out.push_back({0, 0, 1, "wide", "it is 508 mm across"});
  sample.plan.ungranted.push_back({0, 0, "side", "254 mm away"});
  put_as_read(sample.batch, true, sample.plan);
  CHECK(sample.plan.remarks.back() == "it bears 4.4 lb (2.0 kg)");
  CHECK(sample.plan.left_out.back().reason == "it is 20 in (508 mm) across");
  CHECK(sample.plan.ungranted.back().reason == "10 in (254 mm) away");
  firing::Forecast forecast;
  forecast.events = {{Hours{1}, "120 °C (248 °F), hold it", true}};
  forecast.open_why = "under 60 °C (140 °F)";
  forecast.steps.resize(1);
  forecast.steps[0].segment.stage = "573 °C on the way down";
  put_as_read(true, forecast);
  CHECK(forecast.events[0].what == "248 °F (120 °C), hold it");
  CHECK(forecast.steps[0].segment.stage == "1063 °F on the way down");
  CHECK(forecast.open_why == "under 140 °F (60 °C)");
}
