#include "kinetics_fit.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <optional>

#include "gas_constant.h"
#include "placer/firing/heat_work.h"

namespace placer::firing {
namespace {

/// Least leave-one-cone-out error on the published table.
constexpr double kSmoothness = 300;
constexpr int kRounds = 40;

/// Where a cone stands in the row: "1" is 1, "01" is 0, "02" is -1, "05.5" is -4.5.
double cone_number(const std::string& name) {
  const double number = std::strtod(name.c_str(), nullptr);
  return name.front() == '0' ? 1 - number : number;
}

/// ln A that a ramp of that rate ending at T (kelvin) asks for.
double ln_a_of(double activation, double kelvin, double rate) {
  return std::log(rate / kelvin) - ln_e2(activation / (kGasConstant * kelvin));
}

constexpr double kAnchorRate = 60;  ///< °C/h, published for every cone

/// Residuals in °C of a cone's points when ln A is anchored at 60 °C/h (or is their best fit, for a
/// cone without that column), to first order: the e-fold R T^2 / E turns a difference of ln A into
/// one of temperature.
void residuals(const Cone& cone, double activation, std::vector<double>& out) {
  double sum = 0;
  double weights = 0;
  std::optional<double> anchor;
  std::vector<double> ln_a;
  std::vector<double> e_fold;
  for (const ConePoint& p : cone.points) {
    const double kelvin = absolute_kelvin(p.bends_at);
    ln_a.push_back(ln_a_of(activation, kelvin, p.rate.kelvin_per_hour));
    e_fold.push_back(kGasConstant * kelvin * kelvin / activation);
    sum += ln_a.back() * e_fold.back() * e_fold.back();
    weights += e_fold.back() * e_fold.back();
    if (p.rate.kelvin_per_hour == kAnchorRate) {
      anchor = ln_a.back();
    }
  }
  const double centre = anchor.value_or(sum / weights);
  for (std::size_t i = 0; i < ln_a.size(); ++i) {
    out.push_back((ln_a[i] - centre) * e_fold[i]);
  }
}

/// Solves the symmetric positive definite system in place (Cholesky, dense; a few dozen cones).
std::vector<double> solve(std::vector<std::vector<double>> m, std::vector<double> b) {
  const std::size_t n = b.size();
  for (std::size_t j = 0; j < n; ++j) {
    for (std::size_t k = 0; k < j; ++k) {
      m[j][j] -= m[j][k] * m[j][k];
    }
    m[j][j] = std::sqrt(std::max(m[j][j], 1e-12));
    for (std::size_t i = j + 1; i < n; ++i) {
      for (std::size_t k = 0; k < j; ++k) {
        m[i][j] -= m[i][k] * m[j][k];
      }
      m[i][j] /= m[j][j];
    }
  }
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = 0; k < i; ++k) {
      b[i] -= m[i][k] * b[k];
    }
    b[i] /= m[i][i];
  }
  for (std::size_t i = n; i-- > 0;) {
    for (std::size_t k = i + 1; k < n; ++k) {
      b[i] -= m[k][i] * b[k];
    }
    b[i] /= m[i][i];
  }
  return b;
}

struct Normal {
  std::vector<std::vector<double>> matrix;
  std::vector<double> side;
};

/// Normal equations of one Gauss-Newton step in u = ln E.
Normal normal_equations(const std::vector<const Cone*>& cones, const std::vector<double>& place,
                        const std::vector<double>& u) {
  const std::size_t n = cones.size();
  Normal eq{std::vector<std::vector<double>>(n, std::vector<double>(n, 0.0)),
            std::vector<double>(n, 0.0)};
  constexpr double kStep = 1e-5;
  for (std::size_t i = 0; i < n; ++i) {
    std::vector<double> here;
    std::vector<double> there;
    residuals(*cones[i], std::exp(u[i]), here);
    residuals(*cones[i], std::exp(u[i] + kStep), there);
    for (std::size_t k = 0; k < here.size(); ++k) {
      const double slope = (there[k] - here[k]) / kStep;
      eq.matrix[i][i] += slope * slope;
      eq.side[i] -= slope * here[k];
    }
  }
  for (std::size_t i = 0; i + 2 < n; ++i) {
    const double h1 = place[i + 1] - place[i];
    const double h2 = place[i + 2] - place[i + 1];
    const double difference[3] = {2 / (h1 * (h1 + h2)), -2 / (h1 * h2), 2 / (h2 * (h1 + h2))};
    const double second =
        difference[0] * u[i] + difference[1] * u[i + 1] + difference[2] * u[i + 2];
    for (std::size_t a = 0; a < 3; ++a) {
      eq.side[i + a] -= kSmoothness * difference[a] * second;
      for (std::size_t b = 0; b < 3; ++b) {
        eq.matrix[i + a][i + b] += kSmoothness * difference[a] * difference[b];
      }
    }
  }
  return eq;
}

}  // namespace

std::vector<double> fit_activation(const std::vector<const Cone*>& cones) {
  std::vector<double> u(cones.size(), std::log(700e3));
  std::vector<double> place;
  for (const Cone* cone : cones) {
    place.push_back(cone_number(cone->name));
  }
  for (int round = 0; round < kRounds; ++round) {
    Normal eq = normal_equations(cones, place, u);
    const std::vector<double> step = solve(std::move(eq.matrix), std::move(eq.side));
    double largest = 0;
    for (std::size_t i = 0; i < u.size(); ++i) {
      u[i] += std::clamp(step[i], -0.5, 0.5);
      largest = std::max(largest, std::abs(step[i]));
    }
    if (largest < 1e-10) {
      break;
    }
  }
  std::vector<double> activation;
  for (const double ln_e : u) {
    activation.push_back(std::exp(ln_e));
  }
  return activation;
}

}  // namespace placer::firing
