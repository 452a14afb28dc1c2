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

/// What a past firing taught about a kiln: factors on the defaults, and how well they are known.
/// Made by calibrate() (calibration.h).
struct Learnt {
  double loss = 1;    ///< on the wall's conductivity
  double store = 1;   ///< on the wall's heat capacity
  double power = 1;   ///< on the rated power, or on what the burner gives
  double band = 0.3;  ///< ± left on the energy, as a fraction
  std::string from;   ///< which log
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
  std::optional<Learnt> learnt;
  std::string past_log;  ///< a past firing's log, as the studio file names it; "" = none
  std::optional<Energy> past_meter;  ///< what that firing drew, from the meter or as fuel heat
  double room_celsius = 20;
  double shell_emissivity = 0.9;  ///< dull or painted metal; bright steel 0.3
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
  Temperature kiln;    ///< as simulated; equals planned when nothing is known of the kiln
  Temperature load{};  ///< middle of ware and shelves
  Temperature shell{};
  double heat_kw = 0;  ///< from the elements, or from the burner as fuel heat
};

struct TimedSegment {
  Segment segment;  ///< of a natural one the rate is the simulated mean, no guess
  Temperature from;
  Hours starts{0}, ends{0};  ///< since the start, as the kiln will do it
  Hours late{0};             ///< at its end, against the plan
  double duty = 0;           ///< greatest share of the power that it needed; over 1 it falls behind
};

/// Something to do or to watch, for the calendar and the sheet.
struct Event {
  Hours at{0};
  std::string what;       ///< "close the lid", "read the cones", "kiln may be opened"
  bool hands_on = false;  ///< somebody must be at the kiln
};

struct Forecast {
  Schedule schedule;
  std::vector<TimedSegment> steps;  ///< heating and cooling, in order
  std::vector<Moment> curve;        ///< every few minutes, to 60 °C
  Hours off{0};                     ///< heat off, a clean-up with the burner on included
  Hours duration{0};                ///< start to earliest opening
  Hours under_100{0};               ///< ware and kiln under 100 °C
  Hours earliest_opening{0};        ///< under open_below: the hour that fits this load
  Temperature open_below{100};      ///< 60 °C with flat, wide or thick ware in it, else 100
  std::string open_why;             ///< "under 60 °C (140 °F), because flat ware is in it: ..."
  Hours unload{0};                  ///< under 60 °C
  std::string cone;                 ///< reached, by heat-work; "" = none
  std::string cone_band;            ///< "± 7 °C, about half a cone; trust witness cones"
  /// The cones of a pack, coolest first: the one before the cone aimed at (or reached, when the aim
  /// is a temperature), itself and the one after it; fewer at an end of the table.
  std::vector<std::string> pack;
  std::optional<Energy> energy;  ///< from the meter or the burner
  double energy_band = 0.3;      ///< ± as a fraction
  struct Heat {                  ///< where it went until the heat was off, kWh
    double ware_and_shelves = 0, water = 0, wall = 0, shell_and_leaks = 0, flue = 0;
  };
  std::optional<Heat> heat;
  Temperature hottest_shell{20};
  /// Hour at which the kiln falls behind the plan by 10 °C and does not catch up at once.
  std::optional<Hours> falls_behind;
  Warming worst_lag{0};
  Hours late{0};              ///< at the top, against the plan
  bool gives_up = false;      ///< it stands still below the top; the rest cools from there
  double time_band = 0.1;     ///< ± as a fraction, of the cooling times
  std::vector<Event> events;  ///< in order of time
  std::optional<double> fuel_kg;
  std::optional<double> cost;
  std::string currency;           ///< of the cost, as the studio file writes it
  std::vector<Finding> findings;  ///< too little power, late, stall risk, unsafe wishes
  std::vector<std::string> cautions;
};

/// Simulates the firing in the kiln (see src/firing/thermal.h for the model and its limits: a load,
/// a chamber and a one-dimensional wall; energy ± 30 % uncalibrated, ± 20 % with the wall's build
/// given, less after calibrate()). Without a kiln the climb goes as planned and cooling is that of
/// a usual electric kiln of 0.2 m3. Fills wish.starts_at when only ends_at (heat off) is given.
Forecast forecast(const Schedule& schedule, const ConeTable& cones,
                  const std::optional<KilnBuild>& kiln, const HeatLoad& load);

}  // namespace placer::firing
