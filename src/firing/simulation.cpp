#include "simulation.h"

#include <algorithm>
#include <cmath>

#include "laying_out.h"
#include "placer/firing/combustion.h"

namespace placer::firing {
namespace {

constexpr double kStep = 60;         ///< s
constexpr double kSlowStep = 180;    ///< s, cooling under 600 °C
constexpr double kCurveEvery = 300;  ///< s
constexpr double kLongest = 240;     ///< h for the whole firing
constexpr double kNear = 1;          ///< K: a climb has arrived
constexpr double kBehind = 10;       ///< K: the kiln has fallen behind
constexpr double kStandsStill = 3;   ///< K in an hour

/// One run along a schedule.
class Run {
 public:
  Run(const Schedule& schedule, const FullBuild& build, const HeatLoad& load, bool endless)
      : schedule_{schedule}, build_{build}, endless_{endless}, kiln_{build, load, schedule.start} {
    plan_ = history_of(schedule.start, schedule.segments);
  }

  Simulated go() {
    note(0);
    Temperature from = schedule_.start;
    Hours planned{0};
    Hours planned_top{0};
    Hours top_ends{0};
    for (std::size_t i = 0; i < schedule_.segments.size(); ++i) {
      const Segment& segment = schedule_.segments[i];
      const bool given_up = out_.stuck && !segment.natural;
      const bool climbed = i == 0 || !schedule_.segments[i - 1].natural;
      if (out_.stuck && climbed) {  // it goes on from where the kiln stands
        from = std::min(from, kiln_.chamber());
      }
      TimedSegment step{segment, from, Hours{now_ / 3600}, Hours{now_ / 3600}};
      duty_ = 0;
      if (!given_up) {
        segment.natural ? fall_to(segment.target) : drive(segment, from);
      }
      note(0);
      planned += duration(from, segment);
      step.ends = Hours{now_ / 3600};
      step.late = segment.natural ? Hours{0} : step.ends - planned;
      step.duty = duty_;
      const double took = (step.ends - step.starts).count();
      if (segment.natural && took > 1e-3) {
        step.segment.rate = {std::abs((segment.target - from).kelvin) / took};
      }
      from = segment.target;
      if (i == schedule_.top_segment) {
        planned_top = planned;
        top_ends = step.ends;
      }
      if (!segment.natural && !given_up) {
        out_.off = step.ends;
        out_.at_off = kiln_.account();
      }
      out_.steps.push_back(std::move(step));
    }
    fall_to({60});
    note(0);
    out_.at_end = kiln_.account();
    plan_cooling(planned_top, top_ends - planned_top);
    return std::move(out_);
  }

 private:
  /// What the source can give to the chamber at most now, in W, and its fuel for a watt given.
  struct Limits {
    double most = 0;
    double fuel_per_watt = 1;
  };
  Limits limits(const Segment& segment) const {
    if (build_.build.source == HeatSource::electric) {
      return {endless_ ? 1e12 : build_.power_w, 1};
    }
    const Fuel& fuel = fuel_of(build_.build.source);
    const Temperature flue{std::max(kiln_.chamber().celsius, 100.0)};
    const double share =
        std::max(0.01, available_heat(fuel, air_ratio_of(segment, fuel, flue), flue));
    return {endless_ ? 1e12 : build_.power_w * share, 1 / share};
  }

  /// Takes a step towards a temperature with what the source can give; true = reached.
  bool towards(const Segment& segment, double seconds, double target) {
    kiln_.burn(build_.build.source != HeatSource::electric);
    const Limits limit = limits(segment);
    const double asked = kiln_.heat_to_reach(seconds, target);
    duty_ = std::max(duty_, asked / limit.most);
    if (segment.carbon_monoxide > 0) {
      out_.tightest_reduction = std::max(out_.tightest_reduction, asked / limit.most);
    }
    double given = std::clamp(asked, 0.0, limit.most);
    if (given == asked) {
      kiln_.take();
    } else {
      kiln_.take_with(seconds, given);
    }
    now_ += seconds;
    out_.source_j += given * limit.fuel_per_watt * seconds;
    heat_kw_ = given * limit.fuel_per_watt * 1e-3;
    note(seconds);
    return given == asked;
  }

