#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "check.hpp"
#include "core/base/constants.hpp"
#include "manufactured.hpp"
#include "model/physics/gas.hpp"
#include "model/physics/retention.hpp"

namespace stillheap::forecast {
namespace {

using constant::pi;

// ---- heat -----------------------------------------------------------------------------------------------------

double warm(Spot p) { return 40.0 + 15.0 * std::sin(1.7 * p.x + 0.3) * std::cos(1.3 * p.y - 0.2) * std::exp(p.z); }
double conductivity(Spot p) { return 0.3 * (1.0 + 0.5 * p.x + 0.4 * p.y * p.z); }

void hold_at(Bench& bench, const Field& celsius, const Field& k) {
  for (std::size_t f = 0; f < bench.heap.heap_mesh.faces.size(); ++f) {
    const Face& face = bench.heap.heap_mesh.faces[f];
    const Spot p = spot_of(bench, face);
    bench.coefficients.face[f].heat_w_k = k(p) * to_face_m(bench, face);
    bench.coefficients.face[f].apparent_c = celsius(p);
  }
}

/// Steps until nothing changes; the material's heat content only sets how fast that is.
void come_to_rest(Bench& bench) { EXPECT_TRUE(heat_for(bench, 1e5, 60)); }

double conduction_error(int cut) {
  Bench bench = box(cut);
  let_through(bench, &Coefficients::heat_w_k, conductivity);
  hold_at(bench, warm, conductivity);
  for (int i = 0; i < bench.cells(); ++i)
    bench.work.heat_made_w[i] = -spread_of(conductivity, warm, spot_of(bench, i)) * bench.coefficients.volume_m3[i];
  come_to_rest(bench);
  return miss(bench, bench.state.temperature_c, warm);
}

double advection_error(int cut) {
  const Spot flux{1e-3, 7e-4, 2e-3};
  Bench bench = box(cut);
  bench.coefficients.outside.air_c = 40.0;
  let_through(bench, &Coefficients::heat_w_k, conductivity);
  hold_at(bench, warm, conductivity);
  blow(bench, flux);
  for (int i = 0; i < bench.cells(); ++i) {
    const Spot slope = slope_of(warm, spot_of(bench, i));
    const double carried = physics::dry_air_heat_j_kg_k * (flux.x * slope.x + flux.y * slope.y + flux.z * slope.z);
    bench.work.heat_made_w[i] =
        (carried - spread_of(conductivity, warm, spot_of(bench, i))) * bench.coefficients.volume_m3[i];
  }
  // The air outside has one temperature; what comes in should have the field's.
  for (std::size_t f = 0; f < bench.coefficients.face.size(); ++f) {
    const Face& face = bench.heap.heap_mesh.faces[f];
    const double in = std::max(-bench.coefficients.face_flow_kg_s[f], 0.0);
    bench.work.heat_made_w[face.node] += in * physics::dry_air_heat_j_kg_k * (warm(spot_of(bench, face)) - 40.0);
  }
  come_to_rest(bench);
  return miss(bench, bench.state.temperature_c, warm);
}

/// Heat with vapour in a wet column whose two ends have no slope; base held, gas rising at `gas_kg_m2_s`.
double vapour_error(int cut, double gas_kg_m2_s) {
  constexpr double k_w_m_k = 0.3, air_d = 1.5e-5;
  const auto shape = [](Spot p) { return 45.0 - 15.0 * std::cos(pi * p.z / height_m); };
  Bench bench = column(cut);
  const double pressure_pa = bench.coefficients.outside.pressure_pa;
  const auto vapour = [&](Spot p) {
    return weather::humidity_ratio(weather::saturation_pressure_pa(shape(p)), pressure_pa);
  };
  const auto one = [](Spot) { return 1.0; };
  conduct(bench, &Coefficients::heat_w_k, k_w_m_k);
  conduct(bench, &Coefficients::vapour_kg_s, air_d);
  blow(bench, {0.0, 0.0, gas_kg_m2_s});
  bench.coefficients.outside.air_c = shape({0.0, 0.0, 0.0});
  bench.coefficients.outside_vapour_ratio = vapour({0.0, 0.0, 0.0});
  for (std::size_t f = 0; f < bench.coefficients.face.size(); ++f) {
    const Face& face = bench.heap.heap_mesh.faces[f];
    if (face.kind == FaceKind::base)
      bench.coefficients.face[f] = {
          k_w_m_k * to_face_m(bench, face), bench.coefficients.outside.air_c, 0.0, 0.0, 0.0, 0.0};
  }
  for (int i = 0; i < bench.cells(); ++i) {
    const Spot p = spot_of(bench, i);
    bench.state.temperature_c[i] = shape(p);
    const double t_slope = slope_of(shape, p).z, y_slope = slope_of(vapour, p).z;
    const double moved = gas_kg_m2_s * vapour(p) - air_d * y_slope;                    // vapour, kg/(m2 s)
    const double spreads = gas_kg_m2_s * y_slope - air_d * spread_of(one, vapour, p);  // its divergence
    const double latent = physics::vapour_enthalpy_j_kg(shape(p)) - physics::water_heat_j_kg_k * shape(p);
    bench.work.heat_made_w[i] =
        bench.coefficients.volume_m3[i] *
        (-k_w_m_k * spread_of(one, shape, p) + latent * spreads + physics::vapour_heat_j_kg_k * moved * t_slope +
         gas_kg_m2_s * physics::dry_air_heat_j_kg_k * t_slope);
  }
  EXPECT_TRUE(heat_for(bench, 2.5e4, 60));  // longer would dry the top
  return miss(bench, bench.state.temperature_c, shape);
}

TEST(Manufactured, M01Heat) {
  report("conduction", conduction_error, 15.0);
  report("heat_with_air", advection_error, 15.0);
  report(
      "heat_with_vapour", [](int cut) { return vapour_error(cut, 0.0); }, 15.0);
  report(
      "heat_with_rising_vapour", [](int cut) { return vapour_error(cut, 1e-4); }, 15.0);
}

// ---- gas ------------------------------------------------------------------------------------------------------

/// Pressure over the plan times e^(z / H), with the buoyancy that lets no gas be made: d(m b)/dz = div(m grad p).
double plan_pressure(Spot p) { return 2.0 * std::cos(1.9 * p.x + 0.2) * std::cos(1.4 * p.y); }
double pressure(Spot p) { return plan_pressure(p) * std::exp(p.z / height_m); }
double mobility(Spot p) { return 1e-3 * (1.0 + 0.6 * p.x - 0.3 * p.y); }  // rho K / mu, the same at all heights
double buoyancy_pa_m(Spot p) {
  const double aside = spread_of(mobility, plan_pressure, p) / mobility(p);
  return (aside * height_m + plan_pressure(p) / height_m) * std::exp(p.z / height_m);
}

struct GasError {
  double pressure_pa = 0.0, out_kg_s = 0.0;
};

GasError gas_error(int cut) {
  Bench bench = box(cut);
  const HeapMesh& heap_mesh = bench.heap.heap_mesh;
  let_through(bench, &Coefficients::gas_kg_s_pa, mobility);
  for (int k = 0; k < heap_mesh.kind_start[2]; ++k) {
    const auto [a, b] = heap_mesh.links[k];
    bench.coefficients.gas_drive_pa[k] = 0.5 * (buoyancy_pa_m(spot_of(bench, a)) + buoyancy_pa_m(spot_of(bench, b))) *
                                         bench.coefficients.metric.rise_m[k];
  }
  for (std::size_t f = 0; f < heap_mesh.faces.size(); ++f) {
    const Face& face = heap_mesh.faces[f];
    const double rise = face.kind == FaceKind::top ? 0.5 : face.kind == FaceKind::base ? -0.5 : 0.0;
    bench.coefficients.face[f].gas_kg_s_pa = mobility(spot_of(bench, face)) * to_face_m(bench, face);
    bench.coefficients.face[f].gas_drive_pa =
        rise * layer_m(bench) * buoyancy_pa_m(spot_of(bench, face.node)) - pressure(spot_of(bench, face));
  }
  EXPECT_EQ(gas_step(bench.heap, 3600.0, bench.state, bench.coefficients, bench.balances, bench.work),
            solver::Status::converged);
  double out = 0.0, wanted = 0.0;  // through the inner part of the top
  for (std::size_t f = 0; f < heap_mesh.faces.size(); ++f) {
    const Spot p = spot_of(bench, heap_mesh.faces[f]);
    if (heap_mesh.faces[f].kind != FaceKind::top) continue;
    out += bench.coefficients.face_flow_kg_s[f];
    wanted += heap_mesh.faces[f].plan_m * mobility(p) * (buoyancy_pa_m(p) - slope_of(pressure, p).z);
  }
  return {miss(bench, bench.state.pressure_pa, pressure), out - wanted};
}

TEST(Manufactured, M01Gas) {
  report(
      "gas_pressure", [](int cut) { return gas_error(cut).pressure_pa; }, 2.0);
  report(
      "gas_through_top", [](int cut) { return gas_error(cut).out_kg_s; }, 1e-3 * 2.0 / height_m * length_m * width_m);
}

// ---- oxygen ---------------------------------------------------------------------------------------------------

/// Sets the decay that takes up `taken`, kg oxygen per kg dry air, m3 and s, where the ratio is `ratio`.
void take_up(Bench& bench, const Field& taken, const Field& ratio) {
  for (int i = 0; i < bench.cells(); ++i) {
    const Spot p = spot_of(bench, i);
    bench.state.pool_kg[0][i] = 1e9;  // so large that it does not dwindle
    const double percent = 100.0 * physics::oxygen_share(ratio(p));
    const double factor = percent / (percent + bench.heap.parameters.oxygen_half_percent);
    bench.coefficients.decay_factor[i] = std::max(taken(p), 0.0) * bench.coefficients.volume_m3[i] /
                                         (bench.heap.parameters.oxygen_yield * factor * bench.state.pool_kg[0][i] *
                                          bench.heap.request.blend.pool_rate_20c_per_s[0]);
  }
}

double oxygen_error(int cut) {
  constexpr double air_d = 4e-6;
  const auto ratio = [](Spot p) {
    return physics::oxygen_outside *
           (1.0 - 0.95 * std::cos(pi * p.x / length_m) * std::cos(pi * p.y / width_m) * std::sin(pi * p.z / height_m));
  };
  Bench bench = box(cut);
  conduct(bench, &Coefficients::oxygen_kg_s, air_d);
  for (std::size_t f = 0; f < bench.coefficients.face.size(); ++f)
    bench.coefficients.face[f].oxygen_kg_s = air_d * to_face_m(bench, bench.heap.heap_mesh.faces[f]);
  take_up(
      bench, [&](Spot p) { return spread_of([](Spot) { return air_d; }, ratio, p); }, ratio);
  EXPECT_EQ(oxygen_step(bench.heap, bench.coefficients, 1e9, bench.state, bench.balances, bench.work),
            solver::Status::converged);
  return miss(bench, bench.state.oxygen_ratio, ratio);
}

/// In a column that gas rises through, with no slope at the top.
double rising_oxygen_error(int cut) {
  constexpr double air_d = 4e-6, gas_kg_m2_s = 5e-5;
  const auto ratio = [](Spot p) { return physics::oxygen_outside * (1.0 - 0.9 * std::sin(0.5 * pi * p.z / height_m)); };
  Bench bench = column(cut);
  conduct(bench, &Coefficients::oxygen_kg_s, air_d);
  blow(bench, {0.0, 0.0, gas_kg_m2_s});
  for (std::size_t f = 0; f < bench.coefficients.face.size(); ++f) {
    const Face& face = bench.heap.heap_mesh.faces[f];
    if (face.kind == FaceKind::base) bench.coefficients.face[f].oxygen_kg_s = air_d * to_face_m(bench, face);
  }
  const auto taken = [&](Spot p) {
    return spread_of([](Spot) { return air_d; }, ratio, p) - gas_kg_m2_s * slope_of(ratio, p).z;
  };
  take_up(bench, taken, ratio);
  EXPECT_EQ(oxygen_step(bench.heap, bench.coefficients, 1e9, bench.state, bench.balances, bench.work),
            solver::Status::converged);
  return miss(bench, bench.state.oxygen_ratio, ratio);
}

TEST(Manufactured, M01Oxygen) {
  report("oxygen_with_uptake", oxygen_error, physics::oxygen_outside);
  report("oxygen_with_air", rising_oxygen_error, physics::oxygen_outside);
}

// ---- liquid water ---------------------------------------------------------------------------------------------

/// Capillary flux held at a field between half and nearly all that is held; the source goes in before each step, which
/// is backward Euler with a source.
double capillary_flux_error(int cut) {
  physics::Parameters parameters;
  parameters.holding_suction_m = 1e9;  // no height to lift against: spreading alone
  const double holding = parameters.holding_capacity, at_holding = parameters.capillary_m2_s;
  const auto water = [&](Spot p) {
    return holding * (0.75 + 0.2 * std::sin(pi * p.x / length_m) * std::cos(pi * p.z / height_m));
  };
  const auto diffusivity = [&](Spot p) {
    return physics::capillary_diffusivity_m2_s(water(p) / holding, parameters.retention_exponent, at_holding);
  };
  Request request = plain_request(plain_box(length_m, 0.1, height_m));
  Bench bench(
      make_heap(request, parameters, make_lattice(request.design, row_plan(length_m, 0.1, 8 << cut), 4 << cut)));
  std::vector<double> source(bench.cells()), now(bench.cells());
  const double dt_s = 1e-4 * height_m * height_m / at_holding;
  for (int i = 0; i < bench.cells(); ++i) {
    bench.state.water_kg[i] = water(spot_of(bench, i)) * bench.coefficients.dry_kg[i];
    source[i] = -spread_of(diffusivity, water, spot_of(bench, i)) * bench.coefficients.dry_kg[i];
  }
  bench.refresh();
  for (int n = 0; n < 2000; ++n) {
    for (int i = 0; i < bench.cells(); ++i) bench.state.water_kg[i] += dt_s * source[i];
    EXPECT_EQ(water_step(bench.heap, bench.coefficients, dt_s, 0.0, 0.0, bench.state, bench.balances, bench.work),
              solver::Status::converged);
  }
  for (int i = 0; i < bench.cells(); ++i) now[i] = bench.state.water_kg[i] / bench.coefficients.dry_kg[i];
  return miss(bench, now, water) / holding;
}

TEST(Manufactured, M01CapillaryFlux) { report("capillary_flux", capillary_flux_error, 0.2); }

}  // namespace
}  // namespace stillheap::forecast
