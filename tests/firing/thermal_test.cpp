#include "firing/thermal.h"

#include <catch2/catch.hpp>
#include <cmath>

namespace placer::firing {
namespace {

KilnBuild electric(double volume, double surface, double kw, const char* brick, double mm) {
  KilnBuild k;
  k.chamber_volume_m3 = volume;
  k.chamber_surface_m2 = surface;
  k.power = Power{kw};
  k.wall = {{brick, Length::from_mm(mm)}};
  return k;
}

HeatLoad load(double ware, double furniture, double water = 0, double bound = 0) {
  HeatLoad l;
  l.ware = Mass::from_kg(ware);
  l.furniture = Mass::from_kg(furniture);
  l.water = Mass::from_kg(water);
  l.bound_water = Mass::from_kg(bound);
  l.shelf_material = "cordierite";
  return l;
}

}  // namespace

TEST_CASE("heat given is heat stored, lost or carried off, to a tenth of a percent", "[thermal]") {
  const bool gas = GENERATE(false, true);
  KilnBuild build = electric(0.2, 2.0, 12, "insulating brick 26", 115);
  build.source = gas ? HeatSource::propane : HeatSource::electric;
  ThermalKiln kiln{filled(build), load(40, 30, 1.5, 2.5), {20}};
  double given = 0;
  for (int minute = 0; minute < 60 * 40; ++minute) {
    if (minute < 600) {
      kiln.burn(gas);
      const double watts = kiln.heat_to_reach(60, 20 + 2.0 * (minute + 1));
      if (watts < 14000) {
        kiln.take();
        given += watts * 60;
      } else {
        kiln.take_with(60, 14000);
        given += 14000 * 60;
      }
    } else {
      kiln.burn(false);
      kiln.take_with(60, 0);
    }
  }
  CHECK(kiln.account().given == Approx(given).epsilon(1e-5));
  CHECK(kiln.account().out() == Approx(kiln.account().given).epsilon(0.001));
  // All water has left and taken its heat with it, once.
  CHECK(kiln.account().water * 1e-3 ==
        Approx(1.5 * kWaterToSteam + 2.5 * kBoundWaterHeat).epsilon(1e-6));
}

TEST_CASE("the load takes up its heat content", "[thermal]") {
  ThermalKiln kiln{filled(electric(0.2, 2.0, 12, "insulating brick", 76)), load(50, 20), {25}};
  for (int minute = 0; minute < 60 * 30; ++minute) {
    kiln.heat_to_reach(60, std::min(1250.0, 25 + 2.0 * (minute + 1)));
    kiln.take();
  }
  CHECK(kiln.load().celsius == Approx(1250).margin(0.5));
  const double expected = 50 * 1384 + 20 * heat_content(Body::cordierite, {1250});
  CHECK(kiln.account().load * 1e-3 == Approx(expected).epsilon(0.002));
}

TEST_CASE("a small hot load in a still wall cools as one lump does", "[thermal]") {
  // Radiation and convection between one lump and a chamber held at a temperature: the exact
  // derivative m c dT/dt = -A (0.7 sigma (T^4 - Tc^4) + 5 (T - Tc)), integrated in fine steps.
  KilnBuild build = electric(0.1, 1.3, 10, "insulating brick", 76);
  ThermalKiln kiln{filled(build), load(20, 0), {1000}};
  double t = 1000;
  for (int minute = 0; minute < 60; ++minute) {
    kiln.heat_to_reach(60, 600);
    kiln.take();
    for (int i = 0; i < 600; ++i) {
      const double k4 = std::pow(t + 273.15, 4) - std::pow(873.15, 4);
      const double flow = 1.3 * (0.7 * 5.670374419e-8 * k4 + 5 * (t - 600));
      t -= 0.1 * flow / (20 * 1e3 * specific_heat(Body::stoneware, {t}));
    }
  }
  // Implicit steps of a minute against tenths of a second: a degree or two on the way.
  CHECK(kiln.load().celsius == Approx(t).margin(2));
  CHECK(t < 640);
}

TEST_CASE("heat needed grows with the temperature asked for", "[thermal]") {
  ThermalKiln kiln{filled(electric(0.1, 1.3, 10, "insulating brick", 76)), load(20, 10), {500}};
  double last = -1e9;
  for (double t = 480; t < 540; t += 5) {
    const double watts = kiln.heat_to_reach(60, t);
    CHECK(watts > last);
    last = watts;
  }
  CHECK_THROWS_AS(kiln.heat_to_reach(0, 500), std::invalid_argument);
  CHECK_THROWS_AS(kiln.heat_to_reach(60, std::nan("")), std::invalid_argument);
}

TEST_CASE("a gap in a kiln's description is filled by what is usual", "[thermal]") {
  KilnBuild bare;
  bare.chamber_volume_m3 = 0.2;
  const FullBuild full = filled(bare);
  CHECK_FALSE(full.wall_known);
  CHECK_FALSE(full.power_known);
  CHECK(full.power_w == Approx(11600));  // 1.65 kW a cubic foot (lakesidepottery.com, practice)
  CHECK(full.surface == Approx(6 * std::pow(0.2, 2.0 / 3)));
  bare.source = HeatSource::propane;
  CHECK(filled(bare).power_w == Approx(26000));
  CHECK(filled(HeatLoad{}, 0.2).ware.kg() + filled(HeatLoad{}, 0.2).furniture.kg() == Approx(60));
}

}  // namespace placer::firing
