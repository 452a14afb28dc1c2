#include "placer/firing/combustion.h"

#include <catch2/catch.hpp>
#include <cmath>

namespace placer::firing {

// Figures computed from NASA TM-4513 polynomials (McBride, Gordon, Reno 1993), dry air with 20.95 %
// oxygen, by an independent calculation, unless another source is named.

TEST_CASE("air that gas needs, by volume and by weight", "[combustion]") {
  CHECK(methane().air_m3_per_m3() == Approx(9.547).epsilon(0.001));
  CHECK(propane().air_m3_per_m3() == Approx(23.87).epsilon(0.001));
  CHECK(propane().air_kg_per_kg() == Approx(15.68).epsilon(0.001));
  CHECK(methane().air_kg_per_kg() == Approx(17.24).epsilon(0.001));
}

TEST_CASE("heating values", "[combustion]") {
  CHECK(methane().lower_mj_per_kg == Approx(50.03).epsilon(0.005));
  CHECK(propane().lower_mj_per_kg ==
        Approx(46.33).epsilon(0.005));  // 46.3: engine testing handbook
  CHECK(methane().higher_mj_per_kg == Approx(55.51).epsilon(0.005));
  CHECK(propane().higher_mj_per_kg == Approx(50.33).epsilon(0.005));
  // A cubic metre at 0 °C is 44.615 mol (ideal gas).
  CHECK(propane().lower_mj_per_kg * propane().molar_kg * 44.615 == Approx(91.2).epsilon(0.005));
  // One US gallon of propane: 1.92 kg (0.508 kg/L, Perry, from memory), 24.8 kWh.
  CHECK(1.92 * propane().lower_mj_per_kg / 3.6 == Approx(24.8).epsilon(0.015));
  CHECK(1.92 * propane().higher_mj_per_kg * 947.8 == Approx(91800).epsilon(0.015));
}

TEST_CASE("most carbon dioxide in dry flue gas", "[combustion]") {
  CHECK(methane().greatest_co2_percent() == Approx(11.70).margin(0.02));
  CHECK(propane().greatest_co2_percent() == Approx(13.72).margin(0.02));
}

TEST_CASE("flue gas by air ratio at 1200 °C", "[combustion]") {
  struct Row {
    double ratio, co_methane, co_propane, co2_methane;
  };
  const Row rows[] = {{0.70, 7.87, 9.48, 6.5},
                      {0.80, 5.23, 6.21, 8.2},
                      {0.90, 2.61, 3.04, 9.9},
                      {0.95, 1.30, 1.50, 10.8},
                      {0.98, 0.52, 0.60, 11.3}};
  for (const Row& row : rows) {
    CAPTURE(row.ratio);
    CHECK(flue_gas(methane(), row.ratio, {1200}).co_percent() ==
          Approx(row.co_methane).epsilon(0.02));
    CHECK(flue_gas(propane(), row.ratio, {1200}).co_percent() ==
          Approx(row.co_propane).epsilon(0.02));
    CHECK(flue_gas(methane(), row.ratio, {1200}).co2_percent() ==
          Approx(row.co2_methane).margin(0.06));
  }
  CHECK(flue_gas(methane(), 1.1, {1200}).o2_percent() == Approx(2.10).margin(0.02));
  CHECK(flue_gas(propane(), 1.5, {1200}).o2_percent() == Approx(7.40).margin(0.02));
}

TEST_CASE("atoms are kept whatever the air", "[combustion]") {
  for (double ratio = 0.7; ratio <= 2.0; ratio += 0.05) {
    for (const Fuel* fuel : {&methane(), &propane()}) {
      const FlueGas g = flue_gas(*fuel, ratio, {1000});
      CHECK(g.co + g.co2 == Approx(fuel->carbon));
      CHECK(2 * (g.h2 + g.h2o) == Approx(fuel->hydrogen));
      CHECK(g.co + 2 * g.co2 + g.h2o + 2 * g.o2 ==
            Approx(2 * ratio * (fuel->carbon + fuel->hydrogen / 4)));
      if (g.co > 1e-6) {
        CHECK(g.co2 * g.h2 / (g.co * g.h2o) == Approx(water_gas_constant({1000})).epsilon(1e-6));
      }
    }
  }
}

TEST_CASE("water-gas constant", "[combustion]") {
  const double t[] = {900, 1000, 1100, 1200, 1250, 1300};
  const double k[] = {0.786, 0.604, 0.485, 0.404, 0.373, 0.346};
  for (int i = 0; i < 6; ++i) {
    // The two fits that it is made of are good to 0.08 kJ/mol, 0.8 % each.
    CHECK(water_gas_constant({t[i]}) == Approx(k[i]).epsilon(0.01));
  }
}

TEST_CASE("heat that stays in the kiln, percent of the lower heating value", "[combustion]") {
  struct Row {
    double ratio, at, methane, propane;
  };
  const Row rows[] = {{0.80, 1250, 26.0, 27.9}, {0.90, 600, 64.5, 65.4},  {0.90, 1200, 36.9, 38.7},
                      {0.95, 1250, 38.7, 40.6}, {1.00, 1250, 43.0, 44.9}, {1.00, 1000, 55.8, 57.2},
                      {1.10, 1200, 41.1, 43.0}, {1.20, 1300, 30.6, 32.7}, {1.50, 1250, 19.4, 21.8},
                      {2.00, 1200, 0.5, 3.2}};
  for (const Row& row : rows) {
    CAPTURE(row.ratio, row.at);
    CHECK(100 * available_heat(methane(), row.ratio, {row.at}) == Approx(row.methane).margin(0.4));
    CHECK(100 * available_heat(propane(), row.ratio, {row.at}) == Approx(row.propane).margin(0.4));
  }
  // North American Combustion Handbook (from memory): 10 % excess air at about 1200 °C leaves 37 %
  // of the higher heating value.
  CHECK(100 * available_heat(methane(), 1.1, {1200}) * 50.03 / 55.51 == Approx(37).margin(1));
  // Twice the air cannot hold 1250 °C at all.
  CHECK(available_heat(methane(), 2.0, {1250}) < 0);
}

TEST_CASE("air ratio from oxygen and from carbon monoxide", "[combustion]") {
  CHECK(air_ratio_from_oxygen(3.83) == Approx(1.224).epsilon(0.005));
  CHECK(air_ratio_from_oxygen(methane(), 3.83) == Approx(1.20).margin(0.003));
  CHECK(air_ratio_from_oxygen(propane(), 7.40) == Approx(1.50).margin(0.003));
  CHECK(*air_ratio_from_carbon_monoxide(methane(), 2.61, {1200}) == Approx(0.90).margin(0.001));
  CHECK(*air_ratio_from_carbon_monoxide(propane(), 0.60, {1200}) == Approx(0.98).margin(0.001));
  CHECK_FALSE(air_ratio_from_carbon_monoxide(methane(), 12, {1200}));
  CHECK_THROWS_AS(air_ratio_from_oxygen(21), std::invalid_argument);
  CHECK_THROWS_AS(air_ratio_from_oxygen(methane(), -1), std::invalid_argument);
}

TEST_CASE("an air ratio under 0.7 or over 2 is refused", "[combustion]") {
  const double ratio = GENERATE(0.69, 2.01, 0.0, -1.0);
  CHECK_THROWS_AS(flue_gas(methane(), ratio, {1000}), std::invalid_argument);
}

TEST_CASE("gas enthalpies over 25 °C", "[combustion]") {
  // JANAF thermochemical tables, from memory: h(1300 K) - h(298 K) in kJ/mol
  CHECK(gas_enthalpy("N2", {1026.85}) == Approx(31.50).epsilon(0.005));
  CHECK(gas_enthalpy("CO2", {1026.85}) == Approx(50.16).epsilon(0.005));
  CHECK(gas_enthalpy("H2O", {1026.85}) == Approx(38.94).epsilon(0.005));
  CHECK(gas_enthalpy("O2", {25}) == Approx(0).margin(1e-9));
  CHECK_THROWS_AS(gas_enthalpy("CH4", {25}), std::invalid_argument);
  // Mean heat of methane's flue gas at ratio 1: 1.540 kJ/m3K from 25 to 1000 °C.
  const FlueGas g = flue_gas(methane(), 1, {1000});
  const double kj = g.co2 * gas_enthalpy("CO2", {1000}) + g.h2o * gas_enthalpy("H2O", {1000}) +
                    g.n2 * gas_enthalpy("N2", {1000});
  CHECK(kj / (g.co2 + g.h2o + g.n2) * 44.615 / 975 == Approx(1.540).epsilon(0.003));
}

}  // namespace placer::firing
