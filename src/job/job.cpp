#include "placer/job/job.h"

#include <fmt/format.h>
#include <spdlog/spdlog.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "placer/check/check.h"
#include "placer/firing/builder.h"
#include "placer/firing/timing.h"

namespace placer::job {
namespace {

constexpr double kDay = 24.0;

double perimeter_mm(const Region& region) {
  const Outline edge = edge_polygon(region);
  double sum = 0;
  for (std::size_t i = 0; i < edge.corners.size(); ++i) {
    const Point step = edge.corners[(i + 1) % edge.corners.size()] - edge.corners[i];
    sum += std::hypot(step.x, step.y);
  }
  return sum;
}

/// What the potter's file does not say of the kiln's size follows from its chamber.
firing::KilnBuild complete(firing::KilnBuild build, const Kiln& kiln) {
  const double floor_m2 = area(kiln.chamber) * 1e-6;
  const double height_m = kiln.height.mm() * 1e-3;
  if (build.chamber_volume_m3 <= 0) build.chamber_volume_m3 = floor_m2 * height_m;
  if (build.chamber_surface_m2 <= 0) {
    build.chamber_surface_m2 = 2 * floor_m2 + perimeter_mm(kiln.chamber) * 1e-3 * height_m;
  }
  return build;
}

firing::Forecast forecast_for(const workbook::Studio& studio, const workbook::Library& library,
                              const firing::Wish& wish, const firing::WareSummary& ware,
                              const firing::HeatLoad& load) {
  const firing::Built built = firing::plan_schedule(library.profiles, wish, ware, library.cones);
  const firing::KilnBuild kiln = complete(studio.kiln_build, studio.batch.kiln);
  firing::Forecast answer;
  if (!has_mistakes(built.findings)) {
    answer = firing::forecast(built.schedule, library.cones, kiln, load);
    firing::set_start(answer, firing::Zone::named(studio.zone));
  } else {
    answer.schedule = built.schedule;
    answer.schedule.wish = wish;
  }
  answer.findings.insert(answer.findings.begin(), built.findings.begin(), built.findings.end());
  return answer;
}

/// Unloading a kiln, cleaning its shelves and setting it again: common practice, no source.
constexpr Hours kSetting{4};

/// By how much the hour at which the kiln can be unloaded may be wrong.
Hours unload_band(const firing::Forecast& forecast) {
  return forecast.time_band * std::max(forecast.unload - forecast.off, Hours{0});
}

/// From one lighting to the next, so that the kiln can be unloaded and set between them even if it
/// cools more slowly than foretold.
Hours until_next(const firing::Forecast& before) {
  return before.unload + std::max(unload_band(before), kSetting);
}

/// The second load of a firing starts at the same time of day, on the first day on which the kiln
/// can be unloaded and set before that.
void start_after(firing::Wish& wish, const firing::Forecast& before, const firing::Zone& zone) {
  const auto shift = [&](std::optional<long long>& at, const std::optional<long long>& last) {
    if (!at || !last) return;
    const auto days = static_cast<int>(std::ceil(until_next(before).count() / kDay));
    at = firing::days_later(*last, days, zone);
  };
  shift(wish.starts_at, before.schedule.wish.starts_at);
  shift(wish.ends_at, before.schedule.wish.ends_at);
}

void add(firing::WareSummary& summary, const Clay& clay) {
  summary.carbon_rich |= clay.carbon_rich;
  summary.groggy |= clay.groggy;
  summary.free_quartz |= clay.free_quartz;
}

/// Walks every single piece of a load, those inside stacks too.
template <class Visit>
void each_piece(const Batch& batch, const KilnLoad& load, Visit visit) {
  for (const Level& level : load.levels) {
    for (const PlacedPiece& placed : level.pieces) {
      if (placed.stack.empty()) {
        for (int i = 0; i < placed.stacked; ++i) {
          visit(batch.pieces.at(static_cast<std::size_t>(placed.piece)));
        }
      }
      for (const int piece : placed.stack) visit(batch.pieces.at(static_cast<std::size_t>(piece)));
    }
  }
}

const char* material_name(ShelfMaterial material) {
  switch (material) {
    case ShelfMaterial::cordierite:
      return "cordierite";
    case ShelfMaterial::high_alumina:
      return "high alumina";
    case ShelfMaterial::silicon_carbide:
      return "silicon carbide";
    case ShelfMaterial::nitride_bonded_carbide:
      return "nitride-bonded silicon carbide";
  }
  return "cordierite";
}

/// Told when a firing is to start before the one before it can be unloaded, or so soon after that
/// nobody can unload the kiln and set it again.
std::optional<Finding> too_soon(const firing::Forecast& before, const firing::Forecast& next) {
  const double apart =
      static_cast<double>(*next.schedule.wish.starts_at - *before.schedule.wish.starts_at) / 3600;
  if (apart >= until_next(before).count()) return std::nullopt;
  const TextPos& where = next.schedule.wish.where;
  const double unload = before.unload.count();
  if (apart < unload) {
    return Finding{Severity::look, "overlap",
                   fmt::format("this firing starts {:.0f} h after the one before it, and that kiln "
                               "is not under 60 °C (140 °F) and ready to unload before {:.0f} h: "
                               "start it later",
                               apart, unload),
                   where, std::nullopt};
  }
  return Finding{
      Severity::look, "overlap",
      fmt::format("this firing starts {:.1f} h after the one before it is ready to unload (under "
                  "60 °C, 140 °F); that hour is good to ± {:.0f} h, and unloading and setting the "
                  "kiln again take about {:.0f} h (common practice): start it later",
                  apart - unload, std::ceil(unload_band(before).count()), kSetting.count()),
      where, std::nullopt};
}

/// Each firing against the one lit before it, whatever their order in the file.
void tell_too_soon(Outcome& outcome) {
  std::vector<firing::Forecast*> lit;
  for (firing::Forecast& forecast : outcome.forecasts) {
    if (forecast.schedule.wish.starts_at) lit.push_back(&forecast);
  }
  std::ranges::stable_sort(
      lit, {}, [](const firing::Forecast* one) { return *one->schedule.wish.starts_at; });
  for (std::size_t i = 1; i < lit.size(); ++i) {
    if (const auto finding = too_soon(*lit[i - 1], *lit[i])) {
      lit[i]->findings.push_back(*finding);
      outcome.findings.push_back(*finding);
    }
  }
}

void refuse_broken_plan(const std::vector<Finding>& findings) {
  if (!has_mistakes(findings)) return;
  std::string all = "the plan breaks a rule of its own:";
  for (const Finding& finding : findings) all += "\n  " + finding.code + ": " + finding.message;
  throw std::logic_error{all};
}

}  // namespace

firing::Calibrated learn(const workbook::Studio& studio, const firing::FiringLog& log) {
  const firing::KilnBuild kiln = complete(studio.kiln_build, studio.batch.kiln);
  return firing::calibrate(kiln, firing::HeatLoad{}, log, kiln.past_meter);
}

firing::WareSummary ware_summary(const Batch& batch, const KilnLoad& load) {
  firing::WareSummary summary;
  summary.thickest = Length{};
  each_piece(batch, load, [&](const PieceKind& piece) {
    summary.thickest = std::max(summary.thickest, piece.wall);
    summary.damp |= piece.damp;
    summary.flat_ware |= piece.flat_ware;
    add(summary, batch.clays.at(static_cast<std::size_t>(piece.clay)));
  });
  return summary;
}

firing::HeatLoad heat_load(const Batch& batch, const KilnLoad& load) {
  // Bone-dry ware still holds 1-2 % of water from the air; damp ware is taken at 8 %.
  // Common practice, no source. Glazed bisque takes up about as much with the glaze.
  constexpr double kDryWater = 0.02;
  constexpr double kDampWater = 0.08;
  firing::HeatLoad heat;
  heat.ware = load.ware;
  heat.furniture = load.furniture;
  const FiringKind kind = batch.loads.at(static_cast<std::size_t>(load.load)).kind;
  each_piece(batch, load, [&](const PieceKind& piece) {
    const Mass mass = sized(batch, piece, kind).mass;
    heat.water += (piece.damp ? kDampWater : kDryWater) * mass;
    if (kind == FiringKind::bisque) {
      heat.bound_water +=
          batch.clays.at(static_cast<std::size_t>(piece.clay)).loss_on_ignition * mass;
    }
  });
  if (!load.levels.empty()) {
    const auto shelf = static_cast<std::size_t>(load.levels.front().shelf);
    heat.shelf_material = material_name(batch.kiln.shelves.at(shelf).material);
  }
  return heat;
}

Outcome run(const workbook::Studio& studio, const workbook::Library& library,
            const loading::Options& options) {
  spdlog::debug("loading {} kinds of piece", studio.batch.pieces.size());
  return run_plan(studio, library, loading::plan(studio.batch, options));
}

Outcome run_plan(const workbook::Studio& studio, const workbook::Library& library, LoadPlan plan) {
  Outcome outcome;
  outcome.plan = std::move(plan);
  spdlog::debug("plan {}: {} firings", outcome.plan.name, outcome.plan.firings.size());
  refuse_broken_plan(check::check_plan(studio.batch, outcome.plan));

  for (const KilnLoad& load : outcome.plan.firings) {
    firing::Wish wish = studio.firings.at(static_cast<std::size_t>(load.load));
    if (load.round > 1 && !outcome.forecasts.empty()) {
      start_after(wish, outcome.forecasts.back(), firing::Zone::named(studio.zone));
    }
    outcome.forecasts.push_back(forecast_for(
        studio, library, wish, ware_summary(studio.batch, load), heat_load(studio.batch, load)));
    const auto& found = outcome.forecasts.back().findings;
    if (load.round == 1) {
      outcome.findings.insert(outcome.findings.end(), found.begin(), found.end());
    }
    spdlog::debug("firing {}: {} steps", outcome.forecasts.size(),
                  outcome.forecasts.back().steps.size());
  }
  tell_too_soon(outcome);
  return outcome;
}

firing::Forecast forecast_alone(const workbook::Studio& studio, const workbook::Library& library,
                                std::size_t firing) {
  // A usual load when nothing is known of it: 30 kg of ware and 55 kg of furniture for each
  // 0.2 m3, the 1 : 1.7 by mass of a studio kiln. Common practice, no source.
  constexpr double kWarePerM3 = 150;
  constexpr double kFurniturePerM3 = 260;
  const double volume = complete(studio.kiln_build, studio.batch.kiln).chamber_volume_m3;
  firing::HeatLoad heat;
  heat.ware = Mass::from_kg(kWarePerM3 * volume);
  heat.furniture = Mass::from_kg(kFurniturePerM3 * volume);
  heat.water = 0.02 * heat.ware;
  const Load& load = studio.batch.loads.at(firing);
  if (load.kind == FiringKind::bisque) heat.bound_water = 0.07 * heat.ware;
  firing::WareSummary summary;
  summary.thickest = Length{};
  for (const PieceKind& piece : studio.batch.pieces) {
    if (std::ranges::find(piece.loads, static_cast<int>(firing)) == piece.loads.end()) continue;
    summary.thickest = std::max(summary.thickest, piece.wall);
    summary.damp |= piece.damp;
    summary.flat_ware |= piece.flat_ware;
    add(summary, studio.batch.clays.at(static_cast<std::size_t>(piece.clay)));
  }
  return forecast_for(studio, library, studio.firings.at(firing), summary, heat);
}

}  // namespace placer::job
