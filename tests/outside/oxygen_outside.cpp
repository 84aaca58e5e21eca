#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <string>

#include "check.hpp"
#include "line_box.hpp"
#include "model/physics/gas.hpp"

namespace stillheap::forecast {
namespace {

using outside::expect;

// ---- T05, T07 -------------------------------------------------------------------------------------------------

constexpr double oxygen_diffusivity = 3e-6;
constexpr double percent_outside = 20.946;

/// What an uptake leaves of the outside oxygen.
struct Left {
  double middle = 0.0;
  double mean = 0.0;
  double outer = 0.0;
};

enum class Open { wall, sides, top_and_base, channel };

// Speed by which an open face passes oxygen: so large beside diffusion that the air outside stands at the face.
constexpr double open_m_s = 10.0;

/// Whether a wall face stands at one end of the box's length.
bool on_side(const Bench& bench, const Face& face) {
  const Point p = bench.heap.heap_mesh.plan.nodes[face.node / bench.heap.heap_mesh.layers];
  return std::abs(p.x_m) > 0.5 * bench.heap.request.design.length_m - 1e-9;
}

/// Lets oxygen in and finds the steady state. `rate_1_s` is the uptake per volume over the outside content per volume
/// of air; `half_percent` decides whether it goes with oxygen (huge) or not at all (tiny).
Left steady_oxygen(const vessel::Design& design, const GridSize& size, Open open, double rate_1_s, bool linear) {
  physics::Parameters parameters;
  parameters.oxygen_half_percent = linear ? 1e6 : 1e-4;
  Bench bench(plain_request(design), size, parameters);
  shut(bench);
  const HeapMesh& heap_mesh = bench.heap.heap_mesh;
  const double air = bench.coefficients.dry_air_density_kg_m3[0];
  conduct(bench, &Coefficients::oxygen_kg_s, air * oxygen_diffusivity);
  for (int k = heap_mesh.kind_start[2]; k < heap_mesh.kind_start[3]; ++k)
    bench.coefficients.oxygen_kg_s[k] = air * open_m_s * heap_mesh.link_plan[k];
  const double half_layer_m = 0.5 * design.fill_height_m / size.layers;
  for (std::size_t f = 0; f < heap_mesh.faces.size(); ++f) {
    const Face& face = heap_mesh.faces[f];
    double& exchange = bench.coefficients.face[f].oxygen_kg_s;
    if (open == Open::channel) {
      if (face.channel >= 0) exchange = air * open_m_s * face.plan_m;
    } else if (open == Open::top_and_base) {
      if (face.kind != FaceKind::wall) exchange = air * oxygen_diffusivity * face.plan_m / half_layer_m;
    } else if (face.kind == FaceKind::wall && (open == Open::wall || on_side(bench, face))) {
      exchange = air * open_m_s * face.plan_m;
    }
  }
  // Pools so large that what they lose in the long step does not matter.
  const double factor = linear ? percent_outside / parameters.oxygen_half_percent : 1.0;
  for (int i = 0; i < bench.cells(); ++i) {
    bench.state.pool_kg[0][i] *= 1e9;
    const double wanted_kg_s = rate_1_s * air * physics::oxygen_outside * bench.coefficients.volume_m3[i];
    bench.coefficients.decay_factor[i] = wanted_kg_s / (parameters.oxygen_yield * bench.state.pool_kg[0][i] * factor *
                                                        bench.heap.request.blend.pool_rate_20c_per_s[0]);
  }
  // Longer and longer steps: where a constant uptake empties a cell, one long step is too far for Newton's method.
  double dt_s = 1e3;
  for (int n = 0; n < 6; ++n) {
    EXPECT_EQ(oxygen_step(bench.heap, bench.coefficients, dt_s, bench.state, bench.balances, bench.work),
              solver::Status::converged);
    dt_s *= 8.0;
  }
  const double angle = heap_mesh.plan.sector.first_angle_rad, rim_m = 0.5 * design.diameter_m;
  const auto share = [&](Point p) {
    return bench.state.oxygen_ratio[bench.column_at(p) * size.layers + size.layers / 2] / physics::oxygen_outside;
  };
  return {share({0.0, 0.0}), bench.mean(bench.state.oxygen_ratio) / physics::oxygen_outside,
          share({rim_m * std::cos(angle), rim_m * std::sin(angle)})};
}

GridSize flat(double edge_m) { return {{edge_m, edge_m, edge_m}, 1}; }

TEST(Oxygen, T05ConstantUptake) {
  constexpr double rate = 2e-4 / 8.6;
  const Left cylinder = steady_oxygen(plain_round(1.2, 0.5), flat(0.03), Open::wall, rate, false);
  expect("T05", "cylinder_m", 0.6 / std::sqrt(1.0 - cylinder.middle));
  const Left slab = steady_oxygen(plain_box(0.8, 0.1, 0.5), flat(0.02), Open::sides, rate, false);
  expect("T05", "slab_m", 0.4 / std::sqrt(1.0 - slab.middle));
}

TEST(Oxygen, T07UptakeInProportionToOxygen) {
  constexpr double rate = 5e-5;
  for (const auto& [name, half_m] : {std::pair{"01", 0.1}, {"03", 0.3}}) {
    const Left slab = steady_oxygen(plain_box(2.0 * half_m, 0.1, 0.5), flat(half_m / 20), Open::sides, rate, true);
    expect("T07", std::string("slab_") + name + "_middle", slab.middle);
    expect("T07", std::string("slab_") + name + "_mean", slab.mean);
    const Left cylinder = steady_oxygen(plain_round(2.0 * half_m, 0.5), flat(half_m / 20), Open::wall, rate, true);
    expect("T07", std::string("cylinder_") + name + "_middle", cylinder.middle);
    expect("T07", std::string("cylinder_") + name + "_mean", cylinder.mean);
  }
  const Left layers = steady_oxygen(plain_box(0.4, 0.4, 0.6), {{0.2, 0.2, 0.2}, 41}, Open::top_and_base, rate, true);
  expect("T07", "layers_03_middle", layers.middle);
  expect("T07", "layers_03_mean", layers.mean);
}

// ---- refinement -----------------------------------------------------------------------------------------------

/// Mean oxygen left at a cut, `fineness` 1 or 4.
using MeanAt = std::function<double(int)>;

double order(const MeanAt& mean_at, double exact) {
  return order_of_errors(mean_at(1) - exact, mean_at(4) - exact, 4.0);
}

vessel::Design ring() {
  vessel::Design design = plain_round(0.6, 0.5);
  design.channels.push_back({{0.0, 0.0}, 0.1});
  return design;
}

Left annulus(int fineness, double rate_1_s, bool linear) {
  const double edge_m = 0.04 / fineness;
  return steady_oxygen(ring(), {{edge_m, edge_m, 0.5 * edge_m}, 2}, Open::channel, rate_1_s, linear);
}

/// The same uptake in a column of layers, whose cells are even.
Left in_layers(double half_m, int fineness, double rate_1_s, bool linear) {
  return steady_oxygen(plain_box(0.4, 0.4, 2.0 * half_m), {{0.2, 0.2, 0.2}, 10 * fineness}, Open::top_and_base,
                       rate_1_s, linear);
}

Left in_slab(double half_m, int fineness, double rate_1_s, bool linear) {
  // Wide enough that its width does not force the coarse cut to be finer than it says.
  return steady_oxygen(plain_box(2.0 * half_m, 1.4 * half_m, 0.5), flat(0.2 * half_m / fineness), Open::sides, rate_1_s,
                       linear);
}

Left in_cylinder(double radius_m, int fineness, double rate_1_s, bool linear) {
  return steady_oxygen(plain_round(2.0 * radius_m, 0.5), flat(0.2 * radius_m / fineness), Open::wall, rate_1_s, linear);
}

TEST(Oxygen, T05bConstantUptakeRefined) {
  constexpr double rate = 2e-4 / 8.6, ring_rate = 2.5e-5;
  constexpr double slab = 1.0 - rate * 0.16 / (3.0 * oxygen_diffusivity);
  constexpr double cylinder = 1.0 - rate * 0.36 / (8.0 * oxygen_diffusivity);
  expect("T05b", "slab_mean", in_slab(0.4, 4, rate, false).mean);
  expect("T05b", "slab_order", order([&](int n) { return in_slab(0.4, n, rate, false).mean; }, slab));
  expect("T05b", "layers_mean", in_layers(0.4, 4, rate, false).mean);
  expect("T05b", "layers_order", order([&](int n) { return in_layers(0.4, n, rate, false).mean; }, slab));
  expect("T05b", "cylinder_mean", in_cylinder(0.6, 4, rate, false).mean);
  expect("T05b", "cylinder_order", order([&](int n) { return in_cylinder(0.6, n, rate, false).mean; }, cylinder));
  const Left fine = annulus(4, ring_rate, false);
  expect("T05b", "annulus_mean", fine.mean);
  expect("T05b", "annulus_outer", fine.outer);
  expect("T05b", "annulus_order", order([&](int n) { return annulus(n, ring_rate, false).mean; }, 0.587539));
  const Left starved = in_layers(0.8, 8, rate, false);
  expect("T05b", "empty_middle_mean", starved.mean);
  expect("T05b", "empty_middle", starved.middle);
}

/// Left in an annulus shut outside, from modified Bessel functions.
Left annulus_exact(double rate_1_s, double inner_m, double outer_m) {
  const double a = std::sqrt(rate_1_s / oxygen_diffusivity), in = a * inner_m, out = a * outer_m;
  const auto i = [](double n, double x) { return std::cyl_bessel_i(n, x); };
  const auto k = [](double n, double x) { return std::cyl_bessel_k(n, x); };
  const double whole = i(0, in) * k(1, out) + k(0, in) * i(1, out);
  const double mean = 2.0 * in / (out * out - in * in) * (k(1, in) * i(1, out) - i(1, in) * k(1, out)) / whole;
  return {0.0, mean, 1.0 / (out * whole)};
}

TEST(Oxygen, T07bUptakeInProportionRefined) {
  constexpr double rate = 5e-5;
  const Left ring_exact = annulus_exact(rate, 0.05, 0.3);
  expect("T07b", "bessel_annulus_mean", ring_exact.mean);
  expect("T07b", "bessel_annulus_outer", ring_exact.outer);
  const double phi = 0.3 * std::sqrt(rate / oxygen_diffusivity), slab = std::tanh(phi) / phi;
  const double cylinder = 2.0 * std::cyl_bessel_i(1.0, phi) / (phi * std::cyl_bessel_i(0.0, phi));
  expect("T07b", "slab_order", order([&](int n) { return in_slab(0.3, n, rate, true).mean; }, slab));
  expect("T07b", "layers_order", order([&](int n) { return in_layers(0.3, n, rate, true).mean; }, slab));
  expect("T07b", "cylinder_order", order([&](int n) { return in_cylinder(0.3, n, rate, true).mean; }, cylinder));
  const Left fine = annulus(4, rate, true);
  expect("T07b", "annulus_mean", fine.mean);
  expect("T07b", "annulus_outer", fine.outer);
  expect("T07b", "annulus_order", order([&](int n) { return annulus(n, rate, true).mean; }, ring_exact.mean));
}

}  // namespace
}  // namespace stillheap::forecast
