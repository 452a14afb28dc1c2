#include "loading/patterns.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>

#include "loading/cover.h"
#include "loading/index.h"

namespace placer::loading {
namespace {

constexpr int kFirstRounds = 20;  // of looking for fillings in each row before any is taken
constexpr int kNextRounds = 2;    // likewise, each time that some have been taken
constexpr int kBalances = 5;      // halvings on the way to the share of height
constexpr int kMostHeights = 12;  // ceilings that shelves are filled under
constexpr double kDense = 0.9;    // of the ground, gaps counted in, is the most that is ever used
constexpr double kHope = 0.96;    // careful filling saves no more of what a glance needs, as a rule
constexpr double kMostCare = 2.2e9;  // steps for all careful fillings that are only looked at
constexpr double kNear = 0.85;       // of what a shelf costs; likewise of one shelf
constexpr double kHoped = 1.04;      // times the loads that fractions of shelves would need
constexpr double kGain = 1e-6;       // of a load

/// A filling of a shelf that may be used more than once.
struct Pattern {
  Filled filled;
  Length tallest;
  int row = 0;
  std::vector<int> pieces;  ///< of each sort
};

class Spreading {
 public:
  Spreading(const Job& job, const std::vector<int>& left, const Recipe& recipe,
            std::optional<double> height_share, const std::function<bool()>& stop)
      : job_{&job},
        care_{recipe.care},
        stop_{stop},
        left_{left},
        given_{height_share},
        rows_{rows_of(job)},
        covered_{count_of(rows_)} {
    steps_ = care_.steps;
    care_.steps = 0;
    care_.both = false;
    const Kiln& kiln = job.batch->kiln;
    for (const ShelfKind& shelf : kiln.shelves) shelves_ += shelf.have;
    shelves_ = std::max(1.0, shelves_);
    height_ = std::max(1.0, (lid(kiln) - kiln.first_shelf).mm() * count_of(rows_));
    find_heights();
    for (Row& row : rows_of(job, true)) rows_.push_back(std::move(row));
  }

  std::vector<Tier> run(int fewer_than) {
    if (rows_.empty()) return {};
    tops_.assign(static_cast<std::size_t>(covered_), std::max(1, fewer_than - 1));
    start();
    if (!given_ || steps_ > 0) balance();
    if (steps_ > 0) {
      look_for_more(next_rounds());
      if (fewer_than > 0 && kHope * loads_ > fewer_than - 1) return {};
      care_.steps = steps_;
      careful_ = static_cast<int>(kMostCare / static_cast<double>(steps_));
    }
    height_share_ = given_.value_or(height_share_);
    for (int rounds = first_rounds(); any_left(); rounds = kNextRounds) {
      if (stop_ && stop_()) return {};
      look_for_more(rounds);
      if (tiers_.empty() && fewer_tops()) look_for_more(rounds);
      if (!take_some()) return {};
    }
    return std::move(tiers_);
  }

 private:
  int first_rounds() const { return kFirstRounds * count_of(rows_); }

  /// A load runs out of height or of shelves: the share at which neither does before the other is
  /// the one by which most loads are needed, and thus the true one.
  void balance() {
    double low = 0;
    double high = 1;
    for (int i = 0; i < kBalances; ++i) {
      look_for_more(i == 0 ? first_rounds() : next_rounds());
      double height = 0;
      double shelves = 0;
      for (int p = 0; p < count_of(patterns_); ++p) {
        const Pattern& pattern = at(patterns_, p);
        height += at(amounts_, p) * column_taken(*job_, at(rows_, pattern.row), pattern.tallest);
        shelves += at(amounts_, p);
      }
      (height / height_ > shelves / shelves_ ? low : high) = height_share_;
      height_share_ = (low + high) / 2;
    }
  }

  int next_rounds() const { return kNextRounds * count_of(rows_); }

