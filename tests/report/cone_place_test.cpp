// What sheets, page, text and JSON say of the packs of cones that the plan sets.
#include "report/cone_place.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>

#include "placer/model/cone_place.h"
#include "report/keep_outs.h"
#include "report/sheets.h"
#include "sheet_samples.h"

using namespace placer;
using namespace placer::report;

namespace {

std::string words_of(const support::SheetSample& sample) {
  const Lettering letters;
  std::string words;
  for (const Page& page : sheets(sample.subject(), letters, Paper::both).pages) {
    for (const Mark& mark : page.marks) {
      if (const Text* text = std::get_if<Text>(&mark)) words += text->words + ' ';
    }
  }
  return words;
}

bool says(const std::string& all, const std::string& words) {
  return all.find(words) != std::string::npos;
}

int count_of(const std::string& all, const std::string& words) {
  int count = 0;
  for (std::size_t at = all.find(words); at != std::string::npos; at = all.find(words, at + 1)) {
    ++count;
  }
  return count;
}

/// The sample's only pack.
ConePack& pack_in(support::SheetSample& sample) {
  for (Level& level : sample.plan.firings[0].levels) {
    if (!level.cones.empty()) return level.cones.front();
  }
  throw std::logic_error{"the sample has no pack"};
}

}  // namespace

TEST_CASE("cones on the sheets: on the map of their shelf, in its key and in the list to fetch",
          "[cones]") {
  const auto sample = support::spy_sample();
  const KilnLoad& load = sample.plan.firings[0];
  REQUIRE(load.no_cones.empty());
  const auto places = cones_on(sample.batch, load.levels[1]);  // 162 mm up: the hole looks at it
  REQUIRE(places.size() == 1);
  CHECK(cones_on(sample.batch, load.levels[0]).empty());
  CHECK(places[0].seen);
  CHECK(places[0].eye.y == Approx(-270));
  CHECK(cone_words(places[0]) == "cone pack, seen from the Spy hole");
  CHECK(where_cones_go(sample.subject(), load) == "to shelf 2, in sight of the spy hole");
  CHECK(packs_for(sample.batch, load) == 1);
  CHECK(says(words_of(sample), "cone pack, seen from the"));
  const std::string page = sheets_html(sample.subject());
  CHECK(says(page, "cone pack, seen from the Spy hole"));
  CHECK(count_of(page, "class=\"sight\"") == 1);
  CHECK(says(plan_text(sample.subject()), "cone pack, seen from the Spy hole"));
}

TEST_CASE("cones on the sheets: out of sight has no line to the hole, and says when to read it",
          "[cones]") {
  auto sample = support::spy_sample();
  pack_in(sample).seen = false;
  const KilnLoad& load = sample.plan.firings[0];
  CHECK(where_cones_go(sample.subject(), load) ==
        "to shelf 2, OUT OF SIGHT: nothing in sight of the Spy hole is free; read it when the kiln "
        "is open");
  const std::string page = sheets_html(sample.subject());
  CHECK(says(page, "cone pack, out of sight of the Spy hole"));
  CHECK(count_of(page, "class=\"sight\"") == 0);
  CHECK(count_of(page, "class=\"pack\"") > 0);
  CHECK(says(words_of(sample), "OUT OF SIGHT"));
  // No shelf at the height of the hole.
  sample.batch.kiln.keep_outs[0].from = Length::from_mm(600);
  sample.batch.kiln.keep_outs[0].to = Length::from_mm(660);
  CHECK(
      where_cones_go(sample.subject(), load) ==
      "to shelf 2, OUT OF SIGHT: no shelf with room for cones stands where the Spy hole looks, at "
      "600 mm to 660 mm; read it when the kiln is open");
}

TEST_CASE("cones on the sheets: no room is said in the words of the plan", "[cones]") {
  auto sample = support::spy_sample();
  KilnLoad& load = sample.plan.firings[0];
  for (Level& level : load.levels) level.cones.clear();
  load.no_cones = {{0, "No shelf of this load has a free spot of 80 x 30 mm for cones."}};
  CHECK(where_cones_go(sample.subject(), load) ==
        "NO ROOM for it: No shelf of this load has a free spot of 80 x 30 mm for cones.");
  CHECK(packs_for(sample.batch, load) == 1);
  CHECK(says(words_of(sample), "NO ROOM for it"));
  CHECK(says(plan_text(sample.subject()), "No cone pack. No shelf of this load"));
  put_as_read(sample.batch, true, sample.plan);
  CHECK(load.no_cones[0].reason ==
        "No shelf of this load has a free spot of 3 1/8 x 1 3/16 in (80 x 30 mm) for cones.");
}

