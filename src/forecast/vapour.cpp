#include "forecast/vapour.hpp"

#include <algorithm>
#include <cmath>

#include "physics/water_activity.hpp"
#include "weather/air.hpp"

namespace stillheap::forecast {
namespace {

// Below this the air over the material is drier than saturated and water activity is solved with the flow.
constexpr double damp_water_dry = 0.6;

}  // namespace

void set_vapour(const Heap& heap, const Scene& scene, double dt_s, const State& state, Workspace& work) {
  const Lattice& lattice = heap.lattice;
  auto& out = work.sum_a;
  auto& in = work.sum_b;
  std::fill(out.begin(), out.end(), 0.0);
  std::fill(in.begin(), in.end(), 0.0);
  for (std::size_t k = 0; k < lattice.links.size(); ++k) {
    const auto [a, b] = lattice.links[k];
    const double from_a = scene.vapour_kg_s[k] + std::max(scene.gas_flow_kg_s[k], 0.0);
    const double from_b = scene.vapour_kg_s[k] + std::max(-scene.gas_flow_kg_s[k], 0.0);
    out[a] += from_a;
    in[b] += from_a * work.vapour[a];
    out[b] += from_b;
    in[a] += from_b * work.vapour[b];
  }
  for (std::size_t f = 0; f < lattice.faces.size(); ++f) {
    const int i = lattice.faces[f].node;
    out[i] += scene.face[f].vapour_kg_s + std::max(scene.face_flow_kg_s[f], 0.0);
    in[i] += (scene.face[f].vapour_kg_s + std::max(-scene.face_flow_kg_s[f], 0.0)) * scene.outside_vapour_ratio;
  }
  for (int i = 0; i < lattice.cells(); ++i) {
    const double celsius = work.unknown[i];
    const double pressure = scene.outside.pressure_pa;
    const double saturated_pa = weather::saturation_pressure_pa(celsius);
    const double saturated = weather::humidity_ratio(saturated_pa, pressure);
    // d/dT of 0.622 e / (p - e)
    const double slope =
        saturated * weather::saturation_slope_pa_k(celsius) * pressure / (saturated_pa * (pressure - saturated_pa));
    double water = state.water_kg[i] / scene.dry_kg[i];
    physics::WaterActivity activity = physics::water_activity(water);
    double held = 1.0;
    if (water < damp_water_dry) {
      const double gain = dt_s * in[i] / scene.dry_kg[i];
      const double loss = dt_s * out[i] * saturated / scene.dry_kg[i];
      double low = 0.0, high = water + gain;  // the balance rises with water: bisect, polished by Newton
      double left = std::clamp(work.activity[i], low, high);
      for (int round = 0; round < 40; ++round) {
        activity = physics::water_activity(left);
        const double miss = left - water - gain + loss * activity.value;
        (miss > 0.0 ? high : low) = left;
        if (std::abs(miss) < 1e-13) break;
        const double newton = left - miss / (1.0 + loss * activity.slope);
        left = newton > low && newton < high ? newton : 0.5 * (low + high);
      }
      work.activity[i] = left;
      held = 1.0 / (1.0 + loss * activity.slope);
    }
    work.vapour[i] = activity.value * saturated;
    work.vapour_slope[i] = activity.value * slope * held;
  }
}

void solve_tridiagonal(const std::vector<double>& a, std::vector<double>& b, const std::vector<double>& c, double* d,
                       int n) noexcept {
  for (int i = 1; i < n; ++i) {
    const double w = a[i] / b[i - 1];
    b[i] -= w * c[i - 1];
    d[i] -= w * d[i - 1];
  }
  d[n - 1] /= b[n - 1];
  for (int i = n - 2; i >= 0; --i) d[i] = (d[i] - c[i] * d[i + 1]) / b[i];
}

void balance_duct_vapour(const Heap& heap, const Scene& scene, State& state, Workspace& work) {
  const Lattice& lattice = heap.lattice;
  const int layers = lattice.layers;
  auto& lower = work.column_a;
  auto& diagonal = work.column_b;
  auto& upper = work.column_c;
  auto& rise = work.column_d;
  std::fill(work.right.begin(), work.right.end(), 0.0);
  std::fill(rise.begin(), rise.end(), 0.0);
  std::fill(lower.begin(), lower.end(), 0.0);
  std::fill(diagonal.begin(), diagonal.end(), 1e-30);
  std::fill(upper.begin(), upper.end(), 0.0);
  for (int k = lattice.kind_start[2]; k < lattice.kind_start[3]; ++k) {
    const auto [cell, node] = lattice.links[k];
    const int d = node - lattice.cells();
    diagonal[d] += scene.vapour_kg_s[k] + std::max(-scene.gas_flow_kg_s[k], 0.0);
    const double from_cell = scene.vapour_kg_s[k] + std::max(scene.gas_flow_kg_s[k], 0.0);
    work.right[d] += from_cell * work.vapour[cell];
    rise[d] += from_cell * work.vapour_slope[cell];
  }
  for (int k = lattice.kind_start[3]; k < lattice.kind_start[4]; ++k) {
    const int a = lattice.links[k][0] - lattice.cells();
    const double from_a = scene.vapour_kg_s[k] + std::max(scene.gas_flow_kg_s[k], 0.0);
    const double from_b = scene.vapour_kg_s[k] + std::max(-scene.gas_flow_kg_s[k], 0.0);
    diagonal[a] += from_a;
    upper[a] -= from_b;
    diagonal[a + 1] += from_b;
    lower[a + 1] -= from_a;
  }
  for (std::size_t f = 0; f < lattice.faces.size(); ++f) {
    if (lattice.faces[f].node < lattice.cells()) continue;
    const int d = lattice.faces[f].node - lattice.cells();
    diagonal[d] += scene.face[f].vapour_kg_s + std::max(scene.face_flow_kg_s[f], 0.0);
    work.right[d] += (scene.face[f].vapour_kg_s + std::max(-scene.face_flow_kg_s[f], 0.0)) * scene.outside_vapour_ratio;
  }
  // Channels do not touch, so their systems stand one after another in one band.
  if (lattice.channels == 0) return;
  const int ducts = lattice.channels * layers;
  for (int d = 0; d < ducts; ++d) rise[d] /= diagonal[d];
  solve_tridiagonal(lower, diagonal, upper, work.right.data(), ducts);
  for (int d = 0; d < ducts; ++d) {
    work.vapour[lattice.cells() + d] = state.duct_vapour_ratio[d] = work.right[d];
    work.vapour_slope[lattice.cells() + d] = rise[d];
  }
}

}  // namespace stillheap::forecast
