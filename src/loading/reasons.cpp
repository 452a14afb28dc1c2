#include "loading/reasons.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "loading/fill.h"
#include "loading/index.h"

namespace placer::loading {
namespace {

std::string mm(double v) { return fmt::format("{:.0f} mm", std::ceil(v - 1e-9)); }
/// Rounded up: something to get rid of.
std::string weight_up(double kg) { return weight(std::ceil(kg * 100 - 1e-6) / 100); }
std::string mm_down(double v) { return fmt::format("{:.0f} mm", std::floor(v + 1e-9)); }

/// "6 mm from the next column and clear of the spy hole".
std::string what_posts_keep_clear(const Job& job) {
  const Kiln& kiln = job.batch->kiln;
  std::string words;
  if (kiln.columns.size() > 1 || kiln.keep_outs.empty())
    words = fmt::format("{} from {}", mm(job.clearances.gap.mm()),
                        kiln.columns.size() > 1 ? "the next column" : "the wall");
  for (const KeepOut& keep_out : kiln.keep_outs)
    words += (words.empty()                              ? "clear of the "
              : words.find("clear") == std::string::npos ? " and clear of the "
                                                         : ", the ") +
             keep_out.what;
  return words;
}

std::optional<Reason> no_shelf_at_all(const Job& job) {
  const Kiln& kiln = job.batch->kiln;
  std::string trouble;
  for (const auto& sites : job.columns) {
    for (const Site& site : sites) {
      if (site.trouble.empty() && at(kiln.shelves, site.shelf).have > 0) {
        if (lowest_top(job, site)) return std::nullopt;
        trouble =
            site.posts.empty() && !kiln.posts.empty()
                ? fmt::format("its {} posts find no places on the shelf \"{}\" that keep {}",
                              kiln.posts_per_shelf, at(kiln.shelves, site.shelf).name,
                              what_posts_keep_clear(job))
                : fmt::format("no {} posts of one height carry the lowest shelf {} above the floor",
                              kiln.posts_per_shelf, mm(kiln.first_shelf.mm()));
      } else if (trouble.empty()) {
        trouble = site.trouble;
      }
    }
  }
  if (trouble.empty()) trouble = "there is no shelf for any column";
  return Reason{"shelves", "No shelf can be set: " + trouble + "."};
}

double across(const Footprint& shape) {
  const Box box = bounding_box(shape);
  return std::min(box.high.x - box.low.x, box.high.y - box.low.y);
}

std::optional<Reason> heavy(const Job& job, const Sort& sort) {
  const Kiln& kiln = job.batch->kiln;
  const double kg = sort.stacks.front().mass.kg();
  const double most = most_on_shelf_kg(kiln);
  if (kg <= most + kMassRounding) return std::nullopt;
  return Reason{"heavy", fmt::format("It weighs {} as it goes in, and the limit is {}: it would "
                                     "have to be {} lighter.",
                                     weight_up(kg), lowest_limit(kiln), weight_up(kg - most))};
}

/// A larger shelf across columns that would take it and that no posts carry.
std::optional<Reason> no_posts_for_bridge(const Job& job, const Sort& sort) {
  const Kiln& kiln = job.batch->kiln;
  Sort free = sort;
  free.wishes = {};
  for (const auto& sites : job.bridges) {
    for (const Site& site : sites) {
      if (!site.trouble.empty() || at(kiln.shelves, site.shelf).have == 0) continue;
      if (lowest_top(job, site) || !fits(job, free, room_at_any_height(job, site, true))) continue;
      return Reason{
          "posts",
          fmt::format("It goes in {} across, for which only the shelf \"{}\" across columns is "
                      "wide enough, and no {} posts of one height carry that {} or more above the "
                      "floor.",
                      mm(across(sort.stacks.front().footprint)), at(kiln.shelves, site.shelf).name,
                      site.posts.size(), mm(kiln.first_shelf.mm()))};
    }
  }
  return std::nullopt;
}

/// One so wide that it goes on a shelf with no posts on it, and over every such shelf something is
/// kept clear.
std::optional<Reason> only_low(const Job& job, const Sort& sort) {
  const Kiln& kiln = job.batch->kiln;
  Sort free = sort;
  free.wishes = {};
  for (const auto* group : {&job.columns, &job.bridges}) {
    for (const auto& sites : *group) {
      for (const Site& site : sites) {
        const auto top = lowest_top(job, site);
        if (!site.trouble.empty() || at(kiln.shelves, site.shelf).have == 0 || !top) continue;
        if (fits(job, free, room_on(job, site, *top, lid(kiln), {}))) return std::nullopt;
      }
    }
  }
  if (kiln.keep_outs.empty()) return std::nullopt;
  return Reason{
      "posts", fmt::format("It goes in {} across: beside posts no shelf has a place so wide, and "
                           "with no shelf over it the room for the {} is in its way.",
                           mm(across(sort.stacks.front().footprint)), kiln.keep_outs.front().what)};
}

}  // namespace

std::string lowest_limit(const Kiln& kiln) {
  const double most = most_on_shelf_kg(kiln);
  const bool shelf = kiln.most_on_shelf && kiln.most_on_shelf->kg() <= most;
  return weight(most) + (shelf ? " on a shelf" : " in a load");
}

std::optional<Length> lowest_top(const Job& job, const Site& site) {
  const Kiln& kiln = job.batch->kiln;
  const Length thick = at(kiln.shelves, site.shelf).thickness;
  const bool on_floor = kiln.first_shelf <= Length{} && site.bridge < 0;
  if (on_floor && shelf_is_free(kiln, site, thick)) return thick;
  if (site.posts.empty()) return std::nullopt;
  Shed shed{kiln};
  for (const PostHeight& height : job.heights) {
    if (height.height < kiln.first_shelf || !shelf_is_free(kiln, site, height.height + thick))
      continue;
    if (shed.take(height, count_of(site.posts))) return height.height + thick;
  }
  return std::nullopt;
}

bool fits_at_some_height(const Job& job, const Site& site, const Sort& sort) {
  const auto lowest = lowest_top(job, site);
  if (!lowest) return false;
  std::vector<Length> lows{*lowest};
  for (const KeepOut& keep_out : job.batch->kiln.keep_outs) {
    if (keep_out.to > *lowest) lows.push_back(keep_out.to);
  }
  Sort free = sort;
  free.wishes.level = {};
  free.wishes.zone = {};
  const Length most = lid(job.batch->kiln);
  return std::any_of(lows.begin(), lows.end(), [&](Length low) {
    if (low + sort.height() > most) return false;
    const Length hair = Length::from_mm(1e-6);  // no rounding decides
    const Length high = std::min(low + sort.height() + job.clearances.air + hair, most);
    return fits(job, free, room_on(job, site, low, high, {}));
  });
}

std::string weight(double kg) { return fmt::format("{:.10g} kg", std::round(kg * 100) / 100); }

std::optional<Reason> hopeless(const Job& job, const Sort& sort) {
  if (const auto none = no_shelf_at_all(job)) return none;
  const Kiln& kiln = job.batch->kiln;
  double most_height = 0;
  double widest = 0;
  std::vector<Site> all;
  for (const auto* group : {&job.columns, &job.bridges}) {
    for (const auto& sites : *group) all.insert(all.end(), sites.begin(), sites.end());
  }
  for (const Site& site : all) {
    const auto top = lowest_top(job, site);
    if (!site.trouble.empty() || at(kiln.shelves, site.shelf).have == 0 || !top) continue;
    Room room = room_on(job, site, *top, lid(kiln), {});
    most_height = std::max(most_height, room.clear.mm());
    const Box box = bounding_box(room.ground);
    widest = std::max(widest, std::min(box.high.x - box.low.x, box.high.y - box.low.y));
    Sort free = sort;
    free.wishes = {};
    if (fits(job, free, room) || fits_at_some_height(job, site, free)) return std::nullopt;
  }
  const double height = sort.height().mm();
  if (height <= most_height) {
    if (auto reason = heavy(job, sort)) return reason;
  }
  if (height > most_height) {
    return Reason{"tall", fmt::format("It goes in {} tall, and over the lowest shelf there is room "
                                      "for {}: it would have to be {} shorter.",
                                      mm(height), mm_down(most_height), mm(height - most_height))};
  }
  if (auto reason = no_posts_for_bridge(job, sort)) return reason;
  return Reason{"wide", fmt::format("It goes in {} across, and no shelf has a free place so wide "
                                    "(the widest measures {}).",
                                    mm(across(sort.stacks.front().footprint)), mm_down(widest))};
}

Reason unplaced(const Job& job, const Sort& sort) {
  if (const auto reason = only_low(job, sort)) return *reason;
  const double needed = (sort.height() + job.clearances.air).mm();
  double longest = 0;
  for (const PostHeight& posts : job.heights) longest = std::max(longest, posts.height.mm());
  return {"posts",
          fmt::format("It goes in {} tall and needs {} with the air over it; no level so high is "
                      "left beside the other pieces, and the longest posts make {}.",
                      mm(sort.height().mm()), mm(needed), mm_down(longest))};
}

void leave_out(const Job& job, int sort, int count, const Reason& reason, LoadPlan& plan) {
  for (const int kind : at(job.sorts, sort).kinds) {
    const auto same =
        std::find_if(plan.left_out.begin(), plan.left_out.end(), [&](const LeftOut& l) {
          return l.piece == kind && l.load == job.load && l.code == reason.code;
        });
    if (same != plan.left_out.end()) {
      same->count += count;
    } else {
      plan.left_out.push_back({kind, job.load, count, reason.code, reason.words});
    }
  }
}

}  // namespace placer::loading
