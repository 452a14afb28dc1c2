#include <catch2/catch.hpp>
#include <limits>
#include <nlohmann/json.hpp>

#include "placer/report/report.h"
#include "report/html.h"
#include "report/json.h"
#include "report/odd_samples.h"
#include "support/hand_made_plan.h"

using namespace placer;
using namespace placer::report;

TEST_CASE("number: whole numbers without a fraction, others with every digit", "[json]") {
  CHECK(number(680).dump() == "680");
  CHECK(number(-0.0).dump() == "0");
  for (const double value : {0.1, 1.0 / 3, 123.45678901234567, 1e-9, 5e300}) {
    CHECK(nlohmann::json::parse(number(value).dump()).get<double>() == value);
  }
}

TEST_CASE("number: what JSON has no word for is refused", "[json]") {
  CHECK_THROWS_AS(number(std::numeric_limits<double>::quiet_NaN()), std::invalid_argument);
  CHECK_THROWS_AS(number(std::numeric_limits<double>::infinity()), std::invalid_argument);
  CHECK(number_or_null(std::numeric_limits<double>::infinity()).is_null());
}

TEST_CASE("plan_json: every footprint is where the plan sets it, to the last digit", "[json]") {
  const auto sample = support::everyday_sample();
  const auto json = nlohmann::json::parse(plan_json(sample.subject()));
  const KilnLoad& load = sample.plan.firings[0];
  for (std::size_t l = 0; l < load.levels.size(); ++l) {
    for (std::size_t p = 0; p < load.levels[l].pieces.size(); ++p) {
      const Footprint there = ground(sample.batch, load, load.levels[l].pieces[p]);
      const auto& shown = json["firings"][0]["levels"][l]["pieces"][p]["footprint"];
      REQUIRE(shown["discs"].size() == there.discs.size());
      CHECK(shown["discs"][0]["x_mm"].get<double>() == there.discs[0].centre.x);
      CHECK(shown["discs"][0]["r_mm"].get<double>() == there.discs[0].radius);
      REQUIRE(shown["outlines"].size() == there.outlines.size());
      if (there.outlines.empty()) continue;
      CHECK(shown["outlines"][0][1][1].get<double>() == there.outlines[0].corners[1].y);
    }
  }
}

TEST_CASE("plan_json: a half shelf is no disc, and its outline lies round the arc", "[json]") {
  const auto sample = support::many_scripts_sample();
  const auto json = nlohmann::json::parse(plan_json(sample.subject()));
  const auto& level = json["firings"][0]["levels"][0];
  CHECK(level["shelf"]["round"].is_null());
  CHECK(json["firings"][0]["chamber"]["round"]["r_mm"] == 290);
  double widest = 0;
  for (const auto& corner : level["shelf"]["outline_mm"]) {
    widest = std::max(widest, std::hypot(corner[0].get<double>(), corner[1].get<double>() - 3));
  }
  CHECK(widest >= 270);
  CHECK(widest <= 270.0101);
}

TEST_CASE("plan_json: keep-outs of a level are those that reach into its room", "[json]") {
  const Batch batch = support::hand_made_batch();
  const LoadPlan plan = support::hand_made_plan(batch);
  const std::vector<firing::Forecast> none;
  const auto json = nlohmann::json::parse(plan_json({batch, plan, none, "", "", false, 0}));
  // The spy hole is 200 to 260 mm up, the sensor 480 to 520.
  const auto names = [&](std::size_t level) {
    std::string all;
    for (const auto& one : json["firings"][1]["levels"][level]["keep_outs"]) {
      all += one["what"].get<std::string>() + ";";
    }
    return all;
  };
  CHECK(names(0) == "spy hole;");  // 75 to 238
  CHECK(names(1) == "spy hole;");  // 253 to 403
  CHECK(names(2) == "sensor;");    // 418 to 575
}

TEST_CASE("plan_csv: a name that looks like a formula stays a name", "[csv]") {
  const std::string text = plan_csv(support::odd_names_sample().subject());
  CHECK(text.find("\"'=HYPERLINK(\"\"x\"\")\"") != std::string::npos);
  CHECK(text.find("\"'@cup, \"\"small\"\"\"") != std::string::npos);
  CHECK(
      text.starts_with("\xEF\xBB\xBF"
                       "plan,firing,"));
}

TEST_CASE("plan_csv: lengths in inches say so in the heading", "[csv]") {
  const std::string text = plan_csv(support::many_scripts_sample().subject());
  CHECK(text.find("x (in),y (in)") != std::string::npos);
  CHECK(plan_csv(support::everyday_sample().subject()).find("x (mm),y (mm)") != std::string::npos);
}

TEST_CASE("diary_ics: no start, no calendar", "[ics]") {
  CHECK(diary_ics(support::tiny_sample().subject()).empty());
  const std::string text = diary_ics(support::everyday_sample().subject());
  CHECK(text.starts_with("BEGIN:VCALENDAR\r\nVERSION:2.0\r\n"));
  CHECK(text.ends_with("END:VEVENT\r\nEND:VCALENDAR\r\n"));
}

TEST_CASE("escaped: no name becomes markup, no byte that XML forbids gets through", "[html]") {
  CHECK(escaped("<b> & \"x\" 'y'") == "&lt;b&gt; &amp; &quot;x&quot; &#39;y&#39;");
  CHECK(escaped(std::string{"a\x01\x7F"
                            "b\0c",
                            6}) == "abc");
  CHECK(escaped("\xFF\xC0\xAF") == "\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD");
  CHECK(escaped("\xED\xA0\x80") == "\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD");  // half a pair
  CHECK(escaped("茶 🫖") == "茶 🫖");
}

TEST_CASE("svg_number: a tenth at most and no minus before zero", "[html]") {
  CHECK(svg_number(-0.04) == "0");
  CHECK(svg_number(-0.5) == "-0.5");
  CHECK(svg_number(12.34) == "12.3");
  CHECK(svg_number(7) == "7");
}

TEST_CASE("answer_schema: the four answers, and a plain refusal of others", "[json]") {
  CHECK(answer_schemas() == std::vector<std::string>{"check", "cone", "firing", "load"});
  for (const std::string& name : answer_schemas()) {
    CHECK(nlohmann::json::parse(answer_schema(name))["$schema"] ==
          "https://json-schema.org/draft/2020-12/schema");
  }
  CHECK_THROWS_WITH(answer_schema("glaze"),
                    "no answer called \"glaze\"; there are check, cone, firing, load");
}
