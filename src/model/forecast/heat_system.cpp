#include "model/forecast/heat_system.hpp"

#include <algorithm>

#include "model/forecast/steps.hpp"
#include "model/physics/gas.hpp"

namespace stillheap::forecast {
namespace {

using physics::dry_air_heat_j_kg_k;
using physics::vapour_enthalpy_j_kg;
using physics::vapour_heat_j_kg_k;

constexpr double unit_kg_kg = 1e-3;                   // of a vapour's unknown
constexpr double row_j_kg = 2.5e6;                    // times a vapour's balance is its row
constexpr double own_w_s_kg = row_j_kg * unit_kg_kg;  // from a vapour's unknown to its own row
constexpr double still_row_w = 1e-9;                  // keeps the row of a vapour that nothing carries from being empty

using Links = std::vector<std::array<int, 2>>;

/// A cell's heat with the vapour of the channel beside it, then the vapours along a channel.
Links vapour_links(const HeapMesh& heap_mesh) {
  const int ducts = heap_mesh.nodes() - heap_mesh.cells();
  Links links;
  for (const auto& [cell, duct] : heap_mesh.of_kind(LinkKind::rim)) links.push_back({cell, duct + ducts});
  for (const auto& [below, above] : heap_mesh.of_kind(LinkKind::duct)) links.push_back({below + ducts, above + ducts});
  return links;
}

solver::Sparse heat_pattern(const HeapMesh& heap_mesh) {
  Links links = heap_mesh.links;
  for (const auto& link : vapour_links(heap_mesh)) links.push_back(link);
  return solver::make_pattern(heap_mesh.columns + 2 * heap_mesh.channels, heap_mesh.layers, links);
}

/// Enthalpy of the water a node loses as vapour: liquid or ice in a cell; in a channel, which holds none, the vapour
/// itself.
double lost_j_kg(const HeapMesh& heap_mesh, const Workspace& work, int node) {
  return node < heap_mesh.cells() ? work.end_heat[node].water_j_kg : vapour_enthalpy_j_kg(work.unknown[node]);
}

void add_links(const HeapMesh& heap_mesh, const Coefficients& coefficients, Workspace& work) {
  const auto& diagonal = work.heat.matrix.diagonal;
  auto& value = work.heat.matrix.value;
  for (std::size_t k = 0; k < heap_mesh.links.size(); ++k) {
    const auto [a, b] = heap_mesh.links[k];
    const auto [ab, ba] = work.heat.places[k];
    const auto [from_a, from_b] = carriers(0.0, coefficients.gas_flow_kg_s[k]);
    const double crept = coefficients.vapour_kg_s[k] * (work.vapour[a] - work.vapour[b]);
    const double wet_a = from_a * work.vapour[a] + std::max(crept, 0.0);
    const double wet_b = from_b * work.vapour[b] + std::max(-crept, 0.0);
    const double warm_a = from_a * dry_air_heat_j_kg_k + wet_a * vapour_heat_j_kg_k;
    const double warm_b = from_b * dry_air_heat_j_kg_k + wet_b * vapour_heat_j_kg_k;
    const double vapour_a = (from_a + coefficients.vapour_kg_s[k]) * work.vapour_slope[a];
    const double vapour_b = (from_b + coefficients.vapour_kg_s[k]) * work.vapour_slope[b];
    const double latent_a = vapour_enthalpy_j_kg(work.unknown[a]);
    const double latent_b = vapour_enthalpy_j_kg(work.unknown[b]);
    const double lost_a = lost_j_kg(heap_mesh, work, a);
    const double lost_b = lost_j_kg(heap_mesh, work, b);
    value[diagonal[a]] += coefficients.heat_w_k[k] + warm_a + vapour_a * (latent_a - lost_a);
    value[ab] -= coefficients.heat_w_k[k] + warm_b + vapour_b * (latent_b - lost_a);
    value[diagonal[b]] += coefficients.heat_w_k[k] + warm_b + vapour_b * (latent_b - lost_b);
    value[ba] -= coefficients.heat_w_k[k] + warm_a + vapour_a * (latent_a - lost_b);
  }
}

/// A rim that warms wets its channel's air, and wetter air takes less from the rim.
void add_channels_vapour(const HeapMesh& heap_mesh, const Coefficients& coefficients, Workspace& work) {
  const int ducts = heap_mesh.nodes() - heap_mesh.cells();
  const auto& diagonal = work.heat.matrix.diagonal;
  auto& value = work.heat.matrix.value;
  std::size_t v = 0;
  for (int k = heap_mesh.kind_start[2]; k < heap_mesh.kind_start[3]; ++k, ++v) {
    const auto [cell, duct] = heap_mesh.links[k];
    const auto [from_cell, from_duct] = carriers(coefficients.vapour_kg_s[k], coefficients.gas_flow_kg_s[k]);
    const double condensed = vapour_enthalpy_j_kg(work.unknown[duct]) - lost_j_kg(heap_mesh, work, cell);
    value[diagonal[duct + ducts]] += own_w_s_kg * from_duct;
    value[work.heat.vapour_places[v].ab] -= unit_kg_kg * from_duct * condensed;
    value[work.heat.vapour_places[v].ba] -= row_j_kg * from_cell * work.vapour_slope[cell];
  }
  for (int k = heap_mesh.kind_start[3]; k < heap_mesh.kind_start[4]; ++k, ++v) {
    const auto [below, above] = heap_mesh.links[k];
    const auto [up, down] = carriers(coefficients.vapour_kg_s[k], coefficients.gas_flow_kg_s[k]);
    value[diagonal[below + ducts]] += own_w_s_kg * up;
    value[diagonal[above + ducts]] += own_w_s_kg * down;
    value[work.heat.vapour_places[v].ab] -= own_w_s_kg * down;
    value[work.heat.vapour_places[v].ba] -= own_w_s_kg * up;
  }
}

void add_faces(const HeapMesh& heap_mesh, const Coefficients& coefficients, Workspace& work) {
  const int ducts = heap_mesh.nodes() - heap_mesh.cells();
  const auto& diagonal = work.heat.matrix.diagonal;
  auto& value = work.heat.matrix.value;
  for (std::size_t f = 0; f < heap_mesh.faces.size(); ++f) {
    const int i = heap_mesh.faces[f].node;
    const double flow = carriers(0.0, coefficients.face_flow_kg_s[f]).from_first;
    const double wet = flow + coefficients.face[f].vapour_kg_s;
    const double crept = coefficients.face[f].vapour_kg_s * (work.vapour[i] - coefficients.outside_vapour_ratio);
    const double carried = flow * work.vapour[i] + std::max(crept, 0.0);
    value[diagonal[i]] += coefficients.face[f].heat_w_k + flow * dry_air_heat_j_kg_k + carried * vapour_heat_j_kg_k;
    if (i < heap_mesh.cells()) {
      const double latent = vapour_enthalpy_j_kg(work.unknown[i]) - lost_j_kg(heap_mesh, work, i);
      value[diagonal[i]] += wet * work.vapour_slope[i] * latent;
    } else {
      value[diagonal[i + ducts]] += own_w_s_kg * wet;
    }
  }
}

}  // namespace

HeatSystem::HeatSystem(const HeapMesh& heap_mesh)
    : matrix(heat_pattern(heap_mesh)),
      places(solver::find_places(matrix, heap_mesh.links)),
      vapour_places(solver::find_places(matrix, vapour_links(heap_mesh))),
      krylov(matrix, solver::Kind::general, solver::Fill::dropped),
      right(static_cast<std::size_t>(matrix.rows())),
      change(right) {}

void assemble_heat(const HeapMesh& heap_mesh, const Coefficients& coefficients, double dt_s, Workspace& work) {
  auto& value = work.heat.matrix.value;
  std::fill(value.begin(), value.end(), 0.0);
  const int ducts = heap_mesh.nodes() - heap_mesh.cells();
  for (int i = heap_mesh.cells(); i < heap_mesh.nodes(); ++i) value[work.heat.matrix.diagonal[i + ducts]] = still_row_w;
  add_links(heap_mesh, coefficients, work);
  add_channels_vapour(heap_mesh, coefficients, work);
  add_faces(heap_mesh, coefficients, work);
  for (int i = 0; i < heap_mesh.cells(); ++i) value[work.heat.matrix.diagonal[i]] += work.end_heat[i].slope_j_k / dt_s;
}

}  // namespace stillheap::forecast
