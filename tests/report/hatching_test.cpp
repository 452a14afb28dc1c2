#include "report/hatching.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "placer/base/random.h"
#include "report/hatch.h"

using namespace placer;
using namespace placer::report;

namespace {

bool inside(const Footprint& area, Point p) {
  for (const Disc& disc : area.discs) {
    if (std::hypot(p.x - disc.centre.x, p.y - disc.centre.y) <= disc.radius) return true;
  }
  return std::any_of(area.outlines.begin(), area.outlines.end(),
                     [&](const Outline& outline) { return inset(p, outline) >= 0; });
}

const Footprint kMug{{{{20, 20}, 9}}, {rectangle(Point{20, 18}, Point{34, 22})}};

}  // namespace

TEST_CASE("parts_inside: agrees with walking along the segment", "[hatching]") {
  Random random{7};
  for (int round = 0; round < 200; ++round) {
    CAPTURE(round);
    const Point from{random.uniform(0, 45), random.uniform(5, 35)};
    const Point to{random.uniform(0, 45), random.uniform(5, 35)};
    const auto parts = parts_inside(kMug, from, to);
    for (std::size_t i = 1; i < parts.size(); ++i) CHECK(parts[i - 1].second < parts[i].first);
    double claimed = 0;
    for (const auto& [a, b] : parts) claimed += b - a;
    int found = 0;
    constexpr int kSteps = 4000;
    for (int i = 0; i < kSteps; ++i) {
      if (inside(kMug, from + ((i + 0.5) / kSteps) * (to - from))) ++found;
    }
    CHECK(claimed == Approx(found / double{kSteps}).margin(0.002));
  }
}

TEST_CASE("hatched: no ink outside the area nor in the room for the number", "[hatching]") {
  const Box spare{{16, 17}, {24, 23}};
  for (int pattern = 1; pattern <= kHatches; ++pattern) {
    CAPTURE(pattern);
    const auto strokes = hatched(kMug, pattern, spare);
    REQUIRE(strokes);
    REQUIRE_FALSE(strokes->lines.empty());
    Footprint grown = kMug;
    for (Disc& disc : grown.discs) disc.radius += 1e-6;
    grown.outlines = {rectangle(Point{20 - 1e-6, 18 - 1e-6}, Point{34 + 1e-6, 22 + 1e-6})};
    for (const auto& [a, b] : strokes->lines) {
      const Point middle = 0.5 * (a + b);
      CHECK(inside(grown, a));
      CHECK(inside(grown, b));
      CHECK_FALSE((middle.x > spare.low.x + 1e-6 && middle.x < spare.high.x - 1e-6 &&
                   middle.y > spare.low.y + 1e-6 && middle.y < spare.high.y - 1e-6));
    }
  }
}

TEST_CASE("hatched: blank stays blank, unknown patterns are refused", "[hatching]") {
  CHECK_FALSE(hatched(kMug, 0));
  CHECK_THROWS_AS(hatched(kMug, -1), std::invalid_argument);
  CHECK_THROWS_AS(hatched(kMug, kHatches + 1), std::invalid_argument);
}
