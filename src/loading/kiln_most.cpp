#include "loading/kiln_most.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "loading/index.h"
#include "loading/squeeze.h"

namespace placer::loading {
namespace {

constexpr double kSure = 1e-7;
constexpr double kLooks = 1.5e6;     // weights looked at for one set of prices
constexpr int kMostDiscs = 6;        // more are not looked into together
constexpr int kProofLooks = 40000;   // for one set of discs
constexpr double kCrowded = 0.55;    // of the ground: less than this goes together, as a rule
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
  std::vector<double> worth;                           ///< [levels]
  std::vector<std::vector<double>> pieces;             ///< [levels][claim]
  std::vector<std::vector<double>> parts;              ///< [levels][post kind]
  std::vector<std::vector<std::vector<int>>> shelves;  ///< [levels][level][claim]
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
    if (column.floor.edge.corners.empty()) continue;
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
    most = std::max(most, column.limits.size());
    columns_.push_back(std::move(column));
  }
  shelves_ = shelves;
  proofs_ = kAllProofs;
  const double each = static_cast<double>(most * std::max<std::size_t>(1, claims_.size()) * 2);
  looks_ = std::clamp(static_cast<int>(kLooks / each / static_cast<double>(most)), 60, 4000);
}

std::vector<Limit> KilnLimits::shelf_limits() const {
  std::vector<Limit> all;
  for (const Column& column : columns_) {
    if (column.like != 0) return {};
  }
  if (!columns_.empty()) all = columns_.front().limits;
  return all;
}

std::vector<KilnLimits::Storey> KilnLimits::storeys(const Column& column,
                                                    const std::vector<double>& price,
                                                    const std::vector<double>& rent) const {
  std::vector<Storey> all;
  for (int k = 0; k < count_of(claims_); ++k) {
    if (k > 0 && at(claims_, k).height == at(claims_, k - 1).height) continue;
    Storey storey;
    storey.first = k;
    storey.height = at(claims_, k).height;
    storey.under = shelf_most(claims_, column.limits, k, price, true, looks_, column.never);
    storey.top = shelf_most(claims_, column.limits, k, price, false, looks_, column.never);
    storey.posts = raises(*job_, storey.height + job_->clearances.air.mm(), column.posts, rent);
    all.push_back(std::move(storey));
  }
  return all;
}

