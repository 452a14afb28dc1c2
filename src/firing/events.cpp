#include "events.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "heat_source.h"
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
    return {
        fmt::format("clean-up: clear flame for {} (copper reds: 2 to 3 min at most), then gas off",
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

/// The words of one kiln: only what it has.
struct Speech {
  bool fire = false;  ///< its heat is set by hand
  bool gas = false;
  std::string begin, off;
  const char *more = "turn up to", *less = "turn down to";
};

Speech speech_of(const Forecast& answer, std::optional<HeatSource> source) {
  Speech words;
  if (!source) {
    words.fire = answer.schedule.wish.atmosphere == Atmosphere::reduction;
    words.gas = words.fire;
  } else {
    words.fire = burns(*source);
    words.gas = words.fire && *source != HeatSource::wood;
  }
  words.begin = source ? "switch on" : "light or switch on";
  words.off = "see that it is off";
  if (words.gas) {
    words.begin = fmt::format(
        "light it; stay by the flames up to {}, or have a flame safeguard, and look in often",
        both_scales(kSelfIgnition));
    const bool piped = source == HeatSource::natural_gas;
    const bool bottled = source == HeatSource::propane;
    words.off =
        fmt::format("gas shut at the burner and at the {}", piped     ? "meter's valve"
                                                            : bottled ? "cylinder"
                                                                      : "cylinder or meter");
  } else if (words.fire) {
    words.begin = "light the fire; somebody stays by it";
    words.off = "no more wood";
    words.more = "stoke for";
    words.less = "stoke less, for";
  }
  return words;
}

/// What a hand changes at the fire when a step begins; "" = nothing.
std::string turn(const Forecast& answer, std::size_t index, const Speech& words) {
  const TimedSegment& step = answer.steps[index];
  const TimedSegment& before = answer.steps[index - 1];
  const bool heat_later = index < first_without_heat(answer.schedule);
  if (step.segment.natural) {
    return heat_later && !before.segment.natural
               ? words.gas ? "burners down to the smallest steady flame; the gas stays on"
                           : "let the fire go down, embers kept"
               : "";
  }
  const bool stays = std::abs((step.segment.target - step.from).kelvin) < 0.5;
  if (stays) {
    return fmt::format("hold it for {}", in_words(step.segment.hold));
  }
  const std::string rate = both_scales(step.segment.rate);
  if (step.segment.target < step.from) {
    return fmt::format("let it fall at {}, held with a small flame", rate);
  }
  const double change = (step.segment.rate.kelvin_per_hour - before.segment.rate.kelvin_per_hour) +
                        (before.segment.hold.count() > 0 ? before.segment.rate.kelvin_per_hour : 0);
  if (std::abs(change) < 1) {
    return "";
  }
  // A stage named for its degrees says nothing that the degrees before it do not.
  const bool degrees = holds_word(step.segment.stage, "°C");
  return fmt::format("{} {}{}", change > 0 ? words.more : words.less, rate,
                     degrees ? "" : ": " + step.segment.stage);
}

/// The moments at which the fire is changed by hand.
void add_turns(const Forecast& answer, std::size_t index, const Speech& words, const ToDo& told,
               std::vector<Event>& events) {
  const TimedSegment& step = answer.steps[index];
  const bool clean_up = is_clean_up(step.segment.stage);
  const std::string now = index == 0 || clean_up ? "" : turn(answer, index, words);
  if (!now.empty()) {
    const std::string also = told.what.empty() ? "" : "; " + told.what;
    events.push_back({step.starts, both_scales(step.from) + ", " + now + also, true});
  } else if (!told.what.empty()) {
    events.push_back({step.starts, both_scales(step.from) + ", " + told.what, told.hands_on});
  }
  const bool stays = std::abs((step.segment.target - step.from).kelvin) < 0.5;
  if (!stays && step.segment.hold.count() > 0) {
    events.push_back({step.ends - step.segment.hold,
                      fmt::format("{}, hold it for {}", both_scales(step.segment.target),
                                  in_words(step.segment.hold)),
                      true});
  }
}

/// Up to self-ignition somebody watches every flame; this is when that ends.
void add_watch_end(const Forecast& answer, std::vector<Event>& events) {
  for (const Moment& moment : answer.curve) {
    if (moment.kiln >= kSelfIgnition && moment.at <= answer.off) {
      events.push_back({moment.at,
                        both_scales(kSelfIgnition) +
                            ": up to here no flame was left unwatched; see that all of them burn",
                        true});
      return;
    }
  }
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

std::vector<Event> events_of(const Forecast& answer, std::optional<HeatSource> source) {
  std::vector<Event> events;
  const Speech words = speech_of(answer, source);
  events.push_back({Hours{0}, words.begin, true});
  bool reducing = false;
  Temperature at_off = answer.schedule.top;
  for (std::size_t i = 0; i < answer.steps.size(); ++i) {
    const TimedSegment& step = answer.steps[i];
    if (!step.segment.natural && step.ends <= step.starts) {
      continue;  // never reached
    }
    const ToDo now = to_do(step, reducing, words.fire);
    if (words.fire) {
      add_turns(answer, i, words, now, events);
    } else if (!now.what.empty()) {
      events.push_back(
          {step.starts, fmt::format("{}, {}", both_scales(step.from), now.what), now.hands_on});
    }
    reducing = reducing || step.segment.carbon_monoxide > 0;
    at_off = step.segment.natural ? at_off : step.segment.target;
  }
  if (words.gas) {
    add_watch_end(answer, events);
  }
  const Hours cones = std::max(Hours{0}, climb_ends(answer) - Hours{0.75});
  events.push_back({cones, "read the cones from now on, every ten minutes", true});
  events.push_back(
      {answer.off, fmt::format("heat off, at about {}: {}", both_scales(at_off), words.off), true});
  add_opening(answer, events);
  std::stable_sort(events.begin(), events.end(),
                   [](const Event& a, const Event& b) { return a.at < b.at; });
  return events;
}

}  // namespace placer::firing
