#include <catch2/catch.hpp>
#include <sstream>

#include "placer/report/report.h"
#include "report/odd_samples.h"
#include "report/words.h"

using namespace placer;
using namespace placer::report;

namespace {

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in{text};
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

bool holds(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("plan_text: the whole of a small plan, word for word", "[text]") {
  const auto sample = support::tiny_sample();
  CHECK(plan_text(sample.subject()) ==
        "Plan ASH-1: 1 of 1 pieces in 1 firing\n"
        "\n"
        "glaze: 1 piece on 1 shelf, 0.4 kg\n"
        "  shelf 1  Ring dish 1\n"
        "           open above, 35 mm free over the Ring dish\n");
}

TEST_CASE("plan_text: says what is left out and why, and which posts carry a shelf", "[text]") {
  const std::string text = plan_text(support::everyday_sample().subject());
  CHECK(holds(text, "Plan OAK-17: 39 of 41 pieces in 1 firing\n"));
  CHECK(holds(text, "posts 3 of 100 + 13 mm, 3 mm over the Bud vase"));
  CHECK(holds(text, "Left out of glaze: Plate 2. 410 mm across"));
  CHECK(holds(text, "placer why \"Plate\""));
  CHECK(holds(text, "One more shelf would let in 8 more mugs.\n"));
}

TEST_CASE("plan_text: shelves run from the top down, and what to buy is named", "[text]") {
  const std::string text = plan_text(support::bisque_sample().subject());
  CHECK(text.find("back, shelf 3") < text.find("back, shelf 1"));
  CHECK(holds(text, "bisque, load 3 of 3: "));
  CHECK(holds(text, "Still to get: 2 posts of 100 mm and 18 posts of 13 mm\n"));
}

TEST_CASE("every text keeps to 100 columns of a terminal", "[text]") {
  for (const auto& sample : support::text_samples()) {
    CAPTURE(sample.name);
    for (const std::string& text : {plan_text(sample.subject()), firings_text(sample.subject())}) {
      for (const std::string& line : lines_of(text)) {
        CAPTURE(line);
        CHECK(columns(line) <= 100);
      }
    }
  }
}

TEST_CASE("firing_text: steps with clock times, both scales, the end and the opening", "[text]") {
  const auto sample = support::everyday_sample();
  const std::string text = firing_text(sample.forecasts[0], "Europe/Berlin");
  // 1764052200 s = 25 November 2025 06:30 UTC, 07:30 in Berlin.
  CHECK(holds(text, "Start Tue 25 Nov 2025 07:30\n"));
  CHECK(holds(text, "90 °C / 194 °F"));
  CHECK(holds(text, "Heat off                             Tue 21:13  +13 h 43\n"));
  CHECK(holds(text, "May be opened after                  Wed 13:21  +29 h 51\n"));
  CHECK(holds(text, "     ! Sulphur fumes: keep out of the room.\n"));
  CHECK(holds(text, "Mind:\n  - Carbon monoxide comes out of every kiln"));
  CHECK(holds(firing_text(sample.forecasts[0], "UTC"), "Start Tue 25 Nov 2025 06:30\n"));
}

TEST_CASE("firing_text: without a start, hours count and the file says what to add", "[text]") {
  const auto sample = support::tiny_sample();
  const std::string text = firing_text(sample.forecasts[0], "");
  CHECK(holds(text, "Start not set: write start: tomorrow 6:30 in the studio file"));
  CHECK(holds(text, "Heat off                             +13 h 43\n"));
}

TEST_CASE("firing_text: a firing that cannot be planned says why", "[text]") {
  firing::Forecast forecast;
  forecast.findings = {{Severity::mistake, "limit", "cone 12 is over the kiln's limit", {}, {}}};
  const std::string text = firing_text(forecast, "UTC");
  CHECK(holds(text, "cannot be planned as asked:\n  - cone 12 is over the kiln's limit\n"));
}

TEST_CASE("the curve of characters climbs, peaks once and leaves no column empty", "[text]") {
  const auto lines = lines_of(firing_text(support::everyday_sample().forecasts[0], "UTC"));
  std::vector<std::string> picture;
  for (const std::string& line : lines) {
    const auto bar = line.find(" °C |");
    if (bar != std::string::npos) picture.push_back(line.substr(bar + 6, 60));
  }
  REQUIRE(picture.size() == 14);  // 0 to 1300 °C
  for (std::size_t column = 0; column < 60; ++column) {
    CAPTURE(column);
    int marks = 0;
    for (const std::string& row : picture) marks += row[column] == '*' ? 1 : 0;
    CHECK(marks >= 1);
  }
  CHECK(picture.front().find('*') != std::string::npos);
  CHECK(picture.back()[0] == '*');
}
