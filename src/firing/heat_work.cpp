#include "placer/firing/heat_work.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "gas_constant.h"
#include "kinetics_fit.h"

namespace placer::firing {
namespace {

constexpr double kColdest = 300;   ///< °C: below it no cone notices
constexpr double kHottest = 1600;  ///< °C
constexpr double kBinsPerDegree = 4;

/// From here on a cone is seen to lean: at 60 °C/h about 15 to 25 minutes before it is down, as the
/// cone maker's chart says (community.ceramicartsdaily.org, user 13967, quoting it).
constexpr double kBendsFrom = 0.35;
/// From the tip at four o'clock to touching is only a degree or two (the cone maker's chart, quoted
/// in community.ceramicartsdaily.org, user 13967): that near its end a cone counts as down.
constexpr double kNearlyDown = 2;
/// How far a soak's heat-work may be out, as a factor (see heat_work.h).
constexpr double kSoakFactor = 2.5;
constexpr double kRampBand = 7;
/// With the heat off most kilns fall at 150 to 350 °C/h just below the top (common practice). What
/// a cone gets from such a fall belongs to the chart's own plain climb; only more than it counts.
constexpr double kFreeFall = 240;

/// T E2(E / R T) without its exp: returns ln of it.
double ln_ramp_integral(double activation, double kelvin) {
  return std::log(kelvin) + ln_e2(activation / (kGasConstant * kelvin));
}

}  // namespace

double ln_e2(double x) {
  if (!(x > 0.5)) {
    throw std::invalid_argument{"ln_e2: the argument must be over 0.5"};
  }
  // Modified Lentz on E2(x) = e^-x / (x + 2 - 1*2 / (x + 4 - 2*3 / (x + 6 - ...))).
  double b = x + 2;
  double c = 1e300;
  double d = 1 / b;
  double h = d;
  for (int i = 1; i < 200; ++i) {
    const double a = -static_cast<double>(i) * (i + 1);
    b += 2;
    d = 1 / (a * d + b);
    c = b + a / c;
    const double change = c * d;
    h *= change;
    if (std::abs(change - 1) < 1e-15) {
      break;
    }
  }
  return std::log(h) - x;
}

void TimeAtTemperature::add(Temperature from, Temperature to, Hours time) {
  if (hours_.empty()) {
    hours_.assign(static_cast<std::size_t>((kHottest - kColdest) * kBinsPerDegree) + 1, 0.0);
  }
  const double low = std::min(from.celsius, to.celsius);
  const double high = std::min(std::max(from.celsius, to.celsius), kHottest);
  if (high < kColdest || !(time.count() > 0)) {
    return;
  }
  const double a = (std::min(low, kHottest) - kColdest) * kBinsPerDegree;
  const double b = (high - kColdest) * kBinsPerDegree;
  const auto last = static_cast<std::size_t>(b);
  const auto first = static_cast<std::size_t>(std::max(a, 0.0));
  if (first == last) {
    const double inside = b - a > 1e-12 ? (b - std::max(a, 0.0)) / (b - a) : 1.0;
    hours_[first] += time.count() * inside;
    return;
  }
  for (std::size_t bin = first; bin <= last; ++bin) {
    const double begin = std::max(a, static_cast<double>(bin));
    const double end = std::min(b, static_cast<double>(bin + 1));
    hours_[bin] += time.count() * std::max(0.0, end - begin) / (b - a);
  }
}

Temperature TimeAtTemperature::middle(std::size_t bin) {
  return {kColdest + (static_cast<double>(bin) + 0.5) / kBinsPerDegree};
}

Warming Kinetics::e_fold(Temperature t) const {
  const double kelvin = absolute_kelvin(t);
  return {kGasConstant * kelvin * kelvin / activation};
}

double Kinetics::per_hour(Temperature t) const {
  return std::exp(ln_a - activation / (kGasConstant * absolute_kelvin(t)));
}

double Kinetics::of_line(Temperature from, Temperature to, Hours time) const {
  const double rise = (to - from).kelvin;
  if (std::abs(rise) < 0.5) {  // the closed form loses its digits: Simpson is exact enough here
    const Temperature half{(from.celsius + to.celsius) / 2};
    return time.count() * (per_hour(from) + 4 * per_hour(half) + per_hour(to)) / 6;
  }
  const double a = absolute_kelvin(from);
  const double b = absolute_kelvin(to);
  if (std::min(a, b) < 273.15 + 50) {  // the cold end adds nothing, and E2 needs no such argument
    const Temperature cold{50};
    const double share = (std::max(from, to) - cold).kelvin / std::abs(rise);
    return share <= 0 ? 0 : of_line(cold, std::max(from, to), share * time);
  }
  const double hot = std::exp(ln_a + ln_ramp_integral(activation, std::max(a, b)));
  const double cold = std::exp(ln_a + ln_ramp_integral(activation, std::min(a, b)));
  return (hot - cold) * time.count() / std::abs(rise);
}

HeatWork::HeatWork(const ConeTable& table, ConeKind kind) : table_{&table}, kind_{kind} {
  for (const Cone& cone : table.cones) {
    if (cone.kind == kind) {
      cones_.push_back(&cone);
    }
  }
  if (cones_.empty()) {
    throw std::invalid_argument{"HeatWork: the table has no cone of this kind"};
  }
  const ConeKind fitted =
      kind == ConeKind::self_supporting_iron_free || kind == ConeKind::large_iron_free
          ? ConeKind::self_supporting_iron_free
          : ConeKind::self_supporting;
  std::vector<const Cone*> rows;
  for (const Cone& cone : table.cones) {
    if (cone.kind == fitted && cone.points.size() >= 2) {
      rows.push_back(&cone);
    }
  }
  if (rows.empty()) {
    throw std::invalid_argument{"HeatWork: the table has no cone with two published rates"};
  }
  const std::vector<double> fitted_e = fit_activation(rows);
  for (const Cone* cone : cones_) {
    std::size_t nearest = 0;
    double away = 1e9;
    for (std::size_t i = 0; i < rows.size(); ++i) {
      const double miss = rows[i]->name == cone->name
                              ? -1
                              : std::abs(rows[i]->points.back().bends_at.celsius -
                                         cone->points.back().bends_at.celsius);
      if (miss < away) {
        away = miss;
        nearest = i;
      }
    }
    activation_.push_back(fitted_e[nearest]);
  }
}

std::vector<Kinetics> HeatWork::anchored(Ramp rate) const {
  std::vector<Kinetics> all;
  for (std::size_t i = 0; i < cones_.size(); ++i) {
    const double kelvin = absolute_kelvin(bend_temperature(*cones_[i], rate).at);
    all.push_back({cones_[i], activation_[i],
                   std::log(rate.kelvin_per_hour) - ln_ramp_integral(activation_[i], kelvin)});
  }
  return all;
}

Kinetics HeatWork::anchored(const std::string& cone, Ramp rate) const {
  for (const Kinetics& k : anchored(rate)) {
    if (k.cone->name == cone) {
      return k;
    }
  }
  throw std::invalid_argument{"HeatWork: no cone of this kind is called '" + cone + "'"};
}

Temperature HeatWork::plain_ramp_top(const Kinetics& cone, Ramp rate) {
  const double aim = std::log(rate.kelvin_per_hour) - cone.ln_a;
  double low = 200 + 273.15;
  double high = 2000 + 273.15;
  for (int i = 0; i < 100; ++i) {
    const double middle = (low + high) / 2;
    (ln_ramp_integral(cone.activation, middle) < aim ? low : high) = middle;
  }
  return {(low + high) / 2 - 273.15};
}

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

namespace {

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

}  // namespace

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
  std::size_t nearest = 0;
  double nearest_away = 1e300;
  for (std::size_t i = 0; i < kinetics.size(); ++i) {
    ConeState state;
    state.name = kinetics[i].cone->name;
    state.after_top = gained_after_top(kinetics[i], after, top);
    state.heat_work =
        sum_of(kinetics[i], before, coldest(kinetics[i]), kHottest + 1) + state.after_top;
    const double down_from = std::exp(-kNearlyDown / kinetics[i].e_fold(top).kelvin);
    state.standing = state.heat_work >= down_from    ? ConeStanding::down
                     : state.heat_work >= kBendsFrom ? ConeStanding::bending
                                                     : ConeStanding::upright;
    if (state.standing == ConeStanding::down) {
      verdict.down = state.name;
    } else if (state.standing == ConeStanding::bending) {
      verdict.bending = state.name;
    }
    const double away = state.heat_work > 0
                            ? std::abs(std::log(state.heat_work)) * kinetics[i].e_fold(top).kelvin
                            : 1e299;
    if (away < nearest_away) {
      nearest_away = away;
      nearest = i;
    }
    verdict.cones.push_back(std::move(state));
  }
  const ConeState& near = verdict.cones[nearest];
  if (near.heat_work <= 0) {
    verdict.same_as_plain_ramp_to = top;
    return verdict;
  }
  const Kinetics& k = kinetics[nearest];
  verdict.same_as_plain_ramp_to = {plain_top(k, anchor, near.heat_work)};
  const double climb = near.heat_work - near.after_top;
  const double e_fold = k.e_fold(verdict.same_as_plain_ramp_to).kelvin;
  const double least = climb + near.after_top / kSoakFactor;
  const double most = climb + near.after_top * kSoakFactor;
  const double table_band = bend_temperature(*k.cone, anchor).band.kelvin;
  verdict.band_below = {std::max(kRampBand, table_band) +
                        e_fold * std::log(near.heat_work / least)};
  verdict.band_above = {std::max(kRampBand, table_band) + e_fold * std::log(most / near.heat_work)};
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
  return verdict;
}

}  // namespace placer::firing
