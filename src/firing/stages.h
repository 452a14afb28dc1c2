/// @file stages.h
/// Notes and cautions by stage and by what happens to clay on the way. Internal to firing.
#pragma once

#include "placer/firing/schedule.h"

namespace placer::firing {

/// Adds to every segment the notes of its stage and of the temperatures that it passes (steam,
/// bound water, quartz, burn-out, cristobalite), each event once, and the cautions that belong
/// there; to the schedule the general ones.
void explain(Schedule& schedule, const WareSummary& ware);

/// Flat ware and thick walls wait for 60 °C before any draught, the rest for 100 °C (common
/// practice, no source).
bool waits_until_cold(const WareSummary& ware);
/// How to open the kiln with this ware in it: the one number that holds for it.
std::string opening_caution(const WareSummary& ware);

/// "flat flame just licks ..." what to do with damper and gas for a share of carbon monoxide.
const char* reduction_in_words(double carbon_monoxide_percent);

}  // namespace placer::firing
