#include "placer/firing/materials.h"

#include <catch2/catch.hpp>
#include <cmath>

namespace placer::firing {
namespace {

LayerOf layer(const char* name, double mm) {
  return {find_wall_material(name), Length::from_mm(mm)};
}

}  // namespace

TEST_CASE("heat content of ware and shelves", "[materials]") {
  // Oxide mixing from NASA TM-4513
  CHECK(heat_content(Body::stoneware, {1250}) == Approx(1384).epsilon(0.02));
  CHECK(heat_content(Body::stoneware, {1250}) / 3600 == Approx(0.384).epsilon(0.02));
  CHECK(heat_content(Body::stoneware, {1000}) == Approx(1077).epsilon(0.02));
  CHECK(heat_content(Body::stoneware, {1060}) == Approx(1149).epsilon(0.02));
  CHECK(heat_content(Body::stoneware, {1222}) == Approx(1349).epsilon(0.02));
  CHECK(heat_content(Body::stoneware, {1250}) / 1225 == Approx(1.130).epsilon(0.02));
  CHECK(heat_content(Body::silicon_carbide, {1200}) == Approx(1318).epsilon(0.01));
  CHECK(heat_content(Body::alumina, {1300}) == Approx(1492).epsilon(0.01));
  CHECK(heat_content(Body::stoneware, {25}) == Approx(0).margin(1e-9));
  CHECK(specific_heat(Body::stoneware, {1000}) == Approx(1.208).epsilon(0.02));
}

TEST_CASE("heat content is the integral of the specific heat", "[materials]") {
  for (const Body body : {Body::earthenware, Body::stoneware, Body::porcelain, Body::cordierite,
                          Body::silicon_carbide, Body::alumina, Body::mullite}) {
    double sum = 0;
    for (double t = 25; t < 1350; t += 1) {
      sum += specific_heat(body, {t + 0.5});
    }
    CHECK(sum == Approx(heat_content(body, {1350})).epsilon(1e-3));
  }
}

TEST_CASE("water and bound water", "[materials]") {
  CHECK(kWaterToSteam == Approx(2592).epsilon(0.01));           // IAPWS-97, from memory
  CHECK(0.0721 * kWaterToSteam == Approx(187).epsilon(0.015));  // 72.1 g of a wet mug
  // Kaolinite Al2O3.2SiO2.2H2O, 258.16 g/mol: 13.96 % bound water, 147.8 kJ/mol for the whole way
  // to mullite and quartz (NASA TM-4513; Robie & Hemingway, USGS Bulletin 2131, from memory)
  CHECK(100 * 2 * 18.015 / 258.16 == Approx(13.96).margin(0.01));
  CHECK(kBoundWaterHeat == Approx(147.8 / (2 * 0.018015)).epsilon(0.02));
  CHECK(147.8 / 0.25816 == Approx(572).epsilon(0.02));
}

TEST_CASE("steady flow through a wall with given faces", "[materials]") {
  CHECK(steady_flow({layer("insulating brick 23", 115)}, {1200}, {100}) ==
        Approx(1425).epsilon(0.005));
  CHECK(steady_flow({layer("insulating brick 26", 115)}, {1200}, {100}) ==
        Approx(2685).epsilon(0.005));
  CHECK(steady_flow({layer("insulating brick 28", 115)}, {1200}, {100}) ==
        Approx(3109).epsilon(0.005));
  const WallMaterial even{"even", {{0, 0.20}}, 500, 1, {1200}, "made up"};
  CHECK(steady_flow({{&even, Length::from_mm(115)}}, {1200}, {100}) == Approx(1913).epsilon(0.001));
}

TEST_CASE("outer loss of a shell", "[materials]") {
  // Holman, simplified air equations (from memory), emissivity 0.9, room at 20 °C
  CHECK(outer_loss({100}, {20}, 0.9) == Approx(1064).epsilon(0.02));
  CHECK(outer_loss({150}, {20}, 0.9) == Approx(2122).epsilon(0.02));
  CHECK(outer_loss({60}, {20}, 0.9) == Approx(431).epsilon(0.02));
  CHECK(outer_loss({200}, {20}, 0.9) == Approx(3512).epsilon(0.02));
}

TEST_CASE("steady loss and shell temperature of usual walls", "[materials]") {
  struct Row {
    std::vector<LayerOf> wall;
    double hot, flow, shell;
  };
  const Row rows[] = {
      {{layer("insulating brick 23", 115)}, 1200, 1412, 118},
      {{layer("insulating brick 23", 76)}, 1200, 2101, 149},
      {{layer("insulating brick 26", 115)}, 1250, 2708, 173},
      {{layer("insulating brick 28", 115)}, 1300, 3227, 191},
      {{layer("insulating brick 26", 115), layer("fibre blanket", 50)}, 1200, 1301, 113},
      {{layer("insulating brick 23", 76), layer("fibre blanket", 25)}, 1200, 1486, 122},
  };
  for (const Row& row : rows) {
    Temperature shell;
    CHECK(steady_loss(row.wall, {row.hot}, {20}, 0.9, &shell) == Approx(row.flow).epsilon(0.04));
    CHECK(shell.celsius == Approx(row.shell).margin(row.wall.size() > 1 ? 10 : 4));
  }
}

TEST_CASE("black body radiation", "[materials]") {
  CHECK(black_radiation({1250}) == Approx(305e3).epsilon(0.005));
  CHECK(black_radiation({1000}) == Approx(149.0e3).epsilon(0.003));
  // A spy hole of 25 mm at 1250 °C
  CHECK(black_radiation({1250}) * 3.14159265 * 0.0125 * 0.0125 == Approx(150).epsilon(0.005));
}

TEST_CASE("every wall material is sound", "[materials]") {
  for (const WallMaterial& m : wall_materials()) {
    CAPTURE(m.name);
    CHECK_FALSE(m.source.empty());
    CHECK(find_wall_material(m.name) == &m);
    for (std::size_t i = 1; i < m.conductivity.size(); ++i) {
      CHECK(m.conductivity[i - 1].celsius < m.conductivity[i].celsius);
    }
    CHECK(m.conductivity_at(-100) == m.conductivity.front().w_per_mk);
    CHECK(m.conductivity_at(5000) == m.conductivity.back().w_per_mk);
  }
  CHECK(find_wall_material("cardboard") == nullptr);
}

}  // namespace placer::firing
