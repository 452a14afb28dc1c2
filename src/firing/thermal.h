/// @file thermal.h
/// A kiln as heat: a chamber that a source warms, a load and a layered wall that take it. Internal.
///
/// One chamber temperature (what the sensor reads), one temperature for ware and furniture
/// together, a one-dimensional wall all round (floor and lid like the sides). Chamber to load and
/// to wall: radiation over the chamber's own surface with an exchange factor of 0.7 and 0.8, and
/// convection (5 W/m2K electric, 20 with a burner). Air that leaks through: 4 chamber volumes an
/// hour electric; in a fuel kiln with its fire out 5 m3 an hour for each m2 of its walls (30
/// chamber volumes at 35 cubic feet, which then cool in about two days, as such a kiln did:
/// potters.org, subject 02812). These are engineering figures without a source; they sit inside the
/// ± 30 % of an uncalibrated kiln. Not modelled: hot and cold corners, spy holes, draught.
#pragma once

#include "placer/firing/combustion.h"
#include "placer/firing/forecast.h"
#include "wall.h"

namespace placer::firing {

/// A build with every gap filled by what is usual for its kind.
struct FullBuild {
  KilnBuild build;
  std::vector<LayerOf> wall;
  double power_w = 0;  ///< rated, learnt factor included
  bool power_known = false;
  bool wall_known = false;
  double volume = 0.2, surface = 2;
  Learnt learnt;
};
FullBuild filled(const KilnBuild& build);
/// The load, or what is usual in such a chamber when nothing is given (300 kg/m3, a little more
/// than half of it ware: a 2.6 cubic foot kiln held 22 kg, a 7 cubic foot kiln 70 kg).
HeatLoad filled(const HeatLoad& load, double volume);

/// Where the heat has gone since the start, in joules.
struct HeatAccount {
  double given = 0;  ///< by the source to the chamber
  double load = 0, water = 0, wall = 0, shell = 0, vent = 0, chamber = 0;
  double out() const { return load + water + wall + shell + vent + chamber; }
};

class ThermalKiln {
 public:
  ThermalKiln(const FullBuild& build, const HeatLoad& load, Temperature start);

  Temperature chamber() const { return {chamber_}; }
  Temperature load() const { return {load_}; }
  Temperature shell() const { return wall_.shell(); }
  const HeatAccount& account() const { return account_; }

  /// A burner is alight: its flue, not a leak, carries the hot air off.
  void burn(bool burning) { burning_ = burning; }

  /// Heat in W that brings the chamber to `target` in one step. Negative: it would have to be
  /// cooled. Prepares take().
  double heat_to_reach(double seconds, double target_celsius);
  /// Takes a step ending at the target of the last heat_to_reach().
  void take();
  /// Takes a step with that much heat.
  void take_with(double seconds, double watts);

 private:
  struct Trial {
    double seconds = 0, target = 0, face = 0, load = 0, to_load = 0, to_wall = 0, vent = 0,
           heat = 0;
  };
  void prepare(double seconds);
  double heat_of_load(double celsius) const;   ///< J over 25 °C, water included
  double slope_of_load(double celsius) const;  ///< J/K
  double water_share(double celsius) const;
  double bound_share(double celsius) const;
  void solve_face(Trial& trial) const;
  void solve_load(Trial& trial) const;

  Wall wall_;
  HeatLoad masses_;
  Body furniture_;
  double surface_, vent_w_per_k_, chamber_j_per_k_, convection_, room_, emissivity_;
  double chamber_, load_, hottest_load_;
  double prepared_ = 0;
  bool burning_ = false;
  Wall::Line line_;
  Trial trial_;
  HeatAccount account_;
};

}  // namespace placer::firing
