/// @file cone.h
/// Pyrometric cones: published temperatures and the rates they hold for.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "placer/base/units.h"

namespace placer::firing {

enum class ConeKind { self_supporting, self_supporting_iron_free, large, large_iron_free, small };
std::string to_string(ConeKind kind);  ///< "self-supporting", ...

/// One published cell: at this heating rate over the last 100 °C the cone's tip comes down here.
struct ConePoint {
  Ramp rate;
  Temperature bends_at;
  bool from_memory = false;  ///< not seen in a copy of the published table
};

/// One cone of one kind; points by rising rate, at least one. The name is text: "06" is not "6".
struct Cone {
  std::string name;
  ConeKind kind = ConeKind::self_supporting;
  std::vector<ConePoint> points;
};

/// As read from schedules/cones.yaml; cones of each kind from the coolest to the hottest.
struct ConeTable {
  std::vector<Cone> cones;
  std::string source;
  struct Seger {
    std::string name;
    std::optional<Temperature> nominal_jis, berlin_normal, berlin_lab_150;
  };
  std::vector<Seger> seger;
  struct Superseded {
    std::string name;
    Temperature printed_for_150;
  };
  std::vector<Superseded> superseded;
};

/// A temperature read off the table for a cone and a rate.
struct ConeReading {
  Temperature at;
  Warming band{7};            ///< ± of a plain ramp
  bool from_memory = false;   ///< some cell that it rests on is from memory
  bool extrapolated = false;  ///< the rate lies outside the published rates
};

const Cone* find_cone(const ConeTable& table, const std::string& name, ConeKind kind);

/// Straight line in ln(rate) between the two nearest published rates; outside them the line of the
/// nearest two goes on and the reading says `extrapolated`.
/// @throws std::invalid_argument if the rate is not positive and finite.
ConeReading bend_temperature(const Cone& cone, Ramp rate);

/// From the tip at four o'clock to touching is only a degree or two (the cone maker's chart, quoted
/// in community.ceramicartsdaily.org, user 13967): that near its end a cone counts as down.
inline constexpr Warming kNearlyDown{2};

/// The hottest cone of the kind that a plain ramp to `top` at `rate` brings down (to kNearlyDown),
/// or nullptr.
const Cone* cone_reached(const ConeTable& table, ConeKind kind, Temperature top, Ramp rate);
/// Every cone of the kind whose band holds `top` at `rate`; the nearest first.
std::vector<const Cone*> cones_near(const ConeTable& table, ConeKind kind, Temperature top,
                                    Ramp rate);

}  // namespace placer::firing
