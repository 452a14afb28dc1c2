#include "forecast_findings.h"

#include <fmt/core.h>

#include <cmath>
#include <optional>

#include "placer/firing/safety.h"
#include "placer/firing/words.h"

namespace placer::firing {
namespace {

Finding look(const Forecast& answer, std::string code, std::string message) {
  Finding finding;
  finding.severity = Severity::look;
  finding.code = std::move(code);
  finding.message = std::move(message);
  finding.where = answer.schedule.wish.where;
  return finding;
}

Temperature hottest(const Forecast& answer) {
  Temperature top{0};
  for (const Moment& moment : answer.curve) {
    top = std::max(top, moment.kiln);
  }
  return top;
}

const char* source_word(HeatSource source) {
  return source == HeatSource::electric ? "power" : "burner heat";
}

/// The rate that is set where the kiln falls behind.
std::string rate_lost(const Forecast& answer) {
  for (const TimedSegment& step : answer.steps) {
    if (!step.segment.natural && step.ends >= *answer.falls_behind) {
      return both_scales(step.segment.rate);
    }
  }
  return "its rate";
}

void about_power(Forecast& answer, const FullBuild& build) {
  if (!answer.falls_behind) {
    return;
  }
  const std::string guess = build.power_known ? "" : ", taken as usual for its size,";
  const std::string begins = fmt::format(
      "the kiln's {}{} ({:.1f} kW) is too little for this schedule: from about {} after "
      "the start it cannot keep {}",
      source_word(build.build.source), guess, build.power_w * 1e-3, in_words(*answer.falls_behind),
      rate_lost(answer));
  if (answer.gives_up) {
    answer.findings.push_back(look(
        answer, "power",
        fmt::format("{}, and stands still at about {}; cone then reached: {}. Fire slower, load "
                    "less, insulate, or choose a lower cone",
                    begins, both_scales(hottest(answer)),
                    answer.cone.empty() ? std::string{"none"} : answer.cone)));
    return;
  }
  answer.findings.push_back(
      look(answer, "power",
           fmt::format("{}, and comes up to {} behind. The times here already allow for it: {} "
                       "more up to the top (± {:.0f} %); cone then reached: {}. A schedule with "
                       "a slower last climb would fit this kiln, and so would a lighter load",
                       begins, both_scales(answer.worst_lag), in_words(answer.late),
                       100 * answer.energy_band,
                       answer.cone.empty() ? std::string{"none"} : answer.cone)));
}

void about_reduction(Forecast& answer, const Simulated& run, const FullBuild& build) {
  const bool reduces = run.tightest_reduction > 0;
  if (reduces && build.build.source == HeatSource::electric) {
    answer.findings.push_back(
        look(answer, "reduction",
             "this kiln is electric: reduction eats the skin that protects the elements, and the "
             "room is not built for the gas; ask the kiln's maker before trying"));
  }
  if (!reduces || build.build.source == HeatSource::electric) {
    return;
  }
  if (build.build.power && build.build.power->kw <= 0) {
    answer.findings.push_back(look(answer, "fuel",
                                   "reduction needs a burner that burns, and its heat is given as "
                                   "0 kW; the usual one for the kiln's size is taken"));
  }
  if (run.stalls) {
    answer.findings.push_back(
        look(answer, "stall",
             fmt::format(
                 "in reduction the climb cannot be kept from {} after the start: less gas stays "
                 "as heat when it is not fully burnt. If it stalls: damper out or gas down until "
                 "it climbs, then reduce more lightly",
                 in_words(*run.stalls))));
  } else if (run.tightest_reduction > 0.85) {
    answer.findings.push_back(look(
        answer, "stall",
        fmt::format("the climb in reduction takes {:.0f} % of what the burner gives: little is "
                    "left, and a damper too far in will stall it. Then give air until it "
                    "climbs again",
                    100 * run.tightest_reduction)));
  }
}

/// Hottest use of shelves by what they are made of.
/// @source cordierite 1300 °C: a maker's page (refractoryexport.com). Others stand more than any
/// cone
///   that a potter fires.
std::optional<Temperature> shelf_limit(const std::string& material) {
  if (material.find("cordierite") != std::string::npos) {
    return Temperature{1300};
  }
  return std::nullopt;
}

void about_limits(Forecast& answer, const FullBuild& build, const std::string& shelves) {
  const Temperature top = answer.schedule.top;
  const auto most = shelf_limit(shelves);
  if (most && top > *most) {
    answer.findings.push_back(
        look(answer, "limit",
             fmt::format("the top is {}, and shelves of cordierite are made for {} at most: they "
                         "bend and break",
                         both_scales(top), both_scales(*most))));
  }
  if (build.build.top_limit && top > *build.build.top_limit) {
    answer.findings.push_back(
        look(answer, "limit",
             fmt::format("the top of {} is over the kiln's limit of {}", both_scales(top),
                         both_scales(*build.build.top_limit))));
  }
  const WallMaterial& face = *build.wall.front().material;
  if (build.wall_known && top > face.limit) {
    answer.findings.push_back(
        look(answer, "limit",
             fmt::format("the wall's hot face, {}, is classed for {} and the top is {}", face.name,
                         both_scales(face.limit), both_scales(top))));
  }
}

/// Fastest fall in °C/h between two temperatures after the heat is off, over a quarter of an hour.
double fastest_fall(const Forecast& answer, double from, double to) {
  double fastest = 0;
  for (std::size_t i = 3; i < answer.curve.size(); ++i) {
    const Moment& a = answer.curve[i - 3];
    const Moment& b = answer.curve[i];
    if (a.at >= answer.off && a.kiln.celsius <= from && b.kiln.celsius >= to) {
      fastest = std::max(fastest, (a.kiln - b.kiln).kelvin / (b.at - a.at).count());
    }
  }
  return fastest;
}

void about_cooling(Forecast& answer, bool known, bool electric) {
  const WareSummary& ware = answer.schedule.ware;
  if (!known || !(ware.flat_ware || ware.free_quartz)) {
    return;
  }
  const double quartz = fastest_fall(answer, 620, 540);
  if (quartz > 100) {
    answer.findings.push_back(look(
        answer, "cooling",
        fmt::format(
            "the kiln falls through 573 °C (1063 °F) at up to {} in its fastest quarter "
            "of an hour; flat ware and bodies "
            "high in quartz want 60 to 100 °C/h (108 to 180 °F/h) at most: keep everything "
            "shut{}",
            both_scales(Ramp{quartz}),
            electric ? ". A schedule made for this ware heats the kiln a little on the way down: "
                       "for the next time, write profile: built in the studio file"
                     : "")));
  }
  const double cristobalite = fastest_fall(answer, 270, 190);
  if (cristobalite > 60) {
    answer.findings.push_back(look(
        answer, "cooling",
        fmt::format("the kiln falls through 226 °C (439 °F) at up to {} in its fastest quarter of "
                    "an hour; cristobalite and flat "
                    "ware want {} at most",
                    both_scales(Ramp{cristobalite}), both_scales(Ramp{50}))));
  }
}

}  // namespace

void add_findings(Forecast& answer, const Simulated& run, const FullBuild& build, bool known,
                  const std::string& shelves) {
  if (known) {
    about_power(answer, build);
    about_reduction(answer, run, build);
    about_limits(answer, build, shelves);
    about_cooling(answer, known, build.build.source == HeatSource::electric);
  }
}

}  // namespace placer::firing
