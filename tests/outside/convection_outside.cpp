#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "check.hpp"
#include "core/base/constants.hpp"
#include "line_box.hpp"
#include "model/physics/gas.hpp"

/// Air that turns round in warm material: the gas step and the heat step together, on densities, permeability and
/// conductivity of the program. Two kelvins keep the gas within 0.4 % of a density that is linear in temperature.
namespace stillheap::forecast {
namespace {

using constant::pi;
using outside::expect;

constexpr double middle_c = 20.0;
constexpr double difference_k = 2.0;
constexpr double height_m = 1.0;

double heat_capacity_j_m3_k(const Bench& bench) {
  return enthalpy_of(bench.heap, bench.state, 0).slope_j_k / bench.coefficients.volume_m3[0];
}

/// Time in which heat creeps through the height, s.
double creep_s(const Bench& bench) {
  return height_m * height_m * heat_capacity_j_m3_k(bench) / bench.coefficients.conductivity_w_m_k[0];
}

/// A box whose grain size gives the wanted Rayleigh-Darcy number
/// g rho beta dT K H rho c / (mu k), with all properties at the middle temperature and beta = 1/T.
Bench box_at(double rayleigh, double width_m, int columns, int layers) {
  constexpr double trial_m = 0.01;
  const Bench trial = dry_box(width_m, height_m, 2, 2, middle_c, trial_m);
  const Coefficients& coefficients = trial.coefficients;
  const double air = coefficients.dry_air_density_kg_m3[0];
  const double at_trial = constant::gravity_m_s2 * air * difference_k / (middle_c + constant::zero_celsius_k) *
                          coefficients.permeability_m2[0] * height_m * air * physics::dry_air_heat_j_kg_k /
                          (coefficients.viscosity_pa_s[0] * coefficients.conductivity_w_m_k[0]);
  return dry_box(width_m, height_m, columns, layers, middle_c, trial_m * std::sqrt(rayleigh / at_trial));
}

enum class Top { shut, open };

/// Shuts every face but those held at a temperature; their conductance is that of the half cell before them.
template <typename Held>
void set_faces_of_box(Bench& bench, double outside_c, Top top, const Held& held) {
  bench.outside.air_c = outside_c;
  bench.outside.humidity = 0.0;
  bench.refresh();
  const HeapMesh& heap_mesh = bench.heap.heap_mesh;
  const double half_edge_m = 0.5 * heap_mesh.plan.edges.front().length_m;
  const double layer_m = bench.state.layer_height_m.front();
  for (std::size_t f = 0; f < heap_mesh.faces.size(); ++f) {
    const Face& face = heap_mesh.faces[f];
    const FaceExchange before = bench.coefficients.face[f];
    FaceExchange& exchange = bench.coefficients.face[f] = {};
    if (top == Top::open && face.kind == FaceKind::top) {
      exchange.gas_kg_s_pa = before.gas_kg_s_pa;
      exchange.gas_drive_pa = before.gas_drive_pa;
    }
    if (!held(face)) continue;
    const bool wall = face.kind == FaceKind::wall;
    const double over_m = wall ? face.plan_m * layer_m / half_edge_m : face.plan_m / (0.5 * layer_m);
    exchange.heat_w_k = over_m * bench.coefficients.conductivity_w_m_k[face.node];
    const bool hot = wall ? heap_mesh.plan.nodes[face.node / heap_mesh.layers].x_m < 0.0 : face.kind == FaceKind::base;
    exchange.apparent_c = middle_c + (hot ? 0.5 : -0.5) * difference_k;
  }
  // In a shut box pressure is known but for a constant: one pinhole sets it, and with one hole nothing can pass.
  if (top == Top::shut) bench.coefficients.face.front().gas_kg_s_pa = bench.coefficients.gas_kg_s_pa.front();
}

void move_air_and_heat(Bench& bench, double dt_s) {
  EXPECT_EQ(gas_step(bench.heap, 3600.0, bench.state, bench.coefficients, bench.balances, bench.work),
            solver::Status::converged);
  EXPECT_TRUE(heat_for(bench, dt_s, 1));
}

// ---- T09 ------------------------------------------------------------------------------------------------------

double heat_through_hot_wall_w(const Bench& bench) {
  double sum = 0.0;
  for (std::size_t f = 0; f < bench.coefficients.face.size(); ++f) {
    const FaceExchange& face = bench.coefficients.face[f];
    if (face.heat_w_k > 0.0 && face.apparent_c > middle_c)
      sum += face.heat_w_k * (face.apparent_c - bench.state.temperature_c[bench.heap.heap_mesh.faces[f].node]);
  }
  return sum;
}

/// Nusselt number of the square heated from the left, once it has come to rest.
double nusselt(double rayleigh, int cells) {
  Bench bench = box_at(rayleigh, height_m, cells, cells);
  const auto walls = [](const Face& face) { return face.kind == FaceKind::wall; };
  const double dt_s = creep_s(bench) * std::min(0.04, 2.0 / rayleigh);
  double before = 0.0, now = 0.0;
  for (int n = 0; n < 400; ++n) {
    set_faces_of_box(bench, middle_c, Top::shut, walls);
    move_air_and_heat(bench, dt_s);
    before = now;
    now = heat_through_hot_wall_w(bench);
    if (n > 20 && std::abs(now - before) < 1e-6 * now) break;
  }
  EXPECT_LT(std::abs(now - before), 1e-5 * now) << "not at rest";
  const double still_w = bench.coefficients.conductivity_w_m_k[0] * difference_k * 0.1;  // over a square, 0.1 m deep
  return now / still_w;
}

/// What three grids, each twice as fine, say of no cell size at all: the first and the second order taken away.
double extrapolated(double coarse, double medium, double fine) { return (8.0 * fine - 6.0 * medium + coarse) / 3.0; }

void expect_nusselt(int rayleigh, int coarsest, double published) {
  const std::string name = std::to_string(rayleigh);
  const std::array<double, 4> answer{nusselt(rayleigh, coarsest), nusselt(rayleigh, 2 * coarsest),
                                     nusselt(rayleigh, 4 * coarsest), nusselt(rayleigh, 8 * coarsest)};
  const double before = extrapolated(answer[0], answer[1], answer[2]);
  const double last = extrapolated(answer[1], answer[2], answer[3]);
  expect("T09", "finest_" + name, answer[3]);
  expect("T09", "extrapolated_" + name, last);
  expect("T09", "order_left_" + name, order_of_errors(before - published, last - published));
  if (rayleigh == 10) expect("T09", "order_10", order_of(answer[1], answer[2], answer[3]));
}

TEST(Convection, T09SideHeatedSquare) {
  expect_nusselt(10, 6, 1.07908);
  expect_nusselt(50, 8, 1.984138);
  expect_nusselt(100, 12, 3.11134);
  expect_nusselt(200, 10, 4.9737);
  expect_nusselt(500, 12, 8.982);
}

// ---- T11 ------------------------------------------------------------------------------------------------------

/// Part of the temperature that is odd about the middle of the width: the roll, without the layers it disturbs.
double roll_k(const Bench& bench) {
  const int layers = bench.heap.heap_mesh.layers, columns = bench.heap.heap_mesh.columns;
  double sum = 0.0;
  for (int i = 0; i < bench.cells(); ++i) {
    const int mirror = (columns - 1 - i / layers) * layers + i % layers;
    const double odd = 0.5 * (bench.state.temperature_c[i] - bench.state.temperature_c[mirror]);
    sum += odd * odd;
  }
  return std::sqrt(sum / bench.cells());
}

/// Growth of a weak roll per capillary_flux time, in a box as wide as half its wave.
double growth(double rayleigh, double width_m, int cells, Top top) {
  Bench bench = box_at(rayleigh, width_m, cells, cells);
  const auto ends = [](const Face& face) { return face.kind != FaceKind::wall; };
  for (int i = 0; i < bench.cells(); ++i) {
    const double x = bench.heap.heap_mesh.plan.nodes[i / cells].x_m / width_m, z = (i % cells + 0.5) / cells;
    bench.state.temperature_c[i] = middle_c + difference_k * (0.5 - z - 1e-3 * std::sin(pi * x) * std::sin(pi * z));
  }
  const double step_s = 0.02 * creep_s(bench);
  const double outside_c = top == Top::open ? middle_c - 0.5 * difference_k : middle_c;
  constexpr int settle = 40, watch = 20;
  double first_k = 0.0;
  for (int n = 0; n < settle + watch; ++n) {
    if (n == settle) first_k = roll_k(bench);
    set_faces_of_box(bench, outside_c, top, ends);
    move_air_and_heat(bench, step_s);
  }
  return std::log(roll_k(bench) / first_k) / (watch * 0.02);
}

/// Rayleigh-Darcy number at which a roll neither grows nor dies.
double onset(double expected, double width_m, int cells, Top top) {
  const double low = 0.95 * expected, high = 1.05 * expected;
  const double dies = growth(low, width_m, cells, top), grows = growth(high, width_m, cells, top);
  return low + (high - low) * -dies / (grows - dies);
}

TEST(Convection, T11OnsetInALayerHeatedFromBelow) {
  for (const auto& [name, expected, width, top] :
       {std::tuple{std::string("shut"), 39.4784, 1.0, Top::shut}, {"open_top", 27.0976, pi / 2.3262, Top::open}}) {
    const double a = onset(expected, width, 8, top), b = onset(expected, width, 16, top),
                 c = onset(expected, width, 32, top);
    expect("T11", name + "_16", b);
    expect("T11", name + "_32", c);
    expect("T11", name + "_order", order_of(a, b, c));
  }
}

}  // namespace
}  // namespace stillheap::forecast
