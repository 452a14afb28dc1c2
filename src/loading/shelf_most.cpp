#include "loading/shelf_most.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "loading/index.h"

namespace placer::loading {
namespace {

constexpr double kSure = 1e-9;

bool any_never(const std::vector<Claim>& claims, const std::vector<Never>& never,
               const std::vector<int>& pieces) {
  return std::any_of(never.begin(), never.end(), [&](const Never& set) {
    for (int i = 0; i < count_of(set); ++i) {
      int places = 0;
      for (int k = 0; k < count_of(claims); ++k) {
        if (at(pieces, k) > 0 && disc_of(at(claims, k)) >= at(set, i))
          places += places_of(at(claims, k), at(pieces, k));
      }
      if (places <= i) return false;
    }
    return true;
  });
}

/// Numbers of each claim tried from the most downwards, the dearest for its room first.
class Tree {
 public:
  Tree(const std::vector<Claim>& claims, const std::vector<Limit>& limits, int first,
       const std::vector<double>& price, bool posts, int looks, const std::vector<Never>& never)
      : claims_{&claims}, limits_{&limits}, never_{&never}, looks_{looks} {
    for (const Limit& limit : limits) room_.push_back(posts ? limit.under : limit.top);
    for (int k = first; k < count_of(claims); ++k) {
      if (at(price, k) > 0) order_.push_back(k);
    }
    price_ = price;
    sort_by_room();
    look_ahead();
    now_.assign(claims.size(), 0);
    best_.pieces = now_;
  }

  ShelfMost run() {
    go(0, 0);
    best_.worth = std::max(best_.worth, left_open_) * (1 + kSure);
    return std::move(best_);
  }

 private:
  double weight(int limit, int k) const { return at(at(*limits_, limit).weight, k); }

  /// Share of the shelf that one piece takes at least.
  double part(int k) const {
    double part = 1e-9;
    for (int l = 0; l < count_of(*limits_); ++l) {
      if (at(room_, l) > 0) part = std::max(part, weight(l, k) / at(room_, l));
    }
    return part;
  }

  void sort_by_room() {
    std::vector<double> worth(claims_->size());
    for (const int k : order_) at(worth, k) = at(price_, k) / part(k);
    std::stable_sort(order_.begin(), order_.end(),
                     [&](int a, int b) { return at(worth, a) > at(worth, b); });
  }

  /// Of the claims from each place on: the most worth for room of each limit, and of all there are.
  void look_ahead() {
    const std::size_t n = order_.size();
    rate_.assign(limits_->size(), std::vector<double>(n + 1, 0));
    all_.assign(n + 1, 0);
    for (std::size_t i = n; i-- > 0;) {
      const int k = order_[i];
      all_[i] = all_[i + 1] + at(price_, k) * at(*claims_, k).count;
      for (int l = 0; l < count_of(*limits_); ++l) {
        const double w = weight(l, k);
        const double rate = w > 0 ? at(price_, k) / w : std::numeric_limits<double>::infinity();
        at(rate_, l)[i] = std::max(at(rate_, l)[i + 1], rate);
      }
    }
  }

  double may_add(std::size_t i) const {
    double most = all_[i];
    for (int l = 0; l < count_of(*limits_); ++l) {
      const double rate = at(rate_, l)[i];
      if (std::isfinite(rate)) most = std::min(most, std::max(0.0, at(room_, l)) * rate);
    }
    return most;
  }

  int most_of(int k) const {
    double most = at(*claims_, k).count;
    for (int l = 0; l < count_of(*limits_); ++l) {
      if (weight(l, k) > 0) most = std::min(most, at(room_, l) / weight(l, k) + 1e-7);
    }
    return std::max(0, static_cast<int>(most));
  }

  /// Whether discs that never stand on one shelf do so now.
  bool forbidden() const { return any_never(*claims_, *never_, now_); }

  void put(int k, int n) {
    for (int l = 0; l < count_of(*limits_); ++l) at(room_, l) -= n * weight(l, k);
    at(now_, k) += n;
  }

  void go(std::size_t i, double worth) {
    if (worth > best_.worth) {
      best_.worth = worth;
      best_.pieces = now_;
    }
    if (i == order_.size()) return;
    const double might = worth + may_add(i);
    if (might <= best_.worth * (1 + kSure)) return;
    if (looks_-- <= 0) {
      left_open_ = std::max(left_open_, might);
      return;
    }
    const int k = order_[i];
    const int most = most_of(k);
    put(k, most);
    for (int n = most;; --n) {
      if (n == 0 || !forbidden()) go(i + 1, worth + n * at(price_, k));
      if (n == 0) break;
      put(k, -1);
    }
  }

  const std::vector<Claim>* claims_;
  const std::vector<Limit>* limits_;
  const std::vector<Never>* never_;
  int looks_;
  std::vector<double> room_;  ///< left of each limit
  std::vector<double> price_;
  std::vector<int> order_;
  std::vector<std::vector<double>> rate_;
  std::vector<double> all_;
  std::vector<int> now_;
  ShelfMost best_;
  double left_open_ = 0;
};

}  // namespace

ShelfMost shelf_most(const std::vector<Claim>& claims, const std::vector<Limit>& limits, int first,
                     const std::vector<double>& price, bool posts, int looks,
                     const std::vector<Never>& never) {
  return Tree{claims, limits, first, price, posts, looks, never}.run();
}

bool keeps(const std::vector<Claim>& claims, const std::vector<Limit>& limits,
           const std::vector<Never>& never, const std::vector<int>& pieces, bool posts) {
  const bool within = std::all_of(limits.begin(), limits.end(), [&](const Limit& limit) {
    double sum = 0;
    for (int k = 0; k < count_of(claims); ++k) sum += at(limit.weight, k) * at(pieces, k);
    return sum <= (posts ? limit.under : limit.top) * (1 + kSure);
  });
  return within && !any_never(claims, never, pieces);
}

double disc_of(const Claim& claim) {
  double least = std::numeric_limits<double>::infinity();
  for (const Form& form : claim.forms) least = std::min(least, form.disc);
  return least;
}

int places_of(const Claim& claim, int pieces) {
  int most = 1;
  for (const Form& form : claim.forms) most = std::max(most, form.pieces);
  return (pieces + most - 1) / most;
}

}  // namespace placer::loading
