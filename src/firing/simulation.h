/// @file simulation.h
/// A kiln driven along a schedule. Internal to firing.
#pragma once

#include <optional>

#include "placer/firing/forecast.h"
#include "thermal.h"

namespace placer::firing {

struct Simulated {
  std::vector<TimedSegment> steps;
  std::vector<Moment> curve;
  Hours off{0};
  bool stuck = false;
  Temperature hottest_shell{20};
  Warming worst_lag{0};
  std::optional<Hours> falls_behind;
  double source_j = 0;  ///< from the meter, or fuel heat (lower heating value)
  HeatAccount at_off;   ///< heat account when the heat went off
  HeatAccount at_end;
  double tightest_reduction = 0;  ///< greatest duty in a reducing segment
  std::optional<Hours> stalls;    ///< first time that a reducing climb could not be kept
};

/// @param endless the source gives whatever is asked (nothing is known of the kiln).
Simulated simulate(const Schedule& schedule, const FullBuild& build, const HeatLoad& load,
                   bool endless);

/// Air ratio that a segment is fired with: 1.2 in clear fire (common practice), and what its carbon
/// monoxide asks for in reduction.
double air_ratio_of(const Segment& segment, const Fuel& fuel, Temperature flue);
/// The gas that stands for a kind of source; methane for "other" and for wood's flame, whose
/// figures are no better than a half either way.
const Fuel& fuel_of(HeatSource source);

}  // namespace placer::firing
