#include "loading/kiln_most.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "loading/index.h"

namespace placer::loading {
namespace {

constexpr double kSure = 1e-7;
constexpr double kLooks = 1.5e6;     // weights looked at for one set of prices
constexpr int kAllProofs = 1000000;  // for all of them
constexpr double kNever = -std::numeric_limits<double>::infinity();

/// Posts of a height, the cheapest way.
struct Raise {
  double height = 0;
  double rent = 0;
  const Parts* parts = nullptr;
};

/// Posts at least so high; longer ones only where they are cheaper.
std::vector<Raise> raises(const Job& job, double least, int posts,
                          const std::vector<double>& rent) {
  std::vector<Raise> all;
  for (const PostHeight& height : job.heights) {
    if (height.height.mm() < least - kSure) continue;
    Raise best;
    for (const Parts& parts : height.ways) {
      double sum = 0;
      for (const int part : parts) sum += posts * at(rent, part);
      if (best.parts == nullptr || sum < best.rent) best = {height.height.mm(), sum, &parts};
    }
    if (best.parts == nullptr || (!all.empty() && best.rent >= all.back().rent)) continue;
    all.push_back(best);
    if (best.rent <= 0) break;
  }
  return all;
}

}  // namespace

/// A level that pieces of one height and lower stand on.
struct KilnLimits::Storey {
  int first = 0;             ///< claims before it are too tall
  ShelfMost under, top;      ///< with posts on it, and without
  std::vector<Raise> posts;  ///< that carry the next
  double height = 0;
};

/// The best that a column is worth by its number of levels.
struct KilnLimits::Stack {
  std::vector<double> worth;                   ///< [levels]
  std::vector<std::vector<double>> pieces;     ///< [levels][claim]
  std::vector<std::vector<double>> parts;      ///< [levels][post kind]
  std::vector<std::vector<ShelfSet>> shelves;  ///< [levels][level]
};

KilnLimits::KilnLimits(const Job& job, std::vector<Claim> claims)
    : job_{&job}, claims_{std::move(claims)} {
  const Kiln& kiln = job.batch->kiln;
  int shelves = 0;
  for (const ShelfKind& shelf : kiln.shelves) shelves += shelf.have;
  std::size_t most = 1;
  for (int c = 0; c < count_of(job.columns); ++c) {
    Column column;
    column.floor = floor_for(job, c, claims_);
    places_.push_back(-1);
    if (column.floor.edge.corners.empty()) continue;
    places_.back() = count_of(columns_);
    column.limits = limits_of(job, c, column.floor, claims_);
    column.posts = std::max(1, posts_each(job, c));
    column.shelf = std::numeric_limits<double>::infinity();
    for (const Site& site : at(job.columns, c)) {
      if (!site.trouble.empty() || at(kiln.shelves, site.shelf).have == 0) continue;
      column.shelf = std::min(column.shelf, at(kiln.shelves, site.shelf).thickness.mm());
    }
    column.like = count_of(columns_);
    for (int i = 0; i < count_of(columns_); ++i) {
      const Column& other = at(columns_, i);
      if (other.shelf != column.shelf || other.posts != column.posts) continue;
      const auto same = [](const Limit& a, const Limit& b) {
        const double slip = 1e-9 * (std::abs(a.top) + 1);
        return std::abs(a.under - b.under) <= slip && std::abs(a.top - b.top) <= slip;
      };
      if (std::equal(column.limits.begin(), column.limits.end(), other.limits.begin(),
                     other.limits.end(), same)) {
        // Columns that differ by rounding share the larger of each limit.
        for (std::size_t l = 0; l < column.limits.size(); ++l) {
          Limit& shared = at(columns_, i).limits[l];
          for (std::size_t k = 0; k < shared.weight.size(); ++k) {
            shared.weight[k] = std::min(shared.weight[k], column.limits[l].weight[k]);
          }
          shared.under = std::max(shared.under, column.limits[l].under);
          shared.top = std::max(shared.top, column.limits[l].top);
        }
        column.like = i;
        break;
      }
    }
    column.most = shelves;
    columns_.push_back(std::move(column));
  }
  add_bridges();
  for (const Column& column : columns_) most = std::max(most, column.limits.size());
  shelves_ = shelves;
  proofs_ = kAllProofs;
  const double each = static_cast<double>(most * std::max<std::size_t>(1, claims_.size()) * 2);
  looks_ = std::clamp(static_cast<int>(kLooks / each / static_cast<double>(most)), 60, 4000);
}

bool KilnLimits::look_further() {
  if (further_ <= 0) return false;
  --further_;
  looks_ *= 4;
  return true;
}

std::vector<Limit> KilnLimits::shelf_limits() const {
  std::vector<Limit> all;
  if (bridges_ > 0) return all;
  for (const Column& column : columns_) {
    if (column.like != 0) return {};
  }
  if (!columns_.empty()) all = columns_.front().limits;
  return all;
}

std::vector<KilnLimits::Storey> KilnLimits::storeys(const Column& column,
                                                    const std::vector<double>& price,
                                                    const std::vector<double>& rent,
                                                    const std::vector<double>& bonus) const {
  std::vector<Storey> all;
  std::vector<double> own = price;
  for (int k = 0; k < count_of(column.barred); ++k) {
    if (at(column.barred, k) != 0) at(own, k) = 0;
  }
  for (int k = 0; k < count_of(claims_); ++k) {
    if (k > 0 && at(claims_, k).height == at(claims_, k - 1).height) continue;
    Storey storey;
    storey.first = k;
    storey.height = at(claims_, k).height;
    storey.under = shelf_most(claims_, column.limits, k, own, true, looks_, column.never);
    storey.top = shelf_most(claims_, column.limits, k, own, false, looks_, column.never);
    if (!bonus.empty()) {
      storey.under.worth += at(bonus, k);
      storey.top.worth += at(bonus, k);
    }
    storey.posts = raises(*job_, storey.height + job_->clearances.air.mm(), column.posts, rent);
    all.push_back(std::move(storey));
  }
  return all;
}

/// A column that grows level by level: the best of so many levels that carry posts, by the height
/// that they have together.
class KilnLimits::Growth {
 public:
  Growth(const KilnLimits& limits, const Column& column, std::vector<Storey> storeys,
         std::vector<Raise> floors, double taken)
      : limits_{&limits},
        column_{&column},
        lid_{lid(limits.job_->batch->kiln).mm() - taken},
        storeys_{std::move(storeys)},
        floors_{std::move(floors)} {}

