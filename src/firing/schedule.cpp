#include "placer/firing/schedule.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "laying_out.h"
#include "making.h"
#include "placer/firing/builder.h"
#include "placer/firing/heat_work.h"
#include "placer/firing/safety.h"
#include "placer/firing/words.h"
#include "stages.h"

namespace placer::firing {
namespace {

void check_reduction(Making& making) {
  const Wish& wish = making.wish;
  if (wish.reduction_from && *wish.reduction_from < kSelfIgnition) {
    making.refuse("reduction",
                  fmt::format("reduction from {} is refused: below {} gas and carbon monoxide may "
                              "not light themselves and can explode",
                              both_scales(*wish.reduction_from), both_scales(kSelfIgnition)));
  }
  if (wish.reduction_from && wish.atmosphere == Atmosphere::oxidation) {
    making.mention("reduction",
                   fmt::format("reduction from {} is asked for, and the firing is in oxidation: "
                               "nothing will reduce; 'atmosphere: reduction' makes it one",
                               both_scales(*wish.reduction_from)));
  }
  if (wish.atmosphere == Atmosphere::reduction &&
      making.profile.atmosphere == Atmosphere::oxidation) {
    making.mention("profile",
                   fmt::format("the profile '{}' is for oxidation, but reduction is asked for: "
                               "nothing in its steps reduces",
                               making.profile.name));
  }
  if (wish.atmosphere == Atmosphere::oxidation &&
      making.profile.atmosphere == Atmosphere::reduction) {
    making.mention("profile", fmt::format("the profile '{}' is for reduction, but oxidation is "
                                          "asked for",
                                          making.profile.name));
  }
}

/// Profile rates against what the ware can bear; the potter's own profile is warned, not changed.
void compare_with_limits(Making& making) {
  const Schedule& schedule = making.built.schedule;
  Temperature from = schedule.start;
  std::vector<std::string> told;
  for (std::size_t i = 0; i <= schedule.top_segment && i < schedule.segments.size(); ++i) {
    const Segment& s = schedule.segments[i];
    const Limit limit = climb_limit(making.ware, making.wish.kind, from, s.target);
    const double allowed = limit.rate.kelvin_per_hour;
    if (s.target > from && s.rate.kelvin_per_hour > 1.5 * allowed && allowed > 0) {
      told.push_back(fmt::format("{} at {} where the ware asks for {}", s.stage,
                                 both_scales(s.rate), limit.reason));
    }
    const bool steam =
        making.ware.damp && from.celsius < 120 && s.target > from && s.rate.kelvin_per_hour > 100;
    if (steam) {
      making.mention("damp", fmt::format("damp ware may burst at {} below 120 °C (248 °F): it "
                                         "should climb by 30 °C/h (54 °F/h) at most and candle "
                                         "first",
                                         both_scales(s.rate)));
    }
    from = s.target;
  }
  if (!told.empty()) {
    std::string all = told.front();
    for (std::size_t i = 1; i < told.size(); ++i) {
      all += "; " + told[i];
    }
    making.mention("fast", fmt::format("the profile '{}' is fast for this ware: {}; "
                                       "'profile: built' makes one to measure",
                                       making.profile.name, all));
  }
}

/// A reduction that would begin over the top is none.
void check_that_it_reduces(Making& making) {
  const Schedule& schedule = making.built.schedule;
  const bool reduces = std::any_of(schedule.segments.begin(), schedule.segments.end(),
                                   [](const Segment& s) { return s.carbon_monoxide > 0; });
  if (making.wish.atmosphere == Atmosphere::reduction && making.wish.reduction_from && !reduces) {
    making.refuse("reduction",
                  fmt::format("reduction from {} is too late: the top is {}, and nothing would "
                              "reduce. Body reduction begins at about 900 °C (1652 °F)",
                              both_scales(*making.wish.reduction_from), both_scales(schedule.top)));
  }
}

void fit_controller(Making& making) {
  Schedule& schedule = making.built.schedule;
  if (!making.wish.most_segments) {
    return;
  }
  const int most = *making.wish.most_segments;
  const int have = controller_steps(schedule.segments);
  if (most < 1) {
    making.refuse("segments", "the controller must hold at least 1 step");
    return;
  }
  if (have <= most) {
    const auto controlled = std::count_if(schedule.segments.begin(), schedule.segments.end(),
                                          [](const Segment& segment) { return !segment.natural; });
    making.remark(
        fmt::format("The controller holds it in {} steps{}.", have,
                    controlled > have ? ", a soak being the hold of the step before it" : ""));
    return;
  }
  double error = 0;
  schedule.segments = joined(schedule.segments, schedule.start, most, making.cones,
                             making.wish.target.cone_kind, &error);
  schedule.top_segment = 0;
  for (std::size_t i = 0; i < schedule.segments.size(); ++i) {
    if (schedule.segments[i].target == schedule.top) {
      schedule.top_segment = i;
    }
  }
  making.remark(fmt::format(
      "Joined from {} to {} steps for the controller, each as slow as the "
      "slowest part of it; that changes the heat-work by {:.1f} °C "
      "({:.1f} °F) of a plain climb.",
      have, controller_steps(schedule.segments), std::abs(error), 1.8 * std::abs(error)));
}

/// Cones 010 to 3 hold iron in their usual make, and reduction misleads those (the cone maker's
/// chart: iron-free ones there); hotter ones stand it.
std::string about_cones_in_reduction(const Making& making) {
  const Temperature top = making.built.schedule.top;
  const bool iron = top.celsius < 1165;  // cone 3 is down by then at any usual rate
  const std::string which =
      iron ? "Reduction misleads ordinary cones from 010 to 3, which hold iron: use iron-free ones "
             "of the same numbers"
           : "Ordinary cones serve at this top; only if a cone of 010 to 3 is set to time the body "
             "reduction, take an iron-free one";
  return which +
         ". A pack stands where a spy hole shows it and no flame hits it; more at the bottom and "
         "at "
         "the top tell afterwards how even the kiln was.";
}

void finish(Making& making, const std::vector<std::string>& left_out) {
  Schedule& schedule = making.built.schedule;
  schedule.final_rate = final_rate(schedule.start, schedule.segments, schedule.top_segment);
  for (const std::string& stage : left_out) {
    making.remark(
        fmt::format("'{}' is left out: it lies above this top or below the step before.", stage));
  }
  if (making.wish.atmosphere == Atmosphere::reduction) {
    making.remark(about_cones_in_reduction(making));
  }
  explain(schedule, making.ware);
}

}  // namespace

Hours duration(Temperature from, const Segment& segment) {
  const double rate = segment.rate.kelvin_per_hour;
  const double change = std::abs((segment.target - from).kelvin);
  if (std::isinf(rate) && rate > 0) {
    return segment.hold;
  }
  if (!std::isfinite(rate) || rate <= 0) {
    throw std::invalid_argument{"duration: the rate must be a positive number"};
  }
  return Hours{change / rate} + segment.hold;
}

Built schedule_from(const Profile& profile, const Wish& wish, const WareSummary& ware,
                    const ConeTable& cones) {
  Making making{profile, wish, ware, cones, {}};
  making.built.schedule.profile = profile.name;
  making.built.schedule.wish = wish;
  making.built.schedule.ware = ware;
  for (Finding finding : check_profile(profile)) {
    finding.where = wish.where;
    making.built.findings.push_back(std::move(finding));
  }
  check_reduction(making);
  if (!making.refused()) {
    if (const auto* cone = std::get_if<std::string>(&wish.target.end)) {
      aim_at_cone(making, *cone);
    } else {
      aim_at_temperature(making, std::get<Temperature>(wish.target.end));
    }
  }
  if (!making.refused()) {
    const std::vector<std::string> left_out = making.at_top(making.built.schedule.top).left_out;
    check_that_it_reduces(making);
    compare_with_limits(making);
    fit_controller(making);
    finish(making, left_out);
  }
  if (making.refused()) {
    making.built.schedule.segments.clear();
  }
  return making.built;
}

}  // namespace placer::firing
