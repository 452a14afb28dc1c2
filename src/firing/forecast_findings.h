/// @file forecast_findings.h
/// What a potter should be told about a simulated firing. Internal to firing.
#pragma once

#include "simulation.h"

namespace placer::firing {

void add_findings(Forecast& answer, const Simulated& run, const FullBuild& build, bool known);

}  // namespace placer::firing
