/// @file stages.h
/// Notes and cautions by stage and by what happens to clay on the way. Internal to firing.
#pragma once

#include "placer/firing/schedule.h"

namespace placer::firing {

/// Adds to every segment the notes of its stage and of the temperatures that it passes (steam,
/// bound water, quartz, burn-out, cristobalite), each event once, and the cautions that belong
/// there; to the schedule the general ones.
void explain(Schedule& schedule, const WareSummary& ware);

/// Cautions that depend on what heats the kiln: lighting and gas off for a fuel kiln of any
/// atmosphere, power off for an electric one.
void mind_source(Schedule& schedule, bool electric);

/// "flat flame just licks ..." what to do with damper and gas for a share of carbon monoxide.
const char* reduction_in_words(double carbon_monoxide_percent);

}  // namespace placer::firing