  Stack run() {
    Stack stack;
    stack.worth = {0};
    stack.pieces = {std::vector<double>(limits_->claims_.size(), 0)};
    stack.parts = {std::vector<double>(limits_->job_->batch->kiln.posts.size(), 0)};
    stack.shelves = {{}};
    if (floors_.empty() || storeys_.empty()) return stack;
    const double room = lid_ - floors_.front().height + kSure;
    if (room <= 0) return stack;
    // Whole mm: what each level takes is rounded down.
    const auto rows = static_cast<std::size_t>(room) + 1;
    best_.assign(1, std::vector<double>(rows, 0));
    choice_.assign(1, std::vector<Choice>(rows));
    for (int levels = 1; levels <= column_->most; ++levels) {
      const Top top = best_top();
      if (top.storey < 0) break;
      add(top, levels, stack);
      grow();
    }
    return stack;
  }

 private:
  struct Choice {
    int storey = -1;
    int raise = 0;
  };
  struct Top {
    int storey = -1;
    int left = 0;  ///< mm for what is under it
    const Raise* floor = nullptr;
    double worth = kNever;
  };

  int takes(const Raise& raise) const {
    return static_cast<int>(column_->shelf + raise.height + kSure);
  }

  /// The top level over the levels so far: it goes up to the lid.
  Top best_top() const {
    Top best;
    for (int i = 0; i < count_of(storeys_); ++i) {
      const int on_top = static_cast<int>(column_->shelf + at(storeys_, i).height);
      for (const Raise& floor : floors_) {
        const int left = static_cast<int>(lid_ - floor.height + kSure) - on_top;
        if (left < 0) continue;
        const double worth = at(best_.back(), left) + at(storeys_, i).top.worth - floor.rent;
        if (worth > best.worth) best = {i, left, &floor, worth};
      }
    }
    return best;
  }