  /// No more tops than loads are hoped for: every open shelf asks for a load. False when there are
  /// no more.
  bool fewer_tops() {
    const int hoped = static_cast<int>(std::ceil(kHoped * loads_));
    if (hoped >= tops_.front()) return false;
    tops_.assign(tops_.size(), hoped);
    return true;
  }

  bool any_left() const {
    return std::any_of(left_.begin(), left_.end(), [](int n) { return n > 0; });
  }

  /// Heights of stacks as they stand on a shelf of their own, no more than a few of them, the
  /// tallest among them.
  void find_heights() {
    for (int s = 0; s < count_of(left_); ++s) {
      if (at(left_, s) == 0) continue;
      const auto& stacks = at(job_->sorts, s).stacks;
      heights_.push_back(at(stacks, std::min(at(job_->best_stack, s), at(left_, s)) - 1).height);
    }
    std::sort(heights_.begin(), heights_.end());
    heights_.erase(std::unique(heights_.begin(), heights_.end()), heights_.end());
    if (count_of(heights_) <= kMostHeights) return;
    std::vector<Length> some;
    for (int i = 0; i < kMostHeights; ++i) {
      some.push_back(at(heights_, (i + 1) * count_of(heights_) / kMostHeights - 1));
    }
    heights_ = some;
  }

  double cost(const Row& row, Length tallest) const {
    return height_share_ * column_taken(*job_, row, tallest) / height_ +
           (1 - height_share_) / shelves_;
  }

  /// Each sort on shelves of its own, and the holes filled up.
  void start() {
    for (int s = 0; s < count_of(left_); ++s) {
      if (at(left_, s) == 0) continue;
      std::vector<double> price(left_.size(), 1e-3);
      at(price, s) = 1;
      const auto& stacks = at(job_->sorts, s).stacks;
      const int stack = std::min(at(job_->best_stack, s), at(left_, s));
      for (int r = 0; r < covered_; ++r) {
        if (auto pattern = filled(r, at(stacks, stack - 1).height, price, left_)) {
          add(std::move(*pattern));
        }
      }
    }
  }

  /// @param price of one piece of each sort.
  std::optional<Pattern> filled(int row, Length ceiling, const std::vector<double>& price,
                                const std::vector<int>& supply) {
    Supply offered;
    offered.left = supply;
    offered.pinned.assign(supply.size(), 0);
    for (int s = 0; s < count_of(supply); ++s) {
      offered.price.push_back(at(price, s) / at(job_->worth, s));
      if (at(price, s) <= 0) at(offered.left, s) = 0;
    }
    Row& there = at(rows_, row);
    there.room.clear = ceiling;
    Pattern pattern;
    pattern.filled = fill(*job_, offered, there.room, care_);
    if (pattern.filled.set.empty()) return std::nullopt;
    pattern.row = row;
    pattern.tallest = tallest_of(*job_, pattern.filled);
    pattern.pieces.assign(supply.size(), 0);
    for (const Standing& one : pattern.filled.set) at(pattern.pieces, one.sort) += one.stack;
    return pattern;
  }

  /// Worth more than it costs; filled with care only where a glance comes near to that.
  std::optional<Pattern> gainful(int row, Length ceiling, const std::vector<double>& price) {
    const Care care = care_;
    care_.steps = 0;
    auto pattern = filled(row, ceiling, price, left_);
    care_ = care;
    if (!pattern) return pattern;
    const double near = (kNear - 1) * cost(at(rows_, row), pattern->tallest);
    if (care_.steps > 0 && careful_ > 0 && gain(*pattern, price) > near) {
      --careful_;
      pattern = filled(row, ceiling, price, left_);
    }
    if (pattern && gain(*pattern, price) <= kGain) pattern.reset();
    return pattern;
  }

  void add(Pattern pattern) {
    const bool known = std::any_of(patterns_.begin(), patterns_.end(), [&](const Pattern& other) {
      return other.row == pattern.row && other.pieces == pattern.pieces;
    });
    if (!known) patterns_.push_back(std::move(pattern));
  }

