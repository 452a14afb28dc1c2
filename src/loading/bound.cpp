#include "loading/bound.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "loading/by_prices.h"
#include "loading/index.h"
#include "loading/kiln_most.h"

namespace placer::loading {
namespace {

constexpr double kSure = 1e-7;  // rounding never makes a bound too high
constexpr double kLow = 1e-6;   // of a firing

/// The kiln as the argument sees it.
struct Space {
  std::vector<double> columns;  ///< from the underside of the lowest shelf to the lid
  double shelf = 0;             ///< the thinnest one's thickness
  double air = 0;
  int levels = 0;  ///< no load has more, by shelves and posts
  int posts_each = 3;
  double post_length = 0;  ///< of all parts together
  const std::vector<PostHeight>* heights = nullptr;
};

double least_post(const Space& space, double least) {
  for (const PostHeight& posts : *space.heights) {
    if (posts.height.mm() >= least - kSure) return posts.height.mm();
  }
  return std::numeric_limits<double>::infinity();
}

void add_column(const Job& job, const std::vector<Site>& sites, Space& space) {
  const Kiln& kiln = job.batch->kiln;
  bool any = false;
  for (const Site& site : sites) {
    if (!site.trouble.empty() || at(kiln.shelves, site.shelf).have == 0) continue;
    any = true;
    space.shelf = std::min(space.shelf, at(kiln.shelves, site.shelf).thickness.mm());
  }
  const double first = kiln.first_shelf.mm();
  const double under = first <= 0 ? 0 : least_post(space, first);
  if (any && std::isfinite(under)) space.columns.push_back(lid(kiln).mm() - under);
}

Space space_of(const Job& job) {
  const Kiln& kiln = job.batch->kiln;
  Space space;
  space.shelf = std::numeric_limits<double>::infinity();
  space.air = job.clearances.air.mm();
  space.heights = &job.heights;
  space.posts_each = kiln.posts_per_shelf;
  for (const auto& sites : job.columns) add_column(job, sites, space);
  for (const Column& column : kiln.columns) {
    if (!column.posts.empty()) {
      space.posts_each = std::min(space.posts_each, count_of(column.posts));
    }
  }
  int shelves = 0;
  int parts = 0;
  for (const ShelfKind& shelf : kiln.shelves) shelves += shelf.have;
  for (const PostKind& post : kiln.posts) {
    parts += post.have;
    space.post_length += post.have * post.height.mm();
  }
  const int carried = parts / space.posts_each;
  const bool on_floor = kiln.first_shelf <= Length{};
  space.levels = std::min(shelves, on_floor ? carried + count_of(space.columns) : carried);
  return space;
}

/// The most levels for pieces of this height that one load can have.
double most_levels(const Space& space, double height) {
  const double posts = least_post(space, height + space.air);
  double most = 0;
  double tops = 0;
  for (const double column : space.columns) {
    const double rest = column - space.shelf - height + kSure;
    if (rest < 0) continue;
    tops += 1;
    most += 1 + (std::isfinite(posts) ? std::floor(rest / (posts + space.shelf)) : 0);
  }
  const double carried =
      std::floor(space.post_length / (space.posts_each * (height + space.air)) + kSure);
  return std::min({most, static_cast<double>(space.levels), tops + carried});
}

/// Whether `firings` loads have the height for levels as tall as these at least.
bool tall_enough(const Space& space, const std::vector<double>& levels, int firings) {
  double room = 0;
  for (const double column : space.columns) room += firings * column;
  std::vector<double> savings;  // of a level that goes up to the lid
  double used = 0;
  for (const double height : levels) {
    const double posts = least_post(space, height + space.air);
    const double on_top = space.shelf + height;
    if (std::isfinite(posts)) {
      savings.push_back(posts - height);
      used += space.shelf + posts;
    } else {
      savings.push_back(1e9);
      used += on_top + 1e9;
    }
  }
  std::sort(savings.begin(), savings.end(), std::greater<>{});
  const std::size_t tops = static_cast<std::size_t>(firings) * space.columns.size();
  for (std::size_t i = 0; i < std::min(tops, savings.size()); ++i) used -= savings[i];
  return used <= room + kSure * static_cast<double>(levels.size() + 1);
}

/// By the weights: at least so many firings.
int firings_for(const Space& space, const std::vector<Claim>& claims,
                const std::vector<double>& weights) {
  std::vector<double> levels;  // tallest first: at least so tall
  double sum = 0;
  for (std::size_t i = 0; i < claims.size(); ++i) {
    sum += claims[i].count * weights[i];
    while (static_cast<double>(levels.size()) < sum - kSure) levels.push_back(claims[i].height);
  }
  if (levels.empty()) return claims.empty() ? 0 : 1;
  int firings = 1;
  for (std::size_t m = 1; m <= levels.size(); ++m) {
    if (m < levels.size() && levels[m] == levels[m - 1]) continue;
    const double each = most_levels(space, levels[m - 1]);
    if (each < 1) continue;  // then they are left out, and not in the claims
    firings = std::max(firings, static_cast<int>(std::ceil(static_cast<double>(m) / each - kSure)));
  }
  while (firings < count_of(levels) && !tall_enough(space, levels, firings)) ++firings;
  return firings;
}

/// By what may stand in the kiln at once.
int by_mass(const Job& job, const std::vector<Claim>& claims) {
  const double each = most_in_load_kg(job.batch->kiln);
  double all = 0;
  for (const Claim& claim : claims) {
    all += claim.count * at(job.sorts, claim.sort).stacks.front().mass.kg();
  }
  return std::max(1, static_cast<int>(std::ceil(all / each - kLow)));
}

}  // namespace

int fewest_firings(const Job& job, const std::vector<int>& set, int enough, bool brief) {
  const std::vector<Claim> claims = claims_of(job, set);
  if (claims.empty()) return 0;
  const Space space = space_of(job);
  if (space.columns.empty()) return 1;
  KilnLimits kiln{job, claims};
  int most = by_mass(job, claims);
  if (most >= enough) return most;
  for (const Limit& limit : kiln.shelf_limits()) {
    std::vector<double> weights;
    for (const double weight : limit.weight) weights.push_back(weight / limit.top);
    most = std::max(most, firings_for(space, claims, weights));
    if (most >= enough) return most;
  }
  return std::max(most, by_prices(job, kiln, enough, brief));
}

}  // namespace placer::loading
