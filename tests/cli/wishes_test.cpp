// Each wish through the program, as it stands in a studio file: once granted, once impossible, with
// the words that a potter then reads.
#include <catch2/catch.hpp>
#include <sstream>

#include "cli/program.h"

using Catch::Matchers::Contains;
using placer::test::Folder;
using placer::test::Said;

namespace {

/// A front loader with one column of shelves; bowls are on line 12, vases on line 13.
std::string studio(const std::string& shelves, const std::string& bowl, const std::string& vase) {
  return R"(studio: 1
name: Wishing Well Pottery
units: mm, C
kiln: {inside: 500 x 450, height: 600, loads from: front, heat: electric, power: 14 kW}
shelves: [{size: 420 x 380, thick: 15, have: )" +
         shelves + R"(}]
posts: [{height: 150, have: 8}, {height: 100, have: 12}, {height: 30, have: 12}]
clays: [{name: stoneware, wet to dry: 6 %, dry to bisque: 1 %, dry to fired: 6 %}]
glazes: [clear, red]
measured: fired
pieces:
  - {name: Mug, count: 12, across: 84, handle: 30, height: 100, glaze: clear}
  - {name: Bowl, )" +
         bowl + R"(, glaze: red}
  - {name: Vase, )" +
         vase + R"(, glaze: clear}
firing: {kind: glaze, cone: 6}
)";
}

const std::string kBowl = "count: 4, across: 150, height: 70";
const std::string kVase = "count: 2, across: 110, height: 220";

/// Without the line breaks that a narrow page brings.
std::string unbroken(const std::string& text) {
  std::istringstream words{text};
  std::string all, word;
  while (words >> word) all += word + " ";
  return all;
}

/// What `placer load` says of a studio, and that the outcome is one that needs nobody.
std::string loaded(const std::string& shelves, const std::string& bowl, const std::string& vase,
                   const std::string& options = "") {
  const Folder folder;
  folder.write("studio.yaml", studio(shelves, bowl, vase));
  const Said said = folder.sh("placer load " + options);
  INFO(said.err);
  CHECK(said.status == 0);
  return unbroken(said.out);
}

struct Granted {
  std::string shelves, bowl, vase, options;
};

struct Impossible {
  std::string shelves, bowl, vase, sentence;
};

}  // namespace

TEST_CASE("wishes in a studio file that are granted: nothing is said of them", "[cli][wishes]") {
  const Granted wish = GENERATE(
      Granted{"4", kBowl, kVase + ", where: low", ""},
      Granted{"4", kBowl, kVase + ", where: middle", ""},
      Granted{"4", kBowl, kVase + ", where: high", ""},
      Granted{"4", kBowl + ", side: front", kVase, ""},
      Granted{"4", kBowl + ", side: back", kVase, ""},
      Granted{"4", kBowl + ", level: 2", kVase, ""},
      Granted{"4", kBowl + ", first: yes", kVase, ""},
      Granted{"4", kBowl + ", set: tea", kVase + ", set: tea", ""},
      Granted{"4", kBowl + ", apart from: clear", kVase, ""},
      Granted{"1", kBowl + ", apart from: clear", kVase, ""},
      Granted{"4", kBowl + ", turn: 90", kVase, ""},
      Granted{"4", kBowl + ", stands at: [-100, 90]", kVase, ""},
      Granted{"4", kBowl + ", must go: yes", kVase, ""},
      Granted{"4", kBowl + ", upright: yes", kVase, ""},
      Granted{"4", kBowl + ", lid of: Mug", kVase, ""}, Granted{"4", kBowl, kVase, "--first Bowl"},
      Granted{"4", kBowl, kVase, "--apart red,clear"}, Granted{"4", kBowl, kVase, "--broken Mug"});
  CAPTURE(wish.shelves, wish.bowl, wish.vase, wish.options);
  const std::string said = loaded(wish.shelves, wish.bowl, wish.vase, wish.options);
  CHECK_THAT(said,
             Contains(wish.options == "--broken Mug" ? "17 of 17 pieces" : "18 of 18 pieces"));
  CHECK_THAT(said, !Contains("granted"));
}

