/// @file materials.h
/// Heat in ware, shelves and walls. Brick and fibre differ between makes by about a quarter either
/// way, which moves a kiln's energy by a third: calibrate from a past firing.
#pragma once

#include <string>
#include <vector>

#include "placer/base/units.h"

namespace placer::firing {

/// One material of a kiln wall. Conductivity in W/mK at mean temperatures in °C, straight lines
/// between them and level outside.
struct WallMaterial {
  std::string name;  ///< as the studio file writes it
  struct Point {
    double celsius, w_per_mk;
  };
  std::vector<Point> conductivity;
  double kg_per_m3 = 600;
  double kj_per_kg_k = 1.05;
  Temperature limit;  ///< hot face; nominal class or practice
  std::string source;

  double conductivity_at(double celsius) const;
};

/// By rising conductivity; the names that a studio file may use.
const std::vector<WallMaterial>& wall_materials();
/// nullptr when there is none of that name.
const WallMaterial* find_wall_material(const std::string& name);

/// What is heated.
enum class Body {
  earthenware,
  stoneware,
  porcelain,
  cordierite,
  silicon_carbide,
  alumina,
  mullite
};

/// Heat content over 25 °C in kJ/kg: straight lines between 100 °C steps, as far as 1400 °C.
/// @source oxide mixing from NASA TM-4513 (SiO2 as quartz with its step at 573 °C); the rule of
///   mixtures holds to 3 % for fired clay (zi-online.info, specific heat of raw clay mixtures)
double heat_content(Body body, Temperature t);
/// Its slope there, kJ/kgK.
double specific_heat(Body body, Temperature t);
/// From a shelf material's name ("cordierite", "silicon carbide", "high alumina", ...).
Body shelf_body(const std::string& material);

/// Water from 20 °C to steam at 100 °C, kJ/kg. @source IAPWS-97, from memory
inline constexpr double kWaterToSteam = 2592;
/// Heat that one kilogram of bound water takes up on leaving kaolinite, the whole reaction to
/// mullite and quartz, kJ/kg: 147.8 kJ/mol. Good to 30 % for the range where it is taken up.
/// @source NASA TM-4513 and Robie & Hemingway, USGS Bulletin 2131 (from memory)
inline constexpr double kBoundWaterHeat = 4100;

/// Outer loss of a wall in W/m2: natural convection 1.31 dT^(4/3) and radiation.
/// @source Holman, Heat Transfer, simplified air equations (from memory)
double outer_loss(Temperature shell, Temperature room, double emissivity);
/// Black body radiation in W/m2.
double black_radiation(Temperature t);
/// Heat flow in W/m2 through a layered wall with its faces at two temperatures, steady state.
struct LayerOf {
  const WallMaterial* material;
  Length thickness;
};
double steady_flow(const std::vector<LayerOf>& layers, Temperature hot, Temperature cold);
/// The same with the outer face losing heat to the room; `shell` is told its temperature.
double steady_loss(const std::vector<LayerOf>& layers, Temperature hot, Temperature room,
                   double emissivity, Temperature* shell = nullptr);

}  // namespace placer::firing
