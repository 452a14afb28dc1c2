/// @file safety.h
/// Cautions that go with a firing, with the figures that they rest on. They inform; local codes,
/// the kiln's manual and licensed fitters decide.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "placer/base/error.h"
#include "placer/base/units.h"

namespace placer::firing {

/// Below it carbon monoxide and fuel may gather without lighting themselves: no reduction, and the
/// main flame must be proved.
/// @source 760 °C (1400 °F): NFPA 86, from memory; EN 746-2 takes 750 °C, from memory
inline constexpr Temperature kSelfIgnition{760};

/// Carbon monoxide limits in ppm.
/// @source OSHA 50 (8 h), NIOSH 35 (8 h) and 200 (never over), IDLH 1200: CDC NIOSH pages
///   idlh/630080 and stacks.cdc.gov/view/cdc/225141; UK 20 (8 h): EH40 as given in a published
///   table of occupational limits
struct CarbonMonoxideLimits {
  int osha_8h = 50;
  int niosh_8h = 35;
  int niosh_never_over = 200;
  int dangerous_at_once = 1200;
  int uk_8h = 20;
};
inline constexpr CarbonMonoxideLimits kCarbonMonoxide{};

/// Crystalline silica dust that can be breathed in: OSHA 50 ug/m3 and 25 (action level), 8 h
/// (29 CFR 1910.1053); UK 0.1 mg/m3 (EH40).
struct SilicaLimits {
  int osha_ug_m3 = 50;
  int osha_action_ug_m3 = 25;
  double uk_mg_m3 = 0.1;
};
inline constexpr SilicaLimits kSilica{};

/// Fresh air that keeps a leak of `leak_m3_per_h` of gas at `ppm` (steady, well mixed), m3/h.
double dilution_air(double leak_m3_per_h, double ppm);
/// Carbon monoxide, ppm to mg/m3 at 25 °C and 1 atm.
double carbon_monoxide_mg_m3(double ppm);

/// Infrared filter for looking into a chamber: "4-3" up to 1210 °C, "4-4" to 1290, "4-5" hotter.
/// @source EN 171:2002 scale of source temperatures, from memory; check the mark on the glasses
std::string eye_filter(Temperature chamber);

/// What to do with a kiln that still is at `inside`: nothing to say (nullopt) from 60 °C down, else
/// a look with its reason; over 150 °C a mistake. Common practice, no source.
std::optional<Finding> opening_advice(Temperature inside);

/// One caution of each kind, ready to print.
std::string caution_general();
std::string caution_fumes();
std::string caution_carbon_monoxide();
std::string caution_lighting();
std::string caution_reduction();
std::string caution_eyes(Temperature chamber);
std::string caution_hot_shell();
std::string caution_gas_off();
std::string caution_power_off();
std::string caution_dust();

}  // namespace placer::firing
