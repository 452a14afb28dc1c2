#include "placer/firing/forecast.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "events.h"
#include "forecast_findings.h"
#include "heat_source.h"
#include "placer/firing/heat_work.h"
#include "placer/firing/words.h"
#include "simulation.h"
#include "stages.h"

namespace placer::firing {
namespace {

constexpr double kJoulePerKwh = 3.6e6;
constexpr double kUnknownWallBand = 0.3;  ///< conductivity of bricks alone moves energy by 35 %
constexpr double kKnownWallBand = 0.2;
constexpr double kWoodBand = 0.5;

/// First moment after the heat is off at which the ware is no hotter.
Hours when_under(const Forecast& answer, Temperature limit) {
  for (const Moment& moment : answer.curve) {
    if (moment.at >= answer.off && std::max(moment.kiln, moment.load) <= limit) {
      return moment.at;
    }
  }
  return answer.curve.back().at;
}

void say_when_to_open(Forecast& answer) {
  const WareSummary& ware = answer.schedule.ware;
  answer.under_100 = when_under(answer, {100});
  answer.unload = when_under(answer, {60});
  const bool waits = waits_until_cold(ware);
  answer.open_below = {waits ? 60.0 : 100.0};
  answer.open_why = ware.flat_ware ? "flat or wide ware is in it and cracks in a draught"
                    : waits        ? "walls over 15 mm are in it, and they stay hot inside"
                                   : "nothing flat, wide or thick is in it";
  answer.earliest_opening = waits ? answer.unload : answer.under_100;
  answer.duration = answer.earliest_opening;
}

/// A climb that the kiln cannot keep gets its real rate beside the one that is set.
void tell_real_rates(Forecast& answer) {
  constexpr Hours kSlow{0.05};  // less is within a minute or two of reading a clock
  for (TimedSegment& step : answer.steps) {
    const Hours climbs = step.ends - step.starts - step.segment.hold;
    const Hours planned = duration(step.from, step.segment) - step.segment.hold;
    const double rise = (step.segment.target - step.from).kelvin;
    if (step.segment.natural || rise < 1 || climbs - planned < kSlow) {
      continue;
    }
    step.segment.notes.insert(
        step.segment.notes.begin(),
        fmt::format("Set {}; the kiln then manages about {}.", both_scales(step.segment.rate),
                    both_scales(Ramp{rise / climbs.count()})));
  }
}

void judge_cone(Forecast& answer, const ConeTable& cones) {
  History history;
  for (const Moment& moment : answer.curve) {
    history.push_back({moment.at, moment.kiln});
  }
  const Verdict verdict = HeatWork{cones, answer.schedule.wish.target.cone_kind}.judge(history);
  answer.cone = verdict.down;
  answer.cone_band = verdict.down.empty() && verdict.bending.empty()
                         ? in_words(verdict)
                         : "expect " + in_words(verdict);
}

void name_pack(Forecast& answer, const ConeTable& cones) {
  const Target& target = answer.schedule.wish.target;
  const auto* named = std::get_if<std::string>(&target.end);
  const std::string& middle = named != nullptr ? *named : answer.cone;
  std::vector<std::string> kind;
  for (const Cone& cone : cones.cones) {
    // Half cones stand in the table, not in most boxes.
    const bool half = cone.name.ends_with(".5");
    if (cone.kind == target.cone_kind && (!half || cone.name == middle)) {
      kind.push_back(cone.name);
    }
  }
  const auto found = std::ranges::find(kind, middle);
  if (found == kind.end()) {
    return;
  }
  answer.pack.assign(found == kind.begin() ? found : found - 1,
                     kind.end() - found > 2 ? found + 2 : kind.end());
}

void account_for(Forecast& answer, const Simulated& run, const FullBuild& build) {
  const bool electric = build.build.source == HeatSource::electric;
  answer.energy = Energy{run.source_j / kJoulePerKwh};
  answer.energy_band = build.build.learnt ? build.learnt.band
                       : build.wall_known ? kKnownWallBand
                                          : kUnknownWallBand;
  if (build.build.source == HeatSource::wood || build.build.source == HeatSource::other) {
    answer.energy_band = std::max(answer.energy_band, kWoodBand);
  }
  answer.time_band = build.build.learnt ? 0.1 : build.wall_known ? 0.15 : 0.25;
  Forecast::Heat heat;
  heat.ware_and_shelves = run.at_off.load / kJoulePerKwh;
  heat.water = run.at_off.water / kJoulePerKwh;
  heat.wall = run.at_off.wall / kJoulePerKwh;
  heat.shell_and_leaks = (run.at_off.shell + run.at_off.vent + run.at_off.chamber) / kJoulePerKwh;
  heat.flue = (run.source_j - run.at_off.given) / kJoulePerKwh;
  answer.heat = heat;
  if (!electric && build.build.source != HeatSource::wood &&
      build.build.source != HeatSource::other) {
    answer.fuel_kg = run.source_j * 1e-6 / fuel_of(build.build.source).lower_mj_per_kg;
  }
  if (build.build.price_per_kwh) {
    answer.cost = answer.energy->kwh * *build.build.price_per_kwh;
    answer.currency = build.build.currency;
  }
}

}  // namespace

Forecast forecast(const Schedule& given, const ConeTable& cones,
                  const std::optional<KilnBuild>& kiln, const HeatLoad& load) {
  Forecast answer;
  answer.schedule = given;
  if (given.segments.empty()) {
    return answer;
  }
  const bool known = kiln && kiln->chamber_volume_m3 > 0;
  if (kiln) {
    mind_source(answer.schedule, kiln->source);
  }
  const Schedule& schedule = answer.schedule;
  const FullBuild build = filled(known ? *kiln : KilnBuild{});
  const Simulated run = simulate(schedule, build, filled(load, build.volume), !known);
  answer.steps = run.steps;
  answer.curve = run.curve;
  answer.off = run.off;
  answer.hottest_shell = run.hottest_shell;
  answer.worst_lag = run.worst_lag;
  answer.falls_behind = run.falls_behind;
  answer.gives_up = run.stuck;
  answer.late = answer.steps[std::min(schedule.top_segment, answer.steps.size() - 1)].late;
  say_when_to_open(answer);
  tell_real_rates(answer);
  judge_cone(answer, cones);
  name_pack(answer, cones);
  if (known) {
    account_for(answer, run, build);
  }
  Wish& wish = answer.schedule.wish;
  if (wish.ends_at && !wish.starts_at) {
    wish.starts_at = *wish.ends_at - std::llround(answer.off.count() * 3600);
  }
  add_findings(answer, run, build, known, load.shelf_material);
  answer.cautions = schedule.cautions;
  answer.events = events_of(answer, kiln ? std::optional{kiln->source} : std::nullopt);
  return answer;
}

}  // namespace placer::firing
