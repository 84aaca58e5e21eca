#pragma once
#include <vector>

#include "model/forecast/balances.hpp"
#include "model/forecast/coefficients.hpp"
#include "model/forecast/enthalpy.hpp"
#include "model/forecast/heap.hpp"
#include "model/forecast/heat_system.hpp"
#include "model/solver/krylov.hpp"

/// The parts of one implicit time step, in the order they are taken. Each changes the state and books what came,
/// went and was made; what that leaves in the cells is measured on the state (totals.hpp). Each is backward Euler and
/// keeps its quantity exactly: whatever leaves one cell enters its neighbour or is booked on a face.
namespace stillheap::forecast {

/// A tridiagonal system.
struct Band {
  std::vector<double> lower, diagonal, upper, right;
};

/// Where the weight of a channel's air [kg/m2] is looked for: the draft it makes must bring in air of that weight.
struct DensityBracket {
  double least_kg_m2 = 0.0, most_kg_m2 = 0.0;
  double weighed_kg_m2 = 0.0, missed_kg_m2 = 0.0;  ///< the last tried, and by how much it was too light
};

/// Vectors and solvers that the parts share; sized once.
struct Workspace {
  explicit Workspace(const Heap& heap);

  solver::Krylov symmetric;
  solver::Krylov general;
  solver::Sparse matrix;
  HeatSystem heat;
  std::vector<double> right, unknown, sum_a, sum_b;
  std::vector<double> vapour;        ///< nodes, over the material and in the channels, kg per kg of dry air
  std::vector<double> vapour_slope;  ///< nodes, by temperature; 0 in the channels, whose vapour is found with it
  std::vector<double> activity;
  std::vector<double> link_kg, link_rest;  ///< links; of the water step
  std::vector<double> heat_made_w;         ///< cells, by decay; set by the oxygen step
  std::vector<double> first_held_j;        ///< cells, heat held at the start of the heat step
  std::vector<Enthalpy> end_heat;          ///< cells, at the temperatures of the heat step's last round
  std::vector<double> guess_c;             ///< nodes, where the search for the end of the step begins
  Band band;                               ///< of the channels' nodes
  std::vector<DensityBracket> drafts;      ///< of the channels, see gas_step
  // What the heat step may leave undone. A round leaves a tenth of the change or less, so at 0.02 K a finished solve
  // is off by about 2e-3 K; at the top of channels two runs of one heap were seen 7e-3 K apart on day 5. The balances
  // are kept whatever it is. Checks against exact answers ask for more.
  double heat_tolerance_k = 2e-2;
  double heat_inner_tolerance = 0.02;  ///< of a round's linear system: finer than the round is itself
  // What the gas step may leave over, amounts of all nodes summed, before it is sent up and out: as a share of the air
  // that crosses the faces, also where most air turns in circles inside. Ten times more or less moved no peak of the
  // demo by 1e-3 K. In the cool months, where a draft may miss by all that gas_step lets it, single rows of its history
  // were up to 0.12 K apart in the mean and 0.5 K in the coldest place.
  double gas_rest_share = 1e-4;
};

/// Gas pressure and the flow of dry air along every link and face, from buoyancy alone. `dt_s` only books what passes.
[[nodiscard]] solver::Status gas_step(const Heap& heap, double dt_s, State& state, Coefficients& coefficients,
                                      Balances& balances, Workspace& work);

/// Oxygen against uptake, and the decay that uses it.
[[nodiscard]] solver::Status oxygen_step(const Heap& heap, const Coefficients& coefficients, double dt_s, State& state,
                                         Balances& balances, Workspace& work);

/// Heat and vapour as one flux; changes temperatures and water.
[[nodiscard]] solver::Status heat_step(const Heap& heap, const Coefficients& coefficients, double dt_s, State& state,
                                       Balances& balances, Workspace& work);

/// Sprinkling and rain in, drainage down, capillary capillary_flux, salt with the water.
[[nodiscard]] solver::Status water_step(const Heap& heap, const Coefficients& coefficients, double dt_s,
                                        double sprinkle_kg_s, double rain_kg_s, State& state, Balances& balances,
                                        Workspace& work);

/// Layers sink with their solids and under their load.
void settle_step(const Heap& heap, double dt_s, State& state) noexcept;

}  // namespace stillheap::forecast
