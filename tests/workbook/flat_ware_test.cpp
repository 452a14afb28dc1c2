// Which pieces wait for a cold kiln: seen from their sizes unless the file says.
#include <catch2/catch.hpp>

#include "support.h"

using namespace placer::workbook;
using namespace placer::workbook::testing;

namespace {

bool flat(const std::string& piece) {
  const StudioResult result = read(studio_with(piece));
  INFO(piece);
  REQUIRE(result.studio);
  return result.studio->batch.pieces[0].flat_ware;
}

}  // namespace

TEST_CASE("low ware is flat whatever its outline, and a wide bowl counts with it") {
  // Common practice, no source: height over the longest side, the safe side first.
  CHECK(flat("across: 260, height: 25"));              // plate
  CHECK(flat("size: 300 x 150, height: 35"));          // oblong tray
  CHECK(flat("oval: 9 in x 4 1/2 in, height: 1 in"));  // spoon rest
  CHECK(flat("oval: 380 x 260, height: 45"));          // platter
  CHECK(flat("across: 220, height: 60"));              // pasta bowl
  CHECK(flat("across: 300, height: 120"));             // wide bowl
  CHECK_FALSE(flat("across: 90, height: 105"));        // mug
  CHECK_FALSE(flat("across: 150, height: 70"));        // cereal bowl
  CHECK_FALSE(flat("across: 260, height: 240"));       // vase
}

TEST_CASE("the file has the last word on what is flat") {
  CHECK_FALSE(flat("size: 300 x 150, height: 35, flat: no"));
  CHECK(flat("across: 90, height: 105, flat: yes"));
}
