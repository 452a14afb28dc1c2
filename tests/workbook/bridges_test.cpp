// Larger shelves across columns: named in the file, or found.
#include <catch2/catch.hpp>
#include <string>

#include "support.h"

using namespace placer;
using namespace placer::workbook;
using namespace placer::workbook::testing;

namespace {

std::string bridged_studio(const std::string& kiln, const std::string& shelves) {
  return "studio: 1\nunits: mm, C\nkiln:\n  loads from: top\n  inside: round 600\n  height: 680\n" +
         kiln + "shelves:\n  - {size: half round 540, thick: 18, have: 6}\n" + shelves +
         "posts:\n  - {height: 150, have: 12}\npieces:\n  - {name: Mug, count: 4, across: 90, "
         "height: 105}\nfiring: {kind: glaze, cone: 6}\n";
}

const std::string kFull = "  - {name: full, size: round 540, thick: 18, have: 2}\n";

}  // namespace

TEST_CASE("a full shelf that no column uses lies across the half shelves") {
  const StudioResult result = read(bridged_studio("", kFull));
  REQUIRE(result.studio);
  CHECK(result.findings.empty());
  const Kiln& kiln = result.studio->batch.kiln;
  REQUIRE(kiln.bridges.size() == 1);
  CHECK(kiln.bridges[0].name == "across");
  CHECK(kiln.bridges[0].over == std::vector<int>{0, 1});
  CHECK(kiln.bridges[0].shelves == std::vector<int>{1});
  CHECK(kiln.bridges[0].at == Placement{});
}

TEST_CASE("a shelf too small, too large or not owned is no bridge") {
  const std::string shelves =
      GENERATE(std::string{"  - {name: small, size: round 300, thick: 18, have: 2}\n"},
               std::string{"  - {name: huge, size: round 620, thick: 18, have: 2}\n"},
               std::string{"  - {name: full, size: round 540, thick: 18, have: 0}\n"});
  const StudioResult result = read(bridged_studio("", shelves));
  REQUIRE(result.studio);
  CHECK(result.studio->batch.kiln.bridges.empty());
}

TEST_CASE("bridges of the file have sensible defaults") {
  const StudioResult bare = read(bridged_studio("  bridges: [{shelves: full}]\n", kFull));
  REQUIRE(bare.studio);
  REQUIRE(bare.studio->batch.kiln.bridges.size() == 1);
  CHECK(bare.studio->batch.kiln.bridges[0].name == "across");
  CHECK(bare.studio->batch.kiln.bridges[0].over == std::vector<int>{0, 1});
  const StudioResult any =
      read(bridged_studio("  bridges: [{name: top, over: [right, left]}]\n", kFull));
  REQUIRE(any.studio);
  REQUIRE(any.studio->batch.kiln.bridges.size() == 1);
  CHECK(any.studio->batch.kiln.bridges[0].name == "top");
  CHECK(any.studio->batch.kiln.bridges[0].over == std::vector<int>{0, 1});
  CHECK(any.studio->batch.kiln.bridges[0].shelves == std::vector<int>{1});
}

TEST_CASE("columns that are named leave a bridge's shelf to the bridge") {
  const StudioResult result = read(bridged_studio(
      "  columns: [{name: left, at: [-2, 0], turn: 90}, {name: right, at: [2, 0], turn: 270}]\n"
      "  bridges: [{shelves: full, at: [0, 5]}]\n",
      kFull));
  REQUIRE(result.studio);
  const Kiln& kiln = result.studio->batch.kiln;
  CHECK(kiln.columns[0].shelves == std::vector<int>{0});
  REQUIRE(kiln.bridges.size() == 1);
  CHECK(kiln.bridges[0].at == Placement{{0, 5}, 0});
}
