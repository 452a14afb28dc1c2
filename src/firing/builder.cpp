#include "placer/firing/builder.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "placer/base/words.h"
#include "placer/firing/heat_work.h"
#include "placer/firing/safety.h"
#include "placer/firing/words.h"

namespace placer::firing {
namespace {

/// Rates are given to the nearest 5 °C/h below: nobody sets 46.3.
Ramp settable(Ramp rate) {
  return {std::max(5.0, std::floor(rate.kelvin_per_hour / 5 + 1e-9) * 5)};
}

constexpr const char* kCleanUpNote =
    "Gas down and damper out a little: ten minutes of clear flame, the chamber bright. It may fall "
    "by 30 °C (54 °F) meanwhile. Copper reds: two or three minutes at most, or none. Then off.";

/// A profile while it grows: each climb goes from where the last one ended, at its limit.
struct Growing {
  const Wish& wish;
  const WareSummary& ware;
  Profile profile;
  Temperature at{20};

  void climb(const std::string& stage, Temperature to, Ramp most, const std::string& why,
             Hours hold = Hours{0}) {
    add(stage, to, to, most, why, hold);
  }
  void add(const std::string& stage, std::variant<Temperature, Warming> to, Temperature about,
           Ramp most, const std::string& why, Hours hold = Hours{0}) {
    if (about <= at) {
      return;
    }
    Profile::Step step;
    step.stage = stage;
    step.to = to;
    step.hold = hold;
    const Limit limit = climb_limit(ware, wish.kind, at, about);
    const bool ours = most < limit.rate;
    step.rate = settable(ours ? most : limit.rate);
    const std::string reason =
        ours ? fmt::format("at most {}: {}", both_scales(most), why) : limit.reason;
    step.notes.push_back("Rate: " + reason + ".");
    profile.steps.push_back(std::move(step));
    at = about;
  }
  /// Ten minutes of clear flame while the kiln falls a little.
  void clean_up() {
    natural("clean-up", Temperature{0}, {180});
    profile.steps.back().to = Warming{-30};
    profile.steps.back().natural = false;
    profile.steps.back().notes.emplace_back(kCleanUpNote);
  }
  void natural(const std::string& stage, Temperature to, Ramp guess) {
    Profile::Step step;
    step.stage = stage;
    step.to = to;
    step.rate = guess;
    step.natural = true;
    profile.steps.push_back(std::move(step));
  }
};

constexpr Ramp kNoOther{1e9};

Temperature rough_top(const Wish& wish, const ConeTable& cones) {
  if (const auto* top = std::get_if<Temperature>(&wish.target.end)) {
    return *top;
  }
  const Cone* cone =
      find_cone(cones, std::get<std::string>(wish.target.end), wish.target.cone_kind);
  return cone == nullptr ? Temperature{1200} : bend_temperature(*cone, {80}).at;
}

void grow_bottom(Growing& grow) {
  if (grow.wish.kind == Kind::bisque) {
    const Candling candle = candling(grow.ware, grow.wish.kind);
    grow.climb("candling", candle.at, kNoOther, "", candle.hold);
    grow.profile.steps.back().notes.push_back("Hold: " + candle.reason + ".");
    grow.climb("water smoking", {120}, {30}, "the last pore water must leave without boiling");
    grow.climb("chemically bound water", {540}, kNoOther, "");
  } else {
    grow.climb("warm-up", {120}, kNoOther, "");
    grow.climb("climb", {540}, kNoOther, "");
  }
  grow.climb("573 °C", {610}, kNoOther, "");
}

void grow_bisque_top(Growing& grow, Temperature top) {
  grow.climb("climb", {std::min(700.0, top.celsius - 100)}, kNoOther, "");
  const bool slow = grow.ware.carbon_rich || grow.ware.thickest.mm() > 15;
  grow.climb("carbon burn-out", {std::min(900.0, top.celsius - 60)}, kNoOther, "",
             Hours{slow ? 1 : 0});
  grow.add("finish", Warming{0}, top, {100}, "practice for the last stretch of a bisque firing");
}

void grow_reduction(Growing& grow, Temperature top) {
  const Temperature begin = grow.wish.reduction_from.value_or(Temperature{900});
  const Temperature end = begin + Warming{100};
  grow.climb("climb", begin, kNoOther, "");
  grow.climb("body reduction", end, {100}, "30 to 60 minutes of body reduction (practice)",
             Hours{0.25});
  const Ramp rate{80};
  grow.add("climb in reduction", Warming{-100}, top + Warming{-100}, rate,
           "a kiln in reduction climbs no faster (practice)");
  grow.add("finish", Warming{0}, top, rate,
           "the cone is rated at 60 to 150 °C/h, and cones must be read");
  grow.clean_up();
}

void grow_glaze_top(Growing& grow, Temperature top) {
  grow.add("climb", Warming{-100}, top + Warming{-100}, kNoOther, "");
  grow.add("finish", Warming{0}, top, {60}, "the rate that cones are rated at");
}

void grow_cooling(Growing& grow) {
  const bool careful = grow.ware.flat_ware || grow.ware.free_quartz;
  grow.natural("cooling", {620}, {120});
  grow.natural("573 °C on the way down", {540}, {60});
  if (careful) {
    // A fuel kiln falls slowly by itself, and is not lit again for this: see mind_source().
    grow.profile.steps.back().natural = grow.wish.atmosphere == Atmosphere::reduction;
    grow.profile.steps.back().notes.push_back(
        "At most 60 °C/h (108 °F/h) here for flat ware and bodies high in quartz (50 for heavy "
        "ware: Fortuna 2000, cited in ceramica.wikia.com): the kiln heats a little so as to fall "
        "no faster. No draught, nothing opened.");
  }
  grow.natural("cooling", {260}, {45});
  grow.natural("cristobalite", {190}, {25});
  if (careful) {
    grow.profile.steps.back().notes.push_back(
        "At most 50 °C/h (90 °F/h) here (practice): cristobalite shrinks, flat ware cracks.");
  }
  grow.natural("opening", {60}, {9});
}

Built named(const Profile& profile, const Wish& wish, const WareSummary& ware,
            const ConeTable& cones) {
  return schedule_from(profile, wish, ware, cones);
}

Finding no_such(const std::vector<Profile>& profiles, const Wish& wish) {
  std::vector<std::string> names{"built"};
  for (const Profile& profile : profiles) {
    names.push_back(profile.name);
  }
  Finding finding;
  finding.code = "profile";
  finding.message = fmt::format("no firing profile is called '{}'", wish.profile);
  finding.where = wish.where;
  finding.suggestion = nearest_word(wish.profile, names);
  return finding;
}

}  // namespace

Profile built_profile(const Wish& wish, const WareSummary& ware, const ConeTable& cones) {
  Growing grow{wish, ware, {}};
  grow.profile.name = "built";
  grow.profile.description = "Made to measure for this ware";
  grow.profile.kind = wish.kind;
  grow.profile.atmosphere = wish.atmosphere;
  grow.profile.source = "the builder: each step names its limit";
  if (const auto* cone = std::get_if<std::string>(&wish.target.end)) {
    grow.profile.cone = *cone;
    grow.profile.cones.push_back(*cone);
  }
  const Temperature top = rough_top(wish, cones);
  grow_bottom(grow);
  if (wish.kind == Kind::bisque) {
    grow_bisque_top(grow, top);
  } else if (wish.atmosphere == Atmosphere::reduction) {
    grow_reduction(grow, top);
  } else {
    grow_glaze_top(grow, top);
  }
  grow_cooling(grow);
  return grow.profile;
}

Built plan_schedule(const std::vector<Profile>& profiles, const Wish& wish, const WareSummary& ware,
                    const ConeTable& cones) {
  if (wish.profile == "built") {
    return named(built_profile(wish, ware, cones), wish, ware, cones);
  }
  for (const Profile& profile : profiles) {
    if (profile.name == wish.profile) {
      return named(profile, wish, ware, cones);
    }
  }
  if (!wish.profile.empty()) {
    Built built;
    built.schedule.wish = wish;
    built.findings.push_back(no_such(profiles, wish));
    return built;
  }
  return named(choose_profile(profiles, wish, ware), wish, ware, cones);
}

}  // namespace placer::firing
