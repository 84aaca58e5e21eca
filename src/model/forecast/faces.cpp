#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"
#include "domain/vessel/base.hpp"
#include "model/forecast/coefficients.hpp"
#include "model/physics/channel_duct.hpp"
#include "model/physics/films.hpp"
#include "model/physics/gas.hpp"

namespace stillheap::forecast {
namespace {

// Mean of a wall all round, over global horizontal sun: half the sky's diffuse and the ground's 0.2 reflected,
// plus the beam met broadside, lie between 0.4 and 0.7 through the seasons of middle latitudes. Chosen.
constexpr double wall_sun_share = 0.5;
constexpr double wall_sky_weight = 0.354;  // Walton 1983, see physics/films.hpp
// Wind in the gap below the base over wind at 2 m. Chosen.
constexpr double gap_wind_share = 0.3;
// A face without wind, difference and radiation still stands in air: natural convection at about 0.05 K. Chosen.
constexpr double least_film_w_m2_k = 0.5;
// A bare open wall has no cloth and its node lies on it; this little keeps it from being a hole. Chosen.
constexpr double least_wall_pa_s_m = 1.0;

/// What stands between a node and the outside for each carrier.
struct Path {
  double area_m2 = 0.0;
  double half_m = 0.0;       ///< of material between node and face
  double film_w_m2_k = 0.0;  ///< convection and radiation
  double convection_w_m2_k = 0.0;
  double sun_sky_w_m2 = 0.0;
  double wall_m2k_w = 0.0;
  double cloth_pa_s_m = 0.0;
  bool lets_gas = true;
  double open_share = 1.0;  ///< of the area for gas, vapour and oxygen
};

double perimeter_over_area_1_m(const vessel::Design& design) {
  return 2.0 / std::max(0.1, design.height_m) + 2.0 / std::max(0.5, design.diameter_m + design.length_m);
}

double slat_share(const vessel::Design& design) {
  double covered_m2 = 0.0;
  for (const vessel::Slat& slat : design.slats) covered_m2 += distance_m(slat.from, slat.to) * slat.width_m;
  const double area_m2 = std::max(1e-6, vessel::footprint_area_m2(design));
  return std::min(0.9, covered_m2 / area_m2);
}

void set_films(const Heap& heap, double wind_m_s, double air_c, double face_c, Path& path) {
  path.convection_w_m2_k = std::max(
      least_film_w_m2_k,
      heap.parameters.film_factor *
          physics::outside_film_w_m2_k(wind_m_s, face_c - air_c, perimeter_over_area_1_m(heap.request.design)));
  path.film_w_m2_k = path.convection_w_m2_k + physics::radiation_film_w_m2_k(air_c, heap.request.surfaces.emissivity);
}

Path wall_path(const Heap& heap, const State& state, const Face& face, const Coefficients& coefficients) {
  const Surfaces& surfaces = heap.request.surfaces;
  const weather::Hour& out = coefficients.outside;
  Path path;
  path.area_m2 = face.plan_m * state.layer_height_m[heap.heap_mesh.layer_of(face.node)];
  set_films(heap, out.wind_m_s, out.air_c, state.temperature_c[face.node], path);
  path.sun_sky_w_m2 =
      physics::sun_and_sky_w_m2(wall_sun_share * (1.0 - surfaces.shade_share) * out.sun_w_m2, surfaces.sun_absorptance,
                                out.longwave_w_m2, out.air_c, surfaces.emissivity, wall_sky_weight);
  const bool open = heap.request.design.wall == vessel::Wall::open;
  path.lets_gas = open;
  path.open_share = open ? 1.0 : 0.0;
  path.wall_m2k_w = open ? 0.0 : surfaces.closed_wall_resistance_m2k_w;
  path.cloth_pa_s_m =
      std::max(least_wall_pa_s_m, surfaces.lining_flow_resistance_pa_s_m * heap.parameters.cloth_flow_factor);
  return path;
}

Path top_path(const Heap& heap, const State& state, const Face& face, const Coefficients& coefficients) {
  const Surfaces& surfaces = heap.request.surfaces;
  const weather::Hour& out = coefficients.outside;
  Path path;
  path.area_m2 = face.plan_m;
  path.half_m = 0.5 * state.layer_height_m.back();
  set_films(heap, out.wind_m_s, out.air_c, state.temperature_c[face.node], path);
  path.sun_sky_w_m2 = physics::sun_and_sky_w_m2((1.0 - surfaces.shade_share) * out.sun_w_m2, surfaces.sun_absorptance,
                                                out.longwave_w_m2, out.air_c, surfaces.emissivity, 1.0);
  path.cloth_pa_s_m = surfaces.cover_flow_resistance_pa_s_m * heap.parameters.cloth_flow_factor;
  return path;
}

Path base_path(const Heap& heap, const State& state, const Face& face, const Coefficients& coefficients) {
  const Surfaces& surfaces = heap.request.surfaces;
  const weather::Hour& out = coefficients.outside;
  Path path;
  path.area_m2 = face.plan_m;
  path.half_m = 0.5 * state.layer_height_m.front();
  set_films(heap, gap_wind_share * out.wind_m_s, out.air_c, state.temperature_c[face.node], path);
  path.cloth_pa_s_m = surfaces.lining_flow_resistance_pa_s_m * heap.parameters.cloth_flow_factor;
  path.lets_gas = heap.request.design.base_open;
  path.open_share = path.lets_gas ? (1.0 - surfaces.base_blocked_share) * (1.0 - slat_share(heap.request.design)) : 0.0;
  return path;
}

/// Series of half a cell, cloth and film for heat, vapour, oxygen and gas.
FaceExchange exchange_of(const Heap& heap, const Coefficients& coefficients, const Face& face, const Path& path) {
  const int i = face.node;
  const double air = coefficients.dry_air_density_kg_m3[i];
  FaceExchange exchange;
  exchange.heat_w_k =
      path.area_m2 / (path.half_m / coefficients.conductivity_w_m_k[i] + path.wall_m2k_w + 1.0 / path.film_w_m2_k);
  exchange.apparent_c = coefficients.outside.air_c + path.sun_sky_w_m2 / path.film_w_m2_k;
  if (!path.lets_gas || path.open_share <= 0.0) return exchange;
  const double area = path.area_m2 * path.open_share;
  const double film_s_m =
      1.0 / physics::vapour_transfer_m_s(path.convection_w_m2_k, coefficients.outside_density_kg_m3) +
      heap.parameters.cloth_vapour_s_m;
  exchange.vapour_kg_s = area * air / (path.half_m / coefficients.vapour_d_m2_s[i] + film_s_m);
  exchange.oxygen_kg_s = area * air / (path.half_m / coefficients.oxygen_d_m2_s[i] + film_s_m);
  const double resistance =
      path.half_m * coefficients.viscosity_pa_s[i] / coefficients.permeability_m2[i] + path.cloth_pa_s_m;
  exchange.gas_kg_s_pa = area * air / resistance;
  exchange.rise_m = face.kind == FaceKind::top ? path.half_m : face.kind == FaceKind::base ? -path.half_m : 0.0;
  return exchange;
}

/// A channel's mouth: entry or exit loss, half a layer of duct, and the cover above. The base and its cloth
/// are drilled through; bearers and the form's stop cover a share, on average over the channels so that a plan solved
/// by its sector stays alike all round.
FaceExchange mouth_of(const Heap& heap, const State& state, const Coefficients& coefficients, std::size_t f) {
  const Face& face = heap.heap_mesh.faces[f];
  const bool top = face.kind == FaceKind::mouth_top;
  const int i = face.node;
  const double air = coefficients.dry_air_density_kg_m3[i];
  const double density = coefficients.gas_density_kg_m3[i];
  const double open =
      top ? 1.0
          : (1.0 - heap.request.surfaces.base_blocked_share) * (1.0 - vessel::mean_mouth_covered(heap.request.design));
  FaceExchange exchange;
  exchange.apparent_c = coefficients.outside.air_c;
  if (open <= 0.0 || (!top && !heap.request.design.base_open)) return exchange;
  const double area = face.plan_m * open;
  const double speed = state.mouth_flow_kg_s[f] / (air * area);
  const double half = 0.5 * (top ? state.layer_height_m.back() : state.layer_height_m.front());
  const double resistance =
      half * physics::duct_resistance_pa_s_m2(speed, heap.heap_mesh.channel_diameter_m[face.channel], density,
                                              coefficients.viscosity_pa_s[i]) +
      physics::loss_resistance_pa_s_m(speed, 0.5 * heap.parameters.channel_loss, density) +
      (top ? heap.request.surfaces.cover_flow_resistance_pa_s_m * heap.parameters.cloth_flow_factor : 0.0);
  exchange.gas_kg_s_pa = area * air / resistance;
  exchange.rise_m = top ? half : -half;
  // Still air in half a layer of channel and the cloth lets vapour and oxygen capillary_flux.
  const double still_s_m = half / physics::still_vapour_m2_s + (top ? heap.parameters.cloth_vapour_s_m : 0.0);
  exchange.vapour_kg_s = exchange.oxygen_kg_s = area * air / still_s_m;
  exchange.heat_w_k = area * physics::air_conductivity_w_m_k / half;
  return exchange;
}

}  // namespace

void set_faces(const Heap& heap, const State& state, Coefficients& coefficients) {
  for (std::size_t f = 0; f < heap.heap_mesh.faces.size(); ++f) {
    const Face& face = heap.heap_mesh.faces[f];
    switch (face.kind) {
      case FaceKind::wall:
        coefficients.face[f] = exchange_of(heap, coefficients, face, wall_path(heap, state, face, coefficients));
        break;
      case FaceKind::top:
        coefficients.face[f] = exchange_of(heap, coefficients, face, top_path(heap, state, face, coefficients));
        break;
      case FaceKind::base:
        coefficients.face[f] = exchange_of(heap, coefficients, face, base_path(heap, state, face, coefficients));
        break;
      case FaceKind::mouth_top:
      case FaceKind::mouth_base:
        coefficients.face[f] = mouth_of(heap, state, coefficients, f);
        break;
    }
  }
}

}  // namespace stillheap::forecast
