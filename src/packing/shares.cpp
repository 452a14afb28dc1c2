#include "packing/shares.h"

#include <cmath>
#include <cstddef>
#include <limits>
#include <utility>

namespace placer::packing {

namespace {

constexpr double kNothing = 1e-9;

/// The dual: the most worth of all pieces asked for, no pattern being worth more than 1. Rows are
/// patterns (the last row is the aim), columns the kinds (the last column is what is left of 1).
/// Entering and leaving variables change places, so the table stays as small as it began.
class Table {
 public:
  Table(const std::vector<std::vector<int>>& patterns, const std::vector<int>& asked)
      : rows_{patterns.size()}, columns_{asked.size()} {
    cells_.assign((rows_ + 1) * (columns_ + 1), 0.0);
    for (std::size_t i = 0; i < rows_; ++i) {
      for (std::size_t j = 0; j < columns_; ++j) cell(i, j) = patterns[i][j];
      cell(i, columns_) = 1;
      row_names_.push_back(columns_ + i);
    }
    for (std::size_t j = 0; j < columns_; ++j) {
      cell(rows_, j) = -asked[j];
      column_names_.push_back(j);
    }
  }

  void solve() {
    while (step()) {
    }
  }

  Shares shares() const {
    Shares shares;
    shares.uses.assign(rows_, 0.0);
    shares.worth.assign(columns_, 0.0);
    for (std::size_t j = 0; j < columns_; ++j) {
      if (column_names_[j] >= columns_) shares.uses[column_names_[j] - columns_] = cell(rows_, j);
    }
    for (std::size_t i = 0; i < rows_; ++i) {
      if (row_names_[i] < columns_) shares.worth[row_names_[i]] = cell(i, columns_);
    }
    shares.sum = cell(rows_, columns_);
    return shares;
  }

 private:
  double& cell(std::size_t i, std::size_t j) { return cells_[i * (columns_ + 1) + j]; }
  double cell(std::size_t i, std::size_t j) const { return cells_[i * (columns_ + 1) + j]; }

  bool step() {
    std::size_t enter = columns_;
    for (std::size_t j = 0; j < columns_; ++j) {
      if (cell(rows_, j) >= -kNothing) continue;
      if (enter == columns_ || column_names_[j] < column_names_[enter]) enter = j;
    }
    if (enter == columns_) return false;
    std::size_t leave = rows_;
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < rows_; ++i) {
      if (cell(i, enter) <= kNothing) continue;
      const double ratio = cell(i, columns_) / cell(i, enter);
      const bool tie = std::abs(ratio - least) <= kNothing;
      if (tie ? row_names_[i] < row_names_[leave] : ratio < least) {
        least = ratio;
        leave = i;
      }
    }
    if (leave == rows_) return false;
    pivot(leave, enter);
    return true;
  }

  void pivot(std::size_t r, std::size_t c) {
    const double p = cell(r, c);
    for (std::size_t i = 0; i <= rows_; ++i) {
      if (i == r || cell(i, c) == 0) continue;
      const double factor = cell(i, c) / p;
      for (std::size_t j = 0; j <= columns_; ++j) {
        if (j != c) cell(i, j) -= factor * cell(r, j);
      }
      cell(i, c) = -factor;
    }
    for (std::size_t j = 0; j <= columns_; ++j) {
      if (j != c) cell(r, j) /= p;
    }
    cell(r, c) = 1 / p;
    std::swap(row_names_[r], column_names_[c]);
  }

  std::size_t rows_, columns_;
  std::vector<double> cells_;
  std::vector<std::size_t> row_names_, column_names_;
};

}  // namespace

Shares shares_of(const std::vector<std::vector<int>>& patterns, const std::vector<int>& asked) {
  Table table{patterns, asked};
  table.solve();
  return table.shares();
}

}  // namespace placer::packing
