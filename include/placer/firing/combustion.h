/// @file combustion.h
/// Gas and air: what a burner gives to the kiln and what leaves by the flue.
///
/// Ideal mixing; below the air it needs, the gas burns to CO2, H2O, CO and H2 in water-gas
/// equilibrium at the flue's temperature; above it to CO2, H2O and O2. Real burners mix badly (CO
/// and O2 side by side), so an air ratio is an ideal one. Enthalpies: seven-coefficient polynomials
/// of McBride, Gordon and Reno (NASA TM-4513, 1993). Dry air with 20.95 % oxygen.
#pragma once

#include <optional>
#include <string>

#include "placer/base/units.h"

namespace placer::firing {

/// A hydrocarbon C_n H_m. Heating values in MJ/kg, water as steam (lower) or liquid (higher).
struct Fuel {
  std::string name;
  double carbon = 1, hydrogen = 4;
  double molar_kg = 0.016043;
  double lower_mj_per_kg = 50.03;
  double higher_mj_per_kg = 55.51;
  double air_m3_per_m3() const;  ///< volume of air for one of gas, air ratio 1
  double air_kg_per_kg() const;
  double greatest_co2_percent() const;  ///< dry flue gas at air ratio 1
};
const Fuel& methane();  ///< stands for natural gas too: 93 % methane gives 0.8 % less heat per kg
const Fuel& propane();

/// Flue gas for one mole of fuel; percents of the dry gas.
struct FlueGas {
  double co2 = 0, h2o = 0, n2 = 0, o2 = 0, co = 0, h2 = 0;  ///< moles
  double dry() const { return co2 + n2 + o2 + co + h2; }
  double co_percent() const { return 100 * co / dry(); }
  double co2_percent() const { return 100 * co2 / dry(); }
  double o2_percent() const { return 100 * o2 / dry(); }
};

/// @param air_ratio over 0.7 and up to 2: outside it no burner stays alight or no kiln gets hot.
/// @throws std::invalid_argument outside it.
FlueGas flue_gas(const Fuel& fuel, double air_ratio, Temperature flue);

/// Heat left in the kiln as a share of the lower heating value, when the gas leaves at `flue` and
/// what is unburnt counts as lost; air and fuel at 25 °C. Negative when the flue takes it all.
double available_heat(const Fuel& fuel, double air_ratio, Temperature flue);

/// Air ratio from the oxygen of the dry flue gas in percent (0 to 20), or the quick form
/// 20.95 / (20.95 - O2) without a fuel.
double air_ratio_from_oxygen(const Fuel& fuel, double oxygen_percent);
double air_ratio_from_oxygen(double oxygen_percent);
/// Air ratio under 1 from carbon monoxide in the dry flue gas at a flue temperature; nothing when
/// it is more than an air ratio of 0.7 gives.
std::optional<double> air_ratio_from_carbon_monoxide(const Fuel& fuel, double percent,
                                                     Temperature flue);

/// Water-gas shift: K = (CO2 H2) / (CO H2O).
double water_gas_constant(Temperature t);

/// Molar enthalpy over 25 °C in kJ/mol; gas is one of "CO2", "H2O", "N2", "O2", "CO", "H2".
/// @throws std::invalid_argument for another name.
double gas_enthalpy(const std::string& gas, Temperature t);

}  // namespace placer::firing
