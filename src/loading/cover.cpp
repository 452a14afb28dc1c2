#include "loading/cover.h"

#include <algorithm>
#include <cmath>

#include "loading/index.h"

namespace placer::loading {
namespace {

constexpr double kTiny = 1e-9;
constexpr int kMostSteps = 400;  // of one solve: rounding may go round in circles

}  // namespace

Cover::Cover(std::vector<double> needs, int own)
    : rows_{static_cast<int>(needs.size())}, alone_{own}, needs_{std::move(needs)} {
  const Column none(static_cast<std::size_t>(rows_), 0);
  for (int r = 0; r < rows_; ++r) {
    columns_.push_back(none);
    at(columns_.back(), r) = -1;
  }
  for (int r = 0; r < rows_; ++r) {
    inverse_.push_back(none);
    at(inverse_.back(), r) = r < own ? 1 : -1;
    if (r < own) {
      columns_.push_back(none);
      at(columns_.back(), r) = 1;
      basis_.push_back(count_of(columns_) - 1);
    } else {
      basis_.push_back(r);
    }
    amount_.push_back(std::abs(at(needs_, r)));
  }
}

void Cover::add(std::vector<double> load, double cost) {
  columns_.push_back(std::move(load));
  costs_.push_back(cost);
}

double Cover::cost(int column) const {
  if (column < rows_) return 0;
  return column < rows_ + alone_ ? 1 : at(costs_, column - rows_ - alone_);
}

std::vector<double> Cover::amounts() const {
  std::vector<double> amounts(costs_.size(), 0);
  for (int i = 0; i < rows_; ++i) {
    const int load = at(basis_, i) - rows_ - alone_;
    if (load >= 0) at(amounts, load) = at(amount_, i);
  }
  return amounts;
}

std::vector<double> Cover::prices() const {
  std::vector<double> prices(static_cast<std::size_t>(rows_), 0);
  for (int i = 0; i < rows_; ++i) {
    const double each = cost(at(basis_, i));
    if (each == 0) continue;
    for (int r = 0; r < rows_; ++r) at(prices, r) += each * at(at(inverse_, i), r);
  }
  for (double& price : prices) price = std::max(0.0, price);
  return prices;
}

double Cover::loads() const {
  double sum = 0;
  for (int i = 0; i < rows_; ++i) sum += cost(at(basis_, i)) * at(amount_, i);
  return sum;
}

/// The column takes the place of the basic one that it uses up first.
void Cover::enter(int column) {
  std::vector<double> way(static_cast<std::size_t>(rows_), 0);
  for (int i = 0; i < rows_; ++i) {
    for (int r = 0; r < rows_; ++r)
      at(way, i) += at(at(inverse_, i), r) * at(at(columns_, column), r);
  }
  int leaves = -1;
  double most = 0;
  for (int i = 0; i < rows_; ++i) {
    if (at(way, i) <= kTiny) continue;
    const double ratio = at(amount_, i) / at(way, i);
    if (leaves < 0 || ratio < most - kTiny ||
        (ratio < most + kTiny && at(way, i) > at(way, leaves))) {
      leaves = i;
      most = ratio;
    }
  }
  if (leaves < 0) return;
  const double pivot = at(way, leaves);
  for (double& v : at(inverse_, leaves)) v /= pivot;
  at(amount_, leaves) /= pivot;
  for (int i = 0; i < rows_; ++i) {
    if (i == leaves || at(way, i) == 0) continue;
    for (int r = 0; r < rows_; ++r)
      at(at(inverse_, i), r) -= at(way, i) * at(at(inverse_, leaves), r);
    at(amount_, i) = std::max(0.0, at(amount_, i) - at(way, i) * at(amount_, leaves));
  }
  at(basis_, leaves) = column;
}

void Cover::solve() {
  for (int step = 0; step < kMostSteps; ++step) {
    std::vector<double> price(static_cast<std::size_t>(rows_), 0);
    for (int i = 0; i < rows_; ++i) {
      const double each = cost(at(basis_, i));
      if (each == 0) continue;
      for (int r = 0; r < rows_; ++r) at(price, r) += each * at(at(inverse_, i), r);
    }
    int best = -1;
    double least = -1e-7;
    for (int c = 0; c < count_of(columns_); ++c) {
      double reduced = cost(c);
      for (int r = 0; r < rows_; ++r) reduced -= at(price, r) * at(at(columns_, c), r);
      if (reduced < least) {
        least = reduced;
        best = c;
      }
    }
    if (best < 0) return;
    enter(best);
  }
}

}  // namespace placer::loading
