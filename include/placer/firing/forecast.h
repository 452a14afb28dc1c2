/// @file forecast.h
/// What the kiln will do with a schedule: times, cone, energy, cooling. Knows no shelves: the load
/// reaches it as masses.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "placer/base/error.h"
#include "placer/base/units.h"
#include "placer/firing/schedule.h"

namespace placer::firing {

enum class HeatSource { electric, natural_gas, propane, wood, other };

/// One layer of the wall, from the hot face outwards.
struct WallLayer {
  std::string material;  ///< "insulating brick 23", "fibre blanket", ...: as in the material table
  Length thickness;
};

/// How the kiln makes and loses heat; a few numbers a potter knows, the rest by kind.
struct KilnBuild {
  HeatSource source = HeatSource::electric;
  std::optional<Power> power;   ///< electric: rating; gas: burner input
  std::vector<WallLayer> wall;  ///< empty = usual for the kind
  double chamber_volume_m3 = 0;
  double chamber_surface_m2 = 0;
  std::optional<Temperature> top_limit;
  std::optional<double> price_per_kwh;  ///< of electricity or of fuel heat
  std::string currency;
  TextPos where;
};

/// What is in the kiln, made by job from the LoadPlan.
struct HeatLoad {
  Mass ware;
  Mass furniture;
  Mass water;                  ///< still in or on the ware
  Mass bound_water;            ///< chemically bound, leaves at 450-650 °C
  std::string shelf_material;  ///< "cordierite", "silicon carbide", ...
};

/// One moment of a planned, simulated or logged firing.
struct Moment {
  Hours at{0};
  Temperature planned;
  Temperature kiln;  ///< as simulated; equals planned when nothing is known of the kiln
};

struct TimedSegment {
  Segment segment;
  Temperature from;
  Hours starts{0}, ends{0};  ///< since the start, as the kiln will do it
};

struct Forecast {
  Schedule schedule;
  std::vector<TimedSegment> steps;  ///< heating and cooling, in order
  std::vector<Moment> curve;        ///< every few minutes, to 60 °C
  Hours off{0};                     ///< heat off
  Hours duration{0};                ///< start to earliest opening
  Hours earliest_opening{0};        ///< under 100 °C
  Hours unload{0};                  ///< under 60 °C
  std::string cone;                 ///< reached, by heat-work; "" = none
  std::string cone_band;            ///< "± 7 °C, about half a cone; trust witness cones"
  std::optional<Energy> energy;     ///< from the meter or the burner
  double energy_band = 0.3;         ///< ± as a fraction
  std::optional<double> fuel_kg;
  std::optional<double> cost;
  std::vector<Finding> findings;  ///< too little power, late, stall risk, unsafe wishes
  std::vector<std::string> cautions;
};

Forecast forecast(const Schedule& schedule, const ConeTable& cones,
                  const std::optional<KilnBuild>& kiln, const HeatLoad& load);

}  // namespace placer::firing
