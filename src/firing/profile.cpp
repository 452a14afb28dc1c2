/// Whether a profile can be fired at all, and which one suits a wish.
#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "placer/firing/schedule.h"
#include "placer/firing/words.h"

namespace placer::firing {
namespace {

Finding mistake(const Profile& profile, const std::string& what) {
  Finding finding;
  finding.code = "profile";
  finding.message = fmt::format("profile '{}': {}", profile.name, what);
  return finding;
}

void check_numbers(const Profile& profile, std::vector<Finding>& findings) {
  for (const Profile::Step& step : profile.steps) {
    if (!(step.rate.kelvin_per_hour > 0) ||
        (std::isinf(step.rate.kelvin_per_hour) && step.natural)) {
      findings.push_back(
          mistake(profile, fmt::format("'{}' has a rate of {:.0f} °C/h; a rate is over zero, the "
                                       "direction follows from the temperatures",
                                       step.stage, step.rate.kelvin_per_hour)));
    }
    if (!(step.hold.count() >= 0) || step.hold.count() > 200) {
      findings.push_back(
          mistake(profile, fmt::format("'{}' holds for {:.1f} h; 0 to 200 h can be fired",
                                       step.stage, step.hold.count())));
    }
    const auto* to = std::get_if<Temperature>(&step.to);
    if (to != nullptr && (!(to->celsius >= 20) || to->celsius > 1450)) {
      const double meant = (to->celsius - 32) / 1.8;
      findings.push_back(mistake(
          profile, to->celsius > 1450 && meant < 1450
                       ? fmt::format("'{}' goes to {:.0f} °C, hotter than any potter's kiln; "
                                     "{:.0f} °F would be {:.0f} °C: was °F meant?",
                                     step.stage, to->celsius, to->celsius, meant)
                       : fmt::format("'{}' goes to {:.0f} °C; 20 to 1450 °C can be fired",
                                     step.stage, to->celsius)));
    }
  }
}

void check_order(const Profile& profile, std::size_t top, std::vector<Finding>& findings) {
  const Temperature* last = nullptr;
  for (std::size_t i = 0; i < profile.steps.size(); ++i) {
    const Profile::Step& step = profile.steps[i];
    if (i <= top && step.natural) {
      findings.push_back(
          mistake(profile, fmt::format("'{}' is 'natural', heat off, before the top", step.stage)));
    }
    const auto* to = std::get_if<Temperature>(&step.to);
    if (i == top) {
      last = nullptr;
    }
    if (to == nullptr) {
      continue;
    }
    if (last != nullptr && (i < top ? *to < *last : *to > *last)) {
      findings.push_back(
          mistake(profile, fmt::format("'{}' goes to {}, {} than the step before, {}", step.stage,
                                       both_scales(*to), i < top ? "lower" : "hotter",
                                       i < top ? "before the top is reached" : "while cooling")));
    }
    last = to;
  }
}

/// Thickness that a bisque profile's name promises: the shipped ones, thin to thick.
const char* bisque_for(const WareSummary& ware) {
  if (ware.damp) {
    return "bisque-damp";
  }
  if (ware.thickest.mm() > 15) {
    return "bisque-sculpture";
  }
  if (ware.thickest.mm() > 10) {
    return "bisque-thick";
  }
  if (ware.carbon_rich) {
    return "bisque-dark-clay";
  }
  return ware.thickest.mm() > 6 ? "bisque-normal" : "bisque-thin";
}

/// How badly a profile suits; the least wins, the first of equals. Wrong kind or atmosphere weigh
/// more than a cone that it is not written for, and that more than the ware's name.
int unsuited(const Profile& profile, const Wish& wish, const WareSummary& ware) {
  int points = 0;
  points += profile.kind == wish.kind ? 0 : 1000;
  points += profile.atmosphere == wish.atmosphere ? 0 : 100;
  if (const auto* cone = std::get_if<std::string>(&wish.target.end)) {
    const bool suits =
        std::find(profile.cones.begin(), profile.cones.end(), *cone) != profile.cones.end();
    points += suits ? 0 : 20;
    points += profile.cone == *cone ? 0 : 5;
  }
  if (wish.kind == Kind::bisque) {
    points += profile.name == bisque_for(ware) ? 0 : 10;
  } else {
    // Once-fired, slow-cooled and porcelain firings are asked for by name, never guessed.
    const bool special = profile.name.find("raw") != std::string::npos ||
                         profile.name.find("slow") != std::string::npos ||
                         profile.name.find("porcelain") != std::string::npos;
    points += special ? 15 : 0;
  }
  return points;
}

/// The middle of a profile's cones as a temperature stands in for its usual cone.
int by_temperature(const Profile& profile, Temperature top) {
  struct Usual {
    const char* name;
    double top;
  };
  constexpr Usual kUsual[] = {{"overglaze", 740},
                              {"earthenware", 1063},
                              {"mid-range", 1222},
                              {"stoneware-oxidation", 1264},
                              {"stoneware-reduction", 1291},
                              {"porcelain-oxidation", 1285},
                              {"porcelain-reduction", 1293}};
  for (const Usual& usual : kUsual) {
    if (profile.name == usual.name) {
      return static_cast<int>(std::min(19.0, std::abs(usual.top - top.celsius) / 10));
    }
  }
  return profile.kind == Kind::bisque ? 0 : 19;
}

}  // namespace

std::vector<Finding> check_profile(const Profile& profile) {
  std::vector<Finding> findings;
  std::size_t top = profile.steps.size();
  for (std::size_t i = 0; i < profile.steps.size(); ++i) {
    const auto* offset = std::get_if<Warming>(&profile.steps[i].to);
    if (offset != nullptr && offset->kelvin == 0) {
      top = i;
    }
    if (offset != nullptr && (offset->kelvin > 0 || !std::isfinite(offset->kelvin))) {
      findings.push_back(mistake(profile, fmt::format("'{}' goes over the top; the hottest step "
                                                      "is 'top' itself",
                                                      profile.steps[i].stage)));
    }
  }
  if (top == profile.steps.size()) {
    findings.push_back(mistake(profile, "no step goes to the top; one needs 'to: top'"));
    return findings;
  }
  check_numbers(profile, findings);
  check_order(profile, top, findings);
  return findings;
}

const Profile& choose_profile(const std::vector<Profile>& profiles, const Wish& wish,
                              const WareSummary& ware) {
  if (profiles.empty()) {
    throw std::invalid_argument{"choose_profile: there is no profile to choose from"};
  }
  const Profile* best = nullptr;
  int least = 0;
  for (const Profile& profile : profiles) {
    int points = unsuited(profile, wish, ware);
    if (const auto* top = std::get_if<Temperature>(&wish.target.end)) {
      points += by_temperature(profile, *top);
    }
    if (best == nullptr || points < least) {
      best = &profile;
      least = points;
    }
  }
  return *best;
}

}  // namespace placer::firing
