#include "events.h"

#include <fmt/core.h>

#include <algorithm>

#include "laying_out.h"
#include "placer/firing/safety.h"
#include "placer/firing/words.h"

namespace placer::firing {
namespace {

bool holds_word(const std::string& text, const char* word) {
  return text.find(word) != std::string::npos;
}

/// What a step asks a person to do when it begins, and whether somebody must be there; "" =
/// nothing.
struct ToDo {
  std::string what;
  bool hands_on = true;
};

ToDo to_do(const TimedSegment& step, bool reducing_before, bool burns) {
  const Segment& segment = step.segment;
  if (segment.carbon_monoxide > 0 && !reducing_before) {
    return {"start reduction: damper in, flame at the spy hole"};
  }
  if (is_clean_up(segment.stage)) {
    return {fmt::format("clean-up: clear flame for {}, then gas off",
                        in_words(step.ends - step.starts))};
  }
  for (const std::string& note : segment.notes) {
    if (holds_word(note, "Close the lid or door")) {
      return {"close the lid or door, vent on; see that it climbs"};
    }
  }
  if (holds_word(segment.stage, "573 °C") && !segment.natural) {
    return {burns ? "look once: flame steady, damper open, climbing"
                  : "look once: lid or door closed, vent on, climbing",
            false};
  }
  return {};
}

bool lights_a_fire(const Schedule& schedule) {
  const std::vector<std::string>& first = schedule.segments.front().cautions;
  return std::find(first.begin(), first.end(), caution_lighting()) != first.end();
}

/// When the climb to the top ends, whatever is held there.
Hours climb_ends(const Forecast& answer) {
  const std::size_t top = std::min(answer.schedule.top_segment, answer.steps.size() - 1);
  for (std::size_t i = 0; i <= top; ++i) {
    const TimedSegment& step = answer.steps[i];
    if (step.segment.target >= answer.schedule.top) {
      return step.ends - step.segment.hold;
    }
  }
  return answer.steps[top].ends;
}

void add_opening(const Forecast& answer, std::vector<Event>& events) {
  const bool waits = answer.open_below.celsius < 100;
  if (!waits) {
    events.push_back({answer.under_100,
                      "under 100 °C (212 °F): may be opened a little; unload under 60 °C (140 °F)",
                      false});
  }
  events.push_back({answer.unload,
                    waits ? "under 60 °C (140 °F): may be opened and unloaded, with gloves"
                          : "under 60 °C (140 °F): may be unloaded, with gloves",
                    false});
}

}  // namespace

std::vector<Event> events_of(const Forecast& answer) {
  std::vector<Event> events;
  events.push_back({Hours{0}, "light or switch on", true});
  bool reducing = false;
  const bool burns = lights_a_fire(answer.schedule);
  Temperature at_off = answer.schedule.top;
  for (const TimedSegment& step : answer.steps) {
    if (!step.segment.natural && step.ends <= step.starts) {
      continue;  // never reached
    }
    const ToDo now = to_do(step, reducing, burns);
    if (!now.what.empty()) {
      events.push_back(
          {step.starts, fmt::format("{}, {}", both_scales(step.from), now.what), now.hands_on});
    }
    reducing = reducing || step.segment.carbon_monoxide > 0;
    at_off = step.segment.natural ? at_off : step.segment.target;
  }
  const Hours cones = std::max(Hours{0}, climb_ends(answer) - Hours{0.75});
  events.push_back({cones, "read the cones from now on, every ten minutes", true});
  events.push_back({answer.off,
                    fmt::format("heat off, at about {}: see that it is off", both_scales(at_off)),
                    true});
  add_opening(answer, events);
  std::stable_sort(events.begin(), events.end(),
                   [](const Event& a, const Event& b) { return a.at < b.at; });
  return events;
}

}  // namespace placer::firing
