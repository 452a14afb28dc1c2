#include "events.h"

#include <fmt/core.h>

#include <algorithm>

#include "placer/firing/words.h"

namespace placer::firing {
namespace {

bool holds_word(const std::string& text, const char* word) {
  return text.find(word) != std::string::npos;
}

/// What a stage asks a person to do when it begins; "" = nothing.
std::string to_do(const Segment& segment, bool reducing_before) {
  if (segment.carbon_monoxide > 0 && !reducing_before) {
    return "start reduction at " +
           std::string{"this temperature: damper in, flame at the spy hole"};
  }
  if (holds_word(segment.stage, "clean-up")) {
    return "clean-up: clear flame for a few minutes, then gas off";
  }
  if (holds_word(segment.stage, "chemically bound water") || holds_word(segment.stage, "573 °C")) {
    return segment.natural ? "" : "look once: lid or door closed, vent on, climbing";
  }
  return "";
}

}  // namespace

std::vector<Event> events_of(const Forecast& answer) {
  std::vector<Event> events;
  events.push_back({Hours{0}, "light or switch on", true});
  bool reducing = false;
  for (const TimedSegment& step : answer.steps) {
    const std::string what = to_do(step.segment, reducing);
    if (!what.empty()) {
      events.push_back({step.starts, fmt::format("{} ({})", what, both_scales(step.from)),
                        step.segment.carbon_monoxide > 0 || holds_word(what, "clean-up")});
    }
    reducing = reducing || step.segment.carbon_monoxide > 0;
  }
  const Hours cones = std::max(Hours{0}, answer.off - Hours{0.75});
  events.push_back({cones, "read the cones from now on, every ten minutes", true});
  events.push_back(
      {answer.off,
       fmt::format("heat off at about {}: see that it is off", both_scales(answer.schedule.top)),
       true});
  events.push_back({answer.earliest_opening,
                    "under 100 °C (212 °F): may be opened, plates and wide bowls not yet", false});
  events.push_back({answer.unload, "under 60 °C (140 °F): may be unloaded, with gloves", false});
  std::stable_sort(events.begin(), events.end(),
                   [](const Event& a, const Event& b) { return a.at < b.at; });
  return events;
}

}  // namespace placer::firing
