#include "placer/firing/probe.h"

#include <fmt/core.h>

#include <cmath>
#include <stdexcept>

#include "gas_constant.h"
#include "placer/firing/words.h"

namespace placer::firing {
namespace {

constexpr double kAirOxygen = 0.2095;
constexpr double kCarbonGases = 12;  ///< percent of CO and CO2 together in the dry flue gas

double kelvin_of(Temperature at) {
  const double kelvin = absolute_kelvin(at);
  if (!(kelvin > 0) || !std::isfinite(kelvin)) {
    throw std::invalid_argument{"a probe needs the temperature that it stands at"};
  }
  return kelvin;
}

double log10_hydrogen_constant(double kelvin) {
  return (249525 / kelvin - 56.785) / (kGasConstant * std::log(10.0));
}

Finding refusal(std::string message) {
  Finding finding;
  finding.code = "probe";
  finding.message = std::move(message);
  return finding;
}

Strength strength_of(double co_percent, double oxygen_atm) {
  if (co_percent >= 4) {
    return Strength::heavy;
  }
  if (co_percent >= 2) {
    return Strength::medium;
  }
  if (co_percent >= 0.5) {
    return Strength::light;
  }
  return oxygen_atm > 1e-3 ? Strength::oxidising : Strength::neutral;
}

}  // namespace

double log10_carbon_monoxide_constant(Temperature at) {
  return (281230 / kelvin_of(at) - 85.816) / (kGasConstant * std::log(10.0));
}

Gas gas_from_probe(double millivolts, Temperature at) {
  const double kelvin = kelvin_of(at);
  if (!(millivolts >= -50) || millivolts > 1400) {
    throw std::invalid_argument{"a zirconia probe reads between -50 and 1400 mV"};
  }
  Gas gas;
  const double ln_oxygen =
      std::log(kAirOxygen) - 4 * kFaraday * millivolts * 1e-3 / (kGasConstant * kelvin);
  gas.oxygen_atm = std::exp(ln_oxygen);
  const double half = ln_oxygen / (2 * std::log(10.0));
  gas.co_over_co2 = std::pow(10, -log10_carbon_monoxide_constant(at) - half);
  gas.h2_over_h2o = std::pow(10, -log10_hydrogen_constant(kelvin) - half);
  return gas;
}

double millivolts_from_oxygen(double oxygen_atm, Temperature at) {
  if (!(oxygen_atm > 0)) {
    throw std::invalid_argument{"the share of oxygen must be over zero"};
  }
  return 1e3 * kGasConstant * kelvin_of(at) / (4 * kFaraday) * std::log(kAirOxygen / oxygen_atm);
}

double millivolts_from_co_over_co2(double co_over_co2, Temperature at) {
  if (!(co_over_co2 > 0)) {
    throw std::invalid_argument{"the ratio of CO to CO2 must be over zero"};
  }
  const double log10_oxygen = -2 * (log10_carbon_monoxide_constant(at) + std::log10(co_over_co2));
  return millivolts_from_oxygen(std::pow(10, log10_oxygen), at);
}

std::string to_string(Strength strength) {
  switch (strength) {
    case Strength::oxidising:
      return "oxidising";
    case Strength::neutral:
      return "neutral";
    case Strength::light:
      return "light reduction";
    case Strength::medium:
      return "medium reduction";
    case Strength::heavy:
      return "heavy reduction";
  }
  throw std::invalid_argument{"to_string: no such strength"};
}

ProbeAnswer read_probe(double millivolts, std::optional<Temperature> at) {
  ProbeAnswer answer;
  if (!at) {
    answer.refused = refusal(fmt::format(
        "{:.0f} mV says nothing without the temperature at the probe: 600 mV is hardly reducing at "
        "1000 °C (1832 °F) and strongly at 1300 °C (2372 °F)",
        millivolts));
    return answer;
  }
  if (*at < kProbeWorksFrom || at->celsius > 1700) {
    answer.refused =
        refusal(fmt::format("a zirconia probe does not work at {}; it does from about "
                            "{}",
                            both_scales(*at), both_scales(kProbeWorksFrom)));
    return answer;
  }
  if (!(millivolts >= -50) || millivolts > 1400) {
    answer.refused = refusal(fmt::format(
        "{:.0f} mV is not a zirconia probe's reading, which lies between -50 and 1400 mV",
        millivolts));
    return answer;
  }
  ProbeReading reading;
  reading.gas = gas_from_probe(millivolts, *at);
  const double ratio = reading.gas.co_over_co2;
  reading.carbon_monoxide_percent = kCarbonGases * ratio / (1 + ratio);
  reading.strength = strength_of(reading.carbon_monoxide_percent, reading.gas.oxygen_atm);
  answer.reading = reading;
  return answer;
}

double millivolts_for(double carbon_monoxide_percent, Temperature at) {
  if (!(carbon_monoxide_percent > 0) || carbon_monoxide_percent >= kCarbonGases) {
    throw std::invalid_argument{"carbon monoxide must lie between 0 and 12 % of the dry flue gas"};
  }
  return millivolts_from_co_over_co2(
      carbon_monoxide_percent / (kCarbonGases - carbon_monoxide_percent), at);
}

double soot_ratio(Temperature at) {
  // C + CO2 = 2 CO: K = pCO^2 / pCO2 = (0.12 r / (1 + r))^2 / (0.12 / (1 + r)) = 0.12 r^2 / (1 + r)
  const double kelvin = kelvin_of(at);
  const double k = std::exp(-(170700 - 174.5 * kelvin) / (kGasConstant * kelvin));
  const double c = k / (kCarbonGases / 100);
  return (c + std::sqrt(c * c + 4 * c)) / 2;
}

}  // namespace placer::firing
