#include "placer/firing/calibration.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

#include "placer/firing/words.h"
#include "simulation.h"

namespace placer::firing {
namespace {

constexpr double kLossPrior = 0.405;   ///< ln 1.5
constexpr double kStorePrior = 0.223;  ///< ln 1.25
constexpr double kScatter = 8;         ///< °C that a sensor and a log are taken to be good to
constexpr double kLeastBand = 0.08;
constexpr std::size_t kMostPoints = 400;  ///< of the log laid on the model
constexpr double kFitFrom = 50;           ///< K under the top
constexpr double kFitTo = 150;            ///< °C

/// The log thinned to a few hundred points by time; the shape of a firing needs no more.
std::vector<LogRow> thinned(const FiringLog& log) {
  if (log.rows.size() <= kMostPoints) {
    return log.rows;
  }
  std::vector<LogRow> out;
  const double end = log.rows.back().hours;
  double next = 0;
  for (const LogRow& row : log.rows) {
    if (row.hours >= next) {
      out.push_back(row);
      next = row.hours + end / kMostPoints;
    }
  }
  return out;
}

struct Laid {
  std::vector<double> misses;  ///< model minus log while cooling, °C
  double climb_j = 0;          ///< heat given until the heat went off
  double steepest_w = 0;       ///< mean heat of the hardest half hour
};

/// Lays the log on a kiln: its temperatures are imposed until the top, then it cools by itself.
class Laying {
 public:
  Laying(const FullBuild& build, const HeatLoad& load, const std::vector<LogRow>& rows)
      : build_{build}, load_{load}, rows_{rows} {
    for (std::size_t i = 0; i < rows.size(); ++i) {
      top_ = rows[i].celsius >= rows[top_].celsius ? i : top_;
    }
  }
  std::size_t top() const { return top_; }
  bool cools() const { return rows_.back().celsius < rows_[top_].celsius - 2 * kFitFrom; }

  Laid with(double loss, double store) const {
    FullBuild build = build_;
    build.learnt.loss = loss;
    build.learnt.store = store;
    ThermalKiln kiln{build, load_, {rows_.front().celsius}};
    Laid laid;
    climb(kiln, laid);
    cool(kiln, laid);
    return laid;
  }

 private:
  void climb(ThermalKiln& kiln, Laid& laid) const {
    kiln.burn(build_.build.source != HeatSource::electric);
    double half_hour = 0;
    double heat = 0;
    for (std::size_t i = 1; i <= top_; ++i) {
      const double seconds = (rows_[i].hours - rows_[i - 1].hours) * 3600;
      if (seconds <= 0) {
        continue;
      }
      const int parts = std::max(1, static_cast<int>(std::ceil(seconds / 300)));
      for (int part = 1; part <= parts; ++part) {
        const double share = static_cast<double>(part) / parts;
        const double target =
            rows_[i - 1].celsius + share * (rows_[i].celsius - rows_[i - 1].celsius);
        const double watts = kiln.heat_to_reach(seconds / parts, target);
        kiln.take();
        laid.climb_j += std::max(0.0, watts) * seconds / parts;
        heat += std::max(0.0, watts) * seconds / parts;
        half_hour += seconds / parts;
        if (half_hour >= 1800) {
          laid.steepest_w = std::max(laid.steepest_w, heat / half_hour);
          half_hour = heat = 0;
        }
      }
    }
  }

  void cool(ThermalKiln& kiln, Laid& laid) const {
    kiln.burn(false);
    const double from = rows_[top_].celsius - kFitFrom;
    for (std::size_t i = top_ + 1; i < rows_.size(); ++i) {
      const double seconds = (rows_[i].hours - rows_[i - 1].hours) * 3600;
      if (seconds <= 0) {
        continue;
      }
      // Controlled cooling just under the top is laid on too: the fit begins where it falls freely.
      if (rows_[i].celsius > from) {
        kiln.heat_to_reach(seconds, rows_[i].celsius);
        kiln.take();
        continue;
      }
      const int parts = std::max(1, static_cast<int>(std::ceil(seconds / 300)));
      for (int part = 0; part < parts; ++part) {
        kiln.take_with(seconds / parts, 0);
      }
      if (rows_[i].celsius < kFitTo) {
        break;
      }
      laid.misses.push_back(kiln.chamber().celsius - rows_[i].celsius);
    }
  }

