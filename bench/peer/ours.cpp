// Our side of the comparison with a general finite-element library: the program's own steps on the slice of case.json.
// Usage: peer_ours CASE.json COLUMNS LAYERS STEP_S; prints processor seconds of the step loop and temperatures at the
// probes.
#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <ctime>
#include <fstream>
#include <iostream>
#include <nlohmann/json.hpp>

#include "../../tests/outside/line_box.hpp"
#include "model/physics/gas.hpp"
#include "model/physics/temperature_response.hpp"

namespace {

using namespace stillheap;
using namespace stillheap::forecast;
using nlohmann::json;

Bench make_slice(const json& given, int columns, int layers) {
  Request request = plain_request(plain_box(given["width_m"], given["depth_m"], given["height_m"]));
  request.blend.moisture_wet = 0.0;
  request.blend.bulk_density_kg_m3 = given["dry_kg_m3"];
  request.blend.pool_dry = {given["pool_share"], 0.0, 0.0};
  request.blend.pool_rate_20c_per_s = {given["rate_20c_per_s"], 0.0, 0.0};
  request.fill_temperature_c = given["fill_c"];
  physics::Parameters parameters;
  parameters.solids_heat_j_kg_k = given["solids_heat_j_kg_k"];
  parameters.oxygen_half_percent = given["oxygen_half_percent"];
  parameters.oxygen_yield = given["oxygen_yield"];
  parameters.heat_per_oxygen_j_kg = given["heat_per_oxygen_j_kg"];
  parameters.water_yield = 0.0;
  return Bench(make_heap(request, parameters,
                         make_lattice(request.design, row_plan(given["width_m"], given["depth_m"], columns), layers)));
}

/// The faces: walls and base at the outside's temperature, base and top open to gas.
void set_faces(Bench& bench, double gas_kg_m_s_pa, double conductivity, double air_d, double outside_c) {
  const HeapMesh& heap_mesh = bench.heap.heap_mesh;
  const double half_edge_m = 0.5 * heap_mesh.plan.edges.front().length_m;
  const double layer_m = bench.state.layer_height_m.front();
  for (std::size_t f = 0; f < heap_mesh.faces.size(); ++f) {
    const Face& face = heap_mesh.faces[f];
    FaceExchange& exchange = bench.coefficients.face[f] = {};
    const bool wall = face.kind == FaceKind::wall, base = face.kind == FaceKind::base;
    const double over_m = wall ? face.plan_m * layer_m / half_edge_m : face.plan_m / (0.5 * layer_m);
    exchange.apparent_c = outside_c;
    if (wall || base) exchange.heat_w_k = over_m * conductivity;
    if (base) exchange.oxygen_kg_s = over_m * air_d;
    if (wall) continue;
    exchange.gas_kg_s_pa = over_m * gas_kg_m_s_pa;
    exchange.gas_drive_pa =
        (bench.coefficients.outside_density_kg_m3 - bench.coefficients.gas_density_kg_m3[face.node]) *
        constant::gravity_m_s2 * (base ? -0.5 : 0.5) * layer_m;
  }
}

/// What the case gives for every step, read from it once.
struct Constants {
  explicit Constants(const json& given)
      : air_kg_m3(given["air_kg_m3"]),
        air_share(given["air_share"]),
        gas_kg_m_s_pa(air_kg_m3 * given["permeability_m2"].get<double>() / given["viscosity_pa_s"].get<double>()),
        oxygen_kg_m_s(air_kg_m3 * given["oxygen_m2_s"].get<double>()),
        conductivity_w_m_k(given["conductivity_w_m_k"]),
        outside_c(given["outside_c"]) {}
  double air_kg_m3, air_share, gas_kg_m_s_pa, oxygen_kg_m_s, conductivity_w_m_k, outside_c;
};

/// Constant coefficients instead of those that follow the state; density and decay follow the temperature.
void set_coefficients(Bench& bench, const Constants& given) {
  bench.refresh();
  conduct(bench, &Coefficients::gas_kg_s_pa, given.gas_kg_m_s_pa);
  conduct(bench, &Coefficients::heat_w_k, given.conductivity_w_m_k);
  conduct(bench, &Coefficients::oxygen_kg_s, given.oxygen_kg_m_s);
  std::fill(bench.coefficients.vapour_kg_s.begin(), bench.coefficients.vapour_kg_s.end(), 0.0);
  const physics::Parameters& p = bench.heap.parameters;
  for (int i = 0; i < bench.cells(); ++i) {
    bench.coefficients.gas_kg[i] = given.air_share * given.air_kg_m3 * bench.coefficients.volume_m3[i];
    bench.coefficients.decay_factor[i] =
        physics::decay_response(bench.state.temperature_c[i], p.temperature_least_c, p.temperature_best_c,
                                p.temperature_most_c, p.cool_factor_10k);
  }
  set_faces(bench, given.gas_kg_m_s_pa, given.conductivity_w_m_k, given.oxygen_kg_m_s, given.outside_c);
}

bool step(Bench& bench, const Constants& given, double dt_s, std::vector<double>& before_c) {
  using solver::Status;
  set_coefficients(bench, given);
  if (gas_step(bench.heap, 3600.0, bench.state, bench.coefficients, bench.balances, bench.work) != Status::converged)
    return false;
  if (oxygen_step(bench.heap, bench.coefficients, dt_s, bench.state, bench.balances, bench.work) != Status::converged)
    return false;
  for (std::size_t i = 0; i < before_c.size(); ++i)
    bench.work.guess_c[i] = 2.0 * bench.state.temperature_c[i] - before_c[i];
  before_c = bench.state.temperature_c;
  return heat_step(bench.heap, bench.coefficients, dt_s, bench.state, bench.balances, bench.work) == Status::converged;
}

/// Bilinear between cell centres.
double at(const std::vector<double>& value, double width_m, double height_m, int columns, int layers, double x_m,
          double z_m) {
  const double cx = std::clamp(x_m / width_m * columns - 0.5, 0.0, columns - 1.001);
  const double cz = std::clamp(z_m / height_m * layers - 0.5, 0.0, layers - 1.001);
  const int i = static_cast<int>(cx), j = static_cast<int>(cz);
  const double u = cx - i, v = cz - j;
  const auto cell = [&](int c, int l) { return value[c * layers + l]; };
  return (1 - u) * ((1 - v) * cell(i, j) + v * cell(i, j + 1)) +
         u * ((1 - v) * cell(i + 1, j) + v * cell(i + 1, j + 1));
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 5) {
    std::cerr << "usage: peer_ours CASE.json COLUMNS LAYERS STEP_S\n";
    return 2;
  }
  const json given = json::parse(std::ifstream(argv[1]));
  const int columns = std::atoi(argv[2]), layers = std::atoi(argv[3]);
  const double dt_s = std::atof(argv[4]);
  Bench bench = make_slice(given, columns, layers);
  bench.outside.air_c = given["outside_c"];
  bench.outside.humidity = 0.0;
  bench.outside.pressure_pa = given["pressure_pa"];
  const long steps = std::lround(given["days"].get<double>() * 86400.0 / dt_s);
  std::vector<double> before_c = bench.state.temperature_c;
  const Constants constants(given);
  const std::clock_t start = std::clock();
  for (long n = 0; n < steps; ++n) {
    if (!step(bench, constants, dt_s, before_c)) {
      std::cerr << "step " << n << " did not converge\n";
      return 1;
    }
  }
  const double seconds = static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
  const int probes = given["probes"];
  const double width_m = given["width_m"], height_m = given["height_m"];
  json answer = {{"seconds", seconds}, {"steps", steps}, {"unknowns", bench.cells()}};
  for (int a = 0; a < probes; ++a)
    for (int b = 0; b < probes; ++b) {
      const double x_m = width_m * (a + 1) / (probes + 1), z_m = height_m * (b + 1) / (probes + 1);
      answer["temperature_c"].push_back(at(bench.state.temperature_c, width_m, height_m, columns, layers, x_m, z_m));
      answer["oxygen_ratio"].push_back(at(bench.state.oxygen_ratio, width_m, height_m, columns, layers, x_m, z_m));
    }
  std::cout << answer << '\n';
}
