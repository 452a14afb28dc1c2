/// @file log_spells.h
/// Stretches of a log in which something lasted. Internal to firing.
#pragma once

#include <vector>

#include "placer/firing/log.h"

namespace placer::firing {

/// Stretches of a quarter of an hour or more within a band of 6 °C that drift by less than 8 °C/h,
/// above 60 °C.
std::vector<Hold> holds_of(const FiringLog& log);

/// Stretches of half an hour or more below the top, before it, where the kiln climbed by less than
/// 10 °C/h and that no hold of the plan asks for; never under 200 °C, where candling is meant.
std::vector<Hold> stalls_of(const FiringLog& log, const Verdict& verdict, const Forecast* plan);

/// Stretches of five minutes or more with half a percent of carbon monoxide or more by the probe.
std::vector<ReductionSpell> reduction_of(const FiringLog& log);

std::vector<std::string> words_of(const Judged& judged, const FiringLog& log,
                                  const LogQuestion& question);

}  // namespace placer::firing
