#include "model/forecast/duct_air.hpp"

#include <algorithm>

#include "model/physics/gas.hpp"

namespace stillheap::forecast {
namespace {

/// Channels do not touch, so their systems stand one after another in one band.
void clear(Band& band) {
  for (auto* v : {&band.lower, &band.upper, &band.right}) std::fill(v->begin(), v->end(), 0.0);
  std::fill(band.diagonal.begin(), band.diagonal.end(), 1e-30);
}

/// What a node draws towards `value`, by weight.
void draw(Band& band, int row, double weight, double value) {
  band.diagonal[row] += weight;
  band.right[row] += weight * value;
}

/// Solves in place; the answer stands in `right`.
void solve(Band& band) {
  const int n = static_cast<int>(band.right.size());
  for (int i = 1; i < n; ++i) {
    const double share = band.lower[i] / band.diagonal[i - 1];
    band.diagonal[i] -= share * band.upper[i - 1];
    band.right[i] -= share * band.right[i - 1];
  }
  band.right[n - 1] /= band.diagonal[n - 1];
  for (int i = n - 2; i >= 0; --i)
    band.right[i] = (band.right[i] - band.upper[i] * band.right[i + 1]) / band.diagonal[i];
}

/// Heat that moist air brings to a node per kelvin by which it is warmer, with the vapour that creeps in beside it.
double warmth_w_k(double air_kg_s, double vapour_kg_kg, double crept_kg_s) {
  return air_kg_s * physics::dry_air_heat_j_kg_k +
         (air_kg_s * vapour_kg_kg + std::max(crept_kg_s, 0.0)) * physics::vapour_heat_j_kg_k;
}

}  // namespace

void balance_duct_vapour(const Heap& heap, const Coefficients& coefficients, Workspace& work) {
  const HeapMesh& heap_mesh = heap.heap_mesh;
  if (heap_mesh.channels == 0) return;
  const int cells = heap_mesh.cells();
  Band& band = work.band;
  clear(band);
  for (int k = heap_mesh.kind_start[2]; k < heap_mesh.kind_start[3]; ++k) {
    const auto [cell, duct] = heap_mesh.links[k];
    const auto [in, out] = carriers(coefficients.vapour_kg_s[k], coefficients.gas_flow_kg_s[k]);
    band.right[duct - cells] += in * work.vapour[cell];
    band.diagonal[duct - cells] += out;
  }
  for (int k = heap_mesh.kind_start[3]; k < heap_mesh.kind_start[4]; ++k) {
    const int below = heap_mesh.links[k][0] - cells;
    const auto [up, down] = carriers(coefficients.vapour_kg_s[k], coefficients.gas_flow_kg_s[k]);
    band.diagonal[below] += up;
    band.upper[below] -= down;
    band.diagonal[below + 1] += down;
    band.lower[below + 1] -= up;
  }
  for (std::size_t f = 0; f < heap_mesh.faces.size(); ++f) {
    const int d = heap_mesh.faces[f].node - cells;
    if (d < 0) continue;
    const auto [out, in] = carriers(coefficients.face[f].vapour_kg_s, coefficients.face_flow_kg_s[f]);
    band.diagonal[d] += out;
    band.right[d] += in * coefficients.outside_vapour_ratio;
  }
  solve(band);
  std::copy(band.right.begin(), band.right.end(), work.vapour.begin() + cells);
}

// As the air and the vapour that leave a node balance those that enter it, only what enters counts, each part by how
// much warmer it is: sum of w (T_from - T) = 0.
void balance_duct_temperature(const Heap& heap, const Coefficients& coefficients, Workspace& work) {
  const HeapMesh& heap_mesh = heap.heap_mesh;
  if (heap_mesh.channels == 0) return;
  const int cells = heap_mesh.cells();
  const auto& vapour = work.vapour;
  Band& band = work.band;
  clear(band);
  for (int k = heap_mesh.kind_start[2]; k < heap_mesh.kind_start[3]; ++k) {
    const auto [cell, duct] = heap_mesh.links[k];
    const double crept = coefficients.vapour_kg_s[k] * (vapour[cell] - vapour[duct]);
    const double air = carriers(0.0, coefficients.gas_flow_kg_s[k]).from_first;
    draw(band, duct - cells, coefficients.heat_w_k[k] + warmth_w_k(air, vapour[cell], crept), work.unknown[cell]);
  }
  for (int k = heap_mesh.kind_start[3]; k < heap_mesh.kind_start[4]; ++k) {
    const auto [below, above] = heap_mesh.links[k];
    const double crept = coefficients.vapour_kg_s[k] * (vapour[below] - vapour[above]);
    const auto [air_up, air_down] = carriers(0.0, coefficients.gas_flow_kg_s[k]);
    const double up = coefficients.heat_w_k[k] + warmth_w_k(air_up, vapour[below], crept);
    const double down = coefficients.heat_w_k[k] + warmth_w_k(air_down, vapour[above], -crept);
    band.diagonal[below - cells] += down;
    band.upper[below - cells] -= down;
    band.diagonal[above - cells] += up;
    band.lower[above - cells] -= up;
  }
  for (std::size_t f = 0; f < heap_mesh.faces.size(); ++f) {
    const int i = heap_mesh.faces[f].node;
    if (i < cells) continue;
    const double crept = coefficients.face[f].vapour_kg_s * (coefficients.outside_vapour_ratio - vapour[i]);
    const double air = carriers(0.0, coefficients.face_flow_kg_s[f]).from_second;
    draw(band, i - cells, warmth_w_k(air, coefficients.outside_vapour_ratio, crept), coefficients.outside.air_c);
    draw(band, i - cells, coefficients.face[f].heat_w_k, coefficients.face[f].apparent_c);
  }
  solve(band);
  std::copy(band.right.begin(), band.right.end(), work.unknown.begin() + cells);
}

}  // namespace stillheap::forecast
