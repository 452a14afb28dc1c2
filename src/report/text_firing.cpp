#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "placer/firing/words.h"
#include "placer/report/report.h"
#include "report/fire_clock.h"
#include "report/fire_words.h"
#include "report/own_units.h"
#include "report/text_curve.h"
#include "report/words.h"

namespace placer::report {
namespace {

constexpr int kWide = 96;

/// Cautions that have been told in full.
using Told = std::set<std::string>;

std::string target_text(const firing::Wish& wish, bool fahrenheit) {
  if (const auto* cone = std::get_if<std::string>(&wish.target.end)) {
    return fmt::format("cone {} ({})", *cone, firing::to_string(wish.target.cone_kind));
  }
  return both_degrees(std::get<Temperature>(wish.target.end), fahrenheit);
}

std::string headline(const firing::Forecast& forecast, const FireClock& clock, bool fahrenheit) {
  const firing::Schedule& schedule = forecast.schedule;
  std::string text = fmt::format(
      "{} firing to {}, {}, profile {}\n",
      schedule.wish.kind == firing::Kind::bisque ? "Bisque" : "Glaze",
      target_text(schedule.wish, fahrenheit),
      schedule.wish.atmosphere == firing::Atmosphere::reduction ? "reduction" : "oxidation",
      schedule.profile);
  if (forecast.steps.empty()) return text;
  text += "Top " + both_degrees(schedule.top, fahrenheit);
  if (schedule.final_rate.kelvin_per_hour > 0) {
    text += in_own_units(
        ", the last 100 °C (180 °F) at " + firing::both_scales(schedule.final_rate), fahrenheit);
  }
  text += "\n";
  text += clock.knows_start() ? "Start " + clock.start_words() + "\n"
                              : "Start not set: write start: tomorrow 6:30 in the studio file for "
                                "clock times\n";
  return text;
}

std::string how_fast(const firing::TimedSegment& step, bool fahrenheit) {
  if (never_reached(step)) return "not reached";
  if (std::abs((step.segment.target - step.from).kelvin) < 0.5) return "stay";
  return in_own_units(firing::both_scales(real_rate(step)), fahrenheit);
}

std::string when(const FireClock& clock, Hours at) {
  return clock.knows_start() ? fmt::format("{}  {}", clock.day_time(at), clock.elapsed(at))
                             : clock.elapsed(at);
}

void add_notes(std::string& text, const std::vector<std::string>& notes, const char* mark) {
  for (const std::string& note : notes) {
    const char* lead = mark;
    for (const std::string& line : wrapped_lines(note, kWide - 7)) {
      text += fmt::format("     {} {}\n", lead, line);
      lead = " ";
    }
  }
}

/// A step's cautions: in full where they are told first, later by their first words.
void add_cautions(std::string& text, const std::vector<std::string>& cautions, Told& told) {
  std::vector<std::string> first;
  std::string again;
  for (const std::string& caution : cautions) {
    if (told.insert(caution).second) {
      first.push_back(caution);
    } else {
      again += (again.empty() ? "still: " : "; ") + caution_head(caution);
    }
  }
  add_notes(text, first, "!");
  if (!again.empty()) add_notes(text, {again}, "!");
}

/// One line a step, and what to do below it.
std::string steps_text(const firing::Forecast& forecast, const FireClock& clock, Told& told,
                       bool fahrenheit) {
  const auto row = [](const std::string& number, const std::string& stage, const std::string& to,
                      const std::string& rate, const std::string& hold, const std::string& from) {
    return fmt::format("{} {} {} {} {} {}\n", padded(number, 3), padded(stage, 23), padded(to, 18),
                       padded(rate, 20), padded(hold, 7), from);
  };
  std::string text = row("", "stage", "to", "how fast", "hold", "begins");
  int number = 1;
  for (const firing::TimedSegment& step : forecast.steps) {
    const std::string hold = step.segment.natural            ? "falls"
                             : step.segment.hold.count() > 0 ? hours_text(step.segment.hold)
                                                             : "-";
    text += row(std::to_string(number++), step.segment.stage,
                both_degrees(step.segment.target, fahrenheit), how_fast(step, fahrenheit), hold,
                when(clock, step.starts));
    add_notes(text, step.segment.notes, "-");
    add_cautions(text, step.segment.cautions, told);
  }
  return text;
}

void add_lines(std::string& text, const std::string& words) {
  for (const std::string& line : wrapped_lines(words, kWide)) text += line + "\n";
}

std::string ends_text(const firing::Forecast& forecast, const FireClock& clock, bool fahrenheit) {
  std::string text;
  const auto line = [&](const std::string& what, Hours at) {
    text += fmt::format("{}{}\n", padded(what, 37), when(clock, at));
  };
  line("Heat off", forecast.off);
  const bool waits = forecast.earliest_opening >= forecast.unload;
  line(waits ? "May be opened and unloaded after" : "May be opened after",
       forecast.earliest_opening);
  add_lines(text, "  and when it reads " + opening_words(forecast, fahrenheit) + ".");
  if (!waits) line("May be unloaded (" + both_degrees({60}, fahrenheit) + ")", forecast.unload);
  add_lines(text, cooling_band_words(forecast));
  if (!forecast.cone_band.empty()) add_lines(text, "By heat-work: " + forecast.cone_band + ".");
  if (forecast.energy) {
    text += fmt::format("Energy about {:.0f} kWh, ± {:.0f} %", forecast.energy->kwh,
                        forecast.energy_band * 100);
    if (forecast.fuel_kg) text += "; " + fuel_words(forecast);
    if (forecast.cost) text += "; " + cost_words(forecast);
    text += "\n";
  }
  return text;
}

std::string list(const std::string& heading, const std::vector<std::string>& items) {
  if (items.empty()) return "";
  std::string text = "\n" + heading + "\n";
  for (const std::string& item : items) {
    const char* lead = "-";
    for (const std::string& line : wrapped_lines(item, kWide - 4)) {
      text += fmt::format("  {} {}\n", lead, line);
      lead = " ";
    }
  }
  return text;
}

std::vector<std::string> messages_of(const firing::Forecast& forecast, const FireClock& clock) {
  std::vector<std::string> all;
  for (const Finding& finding : forecast.findings) {
    all.push_back(finding_words(finding, forecast, clock) +
                  (finding.suggestion ? " " + *finding.suggestion : ""));
  }
  return all;
}

}  // namespace

std::string firing_text(const firing::Forecast& forecast, const std::string& zone,
                        bool fahrenheit) {
  const FireClock clock{zone, forecast};
  std::string text = headline(forecast, clock, fahrenheit);
  if (forecast.steps.empty()) {
    return text + list("This firing cannot be planned as asked:", messages_of(forecast, clock));
  }
  Told told;
  text += "\n" + steps_text(forecast, clock, told, fahrenheit) + "\n" +
          curve_text(forecast, fahrenheit) + "\n" + ends_text(forecast, clock, fahrenheit);
  text += list("Look at:", messages_of(forecast, clock));
  text += list("Why so:", forecast.schedule.remarks);
  std::vector<std::string> mind = cautions_of(forecast);
  std::erase_if(mind, [&](const std::string& caution) { return told.contains(caution); });
  text += list("Mind:", mind);
  return text +
         "\nThis advises; the kiln's own controls, its manual and your local rules decide.\n";
}

std::string firings_text(const Subject& subject) {
  if (subject.forecasts.empty()) {
    return "No firing to plan: nothing could be set in the kiln. Why: placer load\n";
  }
  std::string text;
  for (std::size_t i = 0; i < subject.forecasts.size(); ++i) {
    text += fmt::format("{}== {} (plan {}) ==\n", i > 0 ? "\n" : "", firing_name(subject, i),
                        subject.plan.name);
    text += firing_text(subject.forecasts[i], subject.zone, subject.inches);
  }
  return text + "\nNext: placer print\n";
}

}  // namespace placer::report