  const FullBuild& build_;
  const HeatLoad& load_;
  const std::vector<LogRow>& rows_;
  std::size_t top_ = 0;
};

double rms(const std::vector<double>& misses) {
  double sum = 0;
  for (const double m : misses) {
    sum += m * m;
  }
  return misses.empty() ? 0 : std::sqrt(sum / static_cast<double>(misses.size()));
}

struct Fit {
  std::array<double, 2> ln{};  ///< loss, store
  double spread_loss = kLossPrior, spread_store = kStorePrior;
  double miss = 0;
};

/// Sum of squares with the priors, all in units of the scatter.
double cost_of(const std::vector<double>& misses, const std::array<double, 2>& ln) {
  // Rows of one cooling curve are not independent: they count as thirty.
  const double weight = misses.empty() ? 0 : 30.0 / static_cast<double>(misses.size());
  double sum =
      ln[0] * ln[0] / (kLossPrior * kLossPrior) + ln[1] * ln[1] / (kStorePrior * kStorePrior);
  for (const double m : misses) {
    sum += weight * m * m / (kScatter * kScatter);
  }
  return sum;
}

Fit fit(const Laying& laying) {
  Fit best;
  std::vector<double> here = laying.with(1, 1).misses;
  double cost = cost_of(here, best.ln);
  constexpr double kStep = 0.02;
  for (int round = 0; round < 8; ++round) {
    std::array<std::vector<double>, 2> slope;
    for (std::size_t p = 0; p < 2; ++p) {
      std::array<double, 2> there = best.ln;
      there[p] += kStep;
      slope[p] = laying.with(std::exp(there[0]), std::exp(there[1])).misses;
      for (std::size_t i = 0; i < here.size(); ++i) {
        slope[p][i] = (slope[p][i] - here[i]) / kStep;
      }
    }
    const double weight =
        here.empty() ? 0 : 30.0 / static_cast<double>(here.size()) / (kScatter * kScatter);
    double aa = 1 / (kLossPrior * kLossPrior), bb = 1 / (kStorePrior * kStorePrior), ab = 0;
    double ga = best.ln[0] * aa, gb = best.ln[1] * bb;
    for (std::size_t i = 0; i < here.size(); ++i) {
      aa += weight * slope[0][i] * slope[0][i];
      bb += weight * slope[1][i] * slope[1][i];
      ab += weight * slope[0][i] * slope[1][i];
      ga += weight * slope[0][i] * here[i];
      gb += weight * slope[1][i] * here[i];
    }
    const double determinant = aa * bb - ab * ab;
    best.spread_loss = std::sqrt(bb / determinant);
    best.spread_store = std::sqrt(aa / determinant);
    double step_a = std::clamp(-(bb * ga - ab * gb) / determinant, -0.7, 0.7);
    double step_b = std::clamp(-(aa * gb - ab * ga) / determinant, -0.7, 0.7);
    bool better = false;
    for (int halving = 0; halving < 5 && !better; ++halving) {
      const std::array<double, 2> there = {best.ln[0] + step_a, best.ln[1] + step_b};
      std::vector<double> misses = laying.with(std::exp(there[0]), std::exp(there[1])).misses;
      const double new_cost = cost_of(misses, there);
      if (new_cost < cost) {
        better = true;
        cost = new_cost;
        best.ln = there;
        here = std::move(misses);
      } else {
        step_a /= 2;
        step_b /= 2;
      }
    }
    if (!better || std::abs(step_a) + std::abs(step_b) < 1e-3) {
      break;
    }
  }
  best.miss = rms(here);
  return best;
}

void tell(Calibrated& answer, std::string message) {
  Finding finding;
  finding.severity = Severity::look;
  finding.code = "log";
  finding.message = std::move(message);
  answer.findings.push_back(std::move(finding));
}

/// How the two factors' spreads reach the energy: by the shares of wall and shell in it.
double band_of(const Fit& fitted, const Calibrated& answer, bool meter) {
  constexpr double kShellShare = 0.4;
  constexpr double kWallShare = 0.3;
  const double fit_part =
      std::hypot(kShellShare * fitted.spread_loss, kWallShare * fitted.spread_store);
  const double rest = meter ? 0.04 : 0.08;  // load, leaks and furniture as described
  return std::max(kLeastBand, std::hypot(fit_part, rest) + answer.cooling_miss.kelvin / 1000);
}

}  // namespace

Calibrated calibrate(const KilnBuild& kiln, const HeatLoad& load, const FiringLog& log,
                     std::optional<Energy> meter) {
  if (log.rows.size() < 2) {
    throw std::invalid_argument{"calibrate: the log needs two rows"};
  }
  KilnBuild plain = kiln;
  plain.learnt.reset();
  const FullBuild build = filled(plain);
  const HeatLoad full = filled(load, build.volume);
  const std::vector<LogRow> rows = thinned(log);
  const Laying laying{build, full, rows};
  Calibrated answer;
  answer.rows_used = rows.size();
  answer.cooling_miss_before = {rms(laying.with(1, 1).misses)};
  Fit fitted;
  if (laying.cools()) {
    fitted = fit(laying);
    answer.cooling_miss = {fitted.miss};
  } else {
    tell(answer, "the log ends before the kiln has cooled: nothing is learnt about its walls");
  }
  answer.learnt.loss = std::exp(fitted.ln[0]);
  answer.learnt.store = std::exp(fitted.ln[1]);
  const Laid laid = laying.with(answer.learnt.loss, answer.learnt.store);
  answer.climb_heat = {laid.climb_j / 3.6e6};
  answer.at_least = {laid.steepest_w * 1e-3};
  if (meter && meter->kwh > 0 && build.build.source == HeatSource::electric) {
    const double ratio = answer.climb_heat.kwh / meter->kwh;
    if (ratio < 0.5 || ratio > 1.6) {
      tell(answer, fmt::format("the meter says {:.0f} kWh and the temperatures ask for {:.0f} kWh: "
                               "one of them, or the load, is wrong; the meter is not used",
                               meter->kwh, answer.climb_heat.kwh));
      meter.reset();
    } else {
      // The walls and the load took what the meter gave: spread the difference over the losses.
      answer.learnt.loss /= std::sqrt(ratio);
      answer.learnt.store /= std::sqrt(ratio);
    }
  }
  if (build.power_known && laid.steepest_w > build.power_w) {
    answer.learnt.power = laid.steepest_w / build.power_w;
    tell(answer, fmt::format("the log climbs as only {:.1f} kW could, and the kiln is rated at "
                             "{:.1f} kW",
                             laid.steepest_w * 1e-3, build.power_w * 1e-3));
  }
  answer.learnt.band = laying.cools() ? band_of(fitted, answer, meter.has_value()) : 0.25;
  return answer;
}

}  // namespace placer::firing
