/// @file forecast_findings.h
/// What a potter should be told about a simulated firing. Internal to firing.
#pragma once

#include "simulation.h"

namespace placer::firing {

/// @param shelves what they are made of; "" = not known.
void add_findings(Forecast& answer, const Simulated& run, const FullBuild& build, bool known,
                  const std::string& shelves);

}  // namespace placer::firing
