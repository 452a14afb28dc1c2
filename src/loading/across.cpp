// What is known of a job's bridges before any is laid.
#include <algorithm>

#include "loading/bridges.h"
#include "loading/index.h"
#include "loading/reasons.h"

namespace placer::loading {
namespace {

constexpr double kSameHeight = 1e-6;  // mm
constexpr int kMostReaches = 3000;    // of one column

bool stands_in(const Job& job, const Sort& free, const std::vector<std::vector<Site>>& groups) {
  for (const auto& sites : groups) {
    for (const Site& site : sites) {
      if (!site.trouble.empty() || at(job.batch->kiln.shelves, site.shelf).have == 0) continue;
      const auto top = lowest_top(job, site);
      if (top && (fits(job, free, room_on(job, site, *top, lid(job.batch->kiln), {})) ||
                  fits_at_some_height(job, site, free)))
        return true;
    }
  }
  return false;
}

/// See Across::reaches.
Reaches reaches_of(const Job& job, int column) {
  const Site* site = usual_site(job, column);
  if (site == nullptr) return {};
  const double shelf = at(job.batch->kiln.shelves, site->shelf).thickness.mm();
  const double most = lid(job.batch->kiln).mm();
  Reaches all;
  Reaches last;
  for (const PostHeight& posts : job.heights) {
    if (posts.height.mm() < most) last.push_back(posts.height.mm());
  }
  const auto tidy = [](Reaches& some) {
    std::sort(some.begin(), some.end());
    some.erase(std::unique(some.begin(), some.end(),
                           [](double a, double b) { return b - a <= kSameHeight; }),
               some.end());
  };
  while (!last.empty() && count_of(all) < kMostReaches) {
    Reaches next;
    for (const double z : last) {
      for (const PostHeight& posts : job.heights) {
        const double higher = z + shelf + posts.height.mm();
        if (higher < most) next.push_back(higher);
      }
    }
    tidy(next);
    std::erase_if(next, [&](double z) { return reaches(all, Length::from_mm(z)); });
    all.insert(all.end(), last.begin(), last.end());
    tidy(all);
    last = std::move(next);
    std::erase_if(last, [&](double z) { return reaches(all, Length::from_mm(z)); });
  }
  return all;
}

}  // namespace

bool bridge_is_usable(const Job& job, const Site& site) {
  return site.trouble.empty() && at(job.batch->kiln.shelves, site.shelf).have > 0 &&
         lowest_top(job, site).has_value();
}

bool needs_bridge(const Job& job, const Sort& sort) {
  if (job.bridges.empty()) return false;
  Sort free = sort;
  free.wishes = {};
  return !stands_in(job, free, job.columns) && stands_in(job, free, job.bridges);
}

const Site* usable_bridge(const Job& job) {
  for (const auto& sites : job.bridges) {
    for (const Site& site : sites) {
      if (bridge_is_usable(job, site)) return &site;
    }
  }
  return nullptr;
}

bool reaches(const Reaches& all, Length height) {
  const auto next = std::lower_bound(all.begin(), all.end(), height.mm() - kSameHeight);
  return next != all.end() && *next <= height.mm() + kSameHeight;
}

Across across_of(const Job& job) {
  Across across;
  if (job.bridges.empty()) return across;
  for (const auto& sites : job.bridges) {
    across.takes.emplace_back();
    for (const Site& site : sites) {
      std::vector<char> takes;
      for (const Sort& sort : job.sorts) {
        const bool any =
            bridge_is_usable(job, site) && (fits(job, sort, room_at_any_height(job, site, true)) ||
                                            fits_at_some_height(job, site, sort));
        takes.push_back(any ? 1 : 0);
      }
      across.takes.back().push_back(std::move(takes));
    }
  }
  for (int c = 0; c < count_of(job.columns); ++c) across.reaches.push_back(reaches_of(job, c));
  return across;
}

}  // namespace placer::loading
