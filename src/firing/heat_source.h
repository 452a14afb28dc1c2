/// @file heat_source.h
/// What is said and done by what heats the kiln: lighting, shutting off, cooling with a flame.
/// Internal to firing.
#pragma once

#include <string>

#include "placer/firing/forecast.h"

namespace placer::firing {

bool burns(HeatSource source);

/// Fits a schedule to what heats the kiln: its cautions, its words, and the notes of a fall that
/// still wants heat. A fuel kiln is not lit again for the 573 °C step on the way down.
void mind_source(Schedule& schedule, HeatSource source);

/// How to light it. Natural gas rises (0.6 of the air's density) and propane sinks (1.5): from the
/// molar masses 16, 44 and 29 g/mol. An unknown fuel gets the caution for both.
std::string lighting_caution(HeatSource source);
std::string off_caution(HeatSource source);

/// The first step in which no heat is wanted any more; the last step if there is none such.
std::size_t first_without_heat(const Schedule& schedule);

}  // namespace placer::firing
