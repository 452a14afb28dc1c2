#include <catch2/catch.hpp>

#include "placer/workbook/studio.h"

using namespace placer;
using namespace placer::workbook;

TEST_CASE("the shipped schedules are read") {
  const Library library = read_library(PLACER_ROOT "/schedules");
  CHECK(library.profiles.size() >= 15);
  CHECK(library.cones.cones.size() > 100);
  CHECK(library.cones.seger.size() > 30);
  CHECK(library.cones.superseded.size() > 30);
  CHECK_FALSE(library.cones.source.empty());
  const firing::Cone* cone = find_cone(library.cones, "06", firing::ConeKind::self_supporting);
  REQUIRE(cone != nullptr);
  REQUIRE(cone->points.size() == 3);
  CHECK(cone->points[1].bends_at == Temperature{998});
  CHECK_FALSE(cone->points[1].from_memory);
  CHECK(cone->points[0].from_memory);
}