TEST_CASE("cones on the sheets: one pack that two holes look at is fetched once", "[cones]") {
  auto sample = support::spy_sample();
  KeepOut other = sample.batch.kiln.keep_outs[0];
  other.area.discs[0].centre.x = 60;
  sample.batch.kiln.keep_outs.push_back(other);
  const ConePack first = pack_in(sample);
  KilnLoad& load = sample.plan.firings[0];
  load.levels[1].cones.push_back({1, first.place, true});
  CHECK(packs_for(sample.batch, load) == 1);
  CHECK(where_cones_go(sample.subject(), load) == "to shelf 2, in sight of the spy hole");
  // The second looks at no shelf.
  load.levels[1].cones[1].seen = false;
  sample.batch.kiln.keep_outs[1].from = Length::from_mm(600);
  sample.batch.kiln.keep_outs[1].to = Length::from_mm(660);
  CHECK(where_cones_go(sample.subject(), load) ==
        "to shelf 2, in sight of the spy hole; one hole sees none: no shelf with room for cones "
        "stands where the Spy hole looks, at 600 mm to 660 mm");
  load.levels[1].cones[1].seen = true;
  load.levels[1].cones[1].place.at.x += 200;
  CHECK(packs_for(sample.batch, load) == 2);
  CHECK(where_cones_go(sample.subject(), load) ==
        "to shelf 2 and shelf 2, in sight of the spy hole");
}

TEST_CASE("plan_json: packs are there as the plan has them, and holes without one", "[cones]") {
  auto sample = support::spy_sample();
  KilnLoad& load = sample.plan.firings[0];
  load.no_cones = {{0, "No."}};
  const ConePack pack = pack_in(sample);
  const auto json = nlohmann::json::parse(plan_json(sample.subject()));
  const auto& firing = json["firings"][0];
  CHECK(firing["levels"][0]["cones"].empty());
  REQUIRE(firing["levels"][1]["cones"].size() == 1);
  const auto& cones = firing["levels"][1]["cones"][0];
  CHECK(cones["x_mm"] == pack.place.at.x);
  CHECK(cones["y_mm"] == pack.place.at.y);
  CHECK(cones["turn_deg"] == pack.place.turn_deg);
  CHECK(cones["seen"] == true);
  CHECK(cones["height_mm"] == 75);
  CHECK(cones["outline_mm"].size() == 4);
  CHECK(cones["spy_hole"]["what"] == "Spy hole");
  CHECK(cones["spy_hole"]["number"] == 1);
  CHECK(cones["spy_hole"]["eye_mm"] == nlohmann::json::array({0, -270}));
  CHECK(cones["spy_hole"]["from_mm"] == 150);
  CHECK(cones["spy_hole"]["to_mm"] == 260);
  CHECK(firing["no_cones"][0]["reason"] == "No.");
  CHECK(firing["no_cones"][0]["spy_hole"]["number"] == 1);
}

TEST_CASE("cones: places kept in the studio file are the cones' own", "[cones]") {
  const auto sample = support::everyday_sample();  // it has a spy hole and a place for cones
  CHECK(keeps_cone_places(sample.batch.kiln));
  CHECK(holes_for_cones(sample.batch.kiln).empty());
  CHECK(where_cones_go(sample.subject(), sample.plan.firings[0]).empty());
  const auto none = support::tower_sample();  // neither
  CHECK_FALSE(keeps_cone_places(none.batch.kiln));
  CHECK(holes_for_cones(none.batch.kiln).empty());
}

TEST_CASE("sign_of: small and large letters, and the trade's other words", "[cones]") {
  const auto sign = [](const char* what) {
    KeepOut keep_out;
    keep_out.what = what;
    return sign_of(keep_out);
  };
  CHECK(sign("Spy hole") == Sign::spy_hole);
  CHECK(sign("peephole") == Sign::spy_hole);
  CHECK(sign("CONE PACK") == Sign::cones);
  CHECK(sign("thermocouple") == Sign::sensor);
  CHECK(sign("bag wall") == Sign::other);
}

TEST_CASE("keep_out_words: only the height that is kept, and where cones are set", "[cones]") {
  auto sample = support::spy_sample();
  const Batch& batch = sample.batch;
  const Level& low = sample.plan.firings[0].levels[0];   // top at 31 mm
  const Level& high = sample.plan.firings[0].levels[1];  // top at 162 mm
  KeepOut pack;
  pack.what = "cone pack";
  pack.area.discs = {{{0, -150}, 40}};
  pack.from = Length::from_mm(140);
  pack.to = Length::from_mm(240);
  CHECK(keep_out_words(batch, low, pack, false, false) == "cone pack: keep clear from 109 mm up");
  CHECK_FALSE(stands_here(low, pack));
  CHECK(keep_out_words(batch, high, pack, false, false) == "cone pack: set it here");
  CHECK(stands_here(high, pack));
  KeepOut hole = pack;
  hole.what = "spy hole";
  CHECK(keep_out_words(batch, low, hole, false, true) ==
        "spy hole: keep clear from 4 5/16 in (109 mm) up");
  CHECK(keep_out_words(batch, high, hole, true, false) == "spy hole: keep clear but for the cones");
  hole.area.discs[0].centre = {0, -255};
  CHECK(keep_out_words(batch, high, hole, false, false) == "spy hole: keep clear");
  hole.area.discs[0].centre = {0, -265};
  hole.area.discs[0].radius = 20;
  CHECK(keep_out_words(batch, high, hole, false, false) == "spy hole, beside the shelf");
}
