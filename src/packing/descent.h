/// @file descent.h
/// Downhill: L-BFGS with a careful line search, for anything that can say its energy and slope.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <vector>

namespace placer::packing {

/// The last few steps and what they changed, from which the next direction is guessed. Keeps its
/// memory between descents, so that it allocates only when it grows.
class Descent {
 public:
  /// Moves `v` downhill. Ends early when it is done (below `enough`) or clearly stuck.
  /// @param field `double evaluate(double* slope)` at what `v` holds; `void taken_back()` is called
  ///   when `v` was set back to where it was
  /// @param farthest that one variable may move in one step
  /// @param stuck the energy left of eight iterations' at which it is
  /// @return the energy left
  template <class Field>
  double run(Field& field, std::vector<double>& v, int iterations, double enough, double farthest,
             double stuck = 0.9);

  /// Steps done, about one a nanosecond; what evaluating costs is not among them.
  std::uint64_t work() const { return work_; }

 private:
  template <class Field>
  bool line_search(Field& field, std::vector<double>& v, double& energy, double slope,
                   double farthest);
  void direction(int stored);
  bool remember(const std::vector<double>& v, int slot);

  static constexpr int kMemory = 6;
  std::size_t n_ = 0;
  std::uint64_t work_ = 0;
  std::vector<double> g_, from_, next_g_, d_;
  std::vector<double> steps_[kMemory], changes_[kMemory];
  double inverse_[kMemory] = {};
  int newest_ = 0;
};

/// A sum in a fixed order.
double inner(const double* a, const double* b, std::size_t n);

template <class Field>
bool Descent::line_search(Field& field, std::vector<double>& v, double& energy, double slope,
                          double farthest) {
  double longest = 0;
  for (std::size_t i = 0; i < n_; ++i) longest = std::max(longest, std::abs(d_[i]));
  double step = 1;
  if (longest > farthest) step = farthest / longest;
  from_ = v;
  for (int tries = 0; tries < 12; ++tries) {
    for (std::size_t i = 0; i < n_; ++i) v[i] = from_[i] + step * d_[i];
    const double e = field.evaluate(next_g_.data());
    if (e <= energy + 1e-4 * step * slope) {
      energy = e;
      return true;
    }
    const double curved = -slope * step * step / (2 * (e - energy - slope * step));
    step = std::clamp(curved, 0.1 * step, 0.6 * step);
  }
  v = from_;
  field.taken_back();
  return false;
}

template <class Field>
double Descent::run(Field& field, std::vector<double>& v, int iterations, double enough,
                    double farthest, double stuck) {
  n_ = v.size();
  g_.resize(n_);
  next_g_.resize(n_);
  d_.resize(n_);
  for (int m = 0; m < kMemory; ++m) {
    steps_[m].resize(n_);
    changes_[m].resize(n_);
  }
  int stored = 0;
  double e = field.evaluate(g_.data());
  double mark = e;
  for (int it = 1; it <= iterations && e > enough; ++it) {
    if (inner(g_.data(), g_.data(), n_) < 1e-3 * (1 - stuck) * e)
      break;  // every push is met by another: jammed
    if (it % 8 == 0) {
      if (e > stuck * mark) break;
      mark = e;
    }
    direction(stored);
    const double slope = inner(g_.data(), d_.data(), n_);
    if (slope >= 0) {
      if (stored == 0) break;
      stored = 0;
      continue;
    }
    if (!line_search(field, v, e, slope, farthest)) {
      if (stored == 0) break;
      stored = 0;
      field.evaluate(g_.data());
      continue;
    }
    const int slot = stored == 0 ? 0 : (newest_ + 1) % kMemory;
    if (!remember(v, slot)) continue;
    newest_ = slot;
    stored = std::min(stored + 1, kMemory);
  }
  return e;
}

}  // namespace placer::packing
