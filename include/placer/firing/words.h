/// @file words.h
/// Temperatures, rates and times as a potter reads them: °C and °F side by side.
#pragma once

#include <string>

#include "placer/base/units.h"

namespace placer::firing {

std::string both_scales(Temperature t);  ///< "1222 °C (2232 °F)"
std::string both_scales(Ramp rate);      ///< "60 °C/h (108 °F/h)"
std::string both_scales(Warming d);      ///< "7 °C (13 °F)", of a difference
std::string in_words(Hours time);        ///< "1 h 40 min", "25 min"

}  // namespace placer::firing
