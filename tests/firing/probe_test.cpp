#include "placer/firing/probe.h"

#include <catch2/catch.hpp>
#include <cmath>

#include "placer/firing/combustion.h"

namespace placer::firing {

// Nernst with CODATA constants; equilibrium constants from NASA TM-4513 polynomials, by an
// independent calculation.

TEST_CASE("millivolts in clear fire", "[probe]") {
  CHECK(millivolts_from_oxygen(0.01, {1000}) == Approx(83.4).margin(0.3));
  CHECK(millivolts_from_oxygen(1e-8, {1250}) == Approx(553.2).margin(0.5));
  CHECK(millivolts_from_oxygen(0.05, {900}) == Approx(36.2).margin(0.1));
  CHECK(millivolts_from_oxygen(0.2095, {1100}) == Approx(0).margin(1e-9));
}

TEST_CASE("millivolts to oxygen and CO/CO2", "[probe]") {
  CHECK(std::log10(gas_from_probe(600, {1250}).oxygen_atm) == Approx(-8.62).margin(0.02));
  CHECK(gas_from_probe(600, {1250}).co_over_co2 == Approx(0.141).epsilon(0.02));
  CHECK(gas_from_probe(700, {1300}).co_over_co2 == Approx(0.929).epsilon(0.02));
  CHECK(std::log10(gas_from_probe(500, {1000}).oxygen_atm) == Approx(-8.60).margin(0.01));
}

TEST_CASE("CO/CO2 to millivolts", "[probe]") {
  CHECK(millivolts_from_co_over_co2(0.1, {1000}) == Approx(722).margin(2));
  CHECK(millivolts_from_co_over_co2(0.1, {1250}) == Approx(578).margin(2));
  CHECK(millivolts_from_co_over_co2(1.0, {1200}) == Approx(753).margin(2));
  CHECK(millivolts_from_co_over_co2(0.2, {900}) == Approx(815).margin(2));
}

TEST_CASE("the equilibrium constant of carbon monoxide", "[probe]") {
  CHECK(log10_carbon_monoxide_constant({1000}) == Approx(7.054).margin(0.01));
  CHECK(log10_carbon_monoxide_constant({1200}) == Approx(5.488).margin(0.01));
}

TEST_CASE("the same millivolts mean much stronger reduction in a hotter kiln", "[probe]") {
  const double cool = gas_from_probe(600, {1000}).co_over_co2;
  const double hot = gas_from_probe(600, {1300}).co_over_co2;
  CHECK(cool == Approx(0.0108).epsilon(0.05));
  CHECK(hot == Approx(0.212).epsilon(0.05));
  CHECK(hot / cool == Approx(19.6).epsilon(0.05));
}

TEST_CASE("there and back", "[probe]") {
  for (double at = 800; at <= 1350; at += 50) {
    for (double mv = 20; mv <= 900; mv += 40) {
      const Gas gas = gas_from_probe(mv, {at});
      CHECK(millivolts_from_oxygen(gas.oxygen_atm, {at}) == Approx(mv).epsilon(1e-9));
      CHECK(millivolts_from_co_over_co2(gas.co_over_co2, {at}) == Approx(mv).epsilon(1e-9));
    }
  }
}

TEST_CASE("the flue gas of an air ratio reads as the table says", "[probe]") {
  const double ratio[] = {0.70, 0.80, 0.90, 0.95, 0.98};
  const double mv[] = {764, 724, 668, 618, 557};
  for (int i = 0; i < 5; ++i) {
    const FlueGas g = flue_gas(methane(), ratio[i], {1200});
    CHECK(millivolts_from_co_over_co2(g.co / g.co2, {1200}) == Approx(mv[i]).margin(2));
    CHECK(gas_from_probe(mv[i], {1200}).h2_over_h2o == Approx(g.h2 / g.h2o).epsilon(0.05));
  }
}

TEST_CASE("millivolts without a temperature are refused", "[probe]") {
  const ProbeAnswer answer = read_probe(600, std::nullopt);
  CHECK_FALSE(answer.reading);
  REQUIRE(answer.refused);
  CHECK(answer.refused->message.find("without the temperature") != std::string::npos);
}

TEST_CASE("a cold probe and impossible millivolts are refused", "[probe]") {
  CHECK(read_probe(600, Temperature{400}).refused);
  CHECK(read_probe(6000, Temperature{1200}).refused);
  CHECK(read_probe(std::nan(""), Temperature{1200}).refused);
  CHECK_THROWS_AS(gas_from_probe(2000, {1200}), std::invalid_argument);
  CHECK_THROWS_AS(gas_from_probe(600, {-300}), std::invalid_argument);
}

TEST_CASE("strength in words", "[probe]") {
  CHECK(read_probe(20, Temperature{1200}).reading->strength == Strength::oxidising);
  CHECK(read_probe(578, Temperature{1250}).reading->strength == Strength::light);
  CHECK(read_probe(millivolts_for(3, {950}), Temperature{950}).reading->strength ==
        Strength::medium);
  CHECK(read_probe(millivolts_for(6, {950}), Temperature{950}).reading->strength ==
        Strength::heavy);
  CHECK(read_probe(millivolts_for(3, {950}), Temperature{950}).reading->carbon_monoxide_percent ==
        Approx(3).epsilon(1e-6));
}

TEST_CASE("soot is not stable in a hot kiln", "[probe]") {
  // Graphite figures of Kubaschewski, from memory
  CHECK(soot_ratio({600}) == Approx(1.2).epsilon(0.05));
  CHECK(soot_ratio({700}) == Approx(8.4).epsilon(0.05));
  CHECK(soot_ratio({900}) == Approx(273).epsilon(0.05));
}

}  // namespace placer::firing
