#include "placer/firing/schedule.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "laying_out.h"
#include "placer/firing/builder.h"
#include "placer/firing/heat_work.h"
#include "placer/firing/safety.h"
#include "placer/firing/words.h"
#include "stages.h"

namespace placer::firing {
namespace {

constexpr double kHottest = 1450;   ///< °C: no potter's kiln goes further
constexpr double kLongestHold = 4;  ///< h at a limited top; beyond it nobody trusts the model

Finding mistake(const Wish& wish, std::string code, std::string message) {
  Finding finding;
  finding.severity = Severity::mistake;
  finding.code = std::move(code);
  finding.message = std::move(message);
  finding.where = wish.where;
  return finding;
}

Finding look(const Wish& wish, std::string code, std::string message) {
  Finding finding = mistake(wish, std::move(code), std::move(message));
  finding.severity = Severity::look;
  return finding;
}

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
    built.findings.push_back(mistake(wish, std::move(code), std::move(message)));
  }
  void mention(std::string code, std::string message) {
    built.findings.push_back(look(wish, std::move(code), std::move(message)));
  }
  void remark(std::string text) { built.schedule.remarks.push_back(std::move(text)); }
};

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

void check_top(Making& making, Temperature top) {
  if (top.celsius > kHottest) {
    const double as_celsius = (top.celsius - 32) / 1.8;
    making.refuse("temperature",
                  as_celsius > 500 && as_celsius <= kHottest
                      ? fmt::format("{:.0f} °C is hotter than any potter's kiln; {:.0f} °F would "
                                    "be {:.0f} °C: was °F meant?",
                                    top.celsius, top.celsius, as_celsius)
                      : fmt::format("{:.0f} °C is hotter than any potter's kiln", top.celsius));
  } else if (top.celsius < 500) {
    making.refuse("temperature",
                  fmt::format("a top of {} fires nothing: clay begins to harden at about 600 °C "
                              "(1112 °F)",
                              both_scales(top)));
  }
}

/// Heat-work of the target cone for the laid-out firing, anchored at its own final rate. The fall
/// with the heat off, and the clear flame before it, are left out (cones are read before them):
/// charts are used without it, and a plain climb with the kiln then left to itself must give the
/// chart's temperature. (It adds as much as about 3 to 7 °C, inside the band; a verdict on a whole
/// history counts it.)
double heat_work(const Kinetics& cone, Temperature start, std::vector<Segment> segments) {
  while (!segments.empty() && segments.back().natural) {
    segments.pop_back();
  }
  std::erase_if(segments, [](const Segment& segment) { return is_clean_up(segment.stage); });
  Reached at{Hours{0}, start};
  double sum = 0;
  std::vector<Segment> one(1);
  for (Segment& segment : segments) {
    one.front() = std::move(segment);
    if (!one.front().natural) {
      const History history = history_of(at.kiln, one);
      for (std::size_t i = 1; i < history.size(); ++i) {
        sum +=
            cone.of_line(history[i - 1].kiln, history[i].kiln, history[i].at - history[i - 1].at);
      }
    }
    at.kiln = one.front().target;
  }
  return sum;
}

Ramp anchor_rate(Ramp rate) { return {std::clamp(rate.kelvin_per_hour, 4.0, 600.0)}; }

/// The top at which the schedule brings the cone just down: the table's temperature for a plain
/// ramp, less when holds or slow cooling add heat-work.
Temperature top_for_cone(const Making& making, const HeatWork& model, const std::string& name) {
  const Cone& cone = *find_cone(making.cones, name, model.kind());
  const Temperature start = making.built.schedule.start;
  Temperature low = bend_temperature(cone, {60}).at + Warming{-120};
  Temperature high = bend_temperature(cone, {60}).at + Warming{120};
  for (int i = 0; i < 40; ++i) {
    const Temperature middle{(low.celsius + high.celsius) / 2};
    const LaidOut laid = making.at_top(middle);
    const Ramp rate = anchor_rate(final_rate(start, laid.segments, laid.top_segment));
    const double done = heat_work(model.anchored(name, rate), start, laid.segments);
    (done < 1 ? low : high) = middle;
  }
  return high;
}

/// The hold that makes up for a top that may not be as high as the cone asks.
void hold_at_limit(Making& making, const HeatWork& model, const std::string& name,
                   Temperature needed) {
  const Temperature limit = *making.wish.top_limit;
  LaidOut laid = making.at_top(limit);
  const Temperature start = making.built.schedule.start;
  const Ramp rate = anchor_rate(final_rate(start, laid.segments, laid.top_segment));
  const Kinetics cone = model.anchored(name, rate);
  const double missing = 1 - heat_work(cone, start, laid.segments);
  const Hours more{missing / cone.per_hour(limit)};
  if (more.count() > kLongestHold) {
    making.refuse("limit", fmt::format("cone {} needs {} at {}, and the limit is {}: not even {} "
                                       "there would bring it down",
                                       name, both_scales(needed), both_scales(rate),
                                       both_scales(limit), in_words(Hours{kLongestHold})));
    return;
  }
  Segment& top = laid.segments[laid.top_segment];
  top.hold += Hours{std::ceil(std::max(0.0, more.count()) * 60) / 60};
  making.remark(fmt::format(
      "Cone {} needs {} at {}; the limit is {}, so the top is held for {}. A soak is good to a "
      "factor of 2 to 3: read the cones from half that time on.",
      name, both_scales(needed), both_scales(rate), both_scales(limit), in_words(top.hold)));
  making.built.schedule.segments = std::move(laid.segments);
  making.built.schedule.top_segment = laid.top_segment;
  making.built.schedule.top = limit;
}

