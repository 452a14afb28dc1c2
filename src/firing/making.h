/// @file making.h
/// A schedule while it is made, and the top that it aims at. Internal to firing.
#pragma once

#include <algorithm>
#include <string>

#include "laying_out.h"
#include "placer/firing/schedule.h"

namespace placer::firing {

/// What the schedule is being made from, and what has been found on the way.
struct Making {
  const Profile& profile;
  const Wish& wish;
  const WareSummary& ware;
  const ConeTable& cones;
  Built built;

  LaidOut at_top(Temperature top) const {
    return lay_out(profile, built.schedule.start, top, wish.soak, wish.reduction_from);
  }
  bool refused() const { return has_mistakes(built.findings); }
  void refuse(std::string code, std::string message) {
    add(Severity::mistake, std::move(code), std::move(message));
  }
  void mention(std::string code, std::string message) {
    add(Severity::look, std::move(code), std::move(message));
  }
  void remark(std::string text) { built.schedule.remarks.push_back(std::move(text)); }

 private:
  void add(Severity severity, std::string code, std::string message) {
    Finding finding;
    finding.severity = severity;
    finding.code = std::move(code);
    finding.message = std::move(message);
    finding.where = wish.where;
    built.findings.push_back(std::move(finding));
  }
};

/// Lays the schedule out so that the cone comes down at its top: at the table's temperature for its
/// own final rate, lower when a soak works on, or with a hold where the top may not be as high.
void aim_at_cone(Making& making, const std::string& name);
/// Lays it out to a top temperature, and says which cone that is.
void aim_at_temperature(Making& making, Temperature top);

/// Within the rates that the heat-work model may be anchored at.
Ramp anchor_rate(Ramp rate);

}  // namespace placer::firing
