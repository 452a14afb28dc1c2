// Discs in flat arrays against the engine for every shape.
#include "packing/discs.h"

#include <catch2/catch.hpp>

#include "packing/packings.h"
#include "packing/relax.h"

namespace placer::packing {
namespace {

Problem crowded(unsigned seed) {
  Problem problem = in_circle(500, {disc_item(60)}, 4, 2);
  if (seed % 3 == 1) problem.region = in_rectangle(500, 420, {}).region;
  if (seed % 3 == 2) problem.region = half_disc(640);
  Footprint round;
  round.discs.push_back({{100, 120}, 20});
  Footprint square;
  square.outlines.push_back(rectangle({-60, 40}, {-10, 80}));
  problem.region.keep_outs = {round, square};
  problem.items[0].halo = seed % 2 == 0 ? 0 : 3;
  return problem;
}

TEST_CASE("the energy of discs is the one that the engine for every shape finds") {
  const unsigned seed = GENERATE(range(0U, 30U));
  CAPTURE(seed);
  const Problem problem = crowded(seed);
  const std::vector<Kind> kinds{kind_of(problem.items[0])};
  const Scene scene = scene_of(problem);
  Random random{seed};
  const int n = seed % 2 == 0 ? 40 : 130;  // all pairs, and cells
  std::vector<Pose> poses;
  std::vector<Point> middles;
  for (int i = 0; i < n; ++i) {
    const double x = random.uniform(scene.low.x, scene.high.x);
    const double y = random.uniform(scene.low.y, scene.high.y);
    poses.push_back({0, x, y, 0});
    middles.push_back({x, y});
  }
  Relaxer relaxer{kinds, scene, 0.001};
  relaxer.set(poses);
  Discs discs{kinds[0], scene, 0.001};
  discs.set(middles);
  CHECK(discs.energy() == Approx(relaxer.energy()).epsilon(1e-9));
  const std::vector<double> strain = relaxer.strain();
  for (int i = 0; i < n; ++i) {
    const auto k = static_cast<std::size_t>(i);
    CHECK(discs.strain()[k] == Approx(strain[k]).epsilon(1e-9).margin(1e-9));
  }
}

TEST_CASE("settled round about one place, only what is near it has moved, and downhill") {
  const unsigned seed = GENERATE(range(0U, 10U));
  CAPTURE(seed);
  const Problem problem = crowded(seed);
  const Kind kind = kind_of(problem.items[0]);
  const Scene scene = scene_of(problem);
  Random random{seed};
  Discs discs{kind, scene, 0};
  std::vector<Point> middles;
  for (int i = 0; i < 110; ++i) {
    const double x = random.uniform(scene.low.x, scene.high.x);
    const double y = random.uniform(scene.low.y, scene.high.y);
    middles.push_back({x, y});
  }
  discs.set(middles);
  const double before = discs.energy();
  const double after = discs.relax_near(middles[0], middles[0], 150, 100, 1e-12);
  CHECK(after < before);
  for (std::size_t i = 0; i < middles.size(); ++i) {
    const Point v = middles[i] - middles[0];
    if (dot(v, v) < 150 * 150) continue;
    CHECK(discs.middles()[i].x == middles[i].x);
    CHECK(discs.middles()[i].y == middles[i].y);
  }
}

}  // namespace
}  // namespace placer::packing
