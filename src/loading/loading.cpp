#include "placer/loading/loading.h"

#include <fmt/format.h>

#include <algorithm>

#include "loading/bound.h"
#include "loading/index.h"
#include "loading/reasons.h"
#include "loading/remarks.h"
#include "loading/search.h"
#include "loading/wishes.h"

namespace placer::loading {
namespace {

/// Takes what can stand nowhere out of the supply, with the reason. A turn that is in the way of
/// standing at all is given up.
void leave_out_hopeless(Job& job, std::vector<int>& left, LoadPlan& plan) {
  for (int s = 0; s < count_of(job.sorts); ++s) {
    Sort& sort = at(job.sorts, s);
    auto reason = hopeless(job, sort);
    if (reason && reason->code == "wide" && !sort.turns.empty()) {
      Sort free = sort;
      free.turns.clear();
      if (!hopeless(job, free)) {
        sort.turns.clear();
        reason.reset();
      }
    }
    if (!reason) continue;
    leave_out(job, s, at(left, s), *reason, plan);
    at(left, s) = 0;
  }
}

/// Wishes of what was left over are given up; false when there are none to give up.
bool give_up_wishes(const Attempt& attempt, Job& job) {
  bool any = false;
  for (int s = 0; s < count_of(job.sorts); ++s) {
    if (at(attempt.left, s) > 0) any |= give_up_one(at(job.sorts, s));
  }
  return any;
}

void plan_load(Job& job, const Kept& kept, const Options& options, LoadPlan& plan) {
  std::vector<int> left;
  for (const Sort& sort : job.sorts) left.push_back(sort.count);
  leave_out_hopeless(job, left, plan);
  const Search search{options.effort, options.threads, options.stop, fewest_firings(job, left)};
  Attempt best = best_attempt(job, left, kept, search);
  while (best.unset > 0 && give_up_wishes(best, job)) best = best_attempt(job, left, kept, search);
  for (int s = 0; s < count_of(job.sorts); ++s) {
    if (at(best.left, s) == 0) continue;
    leave_out(job, s, at(best.left, s), unplaced(job, at(job.sorts, s)), plan);
    at(left, s) -= at(best.left, s);
  }
  plan.fewest_firings_possible += fewest_firings(job, left);
  for (KilnLoad& load : best.loads) plan.firings.push_back(std::move(load));
}

void count_furniture(const Batch& batch, LoadPlan& plan) {
  for (int i = 0; i < count_of(batch.kiln.shelves); ++i) {
    plan.shelves.push_back({i, 0, at(batch.kiln.shelves, i).have});
  }
  for (int i = 0; i < count_of(batch.kiln.posts); ++i) {
    plan.posts.push_back({i, 0, at(batch.kiln.posts, i).have});
  }
  for (const KilnLoad& load : plan.firings) {
    std::vector<int> shelves(batch.kiln.shelves.size());
    std::vector<int> posts(batch.kiln.posts.size());
    const auto add = [&](const std::vector<PlacedPost>& standing) {
      for (const PlacedPost& post : standing) {
        for (const int part : post.parts) ++at(posts, part);
      }
    };
    add(load.floor_posts);
    for (const Level& level : load.levels) {
      ++at(shelves, level.shelf);
      add(level.posts);
    }
    for (FurnitureUse& use : plan.shelves) use.needed = std::max(use.needed, at(shelves, use.kind));
    for (FurnitureUse& use : plan.posts) use.needed = std::max(use.needed, at(posts, use.kind));
  }
}

}  // namespace

LoadPlan plan(const Batch& batch, const Options& options) {
  LoadPlan plan;
  plan.seed = batch.seed;
  for (int load = 0; load < count_of(batch.loads); ++load) {
    Job job = job_of(batch, load);
    plan_load(job, load == 0 ? options.keep : Kept{}, options, plan);
  }
  count_furniture(batch, plan);
  plan.ungranted = not_granted(batch, plan);
  add_remarks(batch, options, plan);
  plan.name = spoken_name(plan);
  return plan;
}

}  // namespace placer::loading
