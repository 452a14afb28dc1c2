#include "firing/wall.h"

#include <boost/numeric/odeint.hpp>
#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

namespace placer::firing {
namespace {

constexpr double kPi = 3.14159265358979;

LayerOf layer(const WallMaterial& m, double mm) { return {&m, Length::from_mm(mm)}; }

/// k 0.2 W/mK, 500 kg/m3, 1 kJ/kgK: diffusivity 4e-7 m2/s.
const WallMaterial& even() {
  static const WallMaterial m{"even", {{0, 0.20}}, 500, 1, {1300}, "made up"};
  return m;
}

void run(Wall& wall, double face, double hours, double dt, double* absorbed = nullptr) {
  const int steps = static_cast<int>(std::lround(hours * 3600 / dt));
  for (int i = 0; i < steps; ++i) {
    const Wall::Line line = wall.begin_step(dt, {20}, 0.9);
    wall.finish_step(face);
    if (absorbed != nullptr) {
      *absorbed += line.flow(face) * dt;
    }
  }
}

}  // namespace

TEST_CASE("a thick wall whose face jumps follows the half-space solution", "[wall]") {
  // Carslaw & Jaeger: heat taken up by a half-space, Q = 2 k dT sqrt(t / (pi a)), flow k dT /
  // sqrt(pi a t); both from memory, and re-derived here by the error function solution.
  Wall wall{{layer(even(), 500)}, 1, {20}, true};
  double absorbed = 0;
  run(wall, 1020, 1, 5, &absorbed);
  const double a = 0.20 / (500 * 1000);
  CHECK(absorbed == Approx(2 * 0.20 * 1000 * std::sqrt(3600 / (kPi * a))).epsilon(0.005));
  const Wall::Line line = wall.begin_step(5, {20}, 0.9);
  CHECK(line.flow(1020) == Approx(0.20 * 1000 / std::sqrt(kPi * a * 3605)).epsilon(0.01));
  CHECK(wall.stored_j() == Approx(absorbed).epsilon(1e-9));
}

TEST_CASE("a wall left long enough carries the steady flow", "[wall]") {
  struct Row {
    std::vector<LayerOf> layers;
  };
  const Row rows[] = {
      {{layer(*find_wall_material("insulating brick 23"), 115)}},
      {{layer(*find_wall_material("insulating brick 26"), 115),
        layer(*find_wall_material("fibre blanket"), 50)}},
      {{layer(*find_wall_material("fibre blanket"), 150)}},
  };
  for (const Row& row : rows) {
    Wall wall{row.layers, 1, {20}, true};
    run(wall, 1200, 200, 600);
    Temperature shell;
    const double steady = steady_loss(row.layers, {1200}, {20}, 0.9, &shell);
    CHECK(wall.lost_w() == Approx(steady).epsilon(0.005));
    CHECK(wall.shell().celsius == Approx(shell.celsius).margin(0.5));
    CHECK(wall.begin_step(600, {20}, 0.9).flow(1200) == Approx(steady).epsilon(0.005));
  }
}

TEST_CASE("stored heat of a wall with a straight profile", "[wall]") {
  // 76 mm of brick 23 between 1200 and 100 °C holds 25.1 MJ/m2 over 25 °C (500 kg/m3, 1.05 kJ/kgK)
  const WallMaterial& brick = *find_wall_material("insulating brick 23");
  const double over_room = (1200 + 100) / 2.0 - 25;
  CHECK(brick.kg_per_m3 * brick.kj_per_kg_k * 0.076 * over_room * 1e-3 ==
        Approx(25.1).epsilon(0.01));
}

TEST_CASE("a two-layer wall with changing conductivity agrees with SUNDIALS' stored answers",
          "[wall]") {
  // CVODE 6.4.1 (BDF, banded, rtol 1e-9) on 660 equal cells: brick 26 of 115 mm and fibre blanket
  // of 50 mm, 1 m2 plane; hot face from 20 to 1200 °C in 8 h and held; outside 1.31 dT^(4/3) and
  // radiation with emissivity 0.9 to 20 °C.
  struct Answer {
    double hours, flow_in, flow_out, between, shell, stored_mj;
  };
  const Answer answers[] = {{1, 1196.94, 0.023, 20.161, 20.004, 2.8291},
                            {2, 1754.96, 2.676, 25.431, 20.435, 8.1813},
                            {4, 2642.64, 48.740, 80.078, 26.305, 23.9812},
                            {8, 4033.04, 384.372, 376.171, 56.500, 69.9013},
                            {12, 1746.01, 1034.462, 658.213, 98.356, 93.6473},
                            {24, 1306.83, 1302.148, 736.314, 112.612, 99.8691}};
  Wall wall{{layer(*find_wall_material("insulating brick 26"), 115),
             layer(*find_wall_material("fibre blanket"), 50)},
            1,
            {20},
            true};
  constexpr double kStep = 60;  // as the simulation takes it
  double now = 0;
  for (const Answer& a : answers) {
    double flow = 0;
    while (now < a.hours * 3600 - 1) {
      now += kStep;
      const double face = now < 8 * 3600 ? 20 + 1180 * now / (8 * 3600) : 1200;
      flow = wall.begin_step(kStep, {20}, 0.9).flow(face);
      wall.finish_step(face);
    }
    CAPTURE(a.hours);
    CHECK(wall.stored_j() * 1e-6 == Approx(a.stored_mj).epsilon(0.01));
    CHECK(flow == Approx(a.flow_in).epsilon(0.015));
    CHECK(wall.lost_w() == Approx(a.flow_out).epsilon(0.015).margin(1.5));
    CHECK(wall.between(0).celsius == Approx(a.between).margin(4));
    CHECK(wall.shell().celsius == Approx(a.shell).margin(0.8));
  }
}

TEST_CASE("a wall agrees with an adaptive integrator of its own equations", "[wall]") {
  // Boost.odeint, Runge-Kutta Dormand-Prince with error control, on 60 equal cells, face held.
  using State = std::vector<double>;
  namespace odeint = boost::numeric::odeint;
  constexpr int kCells = 60;
  constexpr double kThickness = 0.10;
  const double d = kThickness / kCells;
  const double capacity = 500 * 1000 * d;
  const auto rate = [&](const State& t, State& dt, double) {
    for (int i = 0; i < kCells; ++i) {
      const auto c = static_cast<std::size_t>(i);
      const double in = i == 0 ? 0.2 * (900 - t[c]) / (d / 2) : 0.2 * (t[c - 1] - t[c]) / d;
      double out = 0;
      if (i + 1 < kCells) {
        out = 0.2 * (t[c] - t[c + 1]) / d;
      } else {
        double shell = t[c];
        for (int n = 0; n < 60; ++n) {  // face between half a cell and the film
          const double g = 0.2 / (d / 2);
          shell -= (outer_loss({shell}, {20}, 0.9) - g * (t[c] - shell)) / (g + 20);
        }
        out = outer_loss({shell}, {20}, 0.9);
      }
      dt[c] = (in - out) / capacity;
    }
  };
  State t(kCells, 20.0);
  odeint::integrate_adaptive(odeint::make_controlled<odeint::runge_kutta_dopri5<State>>(1e-6, 1e-6),
                             rate, t, 0.0, 6 * 3600.0, 1.0);
  double stored = 0;
  for (const double c : t) {
    stored += capacity * (c - 20);
  }
  Wall wall{{layer(even(), 100)}, 1, {20}, true};
  run(wall, 900, 6, 30);
  CHECK(wall.stored_j() == Approx(stored).epsilon(0.004));
}

TEST_CASE("what goes in is stored or lost, to the last digit", "[wall]") {
  Wall wall{{layer(*find_wall_material("insulating brick 26"), 115),
             layer(*find_wall_material("fibre blanket"), 50)},
            2.5,
            {20}};
  double in = 0;
  double out = 0;
  for (int i = 0; i < 2000; ++i) {
    const double face = i < 600 ? 20 + 2.0 * i : std::max(60.0, 1220 - (i - 600) * 1.0);
    in += 60 * wall.begin_step(60, {20}, 0.9).flow(face);
    wall.finish_step(face);
    out += 60 * wall.lost_w();
  }
  CHECK(in == Approx(out + wall.stored_j()).epsilon(1e-9));
}

TEST_CASE("a wall without a layer or an area is refused", "[wall]") {
  CHECK_THROWS_AS((Wall{{}, 1, {20}}), std::invalid_argument);
  CHECK_THROWS_AS((Wall{{layer(even(), 10)}, 0, {20}}), std::invalid_argument);
}

}  // namespace placer::firing
