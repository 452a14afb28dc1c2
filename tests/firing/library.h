/// @file library.h
/// The shipped cone tables and profiles, read once, and small things that firing tests share.
#pragma once

#include <cmath>
#include <string>

#include "placer/firing/builder.h"
#include "placer/firing/heat_work.h"
#include "placer/workbook/studio.h"

namespace placer::firing {

inline const workbook::Library& library() {
  static const workbook::Library shipped =
      workbook::read_library(std::string{PLACER_ROOT} + "/schedules");
  return shipped;
}

inline const Cone& cone(const std::string& name, ConeKind kind = ConeKind::self_supporting) {
  return *find_cone(library().cones, name, kind);
}

inline const Profile& profile(const std::string& name) {
  for (const Profile& p : library().profiles) {
    if (p.name == name) {
      return p;
    }
  }
  throw std::invalid_argument{"no such profile: " + name};
}

inline double bends(const std::string& name, double rate,
                    ConeKind kind = ConeKind::self_supporting) {
  return bend_temperature(cone(name, kind), {rate}).at.celsius;
}

/// Cold to `top` at one rate, then `hold` there.
inline History ramp(double top, double rate, double hold_h = 0) {
  History h{{Hours{0}, {20}}, {Hours{(top - 20) / rate}, {top}}};
  if (hold_h > 0) {
    h.push_back({h.back().at + Hours{hold_h}, {top}});
  }
  return h;
}

inline Built schedule_for(const std::string& profile_name, const std::string& cone_name,
                          WareSummary ware = {}) {
  Wish wish;
  wish.profile = profile_name;
  wish.target.end = cone_name;
  if (profile_name != "built") {
    wish.kind = profile(profile_name).kind;
    wish.atmosphere = profile(profile_name).atmosphere;
  }
  return plan_schedule(library().profiles, wish, ware, library().cones);
}

}  // namespace placer::firing
