/// Judging a whole history: which cones are down, and how sure that is.
#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "placer/firing/heat_work.h"

namespace placer::firing {
namespace {

constexpr double kColdest = TimeAtTemperature::kColdest;
constexpr double kHottest = TimeAtTemperature::kHottest;
constexpr double kBinsPerDegree = TimeAtTemperature::kBinsPerDegree;

/// From here on a cone is seen to lean: at 60 °C/h about 15 to 25 minutes before it is down, as the
/// cone maker's chart says (community.ceramicartsdaily.org, user 13967, quoting it).
constexpr double kBendsFrom = 0.35;
/// How far a soak's heat-work may be out, as a factor (see heat_work.h).
constexpr double kSoakFactor = 2.5;
constexpr double kRampBand = 7;
/// With the heat off most kilns fall at 150 to 350 °C/h just below the top (common practice). What
/// a cone gets from such a fall belongs to the chart's own plain climb; only more than it counts.
constexpr double kFreeFall = 240;

/// Heat-work of the bins whose middles lie over `from` and up to `to`.
double sum_of(const Kinetics& cone, const TimeAtTemperature& time, double from, double to) {
  double sum = 0;
  for (std::size_t bin = 0; bin < time.hours().size(); ++bin) {
    const double middle = TimeAtTemperature::middle(bin).celsius;
    if (time.hours()[bin] > 0 && middle > from && middle <= to) {
      sum += time.hours()[bin] * cone.per_hour({middle});
    }
  }
  return sum;
}

/// Below it a cone gains nothing that shows.
double coldest(const Kinetics& cone) { return cone.cone->points.front().bends_at.celsius - 480; }

/// What holds and slow cooling gave: all of the time near the top, and of the fall below it what is
/// more than the usual fall gives.
double gained_after_top(const Kinetics& cone, const TimeAtTemperature& after, Temperature top) {
  constexpr double kNear = 3;
  const Temperature near = top + Warming{-kNear};
  const double usual = cone.per_hour(near) * cone.e_fold(near).kelvin / kFreeFall;
  const double fall = sum_of(cone, after, coldest(cone), near.celsius);
  const double hold = sum_of(cone, after, near.celsius, kHottest + 1);
  const double leaving = fall > 0 ? cone.per_hour(top) * kNear / kFreeFall : 0;
  return std::max(0.0, hold - leaving) + std::max(0.0, fall - usual);
}

/// Temperature of a plain ramp at the anchor's rate with this much heat-work.
double plain_top(const Kinetics& cone, Ramp rate, double heat_work) {
  Kinetics same = cone;
  same.ln_a -= std::log(heat_work);
  return HeatWork::plain_ramp_top(same, rate).celsius;
}

/// How one cone stands after it all.
ConeState state_of(const Kinetics& cone, const TimeAtTemperature& before,
                   const TimeAtTemperature& after, Temperature top) {
  ConeState state;
  state.name = cone.cone->name;
  state.after_top = gained_after_top(cone, after, top);
  state.heat_work = sum_of(cone, before, coldest(cone), kHottest + 1) + state.after_top;
  const double down_from = std::exp(-kNearlyDown.kelvin / cone.e_fold(top).kelvin);
  state.standing = state.heat_work >= down_from    ? ConeStanding::down
                   : state.heat_work >= kBendsFrom ? ConeStanding::bending
                                                   : ConeStanding::upright;
  return state;
}

/// The cone whose heat-work lies nearest to 1, in degrees.
std::size_t nearest_cone(const std::vector<Kinetics>& kinetics, const Verdict& verdict) {
  std::size_t nearest = 0;
  double least = 1e300;
  for (std::size_t i = 0; i < kinetics.size(); ++i) {
    const double done = verdict.cones[i].heat_work;
    const double away =
        done > 0 ? std::abs(std::log(done)) * kinetics[i].e_fold(verdict.top).kelvin : 1e299;
    if (away < least) {
      least = away;
      nearest = i;
    }
  }
  return nearest;
}

/// The same as a plain ramp, with what the table and the soaks leave open.
void set_bands(Verdict& verdict, const Kinetics& cone, const ConeState& state, Ramp anchor) {
  verdict.same_as_plain_ramp_to = {plain_top(cone, anchor, state.heat_work)};
  const double climb = state.heat_work - state.after_top;
  const double e_fold = cone.e_fold(verdict.same_as_plain_ramp_to).kelvin;
  const double least = climb + state.after_top / kSoakFactor;
  const double most = climb + state.after_top * kSoakFactor;
  const double table = std::max(kRampBand, bend_temperature(*cone.cone, anchor).band.kelvin);
  verdict.band_below = {table + e_fold * std::log(state.heat_work / least)};
  verdict.band_above = {table + e_fold * std::log(most / state.heat_work)};
}

void list_within_band(Verdict& verdict, const std::vector<Kinetics>& kinetics, Ramp anchor) {
  struct Near {
    double away;
    std::string name;
  };
  std::vector<Near> within;
  for (const Kinetics& other : kinetics) {
    const double miss =
        bend_temperature(*other.cone, anchor).at.celsius - verdict.same_as_plain_ramp_to.celsius;
    if (miss <= verdict.band_above.kelvin && -miss <= verdict.band_below.kelvin) {
      within.push_back({std::abs(miss), other.cone->name});
    }
  }
  std::stable_sort(within.begin(), within.end(),
                   [](const Near& a, const Near& b) { return a.away < b.away; });
  for (const Near& n : within) {
    verdict.within_band.push_back(n.name);
  }
}

}  // namespace

Top find_top(const History& history) {
  if (history.size() < 2) {
    throw std::invalid_argument{"find_top: a history needs two moments"};
  }
  Top found;
  found.top = history.front().kiln;
  for (std::size_t i = 0; i < history.size(); ++i) {
    if (i > 0 && history[i].at < history[i - 1].at) {
      throw std::invalid_argument{"find_top: time runs backwards"};
    }
    found.top = std::max(found.top, history[i].kiln);
  }
  const Temperature nearly = found.top + Warming{-2};
  while (history[found.index].kiln < nearly) {
    ++found.index;
  }
  // A plain ramp is judged to its very end, not to 2 °C before it.
  while (found.index + 1 < history.size() &&
         history[found.index + 1].kiln > history[found.index].kiln) {
    ++found.index;
  }
  found.at = history[found.index].at;
  TimeAtTemperature before;
  for (std::size_t i = 1; i <= found.index; ++i) {
    before.add(history[i - 1].kiln, history[i].kiln, history[i].at - history[i - 1].at);
  }
  found.final_rate = usual_rate(before, found.top).value_or(Ramp{60});
  return found;
}

std::optional<Ramp> usual_rate(const TimeAtTemperature& before, Temperature top) {
  // Groups of 4 °C from 1 °C under the top downwards: a sensor's noise stays inside a group.
  constexpr std::size_t kGroup = 16;
  constexpr std::size_t kGroups = 24;
  const double last = (top.celsius - 1 - kColdest) * kBinsPerDegree;
  if (!(last > kGroup) || before.hours().empty()) {
    return std::nullopt;
  }
  std::size_t end = std::min(static_cast<std::size_t>(last), before.hours().size());
  std::vector<double> hours;
  for (std::size_t group = 0; group < kGroups && end >= kGroup; ++group, end -= kGroup) {
    double sum = 0;
    for (std::size_t bin = end - kGroup; bin < end; ++bin) {
      sum += before.hours()[bin];
    }
    if (sum > 0) {
      hours.push_back(sum);
    }
  }
  if (hours.empty()) {
    return std::nullopt;
  }
  const auto middle = hours.begin() + static_cast<std::ptrdiff_t>(hours.size() / 2);
  std::nth_element(hours.begin(), middle, hours.end());
  return Ramp{static_cast<double>(kGroup) / kBinsPerDegree / *middle};
}

Verdict HeatWork::judge(const History& history) const {
  const Top top = find_top(history);
  TimeAtTemperature before;
  TimeAtTemperature after;
  for (std::size_t i = 1; i < history.size(); ++i) {
    (i <= top.index ? before : after)
        .add(history[i - 1].kiln, history[i].kiln, history[i].at - history[i - 1].at);
  }
  return judge(before, after, top.top, top.at, top.final_rate);
}

Verdict HeatWork::judge(const TimeAtTemperature& before, const TimeAtTemperature& after,
                        Temperature top, Hours top_at, Ramp final_rate) const {
  Verdict verdict;
  verdict.kind = kind_;
  verdict.top = top;
  verdict.top_at = top_at;
  verdict.final_rate = final_rate;
  // Slower or faster than the table by more than a factor of four is anchored at its edge.
  const Ramp anchor{std::clamp(final_rate.kelvin_per_hour, 4.0, 600.0)};
  const std::vector<Kinetics> kinetics = anchored(anchor);
  for (const Kinetics& cone : kinetics) {
    verdict.cones.push_back(state_of(cone, before, after, top));
    const ConeState& state = verdict.cones.back();
    if (state.standing == ConeStanding::down) {
      verdict.down = state.name;
    } else if (state.standing == ConeStanding::bending) {
      verdict.bending = state.name;
    }
  }
  const std::size_t nearest = nearest_cone(kinetics, verdict);
  if (verdict.cones[nearest].heat_work <= 0) {
    verdict.same_as_plain_ramp_to = top;
    return verdict;
  }
  set_bands(verdict, kinetics[nearest], verdict.cones[nearest], anchor);
  list_within_band(verdict, kinetics, anchor);
  return verdict;
}

}  // namespace placer::firing
