#include "report/blocks.h"

#include <catch2/catch.hpp>

#include "report/course.h"
#include "report/run_in.h"
#include "sheet_samples.h"

using namespace placer;
using namespace placer::report;

namespace {

// Blocks that note where they were drawn.
std::vector<Block> noting(const std::vector<double>& heights, std::vector<Point>& places) {
  std::vector<Block> blocks;
  for (const double height : heights) {
    blocks.push_back({height, [&places](Page&, Point at) { places.push_back(at); }});
  }
  return blocks;
}

}  // namespace

TEST_CASE("set_blocks: down the first column, then the next, and tells where it stopped",
          "[blocks]") {
  std::vector<Point> places;
  const auto blocks = noting({10, 10, 10, 10, 10, 10}, places);
  const Room room{0, 0, 105, 25};
  const Columns columns{2, 5, 2};
  Page page;
  CHECK(blocks_that_fit(blocks, 0, room, columns) == 4);
  CHECK(set_blocks(page, blocks, 0, room, columns) == 4);
  CHECK(places == std::vector<Point>{{0, 0}, {0, 12}, {55, 0}, {55, 12}});
  places.clear();
  CHECK(set_blocks(page, blocks, 4, room, columns) == 6);
  CHECK(places == std::vector<Point>{{0, 0}, {0, 12}});
}

TEST_CASE("set_blocks: a block higher than the room has a column of its own", "[blocks]") {
  std::vector<Point> places;
  const auto blocks = noting({10, 40, 10}, places);
  Page page;
  CHECK(set_blocks(page, blocks, 0, {0, 0, 105, 25}, {3, 5, 2}) == 3);
  REQUIRE(places.size() == 3);
  CHECK(places[1].y == 0);
  CHECK(places[2].y == 0);
  CHECK(places[1].x < places[2].x);
}

TEST_CASE("run_in: the words begin behind the bold ones, and none is lost", "[blocks]") {
  const auto sample = support::everyday_sample();
  const auto subject = sample.subject();
  const Lettering letters;
  const Desk desk{subject, letters};
  const Style bold{pt(12), true, 1.2};
  const Style plain{pt(11), false, 1.2};
  const std::string words = "Damper in until a soft flame shows at the spy hole, for 30 min or so.";
  const auto lines = run_in(desk, "body reduction", words, 60, bold, plain);
  REQUIRE(lines.size() >= 3);
  CHECK(lines[0].words == "body reduction");
  CHECK(lines[1].indent > letters.width("body reduction", pt(12), true));
  std::string all;
  for (std::size_t i = 1; i < lines.size(); ++i) {
    const double wide = letters.width(lines[i].words, lines[i].style.size, lines[i].style.bold);
    CHECK(lines[i].indent + wide <= 60.001);
    all += (all.empty() ? "" : " ") + lines[i].words;
  }
  CHECK(all == words);
  CHECK(lines_high(run_in(desk, "soak", "", 60, bold, plain)) == Approx(1.2 * pt(12)));
}

TEST_CASE("Lettering: a number stays with its unit", "[lettering]") {
  const Lettering letters;
  for (double most = 15; most < 60; most += 1) {
    CAPTURE(most);
    for (const auto& line :
         letters.wrapped("white, 107.5 mm (4 1/4 in) high", pt(10), false, most)) {
      CHECK(line.substr(0, 2) != "mm");
      CHECK(line.substr(0, 3) != "in)");
      CHECK(line.substr(0, 3) != "1/4");
    }
  }
}

TEST_CASE("course_at: the plan while the heat is on, then the kiln's own fall", "[course]") {
  firing::Forecast forecast;
  forecast.off = Hours{2};
  const auto add = [&](double hours, double planned, double kiln) {
    firing::Moment moment;
    moment.at = Hours{hours};
    moment.planned = {planned};
    moment.kiln = {kiln};
    forecast.curve.push_back(moment);
  };
  add(0, 20, 20);
  add(2, 1000, 980);
  add(3, 500, 800);
  add(4, 60, 700);
  CHECK(course_at(forecast, 1) == Approx(510));
  CHECK(course_at(forecast, 2) == Approx(1000));
  CHECK(course_at(forecast, 3) == Approx(800));
  CHECK(course_at(forecast, 3.5) == Approx(750));
  CHECK(course_at(forecast, 99) == Approx(700));
  CHECK(course_at(forecast, -1) == Approx(20));
  CHECK(course_at(firing::Forecast{}, 1) == 0);
}
