#include "placer/firing/materials.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "gas_constant.h"

namespace placer::firing {
namespace {

/// kJ/kg over 25 °C at 100, 200, ... 1400 °C. Compositions in % by weight: earthenware SiO2 62
/// Al2O3 19 K2O 3 CaO 6 MgO 2 Fe2O3 7; stoneware 66/24/3.5/1/1/2.5; porcelain 68/26/4/1/1/0;
/// cordierite shelf SiO2 50 Al2O3 42 MgO 7 Fe2O3 1. Earthenware at 1400 °C carries on its last
/// slope.
using Contents = std::array<double, 14>;
constexpr Contents kEarthenware = {
    {61, 152, 252, 359, 473, 597, 711, 825, 941, 1058, 1177, 1297, 1419, 1542}};
constexpr Contents kStoneware = {
    {61, 154, 256, 364, 480, 607, 722, 839, 957, 1077, 1198, 1322, 1446, 1573}};
constexpr Contents kPorcelain = {
    {61, 155, 257, 366, 482, 610, 725, 842, 961, 1082, 1205, 1329, 1455, 1582}};
constexpr Contents kCordierite = {
    {62, 157, 261, 371, 487, 613, 730, 849, 970, 1092, 1216, 1341, 1468, 1596}};
constexpr Contents kSiliconCarbide = {
    {56, 144, 242, 348, 459, 574, 693, 814, 937, 1063, 1190, 1318, 1448, 1579}};
constexpr Contents kAlumina = {
    {63, 160, 266, 377, 493, 611, 732, 855, 979, 1105, 1233, 1362, 1492, 1623}};
constexpr Contents kMullite = {
    {62, 156, 259, 368, 482, 598, 717, 838, 960, 1084, 1209, 1335, 1462, 1590}};

const Contents& contents(Body body) {
  switch (body) {
    case Body::earthenware:
      return kEarthenware;
    case Body::stoneware:
      return kStoneware;
    case Body::porcelain:
      return kPorcelain;
    case Body::cordierite:
      return kCordierite;
    case Body::silicon_carbide:
      return kSiliconCarbide;
    case Body::alumina:
      return kAlumina;
    case Body::mullite:
      return kMullite;
  }
  return kStoneware;
}

/// The table's piece that holds a temperature, 1 from 100 °C on; below it (0) the line from 25 °C.
std::size_t piece(double celsius) {
  return static_cast<std::size_t>(std::clamp(std::floor(celsius / 100), 0.0, 13.0));
}

std::vector<WallMaterial> make_materials() {
  const std::string maker = "makers' data sheets, from memory";
  return {
      {"fibre blanket",
       {{200, 0.06}, {400, 0.09}, {600, 0.14}, {800, 0.20}, {1000, 0.27}, {1200, 0.36}},
       128,
       1.06,
       {1260},
       maker + "; laboratories differ by 7 to 8 % (ASTM C16.30 round robin)"},
      {"fibre board",
       {{200, 0.08}, {400, 0.10}, {600, 0.13}, {800, 0.17}, {1000, 0.22}},
       260,
       1.06,
       {1260},
       maker},
      {"insulating brick 23",
       {{0, 0.071}, {1400, 0.071 + 1.2e-4 * 1400}},
       500,
       1.05,
       {1230},
       maker + " for conductivity; density and class ciccorp.com.my"},
      {"insulating brick",
       {{0, 0.149}, {1400, 0.149 + 1.72e-4 * 1400}},
       604,
       1.05,
       {1260},
       "building-hardware.com 2011/06: 0.20 at 300, 0.28 at 750, 0.32 at 1000 °C"},
      {"insulating brick 26",
       {{0, 0.193}, {1400, 0.193 + 1.35e-4 * 1400}},
       800,
       1.10,
       {1400},
       maker + "; class ASTM C155"},
      {"insulating brick 28",
       {{0, 0.260}, {1400, 0.260 + 1.0e-4 * 1400}},
       830,
       1.10,
       {1510},
       maker + "; class ASTM C155"},
      {"fire brick",
       {{0, 1.0}, {1000, 1.3}},
       2100,
       1.03,
       {1450},
       "matmake.com, refractory conductivity"},
      {"steel", {{0, 45}}, 7850, 0.46, {500}, "from memory"},
  };
}

}  // namespace

double WallMaterial::conductivity_at(double celsius) const {
  if (celsius <= conductivity.front().celsius || conductivity.size() == 1) {
    return conductivity.front().w_per_mk;
  }
  for (std::size_t i = 1; i < conductivity.size(); ++i) {
    const Point& a = conductivity[i - 1];
    const Point& b = conductivity[i];
    if (celsius <= b.celsius) {
      return a.w_per_mk +
             (b.w_per_mk - a.w_per_mk) * (celsius - a.celsius) / (b.celsius - a.celsius);
    }
  }
  return conductivity.back().w_per_mk;
}

const std::vector<WallMaterial>& wall_materials() {
  static const std::vector<WallMaterial> materials = make_materials();
  return materials;
}

const WallMaterial* find_wall_material(const std::string& name) {
  for (const WallMaterial& material : wall_materials()) {
    if (material.name == name) {
      return &material;
    }
  }
  return nullptr;
}

double heat_content(Body body, Temperature t) {
  const Contents& table = contents(body);
  const std::size_t i = piece(t.celsius);
  if (i == 0) {
    return table[0] * (t.celsius - 25) / 75;
  }
  return table[i - 1] + (table[i] - table[i - 1]) * (t.celsius / 100 - static_cast<double>(i));
}

double specific_heat(Body body, Temperature t) {
  const Contents& table = contents(body);
  const std::size_t i = piece(t.celsius);
  return i == 0 ? table[0] / 75 : (table[i] - table[i - 1]) / 100;
}

Body shelf_body(const std::string& material) {
  if (material.find("carbide") != std::string::npos) {
    return Body::silicon_carbide;
  }
  if (material.find("alumina") != std::string::npos) {
    return Body::alumina;
  }
  return material.find("mullite") != std::string::npos &&
                 material.find("cordierite") == std::string::npos
             ? Body::mullite
             : Body::cordierite;
}

double black_radiation(Temperature t) {
  const double k = absolute_kelvin(t);
  return kStefanBoltzmann * k * k * k * k;
}

double outer_loss(Temperature shell, Temperature room, double emissivity) {
  const double rise = (shell - room).kelvin;
  const double convection = rise > 0 ? 1.31 * rise * std::cbrt(rise) : 0;
  return convection + emissivity * (black_radiation(shell) - black_radiation(room));
}

namespace {

/// Integral of the conductivity between two temperatures, W/m.
double conductivity_integral(const WallMaterial& m, double from, double to) {
  constexpr int kPieces = 200;
  const double step = (to - from) / kPieces;
  double sum = 0;
  for (int i = 0; i < kPieces; ++i) {
    sum += m.conductivity_at(from + (i + 0.5) * step);
  }
  return sum * step;
}

/// Temperature on the cold side of a layer that carries `flow` W/m2 from a hot side.
double cold_side(const LayerOf& layer, double hot, double flow) {
  double low = -500;
  double high = hot;
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    const double carried =
        conductivity_integral(*layer.material, middle, hot) / (layer.thickness.mm() * 1e-3);
    (carried > flow ? low : high) = middle;
  }
  return (low + high) / 2;
}

}  // namespace

double steady_flow(const std::vector<LayerOf>& layers, Temperature hot, Temperature cold) {
  double low = 0;
  double high = 1e6;
  for (int i = 0; i < 60; ++i) {
    const double flow = (low + high) / 2;
    double t = hot.celsius;
    for (const LayerOf& layer : layers) {
      t = cold_side(layer, t, flow);
    }
    (t > cold.celsius ? low : high) = flow;
  }
  return (low + high) / 2;
}

double steady_loss(const std::vector<LayerOf>& layers, Temperature hot, Temperature room,
                   double emissivity, Temperature* shell) {
  double low = room.celsius;
  double high = hot.celsius;
  for (int i = 0; i < 50; ++i) {
    const double middle = (low + high) / 2;
    (steady_flow(layers, hot, {middle}) > outer_loss({middle}, room, emissivity) ? low : high) =
        middle;
  }
  if (shell != nullptr) {
    *shell = {low};
  }
  return outer_loss({low}, room, emissivity);
}

}  // namespace placer::firing
