#include "report/batch_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "placer/firing/clock.h"
#include "report/fire_clock.h"
#include "report/words.h"

namespace placer::report {
namespace {

FurnitureRow row_of(const std::string& what, const FurnitureUse& use) {
  const int missing = use.needed - use.owned;
  return {what, std::to_string(use.needed), std::to_string(use.owned),
          missing > 0 ? fmt::format("get {} more", missing) : ""};
}

Hours until_empty(const firing::Forecast& forecast) {
  return std::max(forecast.earliest_opening, forecast.unload);
}

// By the calendar, when every start is known: from the first start to the last unloading.
std::string calendar_words(const Subject& subject) {
  const auto& all = subject.forecasts;
  const firing::Forecast* first = nullptr;
  const firing::Forecast* last = nullptr;
  const auto ends = [](const firing::Forecast& one) {
    return static_cast<double>(*one.schedule.wish.starts_at) + until_empty(one).count() * 3600;
  };
  for (const firing::Forecast& one : all) {
    if (!one.schedule.wish.starts_at) return "";
    if (first == nullptr || *one.schedule.wish.starts_at < *first->schedule.wish.starts_at) {
      first = &one;
    }
    if (last == nullptr || ends(one) > ends(*last)) last = &one;
  }
  if (first == nullptr) return "";
  const double seconds = ends(*last) - static_cast<double>(*first->schedule.wish.starts_at);
  const long long end = FireClock{subject, *last}.instant(until_empty(*last)).value_or(0);
  return fmt::format("As planned: from {} to {}, {} in all. ",
                     FireClock{subject, *first}.start_words(),
                     firing::to_string(firing::Zone::named(subject.zone).local(end), true),
                     count_text(static_cast<int>(std::ceil(seconds / 86400)), "day"));
}

// Loads that are to start before the one before them can be emptied.
std::string clash_words(const Subject& subject) {
  std::string words;
  for (std::size_t i = 1; i < subject.forecasts.size(); ++i) {
    const FireClock before{subject, subject.forecasts[i - 1]};
    const FireClock clock{subject, subject.forecasts[i]};
    const auto empty = before.instant(until_empty(subject.forecasts[i - 1]));
    const auto start = clock.instant(Hours{0});
    if (!empty || !start || *start >= *empty) continue;
    words += fmt::format("THIS CANNOT BE: {} is to start {}, and {} cannot be unloaded before {}. ",
                         firing_name(subject, i), clock.start_words(), firing_name(subject, i - 1),
                         before.day_time(until_empty(subject.forecasts[i - 1])));
  }
  return words;
}

}  // namespace

// Pieces by kind in a load, in the order of the studio file.
std::string contents_words(const Subject& subject, const KilnLoad& load) {
  std::map<int, int> counts;
  for (const Level& level : load.levels) {
    for (const PlacedPiece& piece : level.pieces) {
      if (piece.stack.empty()) {
        counts[piece.piece] += std::max(piece.stacked, 1);
      } else {
        for (const int kind : piece.stack) ++counts[kind];
      }
    }
  }
  std::string words;
  for (const auto& [kind, count] : counts) {
    words += fmt::format("{}{} {}", words.empty() ? "" : ", ", count,
                         subject.batch.pieces.at(static_cast<std::size_t>(kind)).name);
  }
  return words;
}

std::string times_words(const Subject& subject, std::size_t firing) {
  if (firing >= subject.forecasts.size()) return "";
  const firing::Forecast& forecast = subject.forecasts[firing];
  const FireClock clock{subject, forecast};
  const Hours open = forecast.earliest_opening;
  const std::string top = both_degrees(forecast.schedule.top, subject.inches);
  const auto when = [&](Hours at) {
    return clock.knows_start() ? clock.day_time(at) : hours_text(at);
  };
  const std::string opened = forecast.unload > open
                                 ? fmt::format("may be opened after {}, unloaded after {}",
                                               when(open), when(forecast.unload))
                                 : fmt::format("may be opened and unloaded after {}", when(open));
  if (!clock.knows_start()) {
    return fmt::format("top {}; heat off after {}, {}", top, hours_text(forecast.off), opened);
  }
  return fmt::format("top {}; start {}, heat off {}, {}", top, clock.start_words(),
                     clock.day_time(forecast.off), opened);
}

std::vector<FurnitureRow> furniture_rows(const Subject& subject) {
  const LoadPlan& plan = subject.plan;
  const Kiln& kiln = subject.batch.kiln;
  std::vector<FurnitureRow> rows;
  for (const FurnitureUse& use : plan.shelves) {
    if (use.needed == 0) continue;
    rows.push_back(row_of(kiln.shelves.at(static_cast<std::size_t>(use.kind)).name, use));
  }
  for (const FurnitureUse& use : plan.posts) {
    if (use.needed == 0) continue;
    const Length height = kiln.posts.at(static_cast<std::size_t>(use.kind)).height;
    rows.push_back(row_of("posts of " + length_text(height, subject.inches), use));
  }
  return rows;
}

std::string days_words(const Subject& subject) {
  Hours sum{0};
  for (const firing::Forecast& forecast : subject.forecasts) sum += until_empty(forecast);
  if (sum.count() <= 0) return "";
  const int days = static_cast<int>(std::ceil(sum.count() / 24));
  return clash_words(subject) + calendar_words(subject) +
         fmt::format(
             "One straight after another they keep the kiln busy for {} from lighting to "
             "unloading: at least {}.",
             hours_text(Hours{std::round(sum.count())}), count_text(days, "day"));
}

std::string loads_words(const Subject& subject) {
  const LoadPlan& plan = subject.plan;
  const int found = static_cast<int>(plan.firings.size());
  const std::string loads = count_text(found, "load") + " of the kiln";
  const int fewest = plan.fewest_firings_possible;
  if (fewest <= 0 || found <= 1) return loads + ".";
  if (fewest >= found) return loads + ": fewer cannot be done.";
  return fmt::format("{}: {} might have been possible, {} were found.", loads, fewest, found);
}

}  // namespace placer::report