  /// A program over all fillings known, for what is left.
  Cover program() const {
    std::vector<double> needs;
    for (const int n : left_) needs.push_back(n);
    const int sorts = count_of(needs);
    for (const int n : tops_) needs.push_back(-n);
    Cover cover{needs, sorts};
    for (const Pattern& pattern : patterns_) add_to(cover, pattern);
    return cover;
  }

  void add_to(Cover& cover, const Pattern& pattern) const {
    std::vector<double> pieces;
    for (int s = 0; s < count_of(left_); ++s)
      pieces.push_back(std::min(at(pattern.pieces, s), at(left_, s)));
    pieces.resize(pieces.size() + tops_.size(), 0);
    if (at(rows_, pattern.row).open) pieces[left_.size() + column_of(pattern.row)] = -1;
    cover.add(std::move(pieces), cost(at(rows_, pattern.row), pattern.tallest));
  }

  void look_for_more(int rounds) {
    Cover cover = program();
    cover.solve();
    int idle = 0;  // rounds without gain
    for (int round = 0; round < rounds; ++round) {
      const std::vector<double> price = cover.prices();
      bool any = false;
      for (const Length height : heights_) {
        if (!may_gain(round % count_of(rows_), height, price)) continue;
        auto pattern = gainful(round % count_of(rows_), height, price);
        if (!pattern) continue;
        const std::size_t before = patterns_.size();
        add(std::move(*pattern));
        if (patterns_.size() == before) continue;
        add_to(cover, patterns_.back());
        any = true;
      }
      if (any) cover.solve();
      idle = any ? 0 : idle + 1;
      if (idle >= count_of(rows_)) break;
    }
    amounts_ = cover.amounts();
    loads_ = cover.loads();
  }

  /// By ground alone: whether a shelf of stacks no higher than that can be worth what it costs.
  bool may_gain(int r, Length height, const std::vector<double>& price) const {
    const Row& row = at(rows_, r);
    struct Share {
      double rate, ground, worth;
    };
    std::vector<Share> shares;
    for (int s = 0; s < count_of(left_); ++s) {
      const auto& stacks = at(job_->sorts, s).stacks;
      double ground = std::numeric_limits<double>::infinity();
      for (int n = 1; n <= std::min(count_of(stacks), at(left_, s)); ++n) {
        if (at(stacks, n - 1).height > height) continue;
        const double all = ground_used(at(stacks, n - 1).footprint, job_->clearances.gap.mm());
        ground = std::min(ground, all / n);
      }
      if (at(left_, s) == 0 || !std::isfinite(ground)) continue;
      shares.push_back({at(price, s) / ground, ground * at(left_, s), at(price, s) * at(left_, s)});
    }
    std::sort(shares.begin(), shares.end(),
              [](const Share& a, const Share& b) { return a.rate > b.rate; });
    double free = kDense * area(row.site->ground);
    double worth = 0;
    for (const Share& share : shares) {
      const double part = std::min(1.0, free / share.ground);
      worth += part * share.worth;
      free -= part * share.ground;
    }
    return worth > cost(row, height) + rent(r, price) + kGain;
  }

  double gain(const Pattern& pattern, const std::vector<double>& price) const {
    double worth = 0;
    for (int s = 0; s < count_of(left_); ++s) worth += at(price, s) * at(pattern.pieces, s);
    return worth - cost(at(rows_, pattern.row), pattern.tallest) - rent(pattern.row, price);
  }

  /// Which of the columns.
  std::size_t column_of(int row) const { return static_cast<std::size_t>(row % covered_); }

  /// What the top of a column is worth.
  double rent(int row, const std::vector<double>& price) const {
    return at(rows_, row).open ? price[left_.size() + column_of(row)] : 0;
  }

