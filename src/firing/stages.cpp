#include "stages.h"

#include <fmt/core.h>

#include <algorithm>

#include "heat_source.h"
#include "placer/firing/safety.h"
#include "placer/firing/words.h"

namespace placer::firing {
namespace {

/// Something that happens to clay between two temperatures on the way up or down.
struct Event {
  double low, high;  ///< °C
  bool rising;
  bool bisque_only;
  const char* note;
};

/// @source firing stages: steam tables (IAPWS-97, from memory); Vaughan 1954 and Redfern 1987
///   (Clay Minerals 22) for bound water; quartz inversion 573 °C (ceramica.wikia.com); burn-out:
///   Hamer, The Potter's Dictionary (from memory); cristobalite 226 °C: Dodd & Murfin (from memory)
constexpr Event kEvents[] = {
    {100, 120, true, true,
     "Water boils at 100 °C (212 °F) and swells 1600 times as steam; trapped at 120 °C (248 °F) it "
     "presses with 2 bar, at 200 °C (392 °F) with 15: damp clay bursts."},
    {450, 650, true, true,
     "Bound water leaves, mostly from 450 to 650 °C (842 to 1202 °F): about 14 % of the weight of "
     "the clay mineral."},
    {573, 573, true, false,
     "Quartz swells at 573 °C (1063 °F): thick and flat ware must pass it evenly."},
    {700, 900, true, true,
     "Carbon burns out, from 650 to 900 °C (1202 to 1652 °F). Hurried or starved of air it leaves "
     "a black core that bloats in the glaze firing."},
    {573, 573, false, false,
     "Quartz shrinks again at 573 °C (1063 °F): leave it shut, a draught now cracks pots."},
    {226, 226, false, false,
     "Cristobalite, if there is any, shrinks by 1 % at about 226 °C (439 °F): leave it shut."},
};

bool passes(const Event& event, Temperature from, Temperature to) {
  return event.rising ? from.celsius < event.high && to.celsius > event.low
                      : to.celsius < event.low && from.celsius > event.high;
}

struct StageNote {
  const char* word;  ///< part of the stage's name
  const char* note;
};

/// Walls over it stay hot inside long after the air round them (common practice, no source).
constexpr Length kThick = Length::from_mm(15);

constexpr StageNote kStageNotes[] = {
    {"candling",
     "Lid or door a finger open, spy holes open, vent on, below boiling: hold until a cold mirror "
     "or "
     "glass at the vent no longer fogs."},
    {"water smoking",
     "The last pore water leaves up to 120 °C (248 °F): slowly, and on only when it is dry."},
    {"chemically bound water",
     "Close the lid or door now, if the mirror stays clear; the vent and the upper spy hole stay "
     "open."},
    {"carbon burn-out",
     "Spy holes open, vent on: the clay needs air to burn out. They may be closed when this step "
     "ends."},
    {"body reduction", "Iron in the body turns before the glaze seals."},
    {"climb in reduction",
     "Watch the temperature, not the smoke: if the climb stops, the damper is too far in or the "
     "gas "
     "too rich. Give air until it climbs again."},
    {"clean-up",
     "Clear flame brightens most glazes and empties the flue of gas before the damper goes in. "
     "Copper reds bleach in it, and copper colours its neighbours (common practice)."},
    {"finish", "The last 100 °C (180 °F) decide the cone: keep this rate."},
    {"soak", "A soak adds heat-work: read the cones, they may be down before it ends."},
    {"opening", "Waiting costs nothing: ware cracks in a draught while it is too hot to hold."},
};

bool holds_word(const std::string& text, const char* word) {
  return text.find(word) != std::string::npos;
}

void add_once(std::vector<std::string>& list, std::string text) {
  if (std::find(list.begin(), list.end(), text) == list.end()) {
    list.push_back(std::move(text));
  }
}

void add_events(Schedule& schedule) {
  std::vector<bool> told(std::size(kEvents), false);
  Temperature from = schedule.start;
  for (Segment& segment : schedule.segments) {
    const bool rising = segment.target >= from;
    for (std::size_t i = 0; i < std::size(kEvents); ++i) {
      const Event& event = kEvents[i];
      const bool wanted = !event.bisque_only || schedule.wish.kind == Kind::bisque ||
                          schedule.profile == "raw-glaze";
      if (!told[i] && wanted && rising == event.rising && passes(event, from, segment.target)) {
        told[i] = true;
        add_once(segment.notes, event.note);
      }
    }
    from = segment.target;
  }
}

/// @param before what the step before aimed at, percent: the flame is described where it changes.
void add_reduction(Segment& segment, double before) {
  if (segment.carbon_monoxide <= 0) {
    return;
  }
  const std::string how = reduction_in_words(segment.carbon_monoxide);
  const bool same = before > 0 && how == reduction_in_words(before);
  add_once(segment.notes,
           fmt::format("Aim at {:.1f} % of carbon monoxide in the dry flue gas. {}",
                       segment.carbon_monoxide,
                       same ? how.substr(0, how.find(':')) + ", as in the step before." : how));
  add_once(segment.cautions, caution_reduction());
  add_once(segment.cautions, caution_carbon_monoxide());
}

/// Cautions by what is done and by how hot it is, each at the first step that needs it.
void add_cautions(Schedule& schedule, const WareSummary& ware) {
  bool fumes = false;
  bool eyes = false;
  const std::size_t off = first_without_heat(schedule);
  Temperature from = schedule.start;
  for (std::size_t i = 0; i < schedule.segments.size(); ++i) {
    Segment& s = schedule.segments[i];
    const bool climbing = i <= schedule.top_segment;
    if (i == 0 && schedule.wish.atmosphere == Atmosphere::reduction) {
      add_once(s.cautions, caution_lighting());
    }
    if (climbing && !fumes && s.target.celsius > 200) {
      fumes = true;
      add_once(s.cautions, caution_fumes());
      add_once(s.cautions, caution_carbon_monoxide());
    }
    if (climbing && !eyes && s.target.celsius > 900) {
      eyes = true;
      add_once(s.cautions, caution_eyes(schedule.top));
      add_once(s.cautions, caution_hot_shell());
    }
    add_reduction(s, i == 0 ? 0 : schedule.segments[i - 1].carbon_monoxide);
    if (i == off && !climbing && schedule.wish.atmosphere == Atmosphere::reduction) {
      add_once(s.cautions, caution_gas_off());
    }
    if (!climbing && s.target.celsius < 150 && from.celsius > s.target.celsius) {
      add_once(s.cautions, opening_caution(ware));
      add_once(s.cautions, caution_power_off());
      add_once(s.cautions, caution_dust());
    }
    from = s.target;
  }
  add_once(schedule.cautions, caution_general());
  add_once(schedule.cautions, caution_carbon_monoxide());
}

}  // namespace

const char* reduction_in_words(double percent) {
  if (percent <= 2) {
    return "Light: damper a little in; a soft flame stands at the flue, none or a breath of it at "
           "the lower spy hole.";
  }
  if (percent <= 4) {
    return "Medium: damper in, or gas up, a little, until a soft flame just licks from the lower "
           "spy "
           "hole; a splint held there is blown outwards.";
  }
  return "Heavy: flame from every hole. It costs much gas and time and is seldom needed.";
}

bool waits_until_cold(const WareSummary& ware) {
  return ware.flat_ware || ware.thickest.mm() > kThick.mm();
}

std::string opening_caution(const WareSummary& ware) {
  return waits_until_cold(ware)
             ? "Opening: not over 60 °C (140 °F), not even by a crack; plates, wide bowls and "
               "thick "
               "walls crack in the draught. Unload with gloves."
             : "Opening: not over 100 °C (212 °F), and then a finger's width at first. Unload it "
               "cooler still, with gloves.";
}

void explain(Schedule& schedule, const WareSummary& ware) {
  for (Segment& segment : schedule.segments) {
    for (const StageNote& stage : kStageNotes) {
      if (holds_word(segment.stage, stage.word)) {
        add_once(segment.notes, stage.note);
        break;
      }
    }
    if (!segment.limit.empty()) {
      add_once(segment.notes, segment.limit);
    }
  }
  add_events(schedule);
  add_cautions(schedule, ware);
  if (ware.damp) {
    add_once(schedule.cautions,
             "Damp ware bursts if it is hurried below 120 °C (248 °F), and the pieces fly: drying "
             "on the shelf first is safer and cheaper.");
  }
}

}  // namespace placer::firing
