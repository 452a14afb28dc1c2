/// @file job.h
/// The flow, spelt out once: studio -> plan -> check -> heat load -> schedule -> forecast.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "placer/firing/calibration.h"
#include "placer/firing/forecast.h"
#include "placer/loading/loading.h"
#include "placer/model/load_plan.h"
#include "placer/workbook/studio.h"

namespace placer::job {

/// All that is known about a studio's firings; what reports are made from.
struct Outcome {
  LoadPlan plan;
  std::vector<firing::Forecast> forecasts;  ///< one for each of plan.firings, same order
  std::vector<Finding> findings;            ///< of check and of firing
};

/// @throws std::logic_error when the plan breaks a rule of its own (our fault, exit status 3).
Outcome run(const workbook::Studio& studio, const workbook::Library& library,
            const loading::Options& options = {});

/// The same for a plan that is made already (levels kept, pieces broken).
Outcome run_plan(const workbook::Studio& studio, const workbook::Library& library, LoadPlan plan);

/// One firing of the studio without a plan: the kiln taken as filled as usual.
firing::Forecast forecast_alone(const workbook::Studio& studio, const workbook::Library& library,
                                std::size_t firing);

/// What a past firing of this kiln teaches; `calibrated.learnt` goes into studio.kiln_build.learnt
/// before anything is forecast. The kiln is taken as filled as usual.
firing::Calibrated learn(const workbook::Studio& studio, const firing::FiringLog& log);

/// What the fire has to heat, from the plan.
firing::HeatLoad heat_load(const Batch& batch, const KilnLoad& load);
firing::WareSummary ware_summary(const Batch& batch, const KilnLoad& load);

}  // namespace placer::job
