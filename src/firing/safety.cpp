#include "placer/firing/safety.h"

#include <fmt/core.h>

#include "heat_source.h"
#include "placer/firing/words.h"

namespace placer::firing {

double dilution_air(double leak_m3_per_h, double ppm) { return leak_m3_per_h / (ppm * 1e-6); }

double carbon_monoxide_mg_m3(double ppm) { return ppm * 28.01 / 24.465; }

std::string eye_filter(Temperature chamber) {
  if (chamber.celsius <= 1210) {
    return "4-3";
  }
  return chamber.celsius <= 1290 ? "4-4" : "4-5";
}

std::optional<Finding> opening_advice(Temperature inside) {
  if (inside.celsius <= 60) {
    return std::nullopt;
  }
  Finding finding;
  finding.code = "opening";
  finding.severity = inside.celsius > 150 ? Severity::mistake : Severity::look;
  finding.message =
      inside.celsius > 150
          ? fmt::format(
                "do not open at {}: ware cracks in the draught and everything burns on "
                "touch; wait for 120 °C (248 °F) at least",
                both_scales(inside))
          : fmt::format(
                "at {} crack it a finger's width at most, and not with plates or wide bowls "
                "in it; unload under 60 °C (140 °F), with gloves",
                both_scales(inside));
  return finding;
}

std::string caution_general() {
  return "Follow local codes and the kiln's own manual; gas and electrical work belongs to "
         "licensed "
         "fitters. The kiln's own controls and your witness cones decide. Stay within reach of the "
         "kiln while it is on.";
}

std::string caution_fumes() {
  return "Fumes: clay gives off carbon monoxide, sulphur dioxide and traces of fluorine compounds, "
         "most of all from 200 to 1000 °C (392 to 1832 °F). Vent to the open air, stay out of the "
         "kiln room as far as you can, and keep a carbon monoxide alarm there.";
}

std::string caution_carbon_monoxide() {
  return fmt::format(
      "Carbon monoxide has no smell: lead it to the open air, and hang an alarm in the room. "
      "Limits "
      "over 8 hours: {} ppm (OSHA), {} (NIOSH, never over {}), {} (UK); {} ppm is dangerous at "
      "once "
      "(NIOSH).",
      kCarbonMonoxide.osha_8h, kCarbonMonoxide.niosh_8h, kCarbonMonoxide.niosh_never_over,
      kCarbonMonoxide.uk_8h, kCarbonMonoxide.dangerous_at_once);
}

std::string caution_lighting() { return lighting_caution(HeatSource::other); }

std::string caution_reduction() {
  return fmt::format(
      "No reduction below {}: gas may gather unburnt and explode. Open the damper before a spy "
      "hole, stand aside of it, keep your face away: flame comes out. The flue now carries up to "
      "80,000 ppm of carbon monoxide. Smoke only wastes gas.",
      both_scales(kSelfIgnition));
}

std::string caution_eyes(Temperature chamber) {
  return fmt::format(
      "Eyes: look into the glow only through an infrared filter, about {} on the EN 171 scale for "
      "{} (the table of your glasses has the last word). Sunglasses do not help.",
      eye_filter(chamber), both_scales(chamber));
}

std::string caution_hot_shell() {
  return "The shell burns on touch, it can pass 100 °C (212 °F): gloves on, nothing that burns "
         "within 450 mm (18 in) around and 900 mm (36 in) above, children and animals out of the "
         "room.";
}

std::string caution_gas_off() { return off_caution(HeatSource::other); }

std::string caution_power_off() {
  return "Switch off and isolate before you reach into an electric kiln, also to move a shelf.";
}

std::string caution_dust() {
  return fmt::format(
      "Dust from clay, kiln wash and used fibre holds silica (limits over 8 hours: {} µg/m³ OSHA, "
      "{} mg/m³ UK): wipe and mop wet, never sweep dry; mask P100 or FFP3 for fibre.",
      kSilica.osha_ug_m3, kSilica.uk_mg_m3);
}

}  // namespace placer::firing
