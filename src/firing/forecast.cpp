#include "placer/firing/forecast.h"

#include <fmt/core.h>

#include <cmath>

#include "placer/firing/heat_work.h"
#include "placer/firing/words.h"

namespace placer::firing {
namespace {

constexpr double kEveryHours = 1.0 / 12;  ///< a moment of the curve

void add_line(Forecast& answer, Temperature from, Temperature to, Hours begins, Hours takes) {
  const int parts = std::max(1, static_cast<int>(std::ceil(takes.count() / kEveryHours)));
  for (int i = 1; i <= parts; ++i) {
    const double share = static_cast<double>(i) / parts;
    const Temperature at = from + Warming{share * (to - from).kelvin};
    answer.curve.push_back({begins + share * takes, at, at});
  }
}

Hours when_below(const Forecast& answer, Temperature limit) {
  for (std::size_t i = answer.curve.size(); i-- > 1;) {
    if (answer.curve[i - 1].kiln > limit && answer.curve[i].kiln <= limit) {
      return answer.curve[i].at;
    }
  }
  return answer.curve.empty() ? Hours{0} : answer.curve.back().at;
}

}  // namespace

Forecast forecast(const Schedule& schedule, const ConeTable& cones,
                  const std::optional<KilnBuild>& /*kiln*/, const HeatLoad& /*load*/) {
  Forecast answer;
  answer.schedule = schedule;
  Temperature at = schedule.start;
  Hours now{0};
  answer.curve.push_back({now, at, at});
  for (const Segment& segment : schedule.segments) {
    TimedSegment step{segment, at, now, now};
    Segment ramp = segment;
    ramp.hold = Hours{0};
    const Hours climbs = duration(at, ramp);
    add_line(answer, at, segment.target, now, climbs);
    add_line(answer, segment.target, segment.target, now + climbs, segment.hold);
    now += climbs + segment.hold;
    step.ends = now;
    at = segment.target;
    if (!segment.natural) {
      answer.off = now;
    }
    answer.steps.push_back(std::move(step));
  }
  answer.earliest_opening = when_below(answer, {100});
  answer.unload = when_below(answer, {60});
  answer.duration = answer.earliest_opening;
  if (answer.curve.size() > 1) {
    History history;
    for (const Moment& moment : answer.curve) {
      history.push_back({moment.at, moment.kiln});
    }
    const Verdict verdict = HeatWork{cones, schedule.wish.target.cone_kind}.judge(history);
    answer.cone = verdict.down;
    answer.cone_band = in_words(verdict);
  }
  return answer;
}

}  // namespace placer::firing
