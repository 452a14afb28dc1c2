/// How fast ware may climb, stage by stage, each limit with its reason.
#include <fmt/core.h>

#include <algorithm>
#include <array>

#include "placer/firing/builder.h"
#include "placer/firing/words.h"

namespace placer::firing {
namespace {

constexpr double kDiffusivity = 4e-7;  ///< m2/s, see builder.h
constexpr double kSecondsPerHour = 3600;

/// Practice by the thickest wall: °C/h up to 120, 600, 900 and above. Common practice, no source;
/// "about one hour for each 100 °C in a biscuit firing": BC Potters Guild archive.
struct Practice {
  double up_to_mm;
  std::array<double, 4> rates;
};
constexpr std::array<Practice, 4> kBisque = {{{6, {{80, 125, 160, 120}}},
                                              {10, {{60, 100, 130, 100}}},
                                              {15, {{40, 70, 90, 80}}},
                                              {1e9, {{25, 50, 65, 60}}}}};
/// Bisque ware in a glaze firing. Common practice, no source (80 to 120 °C/h in one studio:
/// oxfordclay.co.uk).
constexpr std::array<Practice, 4> kGlaze = {{{6, {{150, 200, 200, 180}}},
                                             {10, {{110, 160, 170, 150}}},
                                             {15, {{90, 120, 130, 120}}},
                                             {1e9, {{60, 80, 90, 90}}}}};

std::size_t stage_of(Temperature to) {
  return to.celsius <= 120 ? 0 : to.celsius <= 610 ? 1 : to.celsius <= 900 ? 2 : 3;
}

bool turns_quartz(Temperature from, Temperature to) {
  return from.celsius < 573 && to.celsius > 573;
}

const char* thickness_words(double mm) {
  return mm <= 6    ? "walls up to 6 mm"
         : mm <= 10 ? "walls of 6 to 10 mm"
         : mm <= 15 ? "walls of 10 to 15 mm"
                    : "walls over 15 mm";
}

void keep_slower(Limit& limit, double rate, std::string why) {
  if (rate < limit.rate.kelvin_per_hour) {
    limit.rate.kelvin_per_hour = rate;
    limit.reason = fmt::format("at most {}: {}", both_scales(limit.rate), why);
  }
}

void practice_limit(Limit& limit, const WareSummary& ware, Kind kind, std::size_t stage) {
  const auto& table = kind == Kind::bisque ? kBisque : kGlaze;
  for (const Practice& row : table) {
    if (ware.thickest.mm() <= row.up_to_mm) {
      const bool open = ware.groggy && stage != 1;  // grog lets steam and gas out
      keep_slower(
          limit, row.rates[stage] * (open ? 1.2 : 1.0),
          fmt::format("practice for {} in a {} firing{}", thickness_words(ware.thickest.mm()),
                      kind == Kind::bisque ? "bisque" : "glaze",
                      open ? ", a fifth more for a groggy body" : ""));
      return;
    }
  }
}

void conduction_limit(Limit& limit, const WareSummary& ware, Kind kind, std::size_t stage,
                      bool quartz) {
  const double lag = stage == 0 && kind == Kind::bisque ? 5 : quartz ? 8 : 15;
  const Ramp rate = rate_for_lag(ware.thickest, {lag});
  keep_slower(limit, rate.kelvin_per_hour,
              fmt::format("heated from one side, a wall of {:.0f} mm then lags {} behind its "
                          "face{}",
                          ware.thickest.mm(), both_scales(Warming{lag}),
                          stage == 0 && kind == Kind::bisque ? ", and its middle must not steam"
                          : quartz                           ? " where quartz swells"
                                                             : ""));
}

void ware_limits(Limit& limit, const WareSummary& ware, Kind kind, std::size_t stage, bool quartz) {
  if (ware.damp && stage == 0) {
    keep_slower(limit, 30, "the ware is damp, and steam must find its way out");
  }
  // Raw ware is weaker than bisque, which has passed 573 °C once (practice).
  const double through_quartz = kind == Kind::bisque ? 80 : 120;
  if (quartz && ware.flat_ware) {
    keep_slower(limit, through_quartz,
                "flat ware heats unevenly, and quartz swells at 573 °C (1063 °F)");
  }
  if (quartz && ware.free_quartz) {
    keep_slower(limit, through_quartz,
                "the body is high in quartz, which swells at 573 °C (1063 °F)");
  }
  if (stage == 2 && kind == Kind::bisque && ware.carbon_rich) {
    keep_slower(limit, 60, "a dark or carbon-rich body needs time and air to burn out");
  }
}

}  // namespace

Warming conduction_lag(Length wall, Ramp rate) {
  const double metres = wall.mm() * 1e-3;
  return {rate.kelvin_per_hour / kSecondsPerHour * metres * metres / (2 * kDiffusivity)};
}

Ramp rate_for_lag(Length wall, Warming lag) {
  const double metres = std::max(wall.mm(), 0.1) * 1e-3;
  return {lag.kelvin * 2 * kDiffusivity / (metres * metres) * kSecondsPerHour};
}

Limit climb_limit(const WareSummary& ware, Kind kind, Temperature from, Temperature to) {
  Limit limit{{1e9}, ""};
  const std::size_t stage = stage_of(to);
  const bool quartz = turns_quartz(from, to);
  practice_limit(limit, ware, kind, stage);
  conduction_limit(limit, ware, kind, stage, quartz);
  ware_limits(limit, ware, kind, stage, quartz);
  return limit;
}

Candling candling(const WareSummary& ware, Kind kind) {
  if (kind == Kind::glaze) {
    return {{90}, Hours{0}, ""};
  }
  const double mm = ware.thickest.mm();
  Candling c;
  c.hold = Hours{mm <= 6 ? 0.5 : mm <= 10 ? 1 : mm <= 15 ? 2 : 6};
  c.at = {mm <= 15 ? 90.0 : 85.0};
  c.reason = fmt::format("{} below boiling for bone-dry {} (practice)", in_words(c.hold),
                         thickness_words(mm));
  if (ware.damp) {
    c.at = {85};
    c.hold = Hours{std::max(7.0, mm * 0.6)};
    c.reason = fmt::format(
        "{} below boiling because the ware is damp; longer if a cold mirror at "
        "the vent still fogs",
        in_words(c.hold));
  }
  return c;
}

}  // namespace placer::firing