  /// All whole uses of fillings; or else one of that used most.
  bool take_some() {
    bool any = false;
    int most = -1;
    for (int p = 0; p < count_of(patterns_); ++p) {
      for (int n = static_cast<int>(at(amounts_, p) + 1e-6); n > 0; --n) any |= take(p);
      if (most < 0 || at(amounts_, p) > at(amounts_, most) + 1e-9) most = p;
    }
    if (any) return true;
    return most >= 0 && at(amounts_, most) > 1e-9 && take(most);
  }

  /// A shelf filled so, in the column that has least so far; what is no longer there to fill it is
  /// made up for.
  bool take(int p) {
    const Pattern& pattern = at(patterns_, p);
    const bool open = at(rows_, pattern.row).open;
    const int row = emptiest(open);
    if (open && tops_[column_of(row)] == 0) return false;
    const bool whole = covered(pattern.pieces);
    if (whole && row == pattern.row) return put(pattern);
    std::vector<int> supply = left_;
    if (whole) {
      supply = pattern.pieces;
    } else {
      int set = 0;
      for (int s = 0; s < count_of(supply); ++s) {
        set += std::min(at(pattern.pieces, s), at(left_, s));
      }
      if (set == 0) return false;
    }
    std::vector<double> price;  // those of the filling before all others
    for (int s = 0; s < count_of(supply); ++s)
      price.push_back(at(job_->worth, s) * (at(pattern.pieces, s) > 0 ? 1 : 0.3));
    auto other = filled(row, pattern.tallest, price, supply);
    if (other && (!whole || other->pieces == pattern.pieces)) return put(*other);
    return whole && put(pattern);
  }

  /// The column that has most tops left, or least in it so far.
  int emptiest(bool open) const {
    const auto rank = [&](int r) {
      const Row& row = at(rows_, r);
      return std::tuple(open ? -tops_[column_of(r)] : 0, row.used, row.tiers);
    };
    int best = 0;
    for (int r = 1; r < covered_; ++r) {
      if (rank(r) < rank(best)) best = r;
    }
    return open ? covered_ + best : best;
  }

  bool covered(const std::vector<int>& pieces) const {
    for (int s = 0; s < count_of(pieces); ++s) {
      if (at(pieces, s) > at(left_, s)) return false;
    }
    return true;
  }

  bool put(const Pattern& pattern) {
    const Row& filled = at(rows_, pattern.row);
    Row& row = at(rows_, static_cast<int>(column_of(pattern.row)));
    for (int s = 0; s < count_of(left_); ++s) at(left_, s) -= at(pattern.pieces, s);
    ++row.tiers;
    row.used += column_taken(*job_, filled, pattern.tallest);
    if (filled.open) --tops_[column_of(pattern.row)];
    tiers_.push_back({filled.site, pattern.filled, pattern.tallest, filled.open});
    return true;
  }

  const Job* job_;
  Care care_;
  std::uint64_t steps_ = 0;  ///< for a shelf, once it is worth them
  int careful_ = 0;          ///< fillings with so many steps that may still be looked at
  std::function<bool()> stop_;
  std::vector<int> left_;
  std::optional<double> given_;  ///< share of height
  double height_share_ = 0.5;    ///< of what a shelf costs
  double height_ = 0;            ///< mm that a load has, all columns together
  double shelves_ = 0;           ///< that a load has
  std::vector<Row> rows_;        ///< of each column with posts; then the same, open
  int covered_ = 0;              ///< columns
  std::vector<int> tops_;        ///< of each column: open shelves that there may still be
  std::vector<Length> heights_;
  std::vector<Pattern> patterns_;
  std::vector<double> amounts_;
  double loads_ = 0;  ///< that the program needs, fractions allowed
  std::vector<Tier> tiers_;
};

}  // namespace

std::vector<Tier> tiers_by_patterns(const Job& job, const std::vector<int>& left,
                                    const Recipe& recipe, std::optional<double> height_share,
                                    const std::function<bool()>& stop, int fewer_than) {
  return Spreading{job, left, recipe, height_share, stop}.run(fewer_than);
}

}  // namespace placer::loading
