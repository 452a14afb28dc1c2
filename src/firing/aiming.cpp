/// The top of a schedule: from a cone, or the cone of a top.
#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "making.h"
#include "placer/firing/heat_work.h"
#include "placer/firing/words.h"

namespace placer::firing {
namespace {

constexpr double kHottest = 1450;   ///< °C: no potter's kiln goes further
constexpr double kLongestHold = 4;  ///< h at a limited top; beyond it nobody trusts the model

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

/// "1222 is cone 6" is true at 60 °C/h today, and was printed for 150 °C/h once.
void explain_old_chart(Making& making, Temperature top, Ramp rate, const std::string& today) {
  for (const ConeTable::Superseded& old : making.cones.superseded) {
    if (std::abs((old.printed_for_150 - top).kelvin) >= 0.6) {
      continue;
    }
    making.remark(
        old.name == today
            ? fmt::format(
                  "{} is cone {} at {} today, and was printed for 150 °C/h (270 °F/h) once, "
                  "in a superseded chart that is still quoted.",
                  both_scales(top), old.name, both_scales(rate))
            : fmt::format("{} is cone {} in a superseded chart, printed there for 150 °C/h "
                          "(270 °F/h) and still quoted; today's chart goes by the rate.",
                          both_scales(top), old.name));
  }
}

bool held_at_top(const Schedule& schedule) {
  return std::any_of(schedule.segments.begin(), schedule.segments.end(),
                     [&](const Segment& segment) {
                       return segment.target >= schedule.top && segment.hold.count() > 0;
                     });
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
  if (held_at_top(schedule)) {
    making.remark(
        "That is without the time at the top, which brings down more: the cone to expect is told "
        "by heat-work.");
  }
  explain_old_chart(making, top, rate, near.empty() ? "" : near.front()->name);
}

}  // namespace

Ramp anchor_rate(Ramp rate) { return {std::clamp(rate.kelvin_per_hour, 4.0, 600.0)}; }

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
      "Cone {} ({}) comes down at {} when the last 100 °C (180 °F) climb at {}, "
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

}  // namespace placer::firing