KilnLimits::Stack KilnLimits::stack(const Column& column, const std::vector<double>& price,
                                    const std::vector<double>& rent) const {
  const Kiln& kiln = job_->batch->kiln;
  const std::vector<Storey> all = storeys(column, price, rent);
  std::vector<Raise> floors{{0, 0, nullptr}};
  if (kiln.first_shelf.mm() > 0) floors = raises(*job_, kiln.first_shelf.mm(), column.posts, rent);
  Stack stack;
  const std::vector<double> none(claims_.size(), 0);
  const std::vector<double> no_parts(kiln.posts.size(), 0);
  stack.worth = {0};
  stack.pieces = {none};
  stack.parts = {no_parts};
  stack.shelves = {{}};
  if (floors.empty() || all.empty()) return stack;
  const double room = lid(kiln).mm() - floors.front().height + kSure;
  if (room <= 0) return stack;
  const int top = static_cast<int>(room);  // whole mm: what each level takes is rounded down
  struct Choice {
    int storey = -1;
    int raise = 0;
  };
  const std::size_t rows = static_cast<std::size_t>(top) + 1;
  std::vector<std::vector<double>> best{std::vector<double>(rows, 0)};
  std::vector<std::vector<Choice>> choice{std::vector<Choice>(rows)};
  const auto taken = [&](const Storey& storey, const Raise& raise) {
    (void)storey;
    return static_cast<int>(column.shelf + raise.height + kSure);
  };
  for (int levels = 1; levels <= shelves_; ++levels) {
    // The top level: the column ends here.
    double worth = kNever;
    int top_storey = -1;
    int top_left = 0;
    const Raise* floor = nullptr;
    for (int i = 0; i < count_of(all); ++i) {
      const int left_above = static_cast<int>(column.shelf + at(all, i).height);
      for (const Raise& raise : floors) {
        const int left = static_cast<int>(lid(kiln).mm() - raise.height + kSure) - left_above;
        if (left < 0) continue;
        const double value =
            best.back()[static_cast<std::size_t>(left)] + at(all, i).top.worth - raise.rent;
        if (value > worth) {
          worth = value;
          top_storey = i;
          top_left = left;
          floor = &raise;
        }
      }
    }
    if (top_storey < 0) break;
    stack.worth.push_back(worth);
    std::vector<double> pieces = none;
    std::vector<double> parts = no_parts;
    std::vector<std::vector<int>> shelves;
    const auto add = [&](const ShelfMost& shelf) {
      shelves.push_back(shelf.pieces);
      for (std::size_t k = 0; k < pieces.size(); ++k) pieces[k] += shelf.pieces[k];
    };
    const auto use = [&](const Raise& raise) {
      if (raise.parts == nullptr) return;
      for (const int part : *raise.parts) at(parts, part) += column.posts;
    };
    add(at(all, top_storey).top);
    if (floor->parts != nullptr) use(*floor);
    int left = top_left;
    for (int l = levels - 1; l > 0;) {
      const Choice& chosen = at(at(choice, l), left);
      if (chosen.storey < 0) {  // best was found with less room
        --left;
        continue;
      }
      const Storey& storey = at(all, chosen.storey);
      add(storey.under);
      use(at(storey.posts, chosen.raise));
      left -= taken(storey, at(storey.posts, chosen.raise));
      --l;
    }
    stack.pieces.push_back(std::move(pieces));
    stack.parts.push_back(std::move(parts));
    stack.shelves.push_back(std::move(shelves));
    // One level more that carries posts.
    std::vector<double> next(rows, kNever);
    std::vector<Choice> how(rows);
    for (int i = 0; i < count_of(all); ++i) {
      const Storey& storey = at(all, i);
      for (int p = 0; p < count_of(storey.posts); ++p) {
        const int takes = taken(storey, at(storey.posts, p));
        const double gain = storey.under.worth - at(storey.posts, p).rent;
        for (int r = takes; r <= top; ++r) {
          const double value = best.back()[static_cast<std::size_t>(r - takes)] + gain;
          if (value > next[static_cast<std::size_t>(r)]) {
            next[static_cast<std::size_t>(r)] = value;
            how[static_cast<std::size_t>(r)] = {i, p};
          }
        }
      }
    }
    for (int r = 1; r <= top; ++r) {
      const auto i = static_cast<std::size_t>(r);
      if (next[i - 1] >= next[i]) {
        next[i] = next[i - 1];
        how[i] = {};
      }
    }
    best.push_back(std::move(next));
    choice.push_back(std::move(how));
  }
  return stack;
}

KilnMost KilnLimits::most(const std::vector<double>& price, const std::vector<double>& rent) const {
  const Kiln& kiln = job_->batch->kiln;
  std::vector<Stack> stacks;
  for (int c = 0; c < count_of(columns_); ++c) {
    const Column& column = at(columns_, c);
    stacks.push_back(column.like < c ? at(stacks, column.like) : stack(column, price, rent));
  }
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
    for (const auto& shelf : at(stacks[c].shelves, levels))
      most.shelves.push_back({columns_[c].like, shelf});
  }
  for (std::size_t p = 0; p < most.posts.size(); ++p) most.worth += rent[p] * kiln.posts[p].have;
  return most;
}

bool KilnLimits::rule_out(const KilnMost& load) {
  if (proofs_ <= 0) return false;
  bool any = false;
  for (const ShelfSet& shelf : load.shelves) {
    Column& column = at(columns_, shelf.column);
    std::vector<double> radii;
    for (int k = 0; k < count_of(claims_); ++k) {
      const int n = at(shelf.pieces, k);
      if (n > 0)
        radii.insert(radii.end(), static_cast<std::size_t>(places_of(at(claims_, k), n)),
                     disc_of(at(claims_, k)));
    }
    std::sort(radii.begin(), radii.end(), std::greater<>{});
    for (int n = 2; n <= std::min(kMostDiscs, count_of(radii)) && proofs_ > 0; ++n) {
      Never set(radii.begin(), radii.begin() + n);
      double covered = 0;
      for (const double r : set) covered += 3.14159 * r * r;
      if (covered < kCrowded * column.floor.area) continue;
      const auto place = std::lower_bound(column.asked.begin(), column.asked.end(), set);
      if (place != column.asked.end() && *place == set) continue;
      column.asked.insert(place, set);
      const int looks = std::min(proofs_, kProofLooks);
      int left = looks;
      const bool never = cannot_lie(column.floor, set, left);
      proofs_ -= looks - std::max(0, left);
      if (!never) continue;
      column.never.push_back(std::move(set));
      any = true;
      break;
    }
  }
  return any;
}

}  // namespace placer::loading
