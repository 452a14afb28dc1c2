#include "placer/firing/combustion.h"

#include <array>
#include <cmath>
#include <stdexcept>

#include "gas_constant.h"

namespace placer::firing {
namespace {

constexpr double kOxygenShare = 0.2095;
constexpr double kRoom = 25;  ///< °C

/// H/RT = a1 + a2 T/2 + a3 T^2/3 + a4 T^3/4 + a5 T^4/5 + a6/T, below and above 1000 K.
struct Polynomial {
  std::array<double, 6> low, high;
};
/// @source NASA TM-4513 (McBride, Gordon, Reno 1993)
constexpr Polynomial kCarbonDioxide = {
    {{2.35677352, 8.98459677e-3, -7.12356269e-6, 2.45919022e-9, -1.43699548e-13, -4.83719697e4}},
    {{3.85746029, 4.41437026e-3, -2.21481404e-6, 5.23490188e-10, -4.72084164e-14, -4.87591660e4}}};
constexpr Polynomial kSteam = {
    {{4.19864056, -2.03643410e-3, 6.52040211e-6, -5.48797062e-9, 1.77197817e-12, -3.02937267e4}},
    {{3.03399249, 2.17691804e-3, -1.64072518e-7, -9.70419870e-11, 1.68200992e-14, -3.00042971e4}}};
constexpr Polynomial kNitrogen = {
    {{3.298677, 1.4082404e-3, -3.963222e-6, 5.641515e-9, -2.444854e-12, -1.0208999e3}},
    {{2.92664, 1.4879768e-3, -5.68476e-7, 1.0097038e-10, -6.753351e-15, -9.227977e2}}};
constexpr Polynomial kOxygen = {
    {{3.78245636, -2.99673416e-3, 9.84730201e-6, -9.68129509e-9, 3.24372837e-12, -1.06394356e3}},
    {{3.28253784, 1.48308754e-3, -7.57966669e-7, 2.09470555e-10, -2.16717794e-14, -1.08845772e3}}};
constexpr Polynomial kCarbonMonoxideGas = {
    {{3.57953347, -6.10353680e-4, 1.01681433e-6, 9.07005884e-10, -9.04424499e-13, -1.43440860e4}},
    {{2.71518561, 2.06252743e-3, -9.98825771e-7, 2.30053008e-10, -2.03647716e-14, -1.41518724e4}}};
constexpr Polynomial kHydrogen = {
    {{2.34433112, 7.98052075e-3, -1.94781510e-5, 2.01572094e-8, -7.37611761e-12, -9.17935173e2}},
    {{3.33727920, -4.94024731e-5, 4.99456778e-7, -1.79566394e-10, 2.00255376e-14, -9.50158922e2}}};

double enthalpy_kj(const Polynomial& gas, double kelvin) {
  const auto& a = kelvin < 1000 ? gas.low : gas.high;
  const double t = kelvin;
  return 1e-3 * kGasConstant *
         (t * (a[0] + t * (a[1] / 2 + t * (a[2] / 3 + t * (a[3] / 4 + t * a[4] / 5)))) + a[5]);
}

double over_room(const Polynomial& gas, Temperature t) {
  return enthalpy_kj(gas, absolute_kelvin(t)) - enthalpy_kj(gas, kRoom + 273.15);
}

/// Burning CO and H2 at 25 °C to CO2 and steam, kJ/mol (from the same tables).
constexpr double kCarbonMonoxideHeat = 282.99;
constexpr double kHydrogenHeat = 241.83;

double oxygen_needed(const Fuel& fuel) { return fuel.carbon + fuel.hydrogen / 4; }

void check_ratio(double air_ratio) {
  if (!(air_ratio >= 0.7 - 1e-9) || air_ratio > 2 + 1e-9) {
    throw std::invalid_argument{"the air ratio must lie between 0.7 and 2"};
  }
}

}  // namespace

double Fuel::air_m3_per_m3() const { return oxygen_needed(*this) / kOxygenShare; }

double Fuel::air_kg_per_kg() const {
  constexpr double kAirMolar = 0.0289647;  // kg/mol
  return air_m3_per_m3() * kAirMolar / molar_kg;
}

double Fuel::greatest_co2_percent() const {
  const double nitrogen = oxygen_needed(*this) * (1 - kOxygenShare) / kOxygenShare;
  return 100 * carbon / (carbon + nitrogen);
}

const Fuel& methane() {
  static const Fuel fuel{"methane", 1, 4, 0.016043, 50.03, 55.51};
  return fuel;
}

const Fuel& propane() {
  static const Fuel fuel{"propane", 3, 8, 0.044096, 46.33, 50.33};
  return fuel;
}

double water_gas_constant(Temperature t) {
  // From the fits of carbon monoxide's and hydrogen's burning, see probe.h.
  const double kelvin = absolute_kelvin(t);
  return std::exp(((281230 - 249525) / kelvin - (85.816 - 56.785)) / kGasConstant);
}

FlueGas flue_gas(const Fuel& fuel, double air_ratio, Temperature flue) {
  check_ratio(air_ratio);
  FlueGas gas;
  const double oxygen = air_ratio * oxygen_needed(fuel);
  gas.n2 = oxygen * (1 - kOxygenShare) / kOxygenShare;
  if (air_ratio >= 1) {
    gas.co2 = fuel.carbon;
    gas.h2o = fuel.hydrogen / 2;
    gas.o2 = oxygen - oxygen_needed(fuel);
    return gas;
  }
  // CO2 = n - x and H2O = m/2 - y with x + y = missing oxygen atoms; K (n - x... solved for x:
  // (n - x) y = K x (h - y), y = missing - x.
  const double k = water_gas_constant(flue);
  const double n = fuel.carbon;
  const double h = fuel.hydrogen / 2;
  const double missing = 2 * (oxygen_needed(fuel) - oxygen);
  double low = std::max(0.0, missing - h);
  double high = std::min(n, missing);
  for (int i = 0; i < 80; ++i) {
    const double x = (low + high) / 2;
    const double y = missing - x;
    ((n - x) * y > k * x * (h - y) ? low : high) = x;
  }
  gas.co = (low + high) / 2;
  gas.h2 = missing - gas.co;
  gas.co2 = n - gas.co;
  gas.h2o = h - gas.h2;
  return gas;
}

double available_heat(const Fuel& fuel, double air_ratio, Temperature flue) {
  const FlueGas gas = flue_gas(fuel, air_ratio, flue);
  const double given = fuel.lower_mj_per_kg * fuel.molar_kg * 1000;  // kJ/mol
  const double sensible =
      gas.co2 * over_room(kCarbonDioxide, flue) + gas.h2o * over_room(kSteam, flue) +
      gas.n2 * over_room(kNitrogen, flue) + gas.o2 * over_room(kOxygen, flue) +
      gas.co * over_room(kCarbonMonoxideGas, flue) + gas.h2 * over_room(kHydrogen, flue);
  const double unburnt = gas.co * kCarbonMonoxideHeat + gas.h2 * kHydrogenHeat;
  return 1 - (sensible + unburnt) / given;
}

double air_ratio_from_oxygen(double oxygen_percent) {
  if (!(oxygen_percent >= 0) || oxygen_percent > 20) {
    throw std::invalid_argument{"oxygen in the flue must lie between 0 and 20 %"};
  }
  return 20.95 / (20.95 - oxygen_percent);
}

double air_ratio_from_oxygen(const Fuel& fuel, double oxygen_percent) {
  if (!(oxygen_percent >= 0) || oxygen_percent > 20) {
    throw std::invalid_argument{"oxygen in the flue must lie between 0 and 20 %"};
  }
  // O2 = 20.95 (L - 1) / (L - 1 + D), D = dry flue gas at ratio 1 over the air it needs.
  const double nitrogen = oxygen_needed(fuel) * (1 - kOxygenShare) / kOxygenShare;
  const double dry = (fuel.carbon + nitrogen) / fuel.air_m3_per_m3();
  return 1 + dry * oxygen_percent / (100 * kOxygenShare - oxygen_percent);
}

std::optional<double> air_ratio_from_carbon_monoxide(const Fuel& fuel, double percent,
                                                     Temperature flue) {
  if (!(percent >= 0) || percent > flue_gas(fuel, 0.7, flue).co_percent()) {
    return std::nullopt;
  }
  double low = 0.7;
  double high = 1;
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    (flue_gas(fuel, middle, flue).co_percent() > percent ? low : high) = middle;
  }
  return (low + high) / 2;
}

double gas_enthalpy(const std::string& gas, Temperature t) {
  struct Named {
    const char* name;
    const Polynomial& polynomial;
  };
  const Named all[] = {{"CO2", kCarbonDioxide},    {"H2O", kSteam},
                       {"N2", kNitrogen},          {"O2", kOxygen},
                       {"CO", kCarbonMonoxideGas}, {"H2", kHydrogen}};
  for (const Named& named : all) {
    if (gas == named.name) {
      return over_room(named.polynomial, t);
    }
  }
  throw std::invalid_argument{"gas_enthalpy: no figures for '" + gas + "'"};
}

}  // namespace placer::firing
