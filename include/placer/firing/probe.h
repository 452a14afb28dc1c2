/// @file probe.h
/// The zirconia probe: millivolts at a temperature to oxygen and to CO/CO2, and back.
///
/// Nernst: E = (R T / 4 F) ln(0.2095 / pO2), air as reference. CO + 1/2 O2 = CO2 and
/// H2 + 1/2 O2 = H2O from NASA TM-4513 polynomials, straight-line fits valid from 800 to 1350 °C to
/// 0.08 kJ/mol: dG(CO) = -281230 + 85.816 T, dG(H2) = -249525 + 56.785 T J/mol. The same millivolts
/// mean much stronger reduction in a hotter kiln: 600 mV is CO/CO2 = 0.011 at 1000 °C and 0.21 at
/// 1300 °C. So there is no reading without a temperature and no fixed millivolt target.
#pragma once

#include <optional>
#include <string>

#include "placer/base/error.h"
#include "placer/base/units.h"

namespace placer::firing {

/// Under it the probe does not conduct well enough (600 to 700 °C by its makers).
inline constexpr Temperature kProbeWorksFrom{650};

struct Gas {
  double oxygen_atm = 0;   ///< partial pressure of oxygen
  double co_over_co2 = 0;  ///< 0 in plain air
  double h2_over_h2o = 0;
};

/// @param millivolts -50 to 1400. @throws std::invalid_argument outside it or at absolute zero.
Gas gas_from_probe(double millivolts, Temperature at);
double millivolts_from_oxygen(double oxygen_atm, Temperature at);
double millivolts_from_co_over_co2(double co_over_co2, Temperature at);
/// log10 of K = pCO2 / (pCO pO2^1/2).
double log10_carbon_monoxide_constant(Temperature at);

/// Oxidising, neutral, light, medium or heavy: by the carbon monoxide that the ratio stands for in
/// a dry flue gas with 12 % of CO and CO2 together. Light 0.5-2 % CO, medium 2-4, heavy over 4
/// (common practice, no source).
enum class Strength { oxidising, neutral, light, medium, heavy };
struct ProbeReading {
  Gas gas;
  double carbon_monoxide_percent = 0;
  Strength strength = Strength::oxidising;
};
std::string to_string(Strength strength);

/// A probe's reading, or why there is none: no temperature beside it, a probe too cold to work,
/// millivolts that no probe gives.
struct ProbeAnswer {
  std::optional<ProbeReading> reading;
  std::optional<Finding> refused;
};
ProbeAnswer read_probe(double millivolts, std::optional<Temperature> at);

/// Millivolts that a share of carbon monoxide in the dry flue gas reads at a temperature.
double millivolts_for(double carbon_monoxide_percent, Temperature at);

/// Ratio CO/CO2 over which soot is stable at equilibrium, CO and CO2 together 12 % of the gas.
/// @source graphite dG = 170700 - 174.5 T J/mol, Kubaschewski (from memory)
double soot_ratio(Temperature at);

}  // namespace placer::firing
