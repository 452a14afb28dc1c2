/// @file builder.h
/// The builder's own schedule: from what the ware can bear, the cone and the atmosphere.
///
/// Every step goes as fast as the slowest of its limits, and names it:
/// - conduction: a wall heated at a steady rate r lags r L^2 / (2 a) behind its face, L = the whole
///   thickness (a foot on a shelf is heated from one side), a = 4e-7 m2/s for dry and bisque clay
///   (3 to 6e-7; Carslaw & Jaeger, Conduction of Heat in Solids, ch. 3, from memory). Allowed: 5 K
///   below 120 °C, 8 K where quartz turns, 15 K elsewhere. These allowances are common practice put
///   into numbers, no source;
/// - practice: rates by thickness and by stage (common practice, no source);
/// - ware: damp, flat, dark or carbon-rich, high in free quartz; grog lets gas out and bears 20 %
///   more, except where quartz turns.
/// Good to a factor of about 1.5 either way: slower is always safe.
#pragma once

#include <string>
#include <vector>

#include "placer/firing/schedule.h"

namespace placer::firing {

/// How fast a stage may be climbed, and why.
struct Limit {
  Ramp rate;
  std::string reason;  ///< "at most 60 °C/h: ..."
};

/// Lag of the far side of a wall heated from one side at a steady rate.
Warming conduction_lag(Length wall, Ramp rate);
/// Rate at which it lags just that much.
Ramp rate_for_lag(Length wall, Warming lag);

/// The limit between two temperatures of the climb, the slower of practice and conduction.
Limit climb_limit(const WareSummary& ware, Kind kind, Temperature from, Temperature to);
/// How long to candle, and why. Zero when the ware is bisque.
struct Candling {
  Temperature at{90};
  Hours hold{0};
  std::string reason;
};
Candling candling(const WareSummary& ware, Kind kind);

/// The builder's own profile for a wish, called "built".
Profile built_profile(const Wish& wish, const WareSummary& ware, const ConeTable& cones);

/// The whole choice: the profile named, the builder's own when "built" is, the one that suits when
/// none is; then schedule_from(). A name that no profile has is a finding with the nearest one.
Built plan_schedule(const std::vector<Profile>& profiles, const Wish& wish, const WareSummary& ware,
                    const ConeTable& cones);

/// Steps that a controller must hold: those of the climb and of controlled cooling, a soak included
/// in the step that it follows.
int controller_steps(const std::vector<Segment>& segments);

/// Fewer steps for a controller that holds only `most`, by joining neighbours. A joined step goes
/// as slowly as the slowest of its parts and takes at least as long as all of them with their
/// holds; among all ways to join, the one that changes the heat-work least and then the time least.
/// @param error_c told how far the heat-work of the result is from the original, as °C of a plain
///   ramp, before the top is set anew.
/// @throws std::invalid_argument if most < 1 or there are more than 24 steps.
std::vector<Segment> joined(const std::vector<Segment>& segments, Temperature start, int most,
                            const ConeTable& cones, ConeKind kind, double* error_c = nullptr);

}  // namespace placer::firing
