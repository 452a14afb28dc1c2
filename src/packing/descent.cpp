#include "packing/descent.h"

namespace placer::packing {

namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

void add_scaled(double* a, double k, const double* b, std::size_t n) {
  for (std::size_t i = 0; i < n; ++i) a[i] += k * b[i];
}

}  // namespace

// Four sums side by side: the order of adding is fixed and the compiler may still go four wide.
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

// d_ becomes -H g by the two loops of L-BFGS over the last `stored` steps.
void Descent::direction(int stored) {
  double alpha[kMemory];
  for (std::size_t i = 0; i < n_; ++i) d_[i] = -g_[i];
  for (int k = 0; k < stored; ++k) {
    const int m = (newest_ - k + kMemory) % kMemory;
    alpha[m] = inner(steps_[m].data(), d_.data(), n_) * inverse_[m];
    add_scaled(d_.data(), -alpha[m], changes_[m].data(), n_);
  }
  double scale = 0.2;  // a contact's own curvature is 2, and a piece has several
  if (stored > 0) {
    const double* y = changes_[newest_].data();
    scale = 1 / (inverse_[newest_] * inner(y, y, n_));
  }
  for (std::size_t i = 0; i < n_; ++i) d_[i] *= scale;
  for (int k = stored - 1; k >= 0; --k) {
    const int m = (newest_ - k + kMemory) % kMemory;
    const double beta = alpha[m] - inner(changes_[m].data(), d_.data(), n_) * inverse_[m];
    add_scaled(d_.data(), beta, steps_[m].data(), n_);
  }
  work_ += 3 * n_ * (at(stored) + 1);
}

/// @return false when the step says nothing about the curvature
bool Descent::remember(const std::vector<double>& v, int slot) {
  for (std::size_t i = 0; i < n_; ++i) {
    steps_[slot][i] = v[i] - from_[i];
    changes_[slot][i] = next_g_[i] - g_[i];
  }
  const double sy = inner(steps_[slot].data(), changes_[slot].data(), n_);
  g_.swap(next_g_);
  if (sy <= 1e-18) return false;
  inverse_[slot] = 1 / sy;
  return true;
}

}  // namespace placer::packing
