#include "placer/firing/cone.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace placer::firing {
namespace {

/// How much a band widens for each e-fold of rate outside the published rates. Predicting the
/// 150 °C/h column from the two slower ones misses by 4.7 °C rms and 9.6 at most over 0.92 e-folds,
/// the 15 column from the faster ones by 13.9 at most over 1.39 (computed from the table itself).
constexpr double kBandPerEFold = 10;
/// The same where only one rate is published and the slope is unknown: the self-supporting cones'
/// own slope between 60 and 150 °C/h is 4 to 34 °C for one e-fold.
constexpr double kBandPerEFoldOneRate = 34;

ConeReading from_one_rate(const ConePoint& point, double ln_rate) {
  const double away = std::abs(ln_rate - std::log(point.rate.kelvin_per_hour));
  ConeReading reading;
  reading.at = point.bends_at;
  reading.from_memory = point.from_memory;
  reading.extrapolated = away > 1e-9;
  reading.band.kelvin += kBandPerEFoldOneRate * away;
  return reading;
}

}  // namespace

std::string to_string(ConeKind kind) {
  switch (kind) {
    case ConeKind::self_supporting:
      return "self-supporting";
    case ConeKind::self_supporting_iron_free:
      return "self-supporting iron-free";
    case ConeKind::large:
      return "large";
    case ConeKind::large_iron_free:
      return "large iron-free";
    case ConeKind::small:
      return "small";
  }
  throw std::invalid_argument{"to_string: no such cone kind"};
}

const Cone* find_cone(const ConeTable& table, const std::string& name, ConeKind kind) {
  for (const Cone& cone : table.cones) {
    if (cone.kind == kind && cone.name == name) {
      return &cone;
    }
  }
  return nullptr;
}

ConeReading bend_temperature(const Cone& cone, Ramp rate) {
  if (!std::isfinite(rate.kelvin_per_hour) || rate.kelvin_per_hour <= 0) {
    throw std::invalid_argument{"bend_temperature: the rate must be a positive number"};
  }
  if (cone.points.empty()) {
    throw std::invalid_argument{"bend_temperature: the cone has no published point"};
  }
  const double x = std::log(rate.kelvin_per_hour);
  if (cone.points.size() == 1) {
    return from_one_rate(cone.points.front(), x);
  }
  std::size_t upper = 1;
  while (upper + 1 < cone.points.size() && rate > cone.points[upper].rate) {
    ++upper;
  }
  const ConePoint& a = cone.points[upper - 1];
  const ConePoint& b = cone.points[upper];
  const double xa = std::log(a.rate.kelvin_per_hour);
  const double xb = std::log(b.rate.kelvin_per_hour);
  const double share = (x - xa) / (xb - xa);
  ConeReading reading;
  reading.at = a.bends_at + Warming{share * (b.bends_at - a.bends_at).kelvin};
  const bool at_a = rate == a.rate;
  const bool at_b = rate == b.rate;
  if (at_a || at_b) {
    reading.at = at_a ? a.bends_at : b.bends_at;
  }
  reading.from_memory = (!at_b && a.from_memory) || (!at_a && b.from_memory);
  reading.extrapolated = rate < a.rate || rate > b.rate;
  if (reading.extrapolated) {
    reading.band.kelvin += kBandPerEFold * (share < 0 ? xa - x : x - xb);
  }
  return reading;
}

const Cone* cone_reached(const ConeTable& table, ConeKind kind, Temperature top, Ramp rate) {
  const Cone* reached = nullptr;
  for (const Cone& cone : table.cones) {
    if (cone.kind == kind && bend_temperature(cone, rate).at <= top + kNearlyDown) {
      reached = &cone;
    }
  }
  return reached;
}

std::vector<const Cone*> cones_near(const ConeTable& table, ConeKind kind, Temperature top,
                                    Ramp rate) {
  struct Near {
    const Cone* cone;
    double away;
  };
  std::vector<Near> near;
  for (const Cone& cone : table.cones) {
    if (cone.kind != kind) {
      continue;
    }
    const ConeReading reading = bend_temperature(cone, rate);
    const double away = std::abs((reading.at - top).kelvin);
    if (away <= reading.band.kelvin) {
      near.push_back({&cone, away});
    }
  }
  std::stable_sort(near.begin(), near.end(),
                   [](const Near& a, const Near& b) { return a.away < b.away; });
  std::vector<const Cone*> cones;
  for (const Near& n : near) {
    cones.push_back(n.cone);
  }
  return cones;
}

}  // namespace placer::firing
