#include "laying_out.h"

#include <algorithm>
#include <cmath>

namespace placer::firing {
namespace {

/// What reduction aims at by stage, percent of carbon monoxide in the dry flue gas (common
/// practice, no source: light 0.5-2, medium 2-4, heavy 4-8).
double aimed_at(const std::string& stage, Atmosphere atmosphere, bool reducing) {
  if (stage.find("body reduction") != std::string::npos) {
    return 3;
  }
  if (stage.find("climb in reduction") != std::string::npos) {
    return 1.5;
  }
  const bool finish = stage.find("finish") != std::string::npos;
  return finish && reducing && atmosphere == Atmosphere::reduction ? 1 : 0;
}

/// A step at a fixed temperature ends at least this far under the top: a burn-out hold at 900 °C
/// would otherwise do the finish's work on the way to cone 09.
constexpr Warming kUnderTop{-60};

bool is_top(const Profile::Step& step) {
  return std::holds_alternative<Warming>(step.to) && std::get<Warming>(step.to).kelvin == 0;
}

std::size_t last_top(const Profile& profile) {
  std::size_t last = profile.steps.size();
  for (std::size_t i = 0; i < profile.steps.size(); ++i) {
    if (is_top(profile.steps[i])) {
      last = i;
    }
  }
  return last;
}

Temperature where_to(const Profile::Step& step, Temperature top) {
  return std::holds_alternative<Temperature>(step.to) ? std::get<Temperature>(step.to)
                                                      : top + std::get<Warming>(step.to);
}

/// The absolute temperatures of a profile with its body reduction moved to start at `from`.
Profile moved(const Profile& profile, Temperature from) {
  Profile changed = profile;
  for (std::size_t i = 1; i < changed.steps.size(); ++i) {
    Profile::Step& before = changed.steps[i - 1];
    Profile::Step& step = changed.steps[i];
    const auto* starts = std::get_if<Temperature>(&before.to);
    const auto* ends = std::get_if<Temperature>(&step.to);
    if (step.stage.find("body reduction") != std::string::npos && starts != nullptr &&
        ends != nullptr) {
      step.to = from + (*ends - *starts);
      before.to = from;
    }
  }
  return changed;
}

Segment segment_of(const Profile::Step& step, Temperature to) {
  Segment segment;
  segment.stage = step.stage;
  segment.target = to;
  segment.rate = step.rate;
  segment.hold = step.hold;
  // A clear flame is a flame, whatever the profile calls its fall.
  segment.natural = step.natural && !is_clean_up(step.stage);
  segment.notes = step.notes;
  return segment;
}

}  // namespace

bool is_clean_up(const std::string& stage) { return stage.find("clean-up") != std::string::npos; }

LaidOut lay_out(const Profile& given, Temperature start, Temperature top, Hours soak,
                std::optional<Temperature> reduction_from) {
  const Profile profile = reduction_from ? moved(given, *reduction_from) : given;
  LaidOut out;
  Temperature from = start;
  const std::size_t summit = last_top(profile);
  bool reducing = false;
  for (std::size_t i = 0; i < profile.steps.size(); ++i) {
    const Profile::Step& step = profile.steps[i];
    const bool climb = i <= summit;
    Temperature to = where_to(step, top);
    if (climb && std::holds_alternative<Temperature>(step.to)) {
      to = std::min(to, top + kUnderTop);
    }
    const bool at_top = climb && is_top(step);
    const bool stays = at_top && to == from;
    const bool possible = at_top || (climb ? to > from && to < top : to < from);
    if (!possible || (stays && step.hold.count() <= 0)) {
      if (climb && !stays) {
        out.left_out.push_back(step.stage);
      }
      continue;
    }
    Segment segment = segment_of(step, to);
    if (at_top && soak.count() > 0) {
      segment.hold = Hours{0};
    }
    if (!(stays && segment.hold.count() <= 0)) {
      segment.carbon_monoxide = climb ? aimed_at(step.stage, profile.atmosphere, reducing) : 0;
      reducing = reducing || segment.carbon_monoxide > 0;
      out.segments.push_back(std::move(segment));
      from = to;
    }
    if (climb) {
      out.top_segment = out.segments.empty() ? 0 : out.segments.size() - 1;
    }
    if (i == summit && soak.count() > 0) {
      Segment hold;
      hold.stage = reducing ? "soak in light reduction" : "soak";
      hold.target = top;
      hold.rate = {60};
      hold.hold = soak;
      hold.carbon_monoxide = reducing ? 1 : 0;
      out.segments.push_back(std::move(hold));
      out.top_segment = out.segments.size() - 1;
    }
  }
  return out;
}

namespace {

/// Cooling with the heat off is quick at first: about as the cube of the temperature over the room
/// (radiation into the walls). Straight pieces, together as long as the guessed rate says.
void add_natural(History& history, Temperature to, Hours takes) {
  constexpr int kPieces = 12;
  const Temperature from = history.back().kiln;
  const double step = (to - from).kelvin / kPieces;
  double weights = 0;
  double weight[kPieces];
  for (int i = 0; i < kPieces; ++i) {
    const double warm = std::max(1.0, from.celsius + (i + 0.5) * step - 10);
    weight[i] = 1 / (warm * warm * warm);
    weights += weight[i];
  }
  for (int i = 0; i < kPieces; ++i) {
    const Reached last = history.back();
    history.push_back({last.at + (weight[i] / weights) * takes,
                       i + 1 == kPieces ? to : last.kiln + Warming{step}});
  }
}

}  // namespace

History history_of(Temperature start, const std::vector<Segment>& segments) {
  History history{{Hours{0}, start}};
  for (const Segment& segment : segments) {
    Segment ramp = segment;
    ramp.hold = Hours{0};
    const Hours takes = duration(history.back().kiln, ramp);
    if (segment.natural && segment.target < history.back().kiln) {
      add_natural(history, segment.target, takes);
    } else {
      history.push_back({history.back().at + takes, segment.target});
    }
    if (segment.hold.count() > 0) {
      history.push_back({history.back().at + segment.hold, segment.target});
    }
  }
  return history;
}

Ramp final_rate(Temperature start, const std::vector<Segment>& segments, std::size_t top_segment) {
  // Holds on the way do not count: they are not the rate at which the cone is passed.
  double rise = 0;
  double hours = 0;
  for (std::size_t i = std::min(top_segment + 1, segments.size()); i-- > 0 && rise < 100;) {
    const Temperature from = i == 0 ? start : segments[i - 1].target;
    const double part = std::min(100 - rise, (segments[i].target - from).kelvin);
    const double rate = segments[i].rate.kelvin_per_hour;
    if (part <= 0 || !std::isfinite(rate)) {
      continue;
    }
    if (part >= 100 - 1e-9) {
      return segments[i].rate;  // without rounding
    }
    rise += part;
    hours += part / rate;
  }
  return {hours > 0 ? rise / hours : 60};
}

}  // namespace placer::firing