  void drive(const Segment& segment, Temperature from) {
    const double direction = segment.target >= from ? 1 : -1;
    const double begins = now_;
    const double per_second = segment.rate.kelvin_per_hour / 3600;
    double hour_ago = now_;
    double chamber_then = kiln_.chamber().celsius;
    const double arrived = direction > 0 ? kNear : 3 * kNear;
    // What has fallen further than planned by itself is not heated up again.
    const double begins_at =
        direction < 0 ? std::min(from.celsius, kiln_.chamber().celsius) : from.celsius;
    double setpoint = begins_at;
    // A clear flame is kept for its time, however far the kiln falls meanwhile.
    const bool waits = !is_clean_up(segment.stage);
    while (direction * (segment.target.celsius - setpoint) > 1e-9 ||
           (waits && direction * (segment.target.celsius - kiln_.chamber().celsius) > arrived)) {
      const double left = direction * (segment.target.celsius - setpoint);
      const double seconds = left > 1e-9 && std::isfinite(per_second)
                                 ? std::min(kStep, std::max(0.5, left / per_second))
                                 : kStep;
      const double moved = std::isfinite(per_second) ? per_second * (now_ + seconds - begins) : 1e9;
      setpoint = direction > 0 ? std::min(segment.target.celsius, begins_at + moved)
                               : std::max(segment.target.celsius, begins_at - moved);
      const bool kept = towards(segment, seconds, setpoint);
      if (direction > 0) {
        judge_lag(segment, setpoint, kept);
      }
      if (now_ - hour_ago >= 3600) {
        const double moved_on = direction * (kiln_.chamber().celsius - chamber_then);
        if (!kept && moved_on < kStandsStill) {
          out_.stuck = direction > 0;
          return;
        }
        hour_ago = now_;
        chamber_then = kiln_.chamber().celsius;
      }
      if (now_ > kLongest * 3600) {
        out_.stuck = true;
        return;
      }
    }
    const double hold_ends = now_ + segment.hold.count() * 3600;
    while (hold_ends - now_ > 1e-6) {
      towards(segment, std::min(kStep, hold_ends - now_), segment.target.celsius);
    }
  }

  void judge_lag(const Segment& segment, double setpoint, bool kept) {
    const double lag = setpoint - kiln_.chamber().celsius;
    out_.worst_lag.kelvin = std::max(out_.worst_lag.kelvin, lag);
    if (kept || lag <= kBehind) {
      return;
    }
    if (!out_.falls_behind) {
      out_.falls_behind = Hours{now_ / 3600};
    }
    if (segment.carbon_monoxide > 0 && !out_.stalls) {
      out_.stalls = Hours{now_ / 3600};
    }
  }

  void fall_to(Temperature target) {
    // The ware is what cracks and burns hands: wait for it, not for the air around it.
    heat_kw_ = 0;
    kiln_.burn(false);
    while (std::max(kiln_.chamber(), kiln_.load()) > target && now_ < kLongest * 3600) {
      const double seconds = kiln_.chamber().celsius > 600 ? kStep : kSlowStep;
      kiln_.take_with(seconds, 0);
      now_ += seconds;
      note(seconds);
    }
  }

  /// Keeps a moment of the curve every five minutes.
  void note(double seconds) {
    since_ += seconds;
    out_.hottest_shell = std::max(out_.hottest_shell, kiln_.shell());
    if (seconds > 0 && since_ < kCurveEvery) {
      return;
    }
    since_ = 0;
    out_.curve.push_back({Hours{now_ / 3600}, planned_at(now_ / 3600), kiln_.chamber(),
                          kiln_.load(), kiln_.shell(), heat_kw_});
  }

  /// After the top a plan is what the kiln does by itself, or follows with ease: the simulated
  /// fall, as early as the plan would have begun it. It never rises.
  void plan_cooling(Hours planned_top, Hours late) {
    std::size_t ahead = 0;
    double last = schedule_.top.celsius;
    for (Moment& moment : out_.curve) {
      if (moment.at < planned_top) {
        last = moment.planned.celsius;
        continue;
      }
      while (ahead + 1 < out_.curve.size() && out_.curve[ahead].at < moment.at + late) {
        ++ahead;
      }
      last = std::min(last, out_.curve[ahead].kiln.celsius);
      moment.planned = {last};
    }
  }

  Temperature planned_at(double hours) {
    while (plan_index_ + 1 < plan_.size() && plan_[plan_index_ + 1].at.count() <= hours) {
      ++plan_index_;
    }
    if (plan_index_ + 1 >= plan_.size()) {
      return kiln_.chamber();
    }
    const Reached& a = plan_[plan_index_];
    const Reached& b = plan_[plan_index_ + 1];
    const double share = (hours - a.at.count()) / (b.at - a.at).count();
    return a.kiln + Warming{share * (b.kiln - a.kiln).kelvin};
  }

  const Schedule& schedule_;
  const FullBuild& build_;
  bool endless_;
  ThermalKiln kiln_;
  Simulated out_;
  History plan_;
  std::size_t plan_index_ = 0;
  double now_ = 0;    ///< s
  double since_ = 0;  ///< s since the last moment kept
  double heat_kw_ = 0;
  double duty_ = 0;
};

}  // namespace

const Fuel& fuel_of(HeatSource source) {
  return source == HeatSource::propane ? propane() : methane();
}

double air_ratio_of(const Segment& segment, const Fuel& fuel, Temperature flue) {
  constexpr double kClearFire = 1.2;
  if (segment.carbon_monoxide <= 0) {
    return kClearFire;
  }
  return air_ratio_from_carbon_monoxide(fuel, segment.carbon_monoxide, flue).value_or(0.7);
}

Simulated simulate(const Schedule& schedule, const FullBuild& build, const HeatLoad& load,
                   bool endless) {
  return Run{schedule, build, load, endless}.go();
}

}  // namespace placer::firing