  /// What the column then holds and uses.
  void add(const Top& top, int levels, Stack& stack) const {
    std::vector<double> pieces = stack.pieces.front();
    std::vector<double> parts = stack.parts.front();
    std::vector<ShelfSet> shelves;
    const auto set = [&](const Storey& storey, const ShelfMost& shelf) {
      shelves.push_back({0, shelf.pieces, storey.first, shelves.empty()});
      for (std::size_t k = 0; k < pieces.size(); ++k) pieces[k] += shelf.pieces[k];
    };
    const auto use = [&](const Raise& raise) {
      if (raise.parts == nullptr) return;
      for (const int part : *raise.parts) at(parts, part) += column_->posts;
    };
    set(at(storeys_, top.storey), at(storeys_, top.storey).top);
    use(*top.floor);
    int left = top.left;
    for (int l = levels - 1; l > 0;) {
      const Choice& chosen = at(at(choice_, l), left);
      if (chosen.storey < 0) {  // the best was found with less room
        --left;
        continue;
      }
      const Storey& storey = at(storeys_, chosen.storey);
      set(storey, storey.under);
      use(at(storey.posts, chosen.raise));
      left -= takes(at(storey.posts, chosen.raise));
      --l;
    }
    stack.worth.push_back(top.worth);
    stack.pieces.push_back(std::move(pieces));
    stack.parts.push_back(std::move(parts));
    stack.shelves.push_back(std::move(shelves));
  }

  /// One level more that carries posts.
  void grow() {
    const int rows = count_of(best_.back());
    std::vector<double> next(best_.back().size(), kNever);
    std::vector<Choice> how(next.size());
    for (int i = 0; i < count_of(storeys_); ++i) {
      const Storey& storey = at(storeys_, i);
      for (int p = 0; p < count_of(storey.posts); ++p) {
        const int taken = takes(at(storey.posts, p));
        const double gain = storey.under.worth - at(storey.posts, p).rent;
        for (int r = taken; r < rows; ++r) {
          const double value = at(best_.back(), r - taken) + gain;
          if (value <= at(next, r)) continue;
          at(next, r) = value;
          at(how, r) = {i, p};
        }
      }
    }
    for (int r = 1; r < rows; ++r) {
      if (at(next, r - 1) < at(next, r)) continue;
      at(next, r) = at(next, r - 1);
      at(how, r) = {};
    }
    best_.push_back(std::move(next));
    choice_.push_back(std::move(how));
  }

