#include "placer/model/ware.h"

#include <catch2/catch.hpp>

#include "placer/base/random.h"

namespace placer {
namespace {

Shrinkage shrinkage(double drying, double to_fired) { return {drying, 0.01, to_fired}; }

double total(const Shrinkage& shrinkage) {
  return 1 - scale(shrinkage, Stage::thrown, Stage::fired);
}

// Source: definitions ASTM C326 (each shrinkage of its own base length); the totals are that
// arithmetic by hand: 1 - (1 - 0.06)(1 - 0.06) = 0.1164 and so on.
TEST_CASE("scale: shrinkages compound, they do not add", "[shrinkage]") {
  CHECK(total(shrinkage(0.06, 0.06)) == Approx(0.1164).margin(1e-12));
  CHECK(total(shrinkage(0.05, 0.03)) == Approx(0.0785).margin(1e-12));
  CHECK(total(shrinkage(0.06, 0.08)) == Approx(0.1352).margin(1e-12));
  CHECK(total(shrinkage(0.06, 0.10)) == Approx(0.1540).margin(1e-12));
  CHECK(total(shrinkage(0.06, 0.08)) != Approx(0.14).margin(1e-4));
}

// Source: as above; the enlargement factor is 1/(1 - total), so 13 % asks for 1.1494 and a pot
// made 1.13 times as large comes out at 98.3 mm instead of 100.
TEST_CASE("scale: how large to make a pot for a wanted size", "[shrinkage]") {
  CHECK(scale(shrinkage(0.06, 0.06), Stage::fired, Stage::thrown) == Approx(1.1317).margin(5e-5));
  CHECK(scale(shrinkage(0.05, 0.03), Stage::fired, Stage::thrown) == Approx(1.0852).margin(5e-5));
  CHECK(scale(shrinkage(0.06, 0.08), Stage::fired, Stage::thrown) == Approx(1.1563).margin(5e-5));
  CHECK(scale(shrinkage(0.06, 0.10), Stage::fired, Stage::thrown) == Approx(1.1820).margin(5e-5));
  const Shrinkage thirteen{0, 0, 0.13};
  CHECK(100 * scale(thirteen, Stage::fired, Stage::thrown) == Approx(114.94).margin(0.005));
  CHECK(113 * scale(thirteen, Stage::thrown, Stage::fired) == Approx(98.3).margin(0.05));
}

// Source: arithmetic; a 500 ml mug at 12 % holds 500 x 0.88³ = 341 ml fired.
TEST_CASE("scale: volumes shrink with its cube", "[shrinkage]") {
  const double length = scale(Shrinkage{0, 0, 0.12}, Stage::thrown, Stage::fired);
  CHECK(1 - length * length * length == Approx(0.3185).margin(5e-5));
  CHECK(500 * length * length * length == Approx(341).margin(0.5));
}

TEST_CASE("scale: a pot grows by none of its detours", "[shrinkage]") {
  constexpr Stage kStages[] = {Stage::thrown, Stage::dry, Stage::bisque, Stage::fired};
  const std::uint64_t seed = GENERATE(range(0U, 20U));
  CAPTURE(seed);
  Random random{seed};
  const double drying = random.uniform(0, 0.1);
  const double to_bisque = random.uniform(0, 0.03);
  const Shrinkage clay{drying, to_bisque, random.uniform(to_bisque, 0.12)};
  for (const Stage from : kStages) {
    CHECK(scale(clay, from, from) == 1);
    for (const Stage to : kStages) {
      CHECK(scale(clay, from, to) * scale(clay, to, from) == Approx(1).epsilon(1e-14));
      for (const Stage by : kStages) {
        CHECK(scale(clay, from, by) * scale(clay, by, to) ==
              Approx(scale(clay, from, to)).epsilon(1e-14));
      }
      if (from < to) CHECK(scale(clay, from, to) <= 1);
    }
  }
}

// Source: plastic water 18-30 % and loss on ignition, both of the dry weight (from memory: Reed,
// "Principles of Ceramics Processing"); the figures for 400 g are that arithmetic.
TEST_CASE("mass_scale: 400 g of wet mug is 327.9 g dry and 305 g fired", "[mass]") {
  Clay clay;
  clay.water_when_thrown = 0.22;
  clay.loss_on_ignition = 0.07;
  CHECK(400 * mass_scale(clay, Stage::thrown, Stage::dry) == Approx(327.9).margin(0.05));
  CHECK(400 - 400 * mass_scale(clay, Stage::thrown, Stage::dry) == Approx(72.1).margin(0.05));
  CHECK(400 * mass_scale(clay, Stage::thrown, Stage::fired) == Approx(305).margin(0.5));
  CHECK(mass_scale(clay, Stage::bisque, Stage::fired) == 1);
}

}  // namespace
}  // namespace placer
