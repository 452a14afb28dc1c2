/// @file fire_words.h
/// What several firing writers say the same way.
#pragma once

#include <string>
#include <vector>

#include "placer/firing/forecast.h"
#include "report/fire_clock.h"

namespace placer::report {

/// "cost about 12.40 EUR", "cost about $12.40"; "" when no price is known.
std::string cost_words(const firing::Forecast& forecast);
/// What a firing sheet may speak of: only what this kiln has.
enum class HeatedBy { unknown, electricity, natural_gas, other_fire };
HeatedBy heated_by(const firing::Forecast& forecast);
/// "fuel about 8.1 kg"; of natural gas "gas about 12 m³ (at 15 °C)"; "" when it is not known.
std::string fuel_words(const firing::Forecast& forecast);
/// A finding's message; where it tells when the kiln falls behind, by the clock if that is known.
std::string finding_words(const Finding& finding, const firing::Forecast& forecast,
                          const FireClock& clock);
/// The mean rate of a step without its hold, as the kiln will do it: lower than the one set when
/// it is too weak.
Ramp real_rate(const firing::TimedSegment& step);
/// "under 60 °C / 140 °F: flat or wide ware is in it, and that cracks in a draught"
std::string opening_words(const firing::Forecast& forecast, bool fahrenheit_first = false);
/// "Cooling hours ± 20 %: the thermometer decides."
std::string cooling_band_words(const firing::Forecast& forecast);
/// A step that the kiln is too weak to begin.
bool never_reached(const firing::TimedSegment& step);
/// The cautions of the whole firing, the forecast's and the schedule's, each once.
std::vector<std::string> cautions_of(const firing::Forecast& forecast);
/// A caution: its first words (to the first colon or full stop), and the rest.
std::pair<std::string, std::string> split_caution(const std::string& caution);
/// Its first words without their stop: what is said of a caution that was told in full before.
std::string caution_head(const std::string& caution);

}  // namespace placer::report
