// Downhill: L-BFGS with a careful line search.
#include <algorithm>
#include <cmath>
#include <limits>

#include "packing/relax.h"

namespace placer::packing {

namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

/// Four sums side by side: the order of adding is fixed and the compiler may still go four wide.
double inner(const double* a, const double* b, std::size_t n) {
  double s0 = 0;
  double s1 = 0;
  double s2 = 0;
  double s3 = 0;
  std::size_t i = 0;
  for (; i + 4 <= n; i += 4) {
    s0 += a[i] * b[i];
    s1 += a[i + 1] * b[i + 1];
    s2 += a[i + 2] * b[i + 2];
    s3 += a[i + 3] * b[i + 3];
  }
  for (; i < n; ++i) s0 += a[i] * b[i];
  return (s0 + s1) + (s2 + s3);
}

void add_scaled(double* a, double k, const double* b, std::size_t n) {
  for (std::size_t i = 0; i < n; ++i) a[i] += k * b[i];
}

}  // namespace

// d_ becomes -H g by the two loops of L-BFGS over the last `stored` steps.
void Relaxer::direction(int stored) {
  const std::size_t n = at(variables_);
  double alpha[kMemory];
  for (std::size_t i = 0; i < n; ++i) d_[i] = -g_[i];
  for (int k = 0; k < stored; ++k) {
    const int m = (newest_ - k + kMemory) % kMemory;
    alpha[m] = inner(steps_[m].data(), d_.data(), n) * inverse_[m];
    add_scaled(d_.data(), -alpha[m], changes_[m].data(), n);
  }
  double scale = 0.2;  // a contact's own curvature is 2, and a piece has several
  if (stored > 0) {
    const double* y = changes_[newest_].data();
    scale = 1 / (inverse_[newest_] * inner(y, y, n));
  }
  for (std::size_t i = 0; i < n; ++i) d_[i] *= scale;
  for (int k = stored - 1; k >= 0; --k) {
    const int m = (newest_ - k + kMemory) % kMemory;
    const double beta = alpha[m] - inner(changes_[m].data(), d_.data(), n) * inverse_[m];
    add_scaled(d_.data(), beta, steps_[m].data(), n);
  }
  work_ += 3 * n * static_cast<std::uint64_t>(stored + 1);
}

bool Relaxer::line_search(double& energy, double slope) {
  const std::size_t n = at(variables_);
  double longest = 0;
  for (std::size_t i = 0; i < n; ++i) longest = std::max(longest, std::abs(d_[i]));
  double step = 1;
  if (longest > 0.5 * least_reach_) step = 0.5 * least_reach_ / longest;
  from_ = v_;
  for (int tries = 0; tries < 12; ++tries) {
    for (std::size_t i = 0; i < n; ++i) v_[i] = from_[i] + step * d_[i];
    const double e = evaluate(next_g_.data());
    if (e <= energy + 1e-4 * step * slope) {
      energy = e;
      return true;
    }
    const double curved = -slope * step * step / (2 * (e - energy - slope * step));
    step = std::clamp(curved, 0.1 * step, 0.6 * step);
  }
  v_ = from_;
  listed_ = false;  // what is set in place is the last trial
  return false;
}

double Relaxer::relax(int iterations, double enough) {
  const std::size_t n = at(variables_);
  g_.resize(n);
  next_g_.resize(n);
  d_.resize(n);
  for (int m = 0; m < kMemory; ++m) {
    steps_[m].resize(n);
    changes_[m].resize(n);
  }
  int stored = 0;
  double e = evaluate(g_.data());
  double mark = e;
  for (int it = 1; it <= iterations && e > enough; ++it) {
    if (inner(g_.data(), g_.data(), n) < 1e-4 * e) break;  // every push is met by another: jammed
    if (it % 8 == 0) {
      if (e > 0.9 * mark) break;
      mark = e;
    }
    direction(stored);
    const double slope = inner(g_.data(), d_.data(), n);
    if (slope >= 0) {
      if (stored == 0) break;
      stored = 0;
      continue;
    }
    if (!line_search(e, slope)) {
      if (stored == 0) break;
      stored = 0;
      evaluate(g_.data());
      continue;
    }
    const int slot = stored == 0 ? 0 : (newest_ + 1) % kMemory;
    for (std::size_t i = 0; i < n; ++i) {
      steps_[slot][i] = v_[i] - from_[i];
      changes_[slot][i] = next_g_[i] - g_[i];
    }
    const double sy = inner(steps_[slot].data(), changes_[slot].data(), n);
    g_.swap(next_g_);
    if (sy > 1e-18) {
      newest_ = slot;
      inverse_[slot] = 1 / sy;
      stored = std::min(stored + 1, kMemory);
    }
  }
  return e;
}

}  // namespace placer::packing
