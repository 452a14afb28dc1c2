#include <algorithm>
#include <catch2/catch.hpp>
#include <string>

#include "placer/workbook/studio.h"

namespace placer::workbook {
namespace {

StudioResult read(const std::string& kiln_words) {
  static const Library library = read_library(std::string{PLACER_ROOT} + "/schedules");
  const std::string text = "studio: 1\nunits: mm, C\nkiln: {inside: round 580, height: 680, " +
                           kiln_words +
                           "}\n"
                           "shelves: [{size: round 500, thick: 18, have: 3}]\n"
                           "posts: [{height: 100, have: 12}]\n"
                           "pieces:\n  - {name: Mug, count: 4, across: 90, height: 105}\n"
                           "firing: {kind: glaze, cone: 6}\n";
  return read_studio(text, "studio.yaml", library, 1'790'000'000);
}

}  // namespace

TEST_CASE("a past firing and its meter are read with the kiln", "[workbook]") {
  const StudioResult result = read("past firing: tuesday.csv, past meter: 62.5 kWh");
  REQUIRE(result.studio);
  CHECK(result.studio->kiln_build.past_log == "tuesday.csv");
  REQUIRE(result.studio->kiln_build.past_meter);
  CHECK(result.studio->kiln_build.past_meter->kwh == 62.5);
  CHECK(read("power: 9 kW").studio->kiln_build.past_log.empty());
}

TEST_CASE("a meter reading that is none is a mistake at its place", "[workbook]") {
  for (const char* wrong : {"62", "62 kW", "-3 kWh", "many kWh", "0 kWh"}) {
    CAPTURE(wrong);
    const StudioResult result = read(std::string{"past meter: "} + wrong);
    CHECK_FALSE(result.studio);
    CHECK(std::any_of(result.findings.begin(), result.findings.end(), [](const Finding& f) {
      return f.where.line == 3 && f.message.find("no meter reading") != std::string::npos;
    }));
  }
}

}  // namespace placer::workbook
