#include "heat_source.h"

#include <fmt/core.h>

#include <algorithm>
#include <string_view>
#include <utility>

#include "laying_out.h"
#include "placer/firing/safety.h"
#include "placer/firing/words.h"

namespace placer::firing {
namespace {

bool holds_word(const std::string& text, const char* word) {
  return text.find(word) != std::string::npos;
}

void replace(std::string& text, std::string_view old_words, std::string_view new_words) {
  const std::size_t at = text.find(old_words);
  if (at != std::string::npos) {
    text.replace(at, old_words.size(), new_words);
  }
}

/// What is said of an electric kiln's lid, said of a kiln with a flue.
void speak_of_a_fire(Schedule& schedule) {
  constexpr std::pair<const char*, const char*> kWords[] = {
      {"Lid or door a finger open, spy holes open, vent on, below boiling",
       "Damper and spy holes open, the fire low, below boiling"},
      {"Lid or door a finger open and vent on until", "Damper and spy holes open until"},
      {"Close the lid or door now, if the mirror stays clear; the vent and the upper spy hole stay "
       "open.",
       "Turn the fire up only if the mirror stays clear; the damper stays open."},
      {"Close the lid or door now that nothing smells; the vent stays on.",
       "The damper stays open."},
      {"Spy holes open, vent on: the clay", "Damper and spy holes open: the clay"},
      {"Spy holes closed, unless the kiln has its own vent.", "Spy holes closed, damper open."},
      {": the kiln heats a little so as to fall no faster. No draught", ": no draught"}};
  for (std::size_t i = 0; i < schedule.segments.size(); ++i) {
    Segment& segment = schedule.segments[i];
    // Its brickwork falls slowly by itself; nobody lights a burner again at 620 °C.
    const bool relit = i > schedule.top_segment && holds_word(segment.stage, "on the way down");
    segment.natural = segment.natural || relit;
    for (std::string& note : segment.notes) {
      for (const auto& [electric, fire] : kWords) {
        replace(note, electric, fire);
      }
    }
  }
}

/// "steps 7 and 8", "step 7": those after `from` that want heat. They are told by their numbers on
/// the sheet, which begin with 1.
std::string heated_steps(const Schedule& schedule, std::size_t from) {
  std::string words;
  int count = 0;
  for (std::size_t i = from + 1; i < schedule.segments.size(); ++i) {
    if (!schedule.segments[i].natural) {
      words += fmt::format("{}{}", count++ > 0 ? " and " : "", i + 1);
    }
  }
  return (count > 1 ? "steps " : "step ") + words;
}

std::string low_flame_note(const Schedule& schedule, std::size_t step, HeatSource source) {
  const std::string steps = heated_steps(schedule, step);
  if (source == HeatSource::wood) {
    return fmt::format(
        "Let the fire go down and keep its embers: heat is still wanted in {}. Damper in as far as "
        "the flame stays clear.",
        steps);
  }
  return fmt::format(
      "The gas is not shut off yet: heat is still wanted in {}. Burners down to the smallest flame "
      "that "
      "burns steadily, damper in only as far as it stays steady and clear, and watch it. The time "
      "given is the fall without heat: with a flame it takes longer. If a flame goes out: close "
      "the gas, and light again only as in step 1.",
      steps);
}

std::string held_fall_note(const Segment& segment, HeatSource source) {
  const bool wood = source == HeatSource::wood;
  return fmt::format(
      "Held by hand at {}: {}, clear and not smoky. Look every quarter of an hour: {} when it "
      "falls faster, {} when it falls slower.{}",
      both_scales(segment.rate), wood ? "small pieces of wood, damper in" : "a small flame",
      wood ? "stoke a little" : "a little more gas", wood ? "wait" : "a little less",
      wood ? "" : " Somebody watches the flame all the time.");
}

/// How a fall is steered that still wants heat (common practice, no source).
void cool_with_a_flame(Schedule& schedule, HeatSource source) {
  const std::size_t off = first_without_heat(schedule);
  for (std::size_t i = schedule.top_segment + 1; i < off; ++i) {
    Segment& segment = schedule.segments[i];
    if (is_clean_up(segment.stage)) {
      continue;
    }
    segment.notes.push_back(segment.natural ? low_flame_note(schedule, i, source)
                                            : held_fall_note(segment, source));
  }
}

/// Only the trades that this kiln needs.
void suit_trades(std::vector<std::string>& cautions, HeatSource source) {
  const char* work = source == HeatSource::electric ? "electrical work"
                     : source == HeatSource::wood   ? "work on chimney and firebox"
                     : source == HeatSource::other  ? "gas and electrical work"
                                                    : "gas work";
  for (std::string& caution : cautions) {
    replace(caution, "gas and electrical work", work);
  }
}

}  // namespace

bool burns(HeatSource source) { return source != HeatSource::electric; }

std::string lighting_caution(HeatSource source) {
  if (source == HeatSource::wood) {
    return "Lighting: damper open, air the chamber through, see that it draws (a burning paper at "
           "the firebox is sucked in), then a small fire. Never petrol or spirits. Somebody stays "
           "by it.";
  }
  const char* smell =
      source == HeatSource::natural_gas ? "smell for gas, high up too (natural gas rises)"
      : source == HeatSource::propane
          ? "smell for gas low down (propane sinks)"
          : "smell for gas, high up (natural gas rises) and low down (propane sinks)";
  return fmt::format(
      "Lighting: {}. Damper open; wait until the chamber is aired through at least four times. "
      "Light from the side, taper or pilot first. Below {} never open the gas without a burning "
      "pilot or taper at the burner, and every flame is watched, by a flame safeguard or by you. "
      "If a flame goes out: close the gas. Damper open; wait until the chamber is aired through at "
      "least four times. Only then light again.",
      smell, both_scales(kSelfIgnition));
}

std::string off_caution(HeatSource source) {
  if (source == HeatSource::wood) {
    return "Fire out: no more wood, and let the embers burn out, for they give off carbon "
           "monoxide. "
           "Damper a little open until the flue is clear, then close damper and ports.";
  }
  const char* where = source == HeatSource::natural_gas ? "meter's valve"
                      : source == HeatSource::propane   ? "cylinder"
                                                        : "cylinder or meter";
  return fmt::format(
      "Gas off at the burner and at the {}. Damper a little open until the flue is clear, then "
      "close damper and ports.",
      where);
}

std::size_t first_without_heat(const Schedule& schedule) {
  std::size_t after = schedule.segments.size();
  while (after > 0 && schedule.segments[after - 1].natural) {
    --after;
  }
  return std::min(after, schedule.segments.size() - 1);
}

void mind_source(Schedule& schedule, HeatSource source) {
  if (schedule.segments.empty()) {
    return;
  }
  for (Segment& segment : schedule.segments) {
    std::erase(segment.cautions, caution_lighting());
    std::erase(segment.cautions, caution_gas_off());
    if (burns(source)) {
      std::erase(segment.cautions, caution_power_off());
    }
    suit_trades(segment.cautions, source);
  }
  suit_trades(schedule.cautions, source);
  if (!burns(source)) {
    return;
  }
  speak_of_a_fire(schedule);
  std::vector<std::string>& first = schedule.segments.front().cautions;
  first.insert(first.begin(), lighting_caution(source));
  cool_with_a_flame(schedule, source);
  std::vector<std::string>& off = schedule.segments[first_without_heat(schedule)].cautions;
  off.insert(off.begin(), off_caution(source));
  // Its flame is set by hand.
  std::erase_if(schedule.remarks, [](const std::string& remark) {
    return holds_word(remark, "The controller holds it in");
  });
}

}  // namespace placer::firing
