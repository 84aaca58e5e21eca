#include "model/forecast/duct_air.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "heap_bench.hpp"
#include "model/physics/gas.hpp"

namespace stillheap::forecast {
namespace {

/// A hot wet heap in cold air whose flows are found.
Bench drawing_bench() {
  Bench bench(common_request(5), grid_size(common_round(), Grid::draft));
  bench.outside.air_c = 8.0;
  bench.outside.humidity = 0.7;
  for (int i = 0; i < bench.cells(); ++i) bench.state.temperature_c[i] = 50.0 + 15.0 * std::sin(0.3 * i);
  bench.refresh();
  EXPECT_EQ(gas_step(bench.heap, 3600.0, bench.state, bench.coefficients, bench.balances, bench.work),
            solver::Status::converged);
  std::copy(bench.coefficients.vapour_ratio.begin(), bench.coefficients.vapour_ratio.end(), bench.work.vapour.begin());
  std::copy_n(bench.state.temperature_c.begin(), bench.cells(), bench.work.unknown.begin());
  balance_duct_vapour(bench.heap, bench.coefficients, bench.work);
  balance_duct_temperature(bench.heap, bench.coefficients, bench.work);
  return bench;
}

struct Net {
  double vapour_kg_s = 0.0, energy_w = 0.0;
  double vapour_through_kg_s = 0.0, energy_through_w = 0.0;
};

/// Books what goes from one side to the other, written out in full: every carrier with the enthalpy of its giver.
void book(double heat_w, double crept_kg_s, double air_kg_s, double from_c, double to_c, double from_vapour,
          double to_vapour, double sign, Net& net) {
  const double giver_c = air_kg_s > 0.0 ? from_c : to_c;
  const double air_vapour_kg_s = air_kg_s * (air_kg_s > 0.0 ? from_vapour : to_vapour);
  const double energy = heat_w + air_kg_s * physics::dry_air_heat_j_kg_k * giver_c +
                        air_vapour_kg_s * physics::vapour_enthalpy_j_kg(giver_c) +
                        crept_kg_s * physics::vapour_enthalpy_j_kg(crept_kg_s > 0.0 ? from_c : to_c);
  net.vapour_kg_s += sign * (air_vapour_kg_s + crept_kg_s);
  net.vapour_through_kg_s += std::abs(air_vapour_kg_s) + std::abs(crept_kg_s);
  net.energy_w += sign * energy;
  net.energy_through_w += std::abs(energy);
}

Net into_node(const Bench& bench, int node) {
  const Coefficients& coefficients = bench.coefficients;
  const auto& celsius = bench.work.unknown;
  const auto& vapour = bench.work.vapour;
  Net net;
  for (std::size_t k = 0; k < bench.heap.heap_mesh.links.size(); ++k) {
    const auto [a, b] = bench.heap.heap_mesh.links[k];
    if (a != node && b != node) continue;
    book(coefficients.heat_w_k[k] * (celsius[a] - celsius[b]), coefficients.vapour_kg_s[k] * (vapour[a] - vapour[b]),
         coefficients.gas_flow_kg_s[k], celsius[a], celsius[b], vapour[a], vapour[b], b == node ? 1.0 : -1.0, net);
  }
  for (std::size_t f = 0; f < bench.heap.heap_mesh.faces.size(); ++f) {
    if (bench.heap.heap_mesh.faces[f].node != node) continue;
    const FaceExchange& face = coefficients.face[f];
    book(face.heat_w_k * (celsius[node] - face.apparent_c),
         face.vapour_kg_s * (vapour[node] - coefficients.outside_vapour_ratio), coefficients.face_flow_kg_s[f],
         celsius[node], coefficients.outside.air_c, vapour[node], coefficients.outside_vapour_ratio, -1.0, net);
  }
  return net;
}

TEST(DuctAir, TakesAsMuchVapourAndHeatAsItGives) {
  const Bench bench = drawing_bench();
  for (int node = bench.cells(); node < bench.heap.heap_mesh.nodes(); ++node) {
    const Net net = into_node(bench, node);
    EXPECT_LT(std::abs(net.vapour_kg_s), 1e-11 * net.vapour_through_kg_s) << node;
    EXPECT_LT(std::abs(net.energy_w), 1e-11 * net.energy_through_w) << node;
  }
}

TEST(DuctAir, LiesBetweenWhatTouchesIt) {
  const Bench bench = drawing_bench();
  const auto& celsius = bench.state.temperature_c;
  const double hottest = *std::max_element(celsius.begin(), celsius.begin() + bench.cells());
  for (int node = bench.cells(); node < bench.heap.heap_mesh.nodes(); ++node) {
    EXPECT_GT(bench.work.unknown[node], bench.outside.air_c);
    EXPECT_LT(bench.work.unknown[node], hottest);
  }
}

TEST(DuctAir, OfTheFlowsThatTheGasStepFoundWeighsWhatMadeThem) {
  const Bench bench = drawing_bench();
  const HeapMesh& heap_mesh = bench.heap.heap_mesh;
  for (int k = 0; k < heap_mesh.channels; ++k) {
    double brought = 0.0, used = 0.0, lighter = 0.0;
    for (int l = 0; l < heap_mesh.layers; ++l) {
      const int node = heap_mesh.duct(k, l);
      const double vapour_pa = weather::vapour_pressure_pa(bench.work.vapour[node], bench.outside.pressure_pa);
      const double height = bench.state.layer_height_m[l];
      brought +=
          height * weather::moist_air_density_kg_m3(bench.work.unknown[node], vapour_pa, bench.outside.pressure_pa);
      used += height * bench.coefficients.gas_density_kg_m3[node];
      lighter += height * (bench.coefficients.outside_density_kg_m3 - bench.coefficients.gas_density_kg_m3[node]);
    }
    EXPECT_GT(lighter, 0.0);
    EXPECT_NEAR(brought, used, 0.02 * lighter + 1e-3);
  }
}

}  // namespace
}  // namespace stillheap::forecast
