#include "placer/packing/packing.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "packing/bodies.h"
#include "packing/equal.h"
#include "packing/many.h"
#include "packing/mixed.h"
#include "packing/rows.h"

namespace placer::packing {

namespace {

std::vector<Kind> kinds_of(const std::vector<Item>& items) {
  std::vector<Kind> kinds;
  for (const Item& item : items) kinds.push_back(kind_of(item));
  return kinds;
}

Budget budget_of(const Options& options) {
  Budget budget;
  switch (options.effort) {
    case Effort::glance:
      budget.steps = 1'000'000;
      break;
    case Effort::quick:
      budget.steps = 130'000'000;
      break;
    case Effort::normal:
      budget.steps = 750'000'000;
      break;
    case Effort::thorough:
      budget.steps = 8'000'000'000;
      break;
  }
  if (options.steps > 0) budget.steps = options.steps;
  budget.seed = options.seed;
  budget.threads = options.threads;
  budget.stop = options.stop;
  return budget;
}

std::string pattern_of(const std::vector<int>& rows) {
  if (rows.empty()) return "";
  const auto text = [](std::size_t v) { return std::to_string(v); };
  const bool same = std::all_of(rows.begin(), rows.end(), [&](int n) { return n == rows[0]; });
  if (same) return text(rows.size()) + " rows of " + std::to_string(rows[0]);
  std::string all = "rows of ";
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (i > 0) all += i + 1 == rows.size() ? " and " : ", ";
    all += std::to_string(rows[i]);
  }
  return all;
}

/// The places as given out, with the least gap measured afresh by geometry.
Packing finished(const Problem& problem, const std::vector<Kind>& kinds,
                 const std::vector<Pose>& poses) {
  Packing packing;
  packing.least_gap = std::numeric_limits<double>::infinity();
  std::vector<Footprint> set;
  for (const Pose& pose : poses) {
    const Kind& kind = kinds[static_cast<std::size_t>(pose.kind)];
    packing.places.push_back(place_of(kind, pose));
    packing.value += kind.value;
    const Item& item = problem.items[static_cast<std::size_t>(pose.kind)];
    set.push_back(placed(item.shape, packing.places.back().at));
  }
  for (std::size_t i = 0; i < set.size(); ++i) {
    const double halo = kinds[static_cast<std::size_t>(poses[i].kind)].halo;
    double least = std::min(inset(set[i], problem.region) - problem.edge_gap,
                            keep_out_gap(set[i], problem.region) - problem.gap - halo);
    for (std::size_t j = 0; j < i; ++j) {
      const double other = kinds[static_cast<std::size_t>(poses[j].kind)].halo;
      least = std::min(least, gap(set[i], set[j]) - problem.gap - halo - other);
    }
    packing.least_gap = std::min(packing.least_gap, least);
  }
  return packing;
}

}  // namespace

namespace {

/// Those of the caller's own places that can stand, each piece within its count.
std::vector<Pose> standing_of(const std::vector<Kind>& kinds, const Scene& scene,
                              const std::vector<Place>& start) {
  Standing standing{kinds, scene};
  std::vector<int> used(kinds.size());
  for (const Place& place : start) {
    if (place.item < 0 || static_cast<std::size_t>(place.item) >= kinds.size()) {
      throw std::invalid_argument{"a place to start from names piece " +
                                  std::to_string(place.item) + ": there is none"};
    }
    const auto k = static_cast<std::size_t>(place.item);
    const Pose pose = pose_of(kinds[k], place);
    if (used[k] >= kinds[k].count || !standing.free_for(pose)) continue;
    standing.add(pose);
    ++used[k];
  }
  return standing.poses();
}

void check_one_kind(const Problem& problem, const std::string& asked) {
  if (problem.items.size() == 1) return;
  throw std::invalid_argument{asked + " takes one kind of piece, not " +
                              std::to_string(problem.items.size())};
}

}  // namespace

