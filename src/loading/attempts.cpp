#include "loading/attempts.h"

#include <algorithm>
#include <limits>
#include <tuple>

#include "loading/even.h"
#include "loading/index.h"
#include "loading/sets.h"

namespace placer::loading {
namespace {

/// The sort that stands there.
int sort_of(const Job& job, const PlacedPiece& piece) {
  const std::vector<int> kinds = kinds_of(piece);
  const bool pair = kinds.size() > 1 && kinds[1] != kinds[0];
  for (int s = 0; s < count_of(job.sorts); ++s) {
    const Sort& sort = at(job.sorts, s);
    if (sort.piece() == piece.piece && (sort.kinds.size() > 1) == pair) return s;
  }
  return 0;
}

double worth_on(const Job& job, const KilnLoad& load) {
  double worth = 0;
  for (const Level& level : load.levels) {
    for (const PlacedPiece& piece : level.pieces) {
      const int s = sort_of(job, piece);
      worth += at(job.worth, s) * count_of(kinds_of(piece)) / count_of(at(job.sorts, s).kinds);
    }
  }
  return worth;
}

Attempt none(const std::vector<int>& left) {
  Attempt attempt;
  attempt.left = left;
  attempt.unset = std::numeric_limits<double>::infinity();
  return attempt;
}

}  // namespace

Attempt attempt_by_loads(const Job& job, const std::vector<int>& left, const Kept& kept,
                         const Recipe& recipe, const std::function<bool()>& stop) {
  Attempt attempt;
  Supply supply;
  supply.left = left;
  supply.price = recipe.price;
  for (const Sort& sort : job.sorts) supply.pinned.push_back(sort.wishes.pinned ? 1 : 0);
  const auto more = [&] {
    return std::any_of(supply.left.begin(), supply.left.end(), [](int n) { return n > 0; });
  };
  for (int round = 1; more(); ++round) {
    if (stop && stop()) return none(left);
    const double before = worth_of(job, supply.left);
    KilnLoad load = set_load_of_sets(job, recipe, round, round == 1 ? kept : Kept{}, supply);
    if (load.levels.empty()) break;
    attempt.last = before - worth_of(job, supply.left);
    attempt.shelves += count_of(load.levels);
    attempt.uneven += unevenness(job, load);
    attempt.loads.push_back(std::move(load));
  }
  attempt.left = supply.left;
  attempt.unset = worth_of(job, supply.left);
  return attempt;
}

Attempt attempt_of(const Job& job, const std::vector<int>& left, std::vector<KilnLoad> loads) {
  if (loads.empty()) return none(left);
  Attempt attempt;
  attempt.left.assign(left.size(), 0);
  for (const KilnLoad& load : loads) {
    attempt.shelves += count_of(load.levels);
    attempt.uneven += unevenness(job, load);
  }
  attempt.last = worth_on(job, loads.back());
  attempt.loads = std::move(loads);
  return attempt;
}

Attempt attempt_by_shelves(const Job& job, const std::vector<int>& left,
                           const std::vector<Tier>& tiers, int fewest, int enough,
                           const std::function<bool()>& stop) {
  if (tiers.empty()) return none(left);
  for (int most = fewest; most <= enough; ++most) {
    if (stop && stop()) break;
    auto loads = stow(job, tiers, most);
    if (!loads) continue;
    return attempt_of(job, left, std::move(*loads));
  }
  return none(left);
}

bool better(const Attempt& a, const Attempt& b) {
  const auto rank = [](const Attempt& x) {
    return std::tuple(x.unset, count_of(x.loads), x.shelves + x.uneven / 2, x.uneven, x.last);
  };
  return rank(a) < rank(b);
}

}  // namespace placer::loading
