#include "loading/sets.h"

#include <algorithm>
#include <set>
#include <string>

#include "loading/index.h"

namespace placer::loading {
namespace {

constexpr double kSetFirst = 20;     // times the price: a set begun is finished
constexpr double kFirstFiring = 50;  // what must be in the first firing goes before all that may

using Names = std::set<std::string>;

Names sets_left(const Job& job, const std::vector<int>& left) {
  Names names;
  for (int s = 0; s < count_of(job.sorts); ++s) {
    if (at(left, s) > 0 && !at(job.sorts, s).wishes.set.empty()) {
      names.insert(at(job.sorts, s).wishes.set);
    }
  }
  return names;
}

/// Sets of which some went in and some did not.
Names torn(const Job& job, const std::vector<int>& before, const std::vector<int>& after) {
  Names names;
  for (const std::string& name : sets_left(job, after)) {
    for (int s = 0; s < count_of(job.sorts); ++s) {
      if (at(job.sorts, s).wishes.set == name && at(after, s) < at(before, s)) names.insert(name);
    }
  }
  return names;
}

/// The supply as one load sees it: barred sets stay away.
Supply offered(const Job& job, int round, const Names& barred, const Supply& supply) {
  Supply offered = supply;
  for (int s = 0; s < count_of(job.sorts); ++s) {
    const Wishes& wishes = at(job.sorts, s).wishes;
    if (!wishes.set.empty()) at(offered.price, s) *= kSetFirst;
    if (wishes.first_firing && round == 1) at(offered.price, s) *= kFirstFiring;
    if (barred.count(wishes.set) > 0) at(offered.left, s) = 0;
  }
  return offered;
}

}  // namespace

KilnLoad set_load_of_sets(const Job& job, const Recipe& recipe, int round, const Kept& kept,
                          Supply& supply) {
  Names barred;
  for (;;) {
    Supply now = offered(job, round, barred, supply);
    const std::vector<int> before = now.left;
    Recipe priced = recipe;
    priced.price = now.price;
    KilnLoad load = set_load(job, priced, round, kept, now);
    const Names bad = torn(job, before, now.left);
    const bool hopeless = sets_left(job, before).size() == 1 && kept.empty();
    if (!bad.empty() && !hopeless) {
      barred.insert(*bad.rbegin());
      continue;
    }
    for (int s = 0; s < count_of(job.sorts); ++s) {
      at(supply.left, s) -= at(before, s) - at(now.left, s);
    }
    supply.pinned = now.pinned;
    return load;
  }
}

}  // namespace placer::loading