Packing in_rows(const Problem& problem) {
  check_one_kind(problem, "in_rows");
  const std::vector<Kind> kinds = kinds_of(problem.items);
  const Found rows = best_rows(kinds[0], scene_of(problem), 0, kinds[0].count);
  Packing packing = finished(problem, kinds, rows.poses);
  packing.orderly = rows.orderly;
  packing.pattern = pattern_of(rows.rows);
  return packing;
}

Packing most_pieces(const Problem& problem, const Options& options) {
  Packing packing = in_rows(problem);
  const std::vector<Kind> kinds = kinds_of(problem.items);
  const Scene scene = scene_of(problem);
  std::vector<Pose> seed = standing_of(kinds, scene, options.start);
  if (seed.size() < packing.places.size()) {
    seed.clear();
    for (const Place& place : packing.places) seed.push_back(pose_of(kinds[0], place));
  }
  const std::vector<Pose> more =
      more_pieces(kinds, scene, seed, most_possible(problem), budget_of(options));
  return more.size() > packing.places.size() ? finished(problem, kinds, more) : packing;
}

Packing most_value(const Problem& problem, const Options& options) {
  const std::vector<Kind> kinds = kinds_of(problem.items);
  const Scene scene = scene_of(problem);
  std::vector<Pose> seed = standing_of(kinds, scene, options.start);
  const std::vector<Pose> plain = plain_fill(kinds, scene);
  if (value_of(kinds, plain) > value_of(kinds, seed)) seed = plain;
  return finished(problem, kinds, more_value(kinds, scene, seed, budget_of(options)));
}

namespace {

/// Steps for many regions grow with the pieces: 1.7, 4.3 and 50 ms a piece, the last two less for
/// thousands.
std::uint64_t steps_for(Effort effort, int pieces) {
  const auto n = static_cast<std::uint64_t>(pieces);
  switch (effort) {
    case Effort::glance:
      return 100'000 * n;
    case Effort::quick:
      return 1'700'000 * n;
    case Effort::normal:
      return std::min(4'300'000 * n, 2'000'000 * n + 2'300'000'000);
    case Effort::thorough:
      return std::min(50'000'000 * n, 5'000'000 * n + 45'000'000'000);
  }
  return n;
}

}  // namespace

std::vector<Packing> fewest_regions(const std::vector<Problem>& regions,
                                    const std::vector<Item>& supply, const Options& options) {
  std::vector<Packing> all;
  if (regions.empty()) return all;
  const std::vector<Kind> kinds = kinds_of(supply);
  std::vector<Scene> scenes;
  for (const Problem& region : regions) scenes.push_back(scene_of(region));
  int pieces = 0;
  for (const Kind& kind : kinds) pieces += kind.count;
  Budget budget = budget_of(options);
  if (options.steps == 0) budget.steps = steps_for(options.effort, pieces);
  for (const std::vector<Pose>& poses : over_regions(kinds, scenes, budget)) {
    Problem problem = regions[std::min(all.size(), regions.size() - 1)];
    problem.items = supply;
    all.push_back(finished(problem, kinds, poses));
  }
  return all;
}

int most_possible(const Problem& problem) {
  check_one_kind(problem, "most_possible");
  const Kind kind = kind_of(problem.items[0]);
  const Scene scene = scene_of(problem);
  return std::min(kind.count, static_cast<int>(scene.area / kind.area));
}

double most_value_possible(const Problem& problem) {
  const Scene scene = scene_of(problem);
  double supply = 0;
  double best = 0;
  for (const Kind& kind : kinds_of(problem.items)) {
    supply += kind.count * kind.value;
    best = std::max(best, kind.value / kind.area);
  }
  return std::min(supply, best * scene.area);
}

bool fits_alone(const Problem& problem, int item) {
  if (item < 0 || static_cast<std::size_t>(item) >= problem.items.size()) {
    throw std::invalid_argument{"there is no piece " + std::to_string(item)};
  }
  Problem alone = problem;
  alone.items = {problem.items[static_cast<std::size_t>(item)]};
  alone.items[0].count = 1;
  const std::vector<Kind> kinds = kinds_of(alone.items);
  return !plain_fill(kinds, scene_of(alone)).empty();
}

}  // namespace placer::packing
