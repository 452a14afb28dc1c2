/// @file kinetics_fit.h
/// Activation energies of a row of cones from their published rates. Internal to firing.
#pragma once

#include <vector>

#include "placer/firing/cone.h"

namespace placer::firing {

/// E in J/mol of each cone, coolest first.
///
/// Minimises the squared temperature residuals of every published rate (ln A free for each cone)
/// plus 300 times the squared second differences of ln E along the cones (see heat_work.h).
/// @param cones at least one; each with two published rates or more.
std::vector<double> fit_activation(const std::vector<const Cone*>& cones);

}  // namespace placer::firing
