/// @file kiln_most.h
/// The most that one load of the kiln can be worth, whatever stands where.
#pragma once

#include <vector>

#include "loading/limits.h"
#include "loading/shelf_most.h"

namespace placer::loading {

/// What stands on one shelf of a load.
struct ShelfSet {
  int column = 0;
  std::vector<int> pieces;  ///< of each claim
  int first = 0;            ///< claims before it are too tall for it
  bool open = false;        ///< carries nothing
};

struct KilnMost {
  double worth = 0;            ///< no load is worth more
  std::vector<double> pieces;  ///< of each claim, in the best load found
  std::vector<double> posts;   ///< parts of each kind that it uses
  std::vector<ShelfSet> shelves;
};

class KilnLimits {
 public:
  KilnLimits(const Job& job, std::vector<Claim> claims);
  const std::vector<Claim>& claims() const { return claims_; }
  /// What holds on every shelf of every column; empty when the columns differ too much.
  std::vector<Limit> shelf_limits() const;
  /// @param price of a piece of each claim; @param rent of a post part of each kind, credited for
  /// all that are owned. Both >= 0. @param bonus of a shelf by the claim that is its first; none if
  /// empty.
  KilnMost most(const std::vector<double>& price, const std::vector<double>& rent,
                const std::vector<double>& bonus = {}) const;

  /// Looks for shelves of the load whose largest discs are proven not to go together, and rules
  /// them out from then on. True when there were any.
  bool rule_out(const KilnMost& load);

  /// False when one of its shelves is ruled out by now.
  bool may_be(const KilnMost& load) const;

  /// From then on looks at more places on each shelf. False when it does not any more.
  bool look_further();

 private:
  struct Column {
    Floor floor;
    std::vector<Limit> limits;
    std::vector<Never> never;
    std::vector<Never> asked;  ///< looked into already, in order
    double shelf = 0;          ///< thickness of the thinnest
    int posts = 3;
    int like = 0;              ///< the first column that is the same
    int most = 0;              ///< shelves that may lie there
    std::vector<char> barred;  ///< claims that lie on none of its shelves; empty: not looked into
    std::vector<int> over;  ///< of a bridge: the columns that it lies over, as they are listed here
  };
  struct Storey;
  struct Stack;
  class Growth;

  void add_bridges();
  void rule_out_alone(Column& column) const;
  double taken_by_bridge() const;
  bool alike_under(int a, int b) const;
  static void keep_first(Stack& stack, int levels);
  KilnMost best_of(const std::vector<Stack>& stacks, const std::vector<double>& rent) const;
  std::vector<Storey> storeys(const Column& column, const std::vector<double>& price,
                              const std::vector<double>& rent,
                              const std::vector<double>& bonus) const;
  Stack stack(const Column& column, std::vector<Storey> storeys, const std::vector<double>& rent,
              double taken) const;

  const Job* job_;
  std::vector<Claim> claims_;
  std::vector<Column> columns_;
  std::vector<int>
      places_;       ///< of each of the kiln's columns, where it is listed here; -1: nowhere
  int bridges_ = 0;  ///< the last so many of the columns are bridges
  int shelves_ = 0;  ///< no load has more
  int looks_ = 0;    ///< for each shelf
  int further_ = 1;
  int proofs_ = 0;  ///< looks left for ruling out
};

}  // namespace placer::loading
