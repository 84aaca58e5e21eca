#pragma once
#include <array>
#include <span>
#include <vector>

#include "domain/vessel/design.hpp"
#include "model/forecast/request.hpp"
#include "model/mesh/plan_mesh.hpp"
#include "model/solver/sparse.hpp"

namespace stillheap::forecast {

/// What a link joins. Links of one kind stand together, in this order.
enum class LinkKind { across, upward, rim, duct };

/// An outer face of a cell or the mouth of a channel.
enum class FaceKind { wall, top, base, mouth_top, mouth_base };

struct Face {
  int node = 0;
  FaceKind kind{};
  double plan_m = 0.0;  ///< wall: length of wall [m]; top, base and mouths: area [m2]
  int channel = -1;
};

/// A column that holds next to nothing beside what it exchanges, and the nearest that is none.
struct Sliver {
  int column = 0;
  int wide = 0;
};

/// The nodes of the solved sector and how they hang together. Cell `column * layers + layer` lies in the
/// column of a plan node; after the cells come the channels' nodes, `cells + channel * layers + layer`.
struct HeapMesh {
  mesh::PlanMesh plan;
  int layers = 0;
  int columns = 0;
  int channels = 0;
  std::vector<std::array<int, 2>> links;  ///< lower index side first; upward and duct: the lower node first
  std::array<int, 5> kind_start{};        ///< links of kind k: [kind_start[k], kind_start[k + 1])
  std::vector<double> link_plan;          ///< across: dual over length; upward, duct: area [m2]; rim: length [m]
  std::vector<int> link_layer;            ///< layer of the lower or both ends
  std::vector<Face> faces;
  std::vector<double> channel_area_m2;  ///< of the part in the sector
  std::vector<double> channel_diameter_m;
  std::vector<Sliver> slivers;
  std::vector<char> is_sliver;         ///< of each column
  std::vector<double> air_distance_m;  ///< per cell at the start: to the nearest channel, open face
  solver::Sparse pattern;
  std::vector<solver::LinkPlace> places;

  [[nodiscard]] int cells() const noexcept { return columns * layers; }
  [[nodiscard]] int nodes() const noexcept { return (columns + channels) * layers; }
  [[nodiscard]] int layer_of(int node) const noexcept { return node % layers; }
  [[nodiscard]] int duct(int channel, int layer) const noexcept { return cells() + channel * layers + layer; }
  [[nodiscard]] std::span<const std::array<int, 2>> of_kind(LinkKind kind) const noexcept;
};

/// Layers and plan size for a grid. Standard gives at least 12,000 cells to a full vessel.
struct GridSize {
  mesh::PlanSize plan;
  int layers = 0;
};
[[nodiscard]] GridSize grid_size(const vessel::Design& design, Grid grid);

/// Builds the heap_mesh of the smallest sector, or of the whole plan when asked for.
[[nodiscard]] HeapMesh make_lattice(const vessel::Design& design, const GridSize& size, bool whole_plan = false);

/// Builds the heap_mesh on a plan that is there already, such as one made by hand.
[[nodiscard]] HeapMesh make_lattice(const vessel::Design& design, mesh::PlanMesh plan, int layers);

/// Lengths and areas that change as layers sink, one value a link.
struct LinkMetric {
  std::vector<double> over_distance_m;  ///< area over distance; rim: area only [m2]
  std::vector<double> rise_m;           ///< height gained from first to second node
};
void measure_links(const HeapMesh& heap_mesh, std::span<const double> layer_height_m, LinkMetric& metric) noexcept;

}  // namespace stillheap::forecast
