/// @file cover.h
/// The least number of loads (or of shelves, by what each costs), fractions of them allowed, that
/// set all there is: a linear program over those known so far.
#pragma once

#include <vector>

namespace placer::loading {

/// Minimise the sum of x >= 0 so that for each row the sum of x times the load's entry is at least
/// what the row needs.
class Cover {
 public:
  /// @param needs of each row. The first `own` rows can each be met alone: a load of nothing
  /// but one. The others need 0 or less: what they need less than 0 is there to be used up.
  Cover(std::vector<double> needs, int own);
  void add(std::vector<double> load, double cost = 1);
  /// Goes on to the optimum (or as near as rounding allows).
  void solve();
  double loads() const;
  /// How often each load is used, in the order that they were added in.
  std::vector<double> amounts() const;
  /// What one more of each row's need would cost; >= 0.
  std::vector<double> prices() const;

 private:
  using Column = std::vector<double>;

  void enter(int column);

  double cost(int column) const;

  int rows_;
  int alone_ = 0;              ///< loads of nothing but one
  std::vector<double> costs_;  ///< of the loads added
  std::vector<double> needs_;
  std::vector<Column> columns_;  ///< the first: what is set beyond need, one a row
  std::vector<Column> inverse_;  ///< of the basis, by row
  std::vector<int> basis_;
  std::vector<double> amount_;  ///< of each basic column
};

}  // namespace placer::loading
