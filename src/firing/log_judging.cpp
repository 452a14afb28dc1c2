#include <fmt/core.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <stdexcept>

#include "log_spells.h"
#include "placer/firing/log.h"
#include "placer/firing/safety.h"
#include "placer/firing/words.h"

namespace placer::firing {
namespace {

constexpr double kFinishedFall = 30;  ///< K under the top: the heat is off

struct TopOfLog {
  std::size_t index = 0;
  Temperature top;
};

/// First row within 2 °C of the hottest, then on while it still rises.
TopOfLog top_of(const FiringLog& log) {
  TopOfLog found;
  double hottest = -1e9;
  for (const LogRow& row : log.rows) {
    hottest = std::max(hottest, row.celsius);
  }
  while (log.rows[found.index].celsius < hottest - 2) {
    ++found.index;
  }
  while (found.index + 1 < log.rows.size() &&
         log.rows[found.index + 1].celsius > log.rows[found.index].celsius) {
    ++found.index;
  }
  found.top = {hottest};
  return found;
}

Verdict verdict_of(const FiringLog& log, const ConeTable& cones, ConeKind kind,
                   std::optional<Ramp>& climbed) {
  const TopOfLog top = top_of(log);
  TimeAtTemperature before;
  TimeAtTemperature after;
  for (std::size_t i = 1; i < log.rows.size(); ++i) {
    const LogRow& a = log.rows[i - 1];
    const LogRow& b = log.rows[i];
    (i <= top.index ? before : after).add({a.celsius}, {b.celsius}, Hours{b.hours - a.hours});
  }
  climbed = usual_rate(before, top.top);
  const Ramp rate = climbed.value_or(Ramp{60});
  return HeatWork{cones, kind}.judge(before, after, top.top, Hours{log.rows[top.index].hours},
                                     rate);
}

/// When the log first reaches a temperature on the way up, or first falls to it after the top.
std::optional<Hours> reached(const FiringLog& log, Temperature at, bool rising, Hours top_at) {
  for (std::size_t i = 1; i < log.rows.size(); ++i) {
    const LogRow& a = log.rows[i - 1];
    const LogRow& b = log.rows[i];
    const bool there = rising ? b.celsius >= at.celsius - 1 : b.celsius <= at.celsius;
    if (there && (rising || Hours{b.hours} > top_at)) {
      const double change = b.celsius - a.celsius;
      const double share =
          std::abs(change) > 1e-9 ? std::clamp((at.celsius - a.celsius) / change, 0.0, 1.0) : 1;
      return Hours{a.hours + share * (b.hours - a.hours)};
    }
  }
  return std::nullopt;
}

void compare_with_plan(Judged& judged, const FiringLog& log, const Forecast& plan) {
  // The plan begins where the log does: at the log's first temperature.
  Hours shift{0};
  for (const Moment& moment : plan.curve) {
    if (moment.planned.celsius >= log.rows.front().celsius) {
      shift = moment.at;
      break;
    }
  }
  Temperature last = plan.schedule.start;
  for (const TimedSegment& step : plan.steps) {
    const bool rising = step.segment.target > last;
    last = step.segment.target;
    if (step.segment.natural || step.segment.target.celsius <= log.rows.front().celsius) {
      continue;
    }
    Segment climb = step.segment;
    climb.hold = Hours{0};
    const Hours takes = std::min(duration(step.from, climb), step.ends - step.starts);
    judged.against.push_back({step.segment.stage, step.segment.target, step.starts + takes - shift,
                              reached(log, step.segment.target, rising, judged.verdict.top_at)});
  }
  for (const Against& a : judged.against) {
    if (a.real && std::abs((a.at - plan.schedule.top).kelvin) < 0.5) {
      judged.late = *a.real - a.planned;
      break;
    }
  }
}

/// Straight line through the last hour (or what there is of it).
std::optional<Ramp> last_rate(const FiringLog& log) {
  const double end = log.rows.back().hours;
  double n = 0, st = 0, sc = 0, stt = 0, stc = 0;
  for (std::size_t i = log.rows.size(); i-- > 0 && end - log.rows[i].hours <= 1;) {
    const double t = log.rows[i].hours - end;
    const double c = log.rows[i].celsius;
    n += 1, st += t, sc += c, stt += t * t, stc += t * c;
  }
  const double spread = n * stt - st * st;
  if (n < 2 || spread < 1e-9) {
    return std::nullopt;
  }
  return Ramp{(n * stc - st * sc) / spread};
}

/// Climb that brings the cone down in that time; the cone's temperature goes by the climb itself.
double rate_to_end_in(const Cone& cone, double now, Hours time_left) {
  double low = 1;
  double high = 2000;
  for (int i = 0; i < 50; ++i) {
    const double rate = (low + high) / 2;
    const Ramp within{std::clamp(rate, 15.0, 300.0)};
    const bool too_slow =
        now + rate * time_left.count() < bend_temperature(cone, within).at.celsius;
    (too_slow ? low : high) = rate;
  }
  return high;
}

std::string on_time_words(double asked, double rate) {
  if (asked < 0.9 * rate) {
    return fmt::format(" It is early: to end as planned, slow down to {}.",
                       both_scales(Ramp{asked}));
  }
  return fmt::format(" To end as planned it would have to climb at {}{}.", both_scales(Ramp{asked}),
                     asked > 180 ? ", faster than is good for ware or cone" : "");
}

void look_ahead(Judged& judged, const FiringLog& log, const ConeTable& cones,
                const LogQuestion& question) {
  const Cone* cone = find_cone(cones, question.cone, question.cone_kind);
  const auto rate = last_rate(log);
  if (cone == nullptr || !rate || judged.finished) {
    return;
  }
  Outlook outlook;
  outlook.rate = *rate;
  const double now = log.rows.back().celsius;
  if (rate->kelvin_per_hour < 8) {
    outlook.needed = bend_temperature(*cone, {15}).at;
    outlook.advice = fmt::format(
        "At {} it will not get there. Fuel kiln: damper out or gas down until it climbs, then a "
        "little back; electric: an element, a relay or a fuse is out, or the kiln is too weak for "
        "this load. Better stop and find out than wait.",
        both_scales(*rate));
    judged.outlook = outlook;
    return;
  }
  const Ramp final{std::clamp(rate->kelvin_per_hour, 15.0, 300.0)};
  outlook.needed = bend_temperature(*cone, final).at;
  outlook.left = Hours{std::max(0.0, outlook.needed.celsius - now) / rate->kelvin_per_hour};
  outlook.band = Hours{7 / rate->kelvin_per_hour + 0.2 * outlook.left.count()};
  outlook.advice = fmt::format("At {} cone {} comes down at about {}, in {} (± {}).",
                               both_scales(*rate), question.cone, both_scales(outlook.needed),
                               in_words(outlook.left), in_words(outlook.band));
  if (question.plan != nullptr) {
    Hours planned_end = question.plan->off;
    const Hours time_left = planned_end - Hours{log.rows.back().hours};
    if (time_left.count() > 0.25) {
      const double asked = rate_to_end_in(*cone, now, time_left);
      outlook.rate_to_be_on_time = Ramp{asked};
      outlook.advice += on_time_words(asked, rate->kelvin_per_hour);
    } else {
      outlook.advice += fmt::format(" The planned end is past by {}: let it take its time.",
                                    in_words(Hours{-time_left.count()}));
    }
  }
  judged.outlook = outlook;
}

void add(Judged& judged, std::string code, std::string message) {
  Finding finding;
  finding.severity = Severity::look;
  finding.code = std::move(code);
  finding.message = std::move(message);
  judged.findings.push_back(std::move(finding));
}

void compare_with_cone(Judged& judged, const ConeTable& cones, const LogQuestion& question) {
  const Cone* cone = find_cone(cones, question.cone, question.cone_kind);
  if (cone == nullptr || !judged.finished) {
    return;
  }
  const Verdict& v = judged.verdict;
  const Ramp rate{std::clamp(v.final_rate.kelvin_per_hour, 4.0, 600.0)};
  const double over = (v.same_as_plain_ramp_to - bend_temperature(*cone, rate).at).kelvin;
  if (over > v.band_below.kelvin) {
    add(judged, "hot",
        fmt::format("over-fired: the heat-work is that of a plain climb {} over cone {}, more than "
                    "the band of {}",
                    both_scales(Warming{over}), question.cone, both_scales(v.band_below)));
  } else if (-over > v.band_above.kelvin) {
    add(judged, "cool",
        fmt::format("under-fired: the heat-work is that of a plain climb {} under cone {}, more "
                    "than the band of {}",
                    both_scales(Warming{-over}), question.cone, both_scales(v.band_above)));
  }
}

void doubt_the_rate(Judged& judged, const std::optional<Ramp>& climbed) {
  if (!climbed) {
    add(judged, "rate",
        fmt::format("the rows near the top are too few to tell how fast it climbed; {} is taken, "
                    "and the cone with it is a guess",
                    both_scales(Ramp{60})));
  } else if (climbed->kelvin_per_hour > 700) {
    add(judged, "rate",
        fmt::format("{} near the top is faster than kilns climb: is the time in the unit that it "
                    "is read as?",
                    both_scales(*climbed)));
  }
}

void warn_of_reduction(Judged& judged) {
  for (const ReductionSpell& spell : judged.reduction) {
    if (std::min(spell.begins, spell.ends) < kSelfIgnition) {
      add(judged, "reduction",
          fmt::format("reduction was read at {}: below {} gas may gather unburnt and explode",
                      both_scales(std::min(spell.begins, spell.ends)), both_scales(kSelfIgnition)));
    }
  }
}

/// "; noted then: 'relay changed'": what somebody wrote down at a stall is often its reason.
std::string noted_at(const FiringLog& log, const Hold& stall) {
  constexpr Hours kAround{0.25};
  std::string words;
  for (const LogNote& note : log.notes) {
    if (note.at >= stall.from - kAround && note.at <= stall.to + kAround && words.size() < 200) {
      words += (words.empty() ? "; noted then: '" : ", '") + note.text + "'";
    }
  }
  return words;
}

/// A note after the top that says open, and not of a damper or a spy hole.
bool tells_of_opening(std::string text) {
  for (char& c : text) {
    c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  }
  const auto has = [&](const char* word) { return text.find(word) != std::string::npos; };
  return has("open") && !has("damper") && !has("spy") && !has("vent") && !has("bung");
}

void warn_of_opening(Judged& judged, const FiringLog& log) {
  for (const LogNote& note : log.notes) {
    if (note.at <= judged.verdict.top_at || !tells_of_opening(note.text)) {
      continue;
    }
    const auto row = std::find_if(log.rows.begin(), log.rows.end(),
                                  [&](const LogRow& r) { return r.hours >= note.at.count(); });
    const double celsius = row == log.rows.end() ? log.rows.back().celsius : row->celsius;
    if (const auto advice = opening_advice({celsius})) {
      add(judged, "opening",
          fmt::format("'{}', {} after the start: {}", note.text, in_words(note.at),
                      advice->message));
    }
  }
}

}  // namespace

Judged judge_log(const FiringLog& log, const ConeTable& cones, const LogQuestion& asked) {
  if (log.rows.size() < 2) {
    throw std::invalid_argument{"judge_log: the log needs two rows"};
  }
  LogQuestion question = asked;
  if (question.cone.empty() && question.plan != nullptr) {
    const auto* aim = std::get_if<std::string>(&question.plan->schedule.wish.target.end);
    question.cone = aim == nullptr ? "" : *aim;
  }
  Judged judged;
  std::optional<Ramp> climbed;
  judged.verdict = verdict_of(log, cones, question.cone_kind, climbed);
  doubt_the_rate(judged, climbed);
  judged.finished = log.rows.back().celsius < judged.verdict.top.celsius - kFinishedFall;
  judged.holds = holds_of(log);
  judged.stalls = stalls_of(log, judged.verdict, question.plan);
  judged.reduction = reduction_of(log);
  if (question.plan != nullptr && !question.plan->steps.empty()) {
    compare_with_plan(judged, log, *question.plan);
  }
  look_ahead(judged, log, cones, question);
  compare_with_cone(judged, cones, question);
  warn_of_reduction(judged);
  warn_of_opening(judged, log);
  for (const Hold& stall : judged.stalls) {
    add(judged, "stall",
        fmt::format("stood nearly still at {} for {}, from {} after the start{}",
                    both_scales(stall.at), in_words(stall.to - stall.from), in_words(stall.from),
                    noted_at(log, stall)));
  }
  judged.words = words_of(judged, log, question);
  return judged;
}

}  // namespace placer::firing