TEST_CASE("wishes in a studio file that are impossible: why, and the lines", "[cli][wishes]") {
  const Impossible wish = GENERATE(
      Impossible{
          "4", kBowl, kVase + ", where: high, level: 1",
          "Vase: \"where: high\" (line 13) is not granted, because \"level: 1\" (line 13) is "
          "asked too, and that level does not lie high; all 2 stand elsewhere."},
      Impossible{"4", kBowl, "count: 2, across: 110, height: 440, where: high",
                 "Vase: \"where: high\" (line 13) is not granted, because it is 463 mm tall, and "
                 "even right under the lid its middle is at 343 mm, below the upper third of the "
                 "kiln (from 400 mm); all 2 stand elsewhere."},
      Impossible{"4", kBowl + ", level: 9", kVase,
                 "Bowl: \"level: 9\" (line 12) is not granted, because no column of this load has "
                 "more than 2 levels; all 4 stand elsewhere."},
      Impossible{
          "4", kBowl + ", side: front, stands at: [-100, 90]", kVase,
          "Bowl: \"side: front\" (line 12) is not granted, because \"stands at: [-100, 90]\" "
          "(line 12) is asked too, and that place is not in front; 1 of 4 stands "
          "elsewhere."},
      Impossible{"4", "count: 60, across: 150, height: 70, first: yes", kVase,
                 "Bowl: \"first: yes\" (line 12) is not granted, because there was no room beside "
                 "what must go into the first load too; "},
      Impossible{"1", kBowl + ", apart from: clear, first: yes", kVase + ", first: yes",
                 "and \"apart from: clear\" (line 12) keeps it off the shelves of Mug (line 11)"},
      Impossible{"4", "count: 40, across: 150, height: 70, set: tea", kVase + ", set: tea",
                 "Bowl: \"set: tea\" (line 12) is not granted, because the set with Vase (line 13) "
                 "is more than one load holds; it goes into "},
      Impossible{"1", kBowl + ", apart from: clear, set: tea", kVase + ", set: tea",
                 "Vase: \"set: tea\" (line 13) is not granted, because the set with Bowl (line 12) "
                 "is more than one load holds where \"apart from: clear\" (line 12) asks for "
                 "shelves of their own; it goes into 2 loads."},
      Impossible{"4", kBowl + ", turn: 90, stands at: {at: [-100, 90], turn: 30}", kVase,
                 "Bowl: \"turn: 90\" (line 12) is not granted, because \"stands at: [-100, 90]\" "
                 "(line 12) asks for another turn; 1 of 4 stands elsewhere."},
      Impossible{"4", kBowl + ", stands at: [-200, 90]", kVase,
                 "Bowl: \"stands at: [-200, 90]\" (line 12) is not granted, because there it would "
                 "stick out 69 mm beyond the room on the shelf \"420 x 380\"; all 4 stand "
                 "elsewhere."},
      Impossible{
          "4", kBowl + ", lid of: Mug, level: 2", kVase,
          "Bowl: \"level: 2\" (line 12) is not granted, because \"lid of: Mug\" (line 12) is "
          "asked too, and a lid goes where its pot does; all 4 stand elsewhere."},
      Impossible{
          "4", kBowl + ", lid of: Vase", kVase,
          "Bowl: \"lid of: Vase\" (line 12) is not granted, because there is no Vase without "
          "a lid for 2 of them; 2 of 4 stand elsewhere."});
  CAPTURE(wish.shelves, wish.bowl, wish.vase);
  CHECK_THAT(loaded(wish.shelves, wish.bowl, wish.vase), Contains(wish.sentence));
}

TEST_CASE("levels to keep that are not there are an error, and nothing is planned",
          "[cli][wishes]") {
  const Folder folder;
  folder.write("studio.yaml", studio("4", kBowl, kVase));
  const Said said = folder.sh("placer load --keep 9");
  CHECK(said.status == 2);
  CHECK(said.out.empty());
  CHECK_THAT(said.err, Contains("--keep: no column of the first load has a level 9"));
}
