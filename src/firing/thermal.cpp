#include "thermal.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "gas_constant.h"

namespace placer::firing {
namespace {

constexpr double kToLoad = 0.7;  ///< radiation exchange factors, see thermal.h
constexpr double kToWall = 0.8;
/// Air that leaks through: m3 an hour for each m3 of an electric chamber, for each m2 of a fuel
/// kiln's walls. Brickwork, door and flue let far more through, also with the damper shut, and the
/// more of them the larger the wall; while it burns, the flue counts it.
constexpr double kLeakElectric = 4;
constexpr double kLeakFuel = 5;
constexpr double kChamberJPerKM3 = 1e4;  ///< elements and air
constexpr double kWaterFrom = 60, kWaterTo = 110;
constexpr double kBoundFrom = 450, kBoundTo = 650;
constexpr double kLoadPerM3 = 300, kWareShare = 0.55;

double to_fourth(double celsius) {
  const double k = celsius + 273.15;
  return k * k * k * k;
}

double third_power(double celsius) {
  const double k = celsius + 273.15;
  return k * k * k;
}

const WallMaterial& material(const char* name) { return *find_wall_material(name); }

std::vector<LayerOf> usual_wall(HeatSource source) {
  if (source == HeatSource::electric) {
    return {{&material("insulating brick"), Length::from_mm(76)}};
  }
  return {{&material("insulating brick 26"), Length::from_mm(115)},
          {&material("insulating brick 23"), Length::from_mm(115)}};
}

/// kW for a chamber of that many m3 when no rating is given. Electric: 1.65 kW/ft3 up to 15 ft3,
/// 1.1 above (practice); burners: 130 kW/m3, the middle of 104 to 166 (community.ceramicartsdaily
/// .org topic 4487, attributed there to kiln-building books).
double usual_power_kw(HeatSource source, double volume) {
  if (source != HeatSource::electric) {
    return 130 * volume;
  }
  return volume <= 15 * 0.0283168 ? 58 * volume : 39 * volume;
}

}  // namespace

FullBuild filled(const KilnBuild& build) {
  FullBuild full;
  full.build = build;
  full.learnt = build.learnt.value_or(Learnt{});
  full.volume = build.chamber_volume_m3 > 0 ? build.chamber_volume_m3 : 0.2;
  full.surface = build.chamber_surface_m2 > 0 ? build.chamber_surface_m2
                                              : 6 * std::cbrt(full.volume) * std::cbrt(full.volume);
  for (const WallLayer& layer : build.wall) {
    if (const WallMaterial* known = find_wall_material(layer.material)) {
      full.wall.push_back({known, layer.thickness});
    }
  }
  full.wall_known = !full.wall.empty();
  if (!full.wall_known) {
    full.wall = usual_wall(build.source);
  }
  full.power_known = build.power && build.power->kw > 0;
  full.power_w = 1e3 * full.learnt.power *
                 (full.power_known ? build.power->kw : usual_power_kw(build.source, full.volume));
  return full;
}

HeatLoad filled(const HeatLoad& load, double volume) {
  HeatLoad full = load;
  if (load.ware.kg() + load.furniture.kg() <= 0) {
    full.ware = Mass::from_kg(kLoadPerM3 * kWareShare * volume);
    full.furniture = Mass::from_kg(kLoadPerM3 * (1 - kWareShare) * volume);
  }
  return full;
}

ThermalKiln::ThermalKiln(const FullBuild& build, const HeatLoad& load, Temperature start)
    : wall_{build.wall, build.surface, start, false, build.learnt.loss, build.learnt.store},
      masses_{load},
      furniture_{shelf_body(load.shelf_material)},
      surface_{build.surface},
      vent_w_per_k_{1.2 * 1005 / 3600 *
                    (build.build.source == HeatSource::electric ? kLeakElectric * build.volume
                                                                : kLeakFuel * build.surface)},
      chamber_j_per_k_{kChamberJPerKM3 * build.volume},
      convection_{build.build.source == HeatSource::electric ? 5.0 : 20.0},
      room_{build.build.room_celsius},
      emissivity_{build.build.shell_emissivity},
      chamber_{start.celsius},
      load_{start.celsius},
      hottest_load_{start.celsius} {}

double ThermalKiln::water_share(double celsius) const {
  return std::clamp((celsius - kWaterFrom) / (kWaterTo - kWaterFrom), 0.0, 1.0);
}

double ThermalKiln::bound_share(double celsius) const {
  return std::clamp((celsius - kBoundFrom) / (kBoundTo - kBoundFrom), 0.0, 1.0);
}

double ThermalKiln::heat_of_load(double celsius) const {
  const double hottest = std::max(celsius, hottest_load_);
  return 1e3 * (masses_.ware.kg() * heat_content(Body::stoneware, {celsius}) +
                masses_.furniture.kg() * heat_content(furniture_, {celsius}) +
                masses_.water.kg() * kWaterToSteam * water_share(hottest) +
                masses_.bound_water.kg() * kBoundWaterHeat * bound_share(hottest));
}

double ThermalKiln::slope_of_load(double celsius) const {
  double slope = masses_.ware.kg() * specific_heat(Body::stoneware, {celsius}) +
                 masses_.furniture.kg() * specific_heat(furniture_, {celsius});
  if (celsius >= hottest_load_) {
    if (celsius >= kWaterFrom && celsius < kWaterTo) {
      slope += masses_.water.kg() * kWaterToSteam / (kWaterTo - kWaterFrom);
    }
    if (celsius >= kBoundFrom && celsius < kBoundTo) {
      slope += masses_.bound_water.kg() * kBoundWaterHeat / (kBoundTo - kBoundFrom);
    }
  }
  return 1e3 * slope;
}

void ThermalKiln::prepare(double seconds) {
  if (seconds != prepared_) {
    line_ = wall_.begin_step(seconds, {room_}, emissivity_);
    prepared_ = seconds;
  }
}

/// Face temperature at which radiation and convection from the chamber equal what the wall takes.
void ThermalKiln::solve_face(Trial& trial) const {
  double face = trial.face;
  for (int i = 0; i < 30; ++i) {
    const double flow =
        surface_ * (kToWall * kStefanBoltzmann * (to_fourth(trial.target) - to_fourth(face)) +
                    convection_ * (trial.target - face));
    const double slope =
        -surface_ * (4 * kToWall * kStefanBoltzmann * third_power(face) + convection_) -
        line_.slope;
    const double change = (flow - line_.flow(face)) / slope;
    face -= change;
    if (std::abs(change) < 1e-7) {
      break;
    }
  }
  trial.face = face;
  trial.to_wall = line_.flow(face);
}

/// Load temperature at the end of the step, by Newton inside a bracket (its heat content has
/// kinks).
void ThermalKiln::solve_load(Trial& trial) const {
  const double before = heat_of_load(load_);
  double low = std::min(load_, trial.target) - 1;
  double high = std::max(load_, trial.target) + 1;
  double t = std::clamp(trial.load, low, high);
  for (int i = 0; i < 60; ++i) {
    const double flow =
        surface_ * (kToLoad * kStefanBoltzmann * (to_fourth(trial.target) - to_fourth(t)) +
                    convection_ * (trial.target - t));
    const double miss = heat_of_load(t) - before - trial.seconds * flow;
    (miss > 0 ? high : low) = t;
    const double slope =
        slope_of_load(t) +
        trial.seconds * surface_ * (4 * kToLoad * kStefanBoltzmann * third_power(t) + convection_);
    double next = t - miss / slope;
    if (!(next > low && next < high)) {
      next = (low + high) / 2;
    }
    const double change = next - t;
    t = next;
    if (std::abs(change) < 1e-8 || high - low < 1e-9) {
      break;
    }
  }
  trial.load = t;
  trial.to_load = (heat_of_load(t) - before) / trial.seconds;
}

double ThermalKiln::heat_to_reach(double seconds, double target_celsius) {
  if (!(seconds > 0) || !std::isfinite(target_celsius)) {
    throw std::invalid_argument{"heat_to_reach: a step needs a length and a temperature"};
  }
  prepare(seconds);
  trial_.seconds = seconds;
  trial_.target = target_celsius;
  trial_.face = wall_.face();
  trial_.load = load_;
  solve_face(trial_);
  solve_load(trial_);
  trial_.vent = burning_ ? 0 : vent_w_per_k_ * (target_celsius - room_);
  trial_.heat = trial_.to_wall + trial_.to_load + trial_.vent +
                chamber_j_per_k_ * (target_celsius - chamber_) / seconds;
  return trial_.heat;
}

void ThermalKiln::take() {
  const double dt = trial_.seconds;
  const double stored = wall_.stored_j();
  wall_.finish_step(trial_.face);
  account_.given += trial_.heat * dt;
  account_.wall += wall_.stored_j() - stored;
  account_.shell += wall_.lost_w() * dt;
  account_.vent += trial_.vent * dt;
  account_.chamber += chamber_j_per_k_ * (trial_.target - chamber_);
  const double hottest = std::max(hottest_load_, trial_.load);
  const double dried = 1e3 * (masses_.water.kg() * kWaterToSteam *
                                  (water_share(hottest) - water_share(hottest_load_)) +
                              masses_.bound_water.kg() * kBoundWaterHeat *
                                  (bound_share(hottest) - bound_share(hottest_load_)));
  account_.water += dried;
  account_.load += trial_.to_load * dt - dried;
  chamber_ = trial_.target;
  load_ = trial_.load;
  hottest_load_ = hottest;
  prepared_ = 0;
}

void ThermalKiln::take_with(double seconds, double watts) {
  // Heat rises with the chamber's temperature, so a bracket and the secant through it find it.
  double low = chamber_;
  double high = chamber_;
  double low_heat = heat_to_reach(seconds, low);
  double high_heat = low_heat;
  double reach = 2;
  while (high_heat < watts && reach < 3000) {
    low = high;
    low_heat = high_heat;
    high = chamber_ + reach;
    high_heat = heat_to_reach(seconds, high);
    reach *= 3;
  }
  reach = 2;
  while (low_heat > watts && reach < 3000) {
    high = low;
    high_heat = low_heat;
    low = std::max(chamber_ - reach, -100.0);
    low_heat = heat_to_reach(seconds, low);
    reach *= 3;
  }
  for (int i = 0; i < 60 && high - low > 1e-6; ++i) {
    double t = high_heat > low_heat
                   ? low + (high - low) * (watts - low_heat) / (high_heat - low_heat)
                   : (low + high) / 2;
    t = std::clamp(t, low + 0.02 * (high - low), high - 0.02 * (high - low));
    const double heat = heat_to_reach(seconds, t);
    if (std::abs(heat - watts) < 1e-3 + 1e-7 * std::abs(watts)) {
      break;
    }
    if (heat > watts) {
      high = t;
      high_heat = heat;
    } else {
      low = t;
      low_heat = heat;
    }
  }
  // What the last trial asks for is what is given: the account stays exact.
  take();
}

}  // namespace placer::firing
