#include "loading/by_prices.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "loading/cover.h"
#include "loading/index.h"

namespace placer::loading {
namespace {

constexpr double kLow = 1e-6;  // of a firing
constexpr int kRounds = 300;
constexpr double kNear = 0.15;   // loads short of a whole number: then cases are looked at
constexpr int kMostCases = 40;   // of how many shelves there are
constexpr double kWhole = 0.02;  // of a shelf: a number so near to a whole one is one

/// All loads together have at least, or at most, so many shelves whose first claim is this one or
/// one before it.
struct Case {
  int first = 0;
  int shelves = 0;
  bool at_least = false;
};

int shelves_to(const KilnMost& load, int first) {
  return static_cast<int>(
      std::count_if(load.shelves.begin(), load.shelves.end(),
                    [&](const ShelfSet& shelf) { return shelf.first <= first; }));
}

class Prices {
 public:
  Prices(const Job& job, KilnLimits& kiln, int enough, bool brief)
      : job_{&job}, kiln_{&kiln}, enough_{enough}, brief_{brief} {}

  int run() {
    const double proven = value({}, enough_);
    const double loads = loads_;
    const int whole = static_cast<int>(std::ceil(proven - kLow));
    if (brief_ || whole >= enough_ || loads > whole + kLow || loads < whole - kNear) return whole;
    cases_ = kMostCases;
    const bool more = above(whole, {});
    return more ? whole + 1 : whole;
  }

 private:
  int own() const { return count_of(kiln_->claims()); }

  /// Whether more than so many loads are needed in each of the cases.
  bool above(int whole, const std::vector<Case>& given) {
    if (--cases_ < 0) return false;
    if (value(given, whole + 1) > whole + kLow) return true;
    if (loads_ < whole - kNear) return false;
    const auto split = between();
    if (!split) return false;
    for (const bool at_least : {false, true}) {
      std::vector<Case> both = given;
      both.push_back({split->first, split->shelves + (at_least ? 1 : 0), at_least});
      if (!above(whole, both)) return false;
    }
    return true;
  }

  /// Of the last prices' loads: the number of shelves that is farthest from a whole one.
  std::optional<Case> between() const {
    std::optional<Case> split;
    double farthest = kWhole;
    for (int k = 0; k < own(); ++k) {
      double sum = 0;
      for (int i = 0; i < count_of(used_); ++i) sum += at(used_, i) * shelves_to(at(pool_, i), k);
      const double part = sum - std::floor(sum);
      if (std::min(part, 1 - part) <= farthest) continue;
      farthest = std::min(part, 1 - part);
      split = Case{k, static_cast<int>(std::floor(sum)), false};
    }
    return split;
  }

  /// What the rows of the program need: all pieces, shelves at least; then posts, shelves at most.
  std::vector<double> needs(const std::vector<Case>& given) const {
    std::vector<double> needs;
    for (const Claim& claim : kiln_->claims()) needs.push_back(claim.count);
    for (const Case& one : given) {
      if (one.at_least) needs.push_back(one.shelves);
    }
    needs.resize(needs.size() + job_->batch->kiln.posts.size(), 0);
    for (const Case& one : given) {
      if (!one.at_least) needs.push_back(-one.shelves);
    }
    return needs;
  }

  std::vector<double> row_of(const KilnMost& load, const std::vector<Case>& given) const {
    std::vector<double> row = load.pieces;
    for (const Case& one : given) {
      if (one.at_least) row.push_back(shelves_to(load, one.first));
    }
    for (int p = 0; p < count_of(job_->batch->kiln.posts); ++p) {
      row.push_back(at(job_->batch->kiln.posts, p).have - at(load.posts, p));
    }
    for (const Case& one : given) {
      if (!one.at_least) row.push_back(-shelves_to(load, one.first));
    }
    return row;
  }

  /// Loads found before that are known not to be by now.
  bool drop_ruled_out() {
    return std::erase_if(pool_, [&](const KilnMost& load) { return !kiln_->may_be(load); }) > 0;
  }

  /// The most that is proven in the case. loads_: what the program over the loads comes to.
  double value(const std::vector<Case>& given, int enough) {
    const auto least =
        std::count_if(given.begin(), given.end(), [](const Case& one) { return one.at_least; });
    const std::vector<double> need = needs(given);
    const int alone = own() + static_cast<int>(least);
    const int posts = count_of(job_->batch->kiln.posts);
    const auto over_pool = [&] {
      Cover cover{need, alone};
      for (const KilnMost& load : pool_) cover.add(row_of(load, given));
      return cover;
    };
    Cover cover = over_pool();
    double proven = 0;
    for (int round = 0; round < kRounds; ++round) {
      cover.solve();
      loads_ = cover.loads();
      if (settled(proven, loads_, enough)) break;
      const std::vector<double> all = cover.prices();
      const std::vector<double> price(all.begin(), all.begin() + own());
      const std::vector<double> rent(all.begin() + alone, all.begin() + alone + posts);
      const KilnMost most = kiln_->most(price, rent, bonus(all, given, alone, posts));
      double worth = 0;
      for (int k = 0; k < count_of(need); ++k) worth += at(all, k) * at(need, k);
      if (most.worth > 0) proven = std::max(proven, worth / most.worth);
      if (!brief_ && kiln_->rule_out(most)) {
        if (drop_ruled_out()) cover = over_pool();
        continue;
      }
      std::vector<double> row = row_of(most, given);
      double of_load = 0;
      for (int k = 0; k < count_of(row); ++k) of_load += at(all, k) * at(row, k);
      if (of_load <= 1 + 1e-7) {
        if (!brief_ && most.worth > 1 + kLow && kiln_->look_further()) continue;
        break;
      }
      cover.add(std::move(row));
      pool_.push_back(most);
    }
    used_ = cover.amounts();
    return proven;
  }

  /// Of a shelf, by its first claim: what the cases' rows are worth.
  std::vector<double> bonus(const std::vector<double>& all, const std::vector<Case>& given,
                            int alone, int posts) const {
    std::vector<double> bonus;
    if (given.empty()) return bonus;
    bonus.assign(static_cast<std::size_t>(own()), 0);
    int at_least = own();
    int at_most = alone + posts;
    for (const Case& one : given) {
      const double each = one.at_least ? at(all, at_least++) : -at(all, at_most++);
      for (int k = 0; k <= one.first; ++k) at(bonus, k) += each;
    }
    return bonus;
  }

  /// Whether more looking for loads can raise a bound of so many.
  static bool settled(double proven, double loads, int enough) {
    return std::ceil(proven - kLow) >= std::min(std::ceil(loads - kLow), double(enough));
  }

  const Job* job_;
  KilnLimits* kiln_;
  int enough_;
  bool brief_;
  int cases_ = 0;
  double loads_ = 0;
  std::vector<KilnMost> pool_;
  std::vector<double> used_;  ///< how often each of the pool, in the last program
};

}  // namespace

int by_prices(const Job& job, KilnLimits& kiln, int enough, bool brief) {
  return Prices{job, kiln, enough, brief}.run();
}

}  // namespace placer::loading