void aim_at_cone(Making& making, const std::string& name) {
  const ConeKind kind = making.wish.target.cone_kind;
  const Cone* cone = find_cone(making.cones, name, kind);
  if (cone == nullptr) {
    making.refuse("cone", fmt::format("the table has no {} cone '{}'", to_string(kind), name));
    return;
  }
  const HeatWork model{making.cones, kind};
  const Temperature needed = top_for_cone(making, model, name);
  if (making.wish.top_limit && needed.celsius > making.wish.top_limit->celsius + 0.5) {
    hold_at_limit(making, model, name, needed);
    return;
  }
  const Temperature top{std::round(needed.celsius)};
  LaidOut laid = making.at_top(top);
  Schedule& schedule = making.built.schedule;
  schedule.segments = std::move(laid.segments);
  schedule.top_segment = laid.top_segment;
  schedule.top = top;
  const Ramp rate = final_rate(schedule.start, schedule.segments, schedule.top_segment);
  const ConeReading reading = bend_temperature(*cone, anchor_rate(rate));
  making.remark(fmt::format(
      "Cone {} ({}) comes down at {} when the last 100 °C climb at {}, "
      "± {}{}{}.",
      name, to_string(kind), both_scales(reading.at), both_scales(rate), both_scales(reading.band),
      reading.from_memory ? "; the figure is from memory" : "",
      reading.extrapolated ? "; the rate lies outside the published ones" : ""));
  const double off = reading.at.celsius - top.celsius;
  if (off >= 2) {
    making.remark(
        fmt::format("The top is {} lower than a plain climb needs, because the time at "
                    "the top goes on working. A soak is good to a factor of 2 to 3: "
                    "trust your witness cones.",
                    both_scales(Warming{off})));
  }
}

/// "1222 is cone 6" is true at 60 °C/h today, and was printed for 150 °C/h once.
void explain_old_chart(Making& making, Temperature top, const std::string& today) {
  for (const ConeTable::Superseded& old : making.cones.superseded) {
    if (std::abs((old.printed_for_150 - top).kelvin) < 0.6 && old.name != today) {
      making.remark(
          fmt::format("{} is cone {} in a superseded chart, printed there for 150 °C/h "
                      "(270 °F/h) and still quoted; today's chart goes by the rate.",
                      both_scales(top), old.name));
    }
  }
}

/// Which cone a target temperature is, at the schedule's own final rate.
void name_cone(Making& making, Temperature top) {
  const Schedule& schedule = making.built.schedule;
  const Ramp rate =
      anchor_rate(final_rate(schedule.start, schedule.segments, schedule.top_segment));
  const ConeKind kind = making.wish.target.cone_kind;
  const std::vector<const Cone*> near = cones_near(making.cones, kind, top, rate);
  if (near.empty()) {
    making.remark(fmt::format("{} at {} lies between the cones of the table.", both_scales(top),
                              both_scales(rate)));
  } else {
    const ConeReading reading = bend_temperature(*near.front(), rate);
    making.remark(fmt::format("{} at {} is cone {} ({}), which comes down at {}, ± {}.",
                              both_scales(top), both_scales(rate), near.front()->name,
                              to_string(kind), both_scales(reading.at), both_scales(reading.band)));
  }
  explain_old_chart(making, top, near.empty() ? "" : near.front()->name);
}

void aim_at_temperature(Making& making, Temperature top) {
  check_top(making, top);
  if (making.wish.top_limit && top > *making.wish.top_limit) {
    making.refuse("limit", fmt::format("the top of {} is over the limit of {}", both_scales(top),
                                       both_scales(*making.wish.top_limit)));
  }
  if (making.refused()) {
    return;
  }
  LaidOut laid = making.at_top(top);
  Schedule& schedule = making.built.schedule;
  schedule.segments = std::move(laid.segments);
  schedule.top_segment = laid.top_segment;
  schedule.top = top;
  name_cone(making, top);
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
  making.remark(
      fmt::format("Joined from {} to {} steps for the controller, each as slow as the "
                  "slowest part of it; that changes the heat-work by {:.1f} °C of a "
                  "plain climb.",
                  have, controller_steps(schedule.segments), std::abs(error)));
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
         ". Three to a pack, one below, the one aimed at, one above; a pack at the bottom, in the "
         "middle and at the top, where no flame hits it.";
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
