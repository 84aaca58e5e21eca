#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "../unit/model/forecast/heap_bench.hpp"
#include "check.hpp"
#include "core/base/constants.hpp"
#include "model/forecast/totals.hpp"
#include "model/physics/channel_duct.hpp"
#include "model/physics/gas.hpp"

namespace stillheap::forecast {
namespace {

using constant::pi;
using constant::seconds_per_day;
using outside::expect;

double heat_capacity_j_m3_k(const Bench& bench) {
  return enthalpy_of(bench.heap, bench.state, 0).slope_j_k / bench.coefficients.volume_m3[0];
}

/// Holds the faces of one kind at a temperature through a conductance per plan length or area.
void hold(Bench& bench, FaceKind kind, double heat_per_plan, double celsius) {
  for (std::size_t f = 0; f < bench.heap.heap_mesh.faces.size(); ++f) {
    const Face& face = bench.heap.heap_mesh.faces[f];
    if (face.kind != kind) continue;
    bench.coefficients.face[f].heat_w_k = heat_per_plan * face.plan_m;
    bench.coefficients.face[f].apparent_c = celsius;
  }
}

// Large beside the material's own conductance, small enough for the linear solver's relative tolerance.
constexpr double firm_w_m_k = 1e4;

// ---- T01 ------------------------------------------------------------------------------------------------------

/// The zero of J0 next to a guess.
double bessel_root(double x) {
  for (int n = 0; n < 20; ++n) x += std::cyl_bessel_j(0.0, x) / std::cyl_bessel_j(1.0, x);
  return x;
}

struct Cooled {
  double centre = 0.0;
  double mean = 0.0;
};

/// Series of the cylinder times that of the slab.
Cooled series(double fourier_r, double fourier_z) {
  Cooled round, slab;
  for (int n = 1; n <= 40; ++n) {
    const double zero = bessel_root((n - 0.25) * pi);
    const double fall = std::exp(-zero * zero * fourier_r);
    round.centre += 2.0 / (zero * std::cyl_bessel_j(1.0, zero)) * fall;
    round.mean += 4.0 / (zero * zero) * fall;
    const double wave = (n - 0.5) * pi;
    const double fade = std::exp(-wave * wave * fourier_z);
    slab.centre += 2.0 / wave * (n % 2 == 1 ? 1.0 : -1.0) * fade;
    slab.mean += 2.0 / (wave * wave) * fade;
  }
  return {round.centre * slab.centre, round.mean * slab.mean};
}

constexpr double diffusivity_m2_s = 1.5e-7;

struct CoolingRun {
  Cooled theta;
  double energy_error = 0.0;
};

CoolingRun cool(double edge_m, int layers, int steps) {
  Request request = plain_request(plain_round(1.2, 1.2));
  request.fill_temperature_c = 60.0;
  Bench bench(request, {{edge_m, edge_m, edge_m}, layers});
  shut(bench);
  const double k = diffusivity_m2_s * heat_capacity_j_m3_k(bench);
  conduct(bench, &Coefficients::heat_w_k, k);
  hold(bench, FaceKind::wall, firm_w_m_k, 10.0);
  hold(bench, FaceKind::top, k * 2.0 * layers / 1.2, 10.0);
  hold(bench, FaceKind::base, k * 2.0 * layers / 1.2, 10.0);
  const Totals first = totals_of(bench.heap, bench.state, {});
  EXPECT_TRUE(heat_for(bench, 5.0 * seconds_per_day / steps, steps));
  set_stored(first, totals_of(bench.heap, bench.state, {}), bench.balances);
  // Half-way up lies between two layers: the parabola through the four nearest.
  const int column = bench.column_at({0.0, 0.0});
  const auto at = [&](int layer) { return bench.state.temperature_c[column * layers + layer]; };
  const double middle = (9.0 * (at(layers / 2 - 1) + at(layers / 2)) - at(layers / 2 - 2) - at(layers / 2 + 1)) / 16.0;
  return {{(middle - 10.0) / 50.0, (bench.mean(bench.state.temperature_c) - 10.0) / 50.0},
          bench.balances.energy.error()};
}

/// Free of the first order in time, so that the error of space stands alone.
Cooled cool_without_time_error(double edge_m, int layers) {
  const Cooled coarse = cool(edge_m, layers, 60).theta, fine = cool(edge_m, layers, 120).theta;
  return {2.0 * fine.centre - coarse.centre, 2.0 * fine.mean - coarse.mean};
}

TEST(Transport, T01CoolingCylinder) {
  const Cooled exact = series(0.18, 0.18);
  expect("T01", "series_centre", exact.centre);
  expect("T01", "series_mean", exact.mean);
  const Cooled coarse = cool_without_time_error(0.12, 8), fine = cool_without_time_error(0.03, 32);
  expect("T01", "centre", fine.centre);
  expect("T01", "mean", fine.mean);
  expect("T01", "centre_c", 10.0 + 50.0 * fine.centre);
  expect("T01", "order_in_space", 0.5 * std::log2(std::abs((coarse.mean - exact.mean) / (fine.mean - exact.mean))));
  const CoolingRun slow = cool(0.12, 8, 30), medium = cool(0.12, 8, 60), quick = cool(0.12, 8, 120);
  expect("T01", "order_in_time",
         std::log2((slow.theta.mean - medium.theta.mean) / (medium.theta.mean - quick.theta.mean)));
  expect("T01", "energy_error", quick.energy_error);
}

// ---- T02 ------------------------------------------------------------------------------------------------------

/// A wide wet heap that freezes from its top: what it gives off in a time, and how deep it then is frozen.
struct Frozen {
  double heat_j_m2 = 0.0;
  double depth_m = 0.0;
};

constexpr double first_c = 4.0, top_c = -10.0, freeze_days = 20.0, conducts_w_m_k = 0.5;
constexpr double slab_m = 2.0, solids_kg_m3 = 200.0, water_dry = 2.5, kept_liquid_dry = 0.25;

/// Neumann's solution for a half space, with one conductivity, by its own constants.
Frozen neumann() {
  const double ice_dry = water_dry - kept_liquid_dry;
  const double thawed_j_m3_k = solids_kg_m3 * (1400.0 + water_dry * 4186.0);
  const double frozen_j_m3_k = solids_kg_m3 * (1400.0 + kept_liquid_dry * 4186.0 + ice_dry * 2100.0);
  const double latent_j_m3 = solids_kg_m3 * ice_dry * 333.6e3;
  const double ratio = std::sqrt(thawed_j_m3_k / frozen_j_m3_k);  // root of the diffusivities, frozen over thawed
  const auto miss = [&](double x) {
    return std::exp(-x * x) / std::erf(x) +
           ratio * first_c / top_c * std::exp(-x * x * ratio * ratio) / std::erfc(x * ratio) +
           x * latent_j_m3 * std::sqrt(pi) / (frozen_j_m3_k * top_c);
  };
  double low = 1e-6, high = 2.0;
  for (int n = 0; n < 100; ++n) (miss(0.5 * (low + high)) > 0.0 ? low : high) = 0.5 * (low + high);
  const double diffusivity = conducts_w_m_k / frozen_j_m3_k, time_s = freeze_days * seconds_per_day;
  return {-2.0 * conducts_w_m_k * top_c * std::sqrt(time_s / (pi * diffusivity)) / std::erf(low),
          2.0 * low * std::sqrt(diffusivity * time_s)};
}

Frozen freeze(int layers, int steps, double& energy_error) {
  Request request = plain_request(plain_round(1.2, slab_m));
  request.fill_temperature_c = first_c;
  request.blend.moisture_wet = water_dry / (1.0 + water_dry);
  request.blend.bulk_density_kg_m3 = solids_kg_m3 * (1.0 + water_dry);
  Bench bench(request, {{0.6, 0.6, 0.6}, layers});
  std::fill(bench.state.salt_kg.begin(), bench.state.salt_kg.end(), 0.0);
  shut(bench);
  conduct(bench, &Coefficients::heat_w_k, conducts_w_m_k);
  hold(bench, FaceKind::top, conducts_w_m_k * 2.0 * layers / slab_m, top_c);
  const Totals first = totals_of(bench.heap, bench.state, {});
  EXPECT_TRUE(heat_for(bench, freeze_days * seconds_per_day / steps, steps));
  set_stored(first, totals_of(bench.heap, bench.state, {}), bench.balances);
  double area_m2 = 0.0, ice_kg = 0.0;
  for (const double a : bench.heap.heap_mesh.plan.area_m2) area_m2 += a;
  for (int i = 0; i < bench.cells(); ++i)
    ice_kg += bench.state.water_kg[i] - enthalpy_of(bench.heap, bench.state, i).liquid_kg;
  energy_error = bench.balances.energy.error();
  return {bench.balances.energy.out / area_m2, ice_kg / area_m2 / (solids_kg_m3 * (water_dry - kept_liquid_dry))};
}

TEST(Transport, T02FreezingSlab) {
  const Frozen exact = neumann();
  double energy_error = 0.0;
  const Frozen ours = freeze(80, 480, energy_error);
  expect("T02", "depth_m", exact.depth_m);
  expect("T02", "heat_ratio", ours.heat_j_m2 / exact.heat_j_m2);
  expect("T02", "depth_ratio", ours.depth_m / exact.depth_m);
  expect("T02", "heat_in_longer_steps", freeze(80, 120, energy_error).heat_j_m2 / ours.heat_j_m2);
  expect("T02", "energy_error", energy_error);
}

// ---- T03, T04 -------------------------------------------------------------------------------------------------

Cooled cool_through_film(double biot, int steps) {
  constexpr double radius_m = 0.5;
  Request request = plain_request(plain_round(2.0 * radius_m, 0.5));
  request.fill_temperature_c = 80.0;
  Bench bench(request, {{radius_m / 24, radius_m / 24, 0.05}, 1});
  shut(bench);
  const double k = 0.3;
  conduct(bench, &Coefficients::heat_w_k, k);
  hold(bench, FaceKind::wall, biot * k / radius_m * 0.5, 0.0);
  const double time_s = 0.5 * radius_m * radius_m * heat_capacity_j_m3_k(bench) / k;
  EXPECT_TRUE(heat_for(bench, time_s / steps, steps));
  const double surface = bench.state.temperature_c[bench.column_at({2.0 * radius_m, 0.0})];
  return {bench.state.temperature_c[bench.column_at({0.0, 0.0})] / 80.0, surface / 80.0};
}

TEST(Transport, T03CylinderWithFilm) {
  for (const auto& [name, biot] : {std::pair{"bi_01", 0.1}, {"bi_1", 1.0}, {"bi_5", 5.0}, {"bi_10", 10.0}}) {
    const Cooled slow = cool_through_film(biot, 60), quick = cool_through_film(biot, 120);
    expect("T03", std::string("centre_") + name, 2.0 * quick.centre - slow.centre);
    expect("T03", std::string("surface_") + name, 2.0 * quick.mean - slow.mean);
  }
}

/// Warms with 5 W/m3 until nothing changes.
void warm_to_rest(Bench& bench) {
  for (int i = 0; i < bench.cells(); ++i) bench.work.heat_made_w[i] = 5.0 * bench.coefficients.volume_m3[i];
  EXPECT_TRUE(heat_for(bench, 2e5, 60));
}

TEST(Transport, T04SelfHeatingCylinderWithFilm) {
  Bench bench(plain_request(plain_round(1.0, 0.5)), {{0.025, 0.025, 0.025}, 1});
  shut(bench);
  conduct(bench, &Coefficients::heat_w_k, 0.35);
  hold(bench, FaceKind::wall, 8.0 * 0.5, 20.0);
  warm_to_rest(bench);
  expect("T04", "cylinder_k", bench.state.temperature_c[bench.column_at({0.0, 0.0})] - 20.0);
}

TEST(Transport, T04SelfHeatingAnnulusAroundAChannel) {
  vessel::Design design = plain_round(0.6, 0.5);
  design.channels.push_back({{0.0, 0.0}, 0.1});
  Bench bench(plain_request(design), {{0.01, 0.01, 0.005}, 2});
  shut(bench);
  conduct(bench, &Coefficients::heat_w_k, 0.4);
  const auto& starts = bench.heap.heap_mesh.kind_start;
  for (int k = starts[2]; k < starts[3]; ++k)
    bench.coefficients.heat_w_k[k] = firm_w_m_k * bench.heap.heap_mesh.link_plan[k];
  hold(bench, FaceKind::mouth_top, 1e7, 20.0);
  hold(bench, FaceKind::mouth_base, 1e7, 20.0);
  warm_to_rest(bench);
  const double angle = bench.heap.heap_mesh.plan.sector.first_angle_rad;
  const int column = bench.column_at({0.3 * std::cos(angle), 0.3 * std::sin(angle)});
  expect("T04", "annulus_k", bench.state.temperature_c[column * 2] - 20.0);
}

// ---- T13 ------------------------------------------------------------------------------------------------------

TEST(Transport, T13Tubes) {
  constexpr double density = 1.1, viscosity = 1.92e-5;
  const auto speed = [&](double diameter_m, double warmer_k) {
    const double drive_pa_m = density * warmer_k / 313.15 * constant::gravity_m_s2;
    return drive_pa_m / physics::duct_resistance_pa_s_m2(0.1, diameter_m, density, viscosity);
  };
  expect("T13", "tube_10_mm_10_k", speed(0.01, 10.0));
  expect("T13", "tube_20_mm_5_k", speed(0.02, 5.0));
  expect("T13", "tube_50_mm_1_k", speed(0.05, 1.0));
}

/// Mean speed of the draft in a lone channel of one temperature, once friction has settled.
double draft_m_s(double diameter_m, double inside_c, double outside_c, double loss, int layers = 8) {
  vessel::Design design = plain_round(1.0, 1.2);
  design.channels.push_back({{0.0, 0.0}, diameter_m});
  Request request = plain_request(design);
  request.surfaces.cover_flow_resistance_pa_s_m = 0.0;
  request.fill_temperature_c = inside_c;
  physics::Parameters parameters;
  parameters.channel_loss = loss;
  Bench bench(request, {{0.2, 0.2, 0.05}, layers}, parameters);
  bench.outside.air_c = outside_c;
  bench.outside.humidity = 0.0;
  std::fill(bench.state.duct_vapour_ratio.begin(), bench.state.duct_vapour_ratio.end(), 0.0);
  const HeapMesh& heap_mesh = bench.heap.heap_mesh;
  for (int round = 0; round < 60; ++round) {
    bench.refresh();
    for (int k = heap_mesh.kind_start[2]; k < heap_mesh.kind_start[3]; ++k) {  // dry air as warm as the rim all the way
      bench.coefficients.gas_kg_s_pa[k] = bench.coefficients.vapour_kg_s[k] = 0.0;
      bench.coefficients.heat_w_k[k] = 1e9;
    }
    EXPECT_EQ(gas_step(bench.heap, 3600.0, bench.state, bench.coefficients, bench.balances, bench.work),
              solver::Status::converged);
  }
  const int link = heap_mesh.kind_start[3];
  return bench.coefficients.gas_flow_kg_s[link] /
         (bench.coefficients.dry_air_density_kg_m3[heap_mesh.duct(0, 0)] * heap_mesh.link_plan[link]);
}

TEST(Transport, T13DraftInAChannel) {
  expect("T13b", "laminar", draft_m_s(0.05, 40.5, 39.5, 0.0));
  expect("T13b", "laminar_with_losses", draft_m_s(0.05, 40.5, 39.5, 1.5));
  expect("T13b", "laminar_24_layers_over_8", draft_m_s(0.05, 40.5, 39.5, 1.5, 24) / draft_m_s(0.05, 40.5, 39.5, 1.5));
  expect("T13b", "turbulent", draft_m_s(0.1, 50.0, 10.0, 0.0));
  expect("T13b", "turbulent_with_losses", draft_m_s(0.1, 50.0, 10.0, 1.5));
}

}  // namespace
}  // namespace stillheap::forecast
