#include "log_spells.h"

#include <algorithm>
#include <cmath>

namespace placer::firing {
namespace {

constexpr double kHoldBand = 6;  ///< °C
constexpr double kHoldHours = 0.25;
constexpr double kHoldDrift = 8;  ///< °C/h
constexpr double kStallHours = 0.5;
constexpr double kStallRate = 10;  ///< °C/h
constexpr double kSpellHours = 5.0 / 60;

/// A log thinned to a row for every minute at most, each the mean of its rows: enough for what
/// lasts a quarter of an hour, and a million rows become a few thousand.
std::vector<LogRow> by_minutes(const FiringLog& log) {
  std::vector<LogRow> out;
  constexpr double kMinute = 1.0 / 60;
  double sum_h = 0, sum_c = 0, count = 0, begins = 0;
  const auto close = [&] {
    if (count > 0) {
      out.push_back({sum_h / count, sum_c / count, 0});
      sum_h = sum_c = count = 0;
    }
  };
  for (const LogRow& row : log.rows) {
    if (count > 0 && row.hours - begins >= kMinute) {
      close();
    }
    begins = count > 0 ? begins : row.hours;
    sum_h += row.hours;
    sum_c += row.celsius;
    count += 1;
  }
  close();
  return out;
}

bool planned_hold(const Forecast* plan, Temperature at) {
  if (plan == nullptr) {
    return false;
  }
  return std::any_of(plan->steps.begin(), plan->steps.end(), [&](const TimedSegment& step) {
    return step.segment.hold.count() > 0 &&
           std::abs((step.segment.target - at).kelvin) < 2 * kHoldBand;
  });
}

}  // namespace

namespace {

/// Drift between the halves of a stretch, °C/h: a kiln that slowly cools by itself is not held.
double drift(const std::vector<LogRow>& rows, std::size_t begin, std::size_t end) {
  const std::size_t middle = begin + (end - begin) / 2;
  const auto mean = [&](std::size_t a, std::size_t b) {
    double sum = 0;
    for (std::size_t i = a; i < b; ++i) {
      sum += rows[i].celsius;
    }
    return sum / static_cast<double>(b - a);
  };
  const double half = (rows[end - 1].hours - rows[begin].hours) / 2;
  return middle > begin && half > 0 ? (mean(middle, end) - mean(begin, middle)) / half : 0;
}

}  // namespace

std::vector<Hold> holds_of(const FiringLog& log) {
  const std::vector<LogRow> rows = by_minutes(log);
  std::vector<Hold> holds;
  std::size_t begin = 0;
  while (begin < rows.size()) {
    double low = rows[begin].celsius;
    double high = low;
    double sum = 0;
    std::size_t end = begin;
    while (end < rows.size()) {
      low = std::min(low, rows[end].celsius);
      high = std::max(high, rows[end].celsius);
      if (high - low > kHoldBand) {
        break;
      }
      sum += rows[end].celsius;
      ++end;
    }
    const double lasted = rows[end - 1].hours - rows[begin].hours;
    const double mean = sum / static_cast<double>(end - begin);
    if (lasted >= kHoldHours && mean > 60 && std::abs(drift(rows, begin, end)) < kHoldDrift) {
      holds.push_back({Hours{rows[begin].hours}, Hours{rows[end - 1].hours}, {mean}});
      begin = end;
    } else {
      ++begin;
    }
  }
  // Nor is the end of cooling, when the kiln hangs about just over the room.
  const auto top = std::max_element(rows.begin(), rows.end(), [](const LogRow& a, const LogRow& b) {
    return a.celsius < b.celsius;
  });
  std::erase_if(holds, [&](const Hold& hold) {
    return hold.at.celsius < 200 && hold.from.count() > top->hours;
  });
  return holds;
}

std::vector<Hold> stalls_of(const FiringLog& log, const Verdict& verdict, const Forecast* plan) {
  const std::vector<LogRow> rows = by_minutes(log);
  std::vector<Hold> stalls;
  std::size_t begin = 0;
  const double last = verdict.top_at.count();
  while (begin < rows.size() && rows[begin].hours < last) {
    std::size_t end = begin;
    while (end + 1 < rows.size() && rows[end].hours - rows[begin].hours < kStallHours) {
      ++end;
    }
    const auto slow = [&](std::size_t to) {
      const double hours = rows[to].hours - rows[begin].hours;
      return hours >= kStallHours && (rows[to].celsius - rows[begin].celsius) / hours < kStallRate;
    };
    const double at = rows[begin].celsius;
    const bool below_top = at < verdict.top.celsius - 15 && at > 200;
    if (!below_top || rows[end].hours > last || !slow(end) || planned_hold(plan, {at})) {
      ++begin;
      continue;
    }
    while (end + 1 < rows.size() && rows[end + 1].hours <= last && slow(end + 1)) {
      ++end;
    }
    stalls.push_back({Hours{rows[begin].hours}, Hours{rows[end].hours}, {at}});
    begin = end + 1;
  }
  return stalls;
}

std::vector<ReductionSpell> reduction_of(const FiringLog& log) {
  std::vector<ReductionSpell> spells;
  if (!log.has_probe) {
    return spells;
  }
  ReductionSpell spell;
  double sum = 0;
  double count = 0;
  const auto close = [&] {
    if (count > 0 && (spell.to - spell.from).count() >= kSpellHours) {
      spell.carbon_monoxide = sum / count;
      spell.strength = spell.carbon_monoxide >= 4   ? Strength::heavy
                       : spell.carbon_monoxide >= 2 ? Strength::medium
                                                    : Strength::light;
      spells.push_back(spell);
    }
    sum = count = 0;
  };
  for (const LogRow& row : log.rows) {
    if (std::isnan(row.millivolts) || row.celsius < kProbeWorksFrom.celsius || row.celsius > 1700) {
      continue;
    }
    // Under about 400 mV nothing reduces at any temperature that a kiln has.
    const double percent = row.millivolts < 300 ? 0
                                                : read_probe(static_cast<double>(row.millivolts),
                                                             Temperature{row.celsius})
                                                      .reading->carbon_monoxide_percent;
    if (percent < 0.5) {
      close();
      continue;
    }
    if (count == 0) {
      spell.from = Hours{row.hours};
      spell.begins = {row.celsius};
    }
    spell.to = Hours{row.hours};
    spell.ends = {row.celsius};
    sum += percent;
    count += 1;
  }
  close();
  return spells;
}

}  // namespace placer::firing
