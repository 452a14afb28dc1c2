#include "placer/loading/loading.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "loading/bound.h"
#include "loading/bridges.h"
#include "loading/canonical.h"
#include "loading/cones.h"
#include "loading/dissolve.h"
#include "loading/even.h"
#include "loading/furniture.h"
#include "loading/hand.h"
#include "loading/index.h"
#include "loading/order.h"
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
        at(job.needs_bridge, s) = needs_bridge(job, sort) ? 1 : 0;
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

/// What was done for even heat, in one sentence; it is never dearer than the plan was before.
void say_what_was_evened(const Batch& batch, int load, int moved, int swapped, LoadPlan& plan) {
  const auto loads = [](int n) { return n == 1 ? "one load" : fmt::format("{} loads", n); };
  std::vector<std::string> done;
  if (moved > 0) done.push_back("whole shelves were moved to the emptier side in " + loads(moved));
  if (swapped > 0) {
    done.push_back("heavy shelves were put towards the middle of the height in " + loads(swapped));
  }
  if (done.empty()) return;
  plan.remarks.push_back(
      fmt::format("For even heat in the {} firing {}; it took no firing and no shelf or post more.",
                  at(batch.loads, load).name, fmt::join(done, " and ")));
}

void plan_load(Job& job, const Kept& kept, const Options& options, LoadPlan& plan) {
  std::vector<int> left;
  for (const Sort& sort : job.sorts) left.push_back(sort.count);
  leave_out_hopeless(job, left, plan);
  int fewest = 0;
  std::vector<int> proven_for;
  const auto prove = [&](int enough) {
    proven_for = left;
    return fewest = fewest_firings(job, left, enough);
  };
  Search search;
  search.effort = options.effort;
  search.threads = options.threads;
  search.stop = options.stop;
  search.prove = prove;
  search.progress = options.progress;
  Attempt best = best_attempt(job, left, kept, search);
  while (best.unset > 0 && give_up_wishes(best, job)) best = best_attempt(job, left, kept, search);
  for (int s = 0; s < count_of(job.sorts); ++s) {
    if (at(best.left, s) == 0) continue;
    leave_out(job, s, at(best.left, s), unplaced(job, at(job.sorts, s)), plan);
    at(left, s) -= at(best.left, s);
  }
  if (proven_for != left || fewest == 0) fewest = fewest_firings(job, left, count_of(best.loads));
  // A level that is set already may be heavier than the limits allow.
  if (!kept.empty()) fewest = std::min(fewest, count_of(best.loads));
  plan.fewest_firings_possible += fewest;
  int moved = 0;
  int swapped = 0;
  for (KilnLoad& load : best.loads) {
    dissolve_shelves(job, kept, load);
    if (kept.empty() || load.round > 1) {  // what is set already stays where it is
      const Evened evened = even_out(job, load);
      moved += evened.moved ? 1 : 0;
      swapped += evened.swapped ? 1 : 0;
    }
    set_by_hand(job, kept, load);
  }
  set_cones(job, kept, best.loads);
  std::move(best.loads.begin(), best.loads.end(), std::back_inserter(plan.firings));
  say_what_was_evened(*job.batch, job.load, moved, swapped, plan);
}

LoadPlan plan_loads(const Batch& batch, const Kept& kept, const Options& options) {
  LoadPlan plan;
  for (int load = 0; load < count_of(batch.loads); ++load) {
    Job job = job_of(batch, load);
    plan_load(job, load == 0 ? kept : Kept{}, options, plan);
  }
  return plan;
}

}  // namespace

LoadPlan plan(const Batch& batch, const Options& options) {
  const Canonical form{batch};
  Kept kept;
  for (const Level& level : options.keep) kept.push_back(form.in_form(level));
  LoadPlan plan = form.back(plan_loads(form.batch(), kept, options));
  plan.seed = batch.seed;
  for (KilnLoad& load : plan.firings) {
    far_columns_first(batch, load);
    number_pieces(batch, load);
  }
  count_furniture(batch, plan);
  plan.ungranted = not_granted(batch, plan);
  add_remarks(batch, options, plan);
  plan.name = spoken_name(plan);
  return plan;
}

}  // namespace placer::loading
