#pragma once
#include <vector>

#include "model/forecast/heap.hpp"
#include "model/solver/krylov.hpp"

namespace stillheap::forecast {

struct Coefficients;
struct Workspace;

/// The linear system of one round of the heat step: a row for the heat of every node, then one for the vapour in the
/// air of every channel's node. The vapour's unknown is its change in grams per kg of dry air, and its row is in W, so
/// all rows and unknowns are of one size.
struct HeatSystem {
  explicit HeatSystem(const HeapMesh& heap_mesh);

  solver::Sparse matrix;
  std::vector<solver::LinkPlace> places;         ///< of the heap_mesh's links
  std::vector<solver::LinkPlace> vapour_places;  ///< rim links: cell and vapour; then duct links: vapour and vapour
  solver::Krylov krylov;
  std::vector<double> right, change;
};

/// Fills the matrix with the derivatives of the nodes' balances at the temperatures in `work.unknown` and what the
/// cells hold at them in `work.end_heat`.
void assemble_heat(const HeapMesh& heap_mesh, const Coefficients& coefficients, double dt_s, Workspace& work);

}  // namespace stillheap::forecast
