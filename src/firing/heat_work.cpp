#include "placer/firing/heat_work.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "gas_constant.h"
#include "kinetics_fit.h"

namespace placer::firing {
namespace {

constexpr double kColdest = TimeAtTemperature::kColdest;
constexpr double kHottest = TimeAtTemperature::kHottest;
constexpr double kBinsPerDegree = TimeAtTemperature::kBinsPerDegree;

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

}  // namespace placer::firing
