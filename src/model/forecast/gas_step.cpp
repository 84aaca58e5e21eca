#include <algorithm>
#include <cmath>

#include "domain/weather/air.hpp"
#include "model/forecast/duct_air.hpp"
#include "model/forecast/steps.hpp"

namespace stillheap::forecast {
namespace {

// Limits of the search, all chosen.
constexpr int most_rounds = 4;
constexpr int most_draft_rounds = 6;
// A draft may miss the air it brings by so much of what drives it, and by 0.02 Pa where next to nothing does.
constexpr double draft_share = 0.01;
constexpr double least_draft_kg_m2 = 2e-3;
constexpr double draft_rest_share = 1e-2;  // see solve_flows; while drafts are looked for

void assemble_conductances(const HeapMesh& heap_mesh, const Coefficients& coefficients, Workspace& work) {
  std::fill(work.matrix.value.begin(), work.matrix.value.end(), 0.0);
  const auto& diagonal = heap_mesh.pattern.diagonal;
  for (std::size_t k = 0; k < heap_mesh.links.size(); ++k) {
    const auto [a, b] = heap_mesh.links[k];
    const double c = coefficients.gas_kg_s_pa[k];
    work.matrix.value[diagonal[a]] += c;
    work.matrix.value[diagonal[b]] += c;
    work.matrix.value[heap_mesh.places[k].ab] -= c;
    work.matrix.value[heap_mesh.places[k].ba] -= c;
  }
  for (std::size_t f = 0; f < heap_mesh.faces.size(); ++f)
    work.matrix.value[diagonal[heap_mesh.faces[f].node]] += coefficients.face[f].gas_kg_s_pa;
}

void assemble_drives(const HeapMesh& heap_mesh, const Coefficients& coefficients, Workspace& work) {
  std::fill(work.right.begin(), work.right.end(), 0.0);
  for (std::size_t k = 0; k < heap_mesh.links.size(); ++k) {
    const auto [a, b] = heap_mesh.links[k];
    const double driven = coefficients.gas_kg_s_pa[k] * coefficients.gas_drive_pa[k];
    work.right[a] -= driven;
    work.right[b] += driven;
  }
  for (std::size_t f = 0; f < heap_mesh.faces.size(); ++f)
    work.right[heap_mesh.faces[f].node] -= coefficients.face[f].gas_kg_s_pa * coefficients.face[f].gas_drive_pa;
}

/// Friction and losses grow with the flow itself. The flow that sets them moves halfway to the new one: for
/// a loss with the square of the flow that is Newton's own step, where the new flow alone would swing for ever.
void remember_duct_flows(const HeapMesh& heap_mesh, const Coefficients& coefficients, State& state) {
  for (std::size_t k = 0; k < state.duct_flow_kg_s.size(); ++k) {
    double& flow = state.duct_flow_kg_s[k];
    flow = 0.5 * (std::abs(flow) + std::abs(coefficients.gas_flow_kg_s[heap_mesh.kind_start[3] + k]));
  }
  for (std::size_t f = 0; f < heap_mesh.faces.size(); ++f) {
    if (heap_mesh.faces[f].channel < 0) continue;
    double& flow = state.mouth_flow_kg_s[f];
    flow = 0.5 * (std::abs(flow) + std::abs(coefficients.face_flow_kg_s[f]));
  }
}

/// Air that the unfinished solve leaves at every node, to `sum_a`; returns the sum of its amounts [kg/s].
double find_rest(const HeapMesh& heap_mesh, const Coefficients& coefficients, Workspace& work) {
  auto& rest = work.sum_a;
  std::fill(rest.begin(), rest.end(), 0.0);
  for (std::size_t k = 0; k < heap_mesh.links.size(); ++k) {
    const auto [a, b] = heap_mesh.links[k];
    rest[a] -= coefficients.gas_flow_kg_s[k];
    rest[b] += coefficients.gas_flow_kg_s[k];
  }
  for (std::size_t f = 0; f < heap_mesh.faces.size(); ++f)
    rest[heap_mesh.faces[f].node] -= coefficients.face_flow_kg_s[f];
  double sum = 0.0;
  for (const double r : rest) sum += std::abs(r);
  return sum;
}

/// What is left at every node goes up its column or channel and out of the top, which always lets some air through. So
/// every node's air balances to rounding, and nothing carried by it can rise above what comes in.
void send_rest_up(const HeapMesh& heap_mesh, Coefficients& coefficients, Workspace& work) {
  auto& rest = work.sum_a;
  for (const LinkKind kind : {LinkKind::upward, LinkKind::duct}) {
    const int start = heap_mesh.kind_start[static_cast<int>(kind)];
    const int count = static_cast<int>(heap_mesh.of_kind(kind).size());
    for (int k = start; k < start + count; ++k) {  // the lower links of a column come first
      const auto [below, above] = heap_mesh.links[k];
      coefficients.gas_flow_kg_s[k] += rest[below];
      rest[above] += rest[below];
    }
  }
  for (std::size_t f = 0; f < heap_mesh.faces.size(); ++f) {
    const Face& face = heap_mesh.faces[f];
    if (face.kind == FaceKind::top || face.kind == FaceKind::mouth_top)
      coefficients.face_flow_kg_s[f] += rest[face.node];
  }
}

struct Exchanged {
  double in_kg_s = 0.0, out_kg_s = 0.0;
};

Exchanged through_faces(const Coefficients& coefficients) {
  Exchanged exchanged;
  for (const double flow : coefficients.face_flow_kg_s)
    (flow > 0.0 ? exchanged.out_kg_s : exchanged.in_kg_s) += std::abs(flow);
  return exchanged;
}

/// Flows along every link and face from the pressures; returns the air that crosses the faces [kg/s].
double find_flows(const HeapMesh& heap_mesh, const State& state, Coefficients& coefficients) {
  for (std::size_t k = 0; k < heap_mesh.links.size(); ++k) {
    const auto [a, b] = heap_mesh.links[k];
    coefficients.gas_flow_kg_s[k] =
        coefficients.gas_kg_s_pa[k] * (state.pressure_pa[a] - state.pressure_pa[b] + coefficients.gas_drive_pa[k]);
  }
  for (std::size_t f = 0; f < heap_mesh.faces.size(); ++f) {
    coefficients.face_flow_kg_s[f] = coefficients.face[f].gas_kg_s_pa *
                                     (state.pressure_pa[heap_mesh.faces[f].node] + coefficients.face[f].gas_drive_pa);
  }
  const Exchanged exchanged = through_faces(coefficients);
  return std::max(exchanged.in_kg_s, exchanged.out_kg_s);
}

/// Flows from the drives in `coefficients` and the conductances in the matrix; what stays over at the nodes is at most
/// `rest_share` of the air that crosses the faces, and is sent up and out.
solver::Status solve_flows(const HeapMesh& heap_mesh, double rest_share, solver::Factors first, State& state,
                           Coefficients& coefficients, Workspace& work) {
  assemble_drives(heap_mesh, coefficients, work);
  // A sum of amounts is at most so many times the 2-norm that the solver looks at.
  const double sum_per_norm = std::sqrt(static_cast<double>(heap_mesh.nodes()));
  double crossed = find_flows(heap_mesh, state, coefficients);  // of the last pressures
  for (int round = 0; round < most_rounds; ++round) {
    const double allowed = rest_share * crossed / sum_per_norm + 1e-18;
    if (work.symmetric.solve(work.matrix, work.right, state.pressure_pa, allowed,
                             round == 0 ? first : solver::Factors::keep) != solver::Status::converged)
      return solver::Status::not_converged;
    crossed = find_flows(heap_mesh, state, coefficients);
    if (find_rest(heap_mesh, coefficients, work) <= rest_share * crossed) break;
  }
  send_rest_up(heap_mesh, coefficients, work);
  return solver::Status::converged;
}

/// Density of the air that the found flows bring into the channels, to the end of `work.sum_a`.
void find_brought_density(const Heap& heap, const State& state, const Coefficients& coefficients, Workspace& work) {
  const int cells = heap.heap_mesh.cells();
  std::copy(coefficients.vapour_ratio.begin(), coefficients.vapour_ratio.end(), work.vapour.begin());
  std::copy_n(state.temperature_c.begin(), cells, work.unknown.begin());
  balance_duct_vapour(heap, coefficients, work);
  balance_duct_temperature(heap, coefficients, work);
  const double pressure = coefficients.outside.pressure_pa;
  for (int i = cells; i < heap.heap_mesh.nodes(); ++i) {
    const double vapour_pa = weather::vapour_pressure_pa(work.vapour[i], pressure);
    work.sum_a[i] = weather::moist_air_density_kg_m3(work.unknown[i], vapour_pa, pressure);
  }
}

/// How far to go from the weight that was tried towards the one it brought in. The heavier the air, the weaker its
/// draft, the warmer and lighter what it brings: the weight that brings itself lies between the two, and between any
/// two tries that missed to either side.
double share_of_way(bool first, double weighed, double missed, DensityBracket& draft) {
  double next = weighed + 0.5 * missed;
  if (first) {
    draft.least_kg_m2 = std::min(weighed, weighed + missed);
    draft.most_kg_m2 = std::max(weighed, weighed + missed);
  } else {
    (missed > 0.0 ? draft.least_kg_m2 : draft.most_kg_m2) = weighed;
    const double secant = weighed - missed * (weighed - draft.weighed_kg_m2) / (missed - draft.missed_kg_m2);
    const bool between = secant > draft.least_kg_m2 && secant < draft.most_kg_m2;
    next = between ? secant : 0.5 * (draft.least_kg_m2 + draft.most_kg_m2);
  }
  draft.weighed_kg_m2 = weighed;
  draft.missed_kg_m2 = missed;
  return missed == 0.0 ? 0.0 : std::clamp((next - weighed) / missed, 0.0, 1.0);
}

/// A channel's air answers its draft within seconds: more draft, cooler air, less draft. Moves the densities that make
/// the drafts towards those that the drafts bring in; true when they were near enough.
bool settle_drafts(const Heap& heap, bool first, State& state, const Coefficients& coefficients, Workspace& work) {
  const HeapMesh& heap_mesh = heap.heap_mesh;
  find_brought_density(heap, state, coefficients, work);
  bool settled = true;
  for (int k = 0; k < heap_mesh.channels; ++k) {
    double weighed = 0.0, missed = 0.0, lighter = 0.0;
    for (int l = 0; l < heap_mesh.layers; ++l) {
      const double height = state.layer_height_m[l];
      const double density = state.duct_density_kg_m3[k * heap_mesh.layers + l];
      weighed += density * height;
      lighter += (coefficients.outside_density_kg_m3 - density) * height;
      missed += (work.sum_a[heap_mesh.duct(k, l)] - density) * height;
    }
    settled = settled && std::abs(missed) <= draft_share * std::abs(lighter) + least_draft_kg_m2;
    const double share = share_of_way(first, weighed, missed, work.drafts[k]);
    for (int l = 0; l < heap_mesh.layers; ++l) {
      double& density = state.duct_density_kg_m3[k * heap_mesh.layers + l];
      density += share * (work.sum_a[heap_mesh.duct(k, l)] - density);
    }
  }
  return settled;
}

}  // namespace

// Steady balance of dry air at every node: sum of c (p_a - p_b + drive) = 0. Darcy's law in the material,
// Hagen-Poiseuille in the channels, the outside's own hydrostatic column taken off. In the channels drive and flow are
// found together.
solver::Status gas_step(const Heap& heap, double dt_s, State& state, Coefficients& coefficients, Balances& balances,
                        Workspace& work) {
  const HeapMesh& heap_mesh = heap.heap_mesh;
  assemble_conductances(heap_mesh, coefficients, work);
  auto factors = solver::Factors::renew;
  for (int round = 0; heap_mesh.channels > 0 && round < most_draft_rounds; ++round) {
    if (round > 0) {
      std::copy(state.duct_density_kg_m3.begin(), state.duct_density_kg_m3.end(),
                coefficients.gas_density_kg_m3.begin() + heap_mesh.cells());
      set_duct_drives(heap_mesh, coefficients);
    }
    if (solve_flows(heap_mesh, draft_rest_share, factors, state, coefficients, work) != solver::Status::converged)
      return solver::Status::not_converged;
    factors = solver::Factors::keep;
    if (settle_drafts(heap, round == 0, state, coefficients, work)) break;
  }
  if (solve_flows(heap_mesh, work.gas_rest_share, factors, state, coefficients, work) != solver::Status::converged)
    return solver::Status::not_converged;
  remember_duct_flows(heap_mesh, coefficients, state);
  const Exchanged exchanged = through_faces(coefficients);
  balances.dry_air.in += exchanged.in_kg_s * dt_s;
  balances.dry_air.out += exchanged.out_kg_s * dt_s;
  return solver::Status::converged;
}

}  // namespace stillheap::forecast
