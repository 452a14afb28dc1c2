#include "loading/remarks.h"

#include <fmt/format.h>

#include <algorithm>

#include "loading/bound.h"
#include "loading/even.h"
#include "loading/index.h"
#include "loading/purchase.h"
#include "loading/reasons.h"
#include "loading/search.h"
#include "loading/strain.h"
#include "placer/model/tower.h"

namespace placer::loading {
namespace {

constexpr int kMostPieces = 250;   // larger batches are not planned again for every purchase
constexpr double kEvenMass = 1.5;  // heaviest level over lightest; common practice, no source

/// What one load of the batch takes now.
struct Now {
  int firings = 0;
  int left_out = 0;
  std::vector<int> set;  ///< of each sort, what is to be set: all that is not hopeless
};

Now now_of(const Job& job, const LoadPlan& plan) {
  Now now;
  for (const KilnLoad& load : plan.firings) now.firings += load.load == job.load ? 1 : 0;
  for (const Sort& sort : job.sorts) now.set.push_back(sort.count);
  for (const LeftOut& left : plan.left_out) {
    if (left.load != job.load) continue;
    if (left.code == "posts") {
      now.left_out += left.count;
      continue;
    }
    for (int s = 0; s < count_of(job.sorts); ++s) {
      if (at(job.sorts, s).piece() == left.piece)
        at(now.set, s) -= std::min(at(now.set, s), left.count);
    }
  }
  return now;
}

/// Plans the load again with the purchase; says what it brings, if anything.
void try_purchase(const Batch& batch, const Purchase& purchase, int load, const Now& now,
                  Memory& memory, LoadPlan& plan) {
  Batch richer = batch;
  richer.kiln = purchase.kiln;
  const Job job = job_of(richer, load);
  const int fewest = fewest_firings(job, now.set, now.firings, true);
  if (fewest >= now.firings && now.left_out == 0) return;
  Search search;
  search.effort = Effort::quick;
  search.brief = true;
  search.memory = &memory;
  search.fewest = fewest;
  const Attempt attempt = best_attempt(job, now.set, {}, search);
  int left = 0;
  for (const int n : attempt.left) left += n;
  const int saved = now.firings - count_of(attempt.loads);
  if (left == 0 && saved > 0) {
    plan.remarks.push_back(fmt::format("{} would save {} {} firing{}.", purchase.words,
                                       saved == 1 ? "one" : std::to_string(saved),
                                       at(batch.loads, load).name, saved == 1 ? "" : "s"));
  } else if (left < now.left_out) {
    plan.remarks.push_back(fmt::format("{} would let {} more piece{} in.", purchase.words,
                                       now.left_out - left, now.left_out - left == 1 ? "" : "s"));
  }
}

void what_would_help(const Batch& batch, const Options& options, LoadPlan& plan) {
  for (int load = 0; load < count_of(batch.loads); ++load) {
    const Job job = job_of(batch, load);
    const Now now = now_of(job, plan);
    int pieces = 0;
    for (const int n : now.set) pieces += n;
    if (now.firings < 2 && now.left_out == 0) continue;
    if (pieces > kMostPieces && options.effort != Effort::thorough) continue;
    Memory memory;  // most shelves are filled as they are without the purchase
    for (const Purchase& purchase : purchases(batch.kiln)) {
      if (options.stop && options.stop()) return;
      try_purchase(batch, purchase, load, now, memory, plan);
    }
  }
}

/// How unlike the shelves of a load are.
struct Uneven {
  const KilnLoad* load = nullptr;
  const Level* heaviest = nullptr;
  double heavy = 0, light = 1e9;  ///< kg of ware
};

Uneven unevenness_of(const KilnLoad& load) {
  Uneven uneven{&load, nullptr, 0, 1e9};
  for (const Level& level : load.levels) {
    const double mass = mass_on(level);
    uneven.light = std::min(uneven.light, mass);
    if (mass > uneven.heavy) uneven.heaviest = &level;
    uneven.heavy = std::max(uneven.heavy, mass);
  }
  return uneven;
}

/// Even heat comes after firings and shelves: what that cost is said of the worst load.
void say_how_even(const Batch& batch, LoadPlan& plan) {
  Uneven worst{nullptr, nullptr, 0, 1};
  int loads = 0;
  for (const KilnLoad& load : plan.firings) {
    const Uneven one = unevenness_of(load);
    if (load.levels.size() < 2 || one.heavy <= kEvenMass * one.light) continue;
    ++loads;
    if (worst.load == nullptr || one.heavy * worst.light > worst.heavy * one.light) worst = one;
  }
  if (worst.load == nullptr) return;
  plan.remarks.push_back(fmt::format(
      "In {}the heaviest shelf ({} load {}, {}, shelf {}) bears {:.1f} kg of ware and the lightest "
      "{:.1f} kg; for even heat {:g} to 1 is usual at most (common practice). The fewest firings "
      "and shelves went first.",
      loads > 1 ? fmt::format("{} loads the shelves differ much: in the worst of them ", loads)
                : "one load ",
      at(batch.loads, worst.load->load).name, worst.load->round,
      place_name(batch.kiln, *worst.heaviest), worst.heaviest->level, worst.heavy, worst.light,
      kEvenMass));
}

/// A limit of the kiln, and the kiln without it.
struct Lifted {
  std::string words;  ///< "The limit of 12 kg on a shelf costs"
  Kiln kiln;
};

/// Each limit alone; both at once where there are two.
std::vector<Lifted> limits_lifted(const Kiln& kiln) {
  std::vector<Lifted> all;
  const auto shelf = [&] { return weight(kiln.most_on_shelf->kg()) + " on a shelf"; };
  const auto load = [&] { return weight(kiln.most_in_load->kg()) + " in a load"; };
  if (kiln.most_on_shelf) {
    all.push_back({"The limit of " + shelf() + " costs", kiln});
    all.back().kiln.most_on_shelf.reset();
  }
  if (kiln.most_in_load) {
    all.push_back({"The limit of " + load() + " costs", kiln});
    all.back().kiln.most_in_load.reset();
  }
  if (all.size() < 2) return all;
  all.push_back({"The limits of " + shelf() + " and " + load() + " cost", all.front().kiln});
  all.back().kiln.most_in_load.reset();
  return all;
}

/// Firings that the pieces now planned take in another kiln, as far as is soon found out; 0 when
/// they do not all go in.
int firings_in(const Batch& batch, const Kiln& kiln, int load, const Now& now) {
  Batch other = batch;
  other.kiln = kiln;
  const Job job = job_of(other, load);
  const int fewest = fewest_firings(job, now.set, now.firings, true);
  if (fewest >= now.firings) return now.firings;
  int pieces = 0;
  for (const int n : now.set) pieces += n;
  Search search;
  search.effort = Effort::quick;
  search.brief = pieces > kMostPieces;
  search.fewest = fewest;
  const Attempt attempt = best_attempt(job, now.set, {}, search);
  return attempt.unset > 0 ? 0 : count_of(attempt.loads);
}

/// What the kiln's limits of mass cost: firings; what they leave out has its reason there.
void say_what_limits_cost(const Batch& batch, LoadPlan& plan) {
  if (!batch.kiln.most_on_shelf && !batch.kiln.most_in_load) return;
  for (int load = 0; load < count_of(batch.loads); ++load) {
    const Job job = job_of(batch, load);
    const Now now = now_of(job, plan);
    for (const Lifted& lifted : limits_lifted(batch.kiln)) {
      const int firings = now.firings < 2 ? 0 : firings_in(batch, lifted.kiln, load, now);
      if (firings == 0 || firings >= now.firings) continue;
      const int more = now.firings - firings;
      plan.remarks.push_back(fmt::format(
          "{} {} {} firing{} more: without {} {} would do.", lifted.words,
          more == 1 ? "one" : std::to_string(more), at(batch.loads, load).name,
          more == 1 ? "" : "s", lifted.words.starts_with("The limits") ? "them" : "it", firings));
      break;
    }
    int heavy = 0;
    for (const LeftOut& left : plan.left_out) {
      if (left.load == load && left.code == "heavy") heavy += left.count;
    }
    if (heavy == 0) continue;
    plan.remarks.push_back(fmt::format("The limit of {} leaves {} piece{} out of the {} firing.",
                                       lowest_limit(batch.kiln), heavy, heavy == 1 ? "" : "s",
                                       at(batch.loads, load).name));
  }
}

/// A column in which shelves could lie and none does, though others have some; -1: none.
int empty_side(const Kiln& kiln, const std::vector<std::vector<Site>>& columns,
               const KilnLoad& load) {
  for (int c = 0; c < count_of(columns); ++c) {
    const bool none = std::none_of(load.levels.begin(), load.levels.end(),
                                   [&](const Level& level) { return lies_in(kiln, level, c); });
    const bool usable =
        std::any_of(at(columns, c).begin(), at(columns, c).end(),
                    [](const Site& site) { return site.trouble.empty() && !site.posts.empty(); });
    if (none && usable) return c;
  }
  return -1;
}

void say_what_is_one_sided(const Batch& batch, LoadPlan& plan) {
  std::vector<std::vector<Site>> columns;  // where shelves lie is the same in every firing
  const double gap = clearances(batch.rules, FiringKind::bisque).gap.mm();
  for (int c = 0; c < count_of(batch.kiln.columns); ++c)
    columns.push_back(sites_of(batch, c, gap, gap));
  std::vector<std::vector<const KilnLoad*>> without(columns.size());  // of each column
  for (const KilnLoad& load : plan.firings) {
    const int empty = load.levels.empty() ? -1 : empty_side(batch.kiln, columns, load);
    if (empty >= 0) at(without, empty).push_back(&load);
  }
  for (int c = 0; c < count_of(without); ++c) {
    const auto& loads = at(without, c);
    if (loads.empty()) continue;
    const KilnLoad& first = *loads.front();
    plan.remarks.push_back(fmt::format(
        "{}: there is nothing in {}. For even heat set a spare shelf on posts there, empty or with "
        "some of the ware.",
        loads.size() > 1 ? fmt::format("{} loads stand on one side", loads.size())
                         : fmt::format("{} load {} stands on one side",
                                       at(batch.loads, first.load).name, first.round),
        at(batch.kiln.columns, c).name));
  }
}

void append(std::vector<std::string>& remarks, const std::vector<std::string>& more) {
  remarks.insert(remarks.end(), more.begin(), more.end());
}

}  // namespace

void add_remarks(const Batch& batch, const Options& options, LoadPlan& plan) {
  append(plan.remarks, strained_shelves(batch, plan));
  append(plan.remarks, crowded_fire(batch, plan));
  say_what_limits_cost(batch, plan);
  what_would_help(batch, options, plan);
  say_what_is_one_sided(batch, plan);
  say_how_even(batch, plan);
}

}  // namespace placer::loading