  const KilnLimits* limits_;
  const Column* column_;
  double lid_;
  std::vector<Storey> storeys_;
  std::vector<Raise> floors_;
  std::vector<std::vector<double>> best_;    ///< [levels][mm]
  std::vector<std::vector<Choice>> choice_;  ///< of the level last added
};

KilnLimits::Stack KilnLimits::stack(const Column& column, std::vector<Storey> storeys,
                                    const std::vector<double>& rent, double taken) const {
  const Kiln& kiln = job_->batch->kiln;
  std::vector<Raise> floors{{0, 0, nullptr}};
  if (kiln.first_shelf.mm() > 0) floors = raises(*job_, kiln.first_shelf.mm(), column.posts, rent);
  return Growth{*this, column, std::move(storeys), std::move(floors), taken}.run();
}

KilnMost KilnLimits::most(const std::vector<double>& price, const std::vector<double>& rent,
                          const std::vector<double>& bonus) const {
  std::vector<std::vector<Storey>> storeys_of(columns_.size());
  for (int c = 0; c < count_of(columns_); ++c) {
    if (at(columns_, c).like == c) at(storeys_of, c) = storeys(at(columns_, c), price, rent, bonus);
  }
  const double taken = taken_by_bridge();
  // So many bridges: one that takes height takes it in the columns that it lies over.
  const int most_bridges = taken > 0 ? std::min(columns_.back().most, shelves_) : 0;
  KilnMost best;
  for (int bridges = 0; bridges <= most_bridges; ++bridges) {
    std::vector<Stack> stacks;
    for (int c = 0; c < count_of(columns_); ++c) {
      const Column& column = at(columns_, c);
      const bool under =
          taken > 0 && std::count(columns_.back().over.begin(), columns_.back().over.end(), c) > 0;
      const double less = under ? bridges * taken : 0;
      // Columns alike stay so unless the bridge lies over only some of them.
      const bool same = column.like < c && (bridges == 0 || alike_under(column.like, c));
      stacks.push_back(same ? at(stacks, column.like)
                            : stack(column, at(storeys_of, column.like), rent, less));
    }
    if (taken > 0) keep_first(stacks.back(), bridges);
    KilnMost most = best_of(stacks, rent);
    if (bridges == 0 || most.worth > best.worth) best = std::move(most);
  }
  return best;
}

/// No more levels than so many.
void KilnLimits::keep_first(Stack& stack, int levels) {
  const auto all = static_cast<std::size_t>(levels) + 1;
  if (stack.worth.size() <= all) return;
  stack.worth.resize(all);
  stack.pieces.resize(all);
  stack.parts.resize(all);
  stack.shelves.resize(all);
}

KilnMost KilnLimits::best_of(const std::vector<Stack>& stacks,
                             const std::vector<double>& rent) const {
  const Kiln& kiln = job_->batch->kiln;
  // [levels so far] -> the best of the columns so far, and how many levels each has.
  std::vector<double> worth(static_cast<std::size_t>(shelves_) + 1, kNever);
  worth[0] = 0;
  std::vector<std::vector<int>> how(worth.size());
  for (const Stack& stack : stacks) {
    std::vector<double> next(worth.size(), kNever);
    std::vector<std::vector<int>> next_how(worth.size());
    for (int before = 0; before <= shelves_; ++before) {
      if (at(worth, before) == kNever) continue;
      for (int m = 0; m < count_of(stack.worth) && before + m <= shelves_; ++m) {
        const double value = at(worth, before) + at(stack.worth, m);
        if (value <= at(next, before + m)) continue;
        at(next, before + m) = value;
        at(next_how, before + m) = at(how, before);
        at(next_how, before + m).push_back(m);
      }
    }
    worth = std::move(next);
    how = std::move(next_how);
  }
  const auto best = std::max_element(worth.begin(), worth.end()) - worth.begin();
  KilnMost most;
  most.worth = worth[static_cast<std::size_t>(best)];
  most.pieces.assign(claims_.size(), 0);
  most.posts.assign(kiln.posts.size(), 0);
  for (std::size_t c = 0; c < stacks.size(); ++c) {
    const int levels = how[static_cast<std::size_t>(best)][c];
    for (std::size_t k = 0; k < claims_.size(); ++k)
      most.pieces[k] += at(stacks[c].pieces, levels)[k];
    for (std::size_t p = 0; p < most.posts.size(); ++p)
      most.posts[p] += at(stacks[c].parts, levels)[p];
    for (ShelfSet shelf : at(stacks[c].shelves, levels)) {
      shelf.column = columns_[c].like;
      most.shelves.push_back(std::move(shelf));
    }
  }
  for (std::size_t p = 0; p < most.posts.size(); ++p) most.worth += rent[p] * kiln.posts[p].have;
  return most;
}

}  // namespace placer::loading
