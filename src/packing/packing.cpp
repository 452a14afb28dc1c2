#include "placer/packing/packing.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "packing/bounds.h"
#include "packing/boxes.h"
#include "packing/equal.h"
#include "packing/finish.h"
#include "packing/many.h"
#include "packing/mixed.h"
#include "packing/rows.h"

namespace placer::packing {

namespace {

/// Beyond so many pieces on one region the answer is rows or the first fill: no search.
constexpr std::size_t kCrowd = 4000;

std::vector<Kind> kinds_of(const std::vector<Item>& items) {
  std::vector<Kind> kinds;
  for (const Item& item : items) kinds.push_back(kind_of(item));
  return kinds;
}

/// What one region takes: two hundred pieces and more take longer.
std::uint64_t steps_of(Effort effort, std::size_t pieces) {
  constexpr std::uint64_t kUsual = 150;
  const std::uint64_t many = std::clamp<std::uint64_t>(pieces, kUsual, 380);
  switch (effort) {
    case Effort::glance:
      return 1'000'000;
    case Effort::quick:
      return kQuickSteps;
    case Effort::normal:
      return 700'000'000 + 10'000'000 * (many - kUsual);
    case Effort::thorough:
      return 6'200'000'000;
  }
  return 0;
}

/// @param pieces about how many will stand on the region
Budget budget_of(const Options& options, std::size_t pieces) {
  Budget budget;
  budget.steps = options.steps > 0 ? options.steps : steps_of(options.effort, pieces);
  for (const Effort effort : {Effort::quick, Effort::normal}) {
    const std::uint64_t lesser = steps_of(effort, pieces);
    if (lesser < budget.steps) budget.lesser.push_back(lesser);
  }
  budget.seed = options.seed;
  budget.threads = options.threads;
  budget.stop = options.stop;
  return budget;
}

/// Steps for many regions grow with the pieces: 1.4, 3.4 and 42 ms a piece, the last two less for
/// thousands.
std::uint64_t steps_for(Effort effort, int pieces) {
  const auto n = static_cast<std::uint64_t>(pieces);
  switch (effort) {
    case Effort::glance:
      return 100'000 * n;
    case Effort::quick:
      return 1'350'000 * n;
    case Effort::normal:
      return std::min(3'400'000 * n, 1'400'000 * n + 2'000'000'000);
    case Effort::thorough:
      return std::min(42'000'000 * n, 4'000'000 * n + 38'000'000'000);
  }
  return n;
}

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

Packing from_rows(const Problem& problem, const std::vector<Kind>& kinds, const Found& rows) {
  Packing packing = finished(problem, kinds, rows.poses);
  packing.orderly = rows.orderly && packing.places.size() == rows.poses.size();
  if (packing.orderly) packing.pattern = pattern_of(rows.rows);
  return packing;
}

}  // namespace

Packing in_rows(const Problem& problem) {
  check_one_kind(problem, "in_rows");
  const std::vector<Kind> kinds = kinds_of(problem.items);
  return from_rows(problem, kinds, best_rows(kinds[0], scene_of(problem), 0, kinds[0].count));
}

Packing most_pieces(const Problem& problem, const Options& options) {
  check_one_kind(problem, "most_pieces");
  const std::vector<Kind> kinds = kinds_of(problem.items);
  const Scene scene = scene_of(problem);
  const Found rows = best_rows(kinds[0], scene, 0, kinds[0].count);
  const std::vector<Pose> start = standing_of(kinds, scene, options.start);
  const Budget budget = budget_of(options, rows.poses.size());
  const bool crowd = rows.poses.size() > kCrowd;
  const std::vector<Pose> more =
      crowd ? start
            : more_pieces(kinds, scene, start.size() > rows.poses.size() ? start : rows.poses,
                          most_of(problem.items[0], kinds[0], problem, scene), budget);
  if (more.size() <= rows.poses.size()) return from_rows(problem, kinds, rows);
  return finished(problem, kinds, tidied(kinds, scene, more));
}

Packing most_value(const Problem& problem, const Options& options) {
  const std::vector<Kind> kinds = kinds_of(problem.items);
  const Scene scene = scene_of(problem);
  std::vector<Pose> seed = standing_of(kinds, scene, options.start);
  const std::vector<Pose> plain = plain_fill(kinds, scene);
  if (value_of(kinds, plain) > value_of(kinds, seed)) seed = plain;
  if (seed.size() > kCrowd) return finished(problem, kinds, seed);
  const bool boxes = all_boxes(kinds);
  Budget stage = budget_of(options, 0);
  std::uint64_t before = 0;
  for (const std::uint64_t steps : stage.stages()) {  // what less effort does first
    stage.steps = steps - before;
    before = steps;
    if (boxes) {
      std::uint64_t spent = 0;
      const std::vector<Pose> found = most_boxes(kinds, scene, stage, spent);
      if (value_of(kinds, found) > value_of(kinds, seed)) seed = found;
      stage.steps /= 20;
    }
    seed = more_value(kinds, scene, seed, stage);
    stage.seed += 1'000'003;
  }
  return finished(problem, kinds, tidied(kinds, scene, seed));
}

std::vector<Packing> fewest_regions(const std::vector<Problem>& regions,
                                    const std::vector<Item>& supply, const Options& options) {
  std::vector<Packing> all;
  if (regions.empty()) return all;
  const std::vector<Kind> kinds = kinds_of(supply);
  std::vector<Scene> scenes;
  for (const Problem& region : regions) scenes.push_back(scene_of(region));
  int pieces = 0;
  for (const Kind& kind : kinds) pieces += kind.count;
  Budget budget = budget_of(options, 0);
  budget.lesser.clear();
  if (options.steps == 0) {
    budget.steps = steps_for(options.effort, pieces);
    for (const Effort effort : {Effort::quick, Effort::normal}) {
      const std::uint64_t lesser = steps_for(effort, pieces);
      if (lesser < budget.steps) budget.lesser.push_back(lesser);
    }
  }
  for (const std::vector<Pose>& poses : over_regions(kinds, scenes, budget)) {
    const std::size_t r = std::min(all.size(), regions.size() - 1);
    Problem problem = regions[r];
    problem.items = supply;
    all.push_back(finished(problem, kinds, tidied(kinds, scenes[r], poses)));
  }
  return all;
}

int most_possible(const Problem& problem) {
  check_one_kind(problem, "most_possible");
  const Kind kind = kind_of(problem.items[0]);
  return most_of(problem.items[0], kind, problem, scene_of(problem));
}

double most_value_possible(const Problem& problem) {
  const Scene scene = scene_of(problem);
  struct Share {
    double ground, value;
    int count;
  };
  std::vector<Share> shares;
  for (const Item& item : problem.items) {
    const Kind kind = kind_of(item);
    shares.push_back({grown_area(item, problem.gap), kind.value, kind.count});
  }
  std::stable_sort(shares.begin(), shares.end(), [](const Share& a, const Share& b) {
    return a.value * b.ground > b.value * a.ground;
  });
  double left = ground(problem, scene);
  double value = 0;
  for (const Share& share : shares) {
    const double pieces = std::min<double>(share.count, left / share.ground);
    value += pieces * share.value;
    left -= pieces * share.ground;
  }
  return value;
}

int fewest_possible(const Problem& region, const std::vector<Item>& supply) {
  Problem problem = region;
  problem.items = supply;
  double need = 0;
  for (const Item& item : supply) need += kind_of(item).count * grown_area(item, region.gap);
  if (need <= 0) return 0;
  return static_cast<int>(std::ceil(need / std::max(1e-9, ground(problem, scene_of(problem)))));
}

bool fits_alone(const Problem& problem, int item) {
  if (item < 0 || static_cast<std::size_t>(item) >= problem.items.size()) {
    throw std::invalid_argument{"there is no piece " + std::to_string(item)};
  }
  Problem alone = problem;
  alone.items = {problem.items[static_cast<std::size_t>(item)]};
  alone.items[0].count = 1;
  Options options;
  options.steps = 3'000'000;
  return !most_pieces(alone, options).places.empty();
}

}  // namespace placer::packing
