#include <gtest/gtest.h>

#include <cmath>

#include "heap_bench.hpp"
#include "model/forecast/stepper.hpp"
#include "model/physics/gas.hpp"

/// One test for each fault that the sweep over random vessels (tests/sweep) brought to light.
namespace stillheap::forecast {
namespace {

/// What comes into each node less what goes out, the largest, over all that crosses the faces.
double worst_air_balance(const Bench& bench) {
  std::vector<double> rest(static_cast<std::size_t>(bench.heap.heap_mesh.nodes()));
  for (std::size_t k = 0; k < bench.heap.heap_mesh.links.size(); ++k) {
    const auto [a, b] = bench.heap.heap_mesh.links[k];
    rest[a] -= bench.coefficients.gas_flow_kg_s[k];
    rest[b] += bench.coefficients.gas_flow_kg_s[k];
  }
  double crossing = 0.0, worst = 0.0;
  for (std::size_t f = 0; f < bench.heap.heap_mesh.faces.size(); ++f) {
    rest[bench.heap.heap_mesh.faces[f].node] -= bench.coefficients.face_flow_kg_s[f];
    crossing += std::abs(bench.coefficients.face_flow_kg_s[f]);
  }
  for (const double value : rest) worst = std::max(worst, std::abs(value));
  return worst / crossing;
}

TEST(FoundBySweep, AirBalancesAtEveryNodeThoughTheSolveIsUnfinished) {
  for (const bool open : {true, false}) {
    Request request = draft_weather(common_request(5));
    request.design.base_open = open;
    request.design.wall = open ? vessel::Wall::open : vessel::Wall::closed;
    request.surfaces.cover_flow_resistance_pa_s_m = open ? 400.0 : 1e5;
    Bench bench(request, grid_size(request.design, Grid::draft));
    for (int i = 0; i < bench.cells(); ++i) bench.state.temperature_c[i] = 20.0 + 40.0 * std::sin(0.1 * i);
    bench.refresh();
    ASSERT_EQ(gas_step(bench.heap, 3600.0, bench.state, bench.coefficients, bench.balances, bench.work),
              solver::Status::converged);
    EXPECT_LT(worst_air_balance(bench), 1e-12) << open;
    EXPECT_LT(bench.balances.dry_air.error(), 1e-12) << open;
  }
}

/// Runs a request and returns the most oxygen of any node at any time, over the outside's.
double most_oxygen(const Request& request) {
  const Heap heap = make_heap(request, {}, grid_size(request.design, Grid::draft));
  Stepper stepper(heap, step_rule(Grid::draft));
  double most = 0.0;
  while (stepper.state().time_s < request.days * 86400.0) {
    stepper.step(86400.0);
    for (const double ratio : stepper.state().oxygen_ratio) most = std::max(most, ratio / physics::oxygen_outside);
  }
  return most;
}

TEST(FoundBySweep, OxygenStaysBelowTheOutsidesWhereNothingDecays) {
  Request request = draft_weather(common_request(3));
  request.blend.pool_dry = {0.0, 0.0, 0.0};
  EXPECT_LT(most_oxygen(request), 1.0 + 1e-9);
}

TEST(FoundBySweep, BareMeshWithoutAnyClothIsForecast) {
  Request request = draft_weather(common_request(5));
  request.surfaces.lining_flow_resistance_pa_s_m = 0.0;
  request.surfaces.cover_flow_resistance_pa_s_m = 0.0;
  EXPECT_GT(most_oxygen(request), 0.9);
}

TEST(FoundBySweep, ADeadCalmWithoutRadiationIsForecast) {
  Request request = draft_weather(common_request(3));
  request.surfaces.emissivity = 0.0;
  request.fill_temperature_c = 15.0;
  for (weather::Hour& hour : request.weather.hours) {
    hour.wind_m_s = 0.0;
    hour.sun_w_m2 = 0.0;
    hour.air_c = 15.0;  // no difference on the first day: no convection either
  }
  EXPECT_GT(most_oxygen(request), 0.5);
}

/// A form that all but touches the wall: the plan has corners of a few square millimetres there.
Request narrow_request(int days) {
  Request request = draft_weather(common_request(days));
  request.design.diameter_m = 0.3;
  request.design.channels = {{{0.0, 0.079}, 0.138}};
  return request;
}

TEST(FoundBySweep, SliversOfThePlanAreKnownAndLeanOnColumnsThatAreNone) {
  const Request request = narrow_request(1);
  const HeapMesh heap_mesh = make_lattice(request.design, grid_size(request.design, Grid::draft));
  ASSERT_FALSE(heap_mesh.slivers.empty());
  for (const Sliver& sliver : heap_mesh.slivers) {
    EXPECT_NE(heap_mesh.is_sliver[sliver.column], 0);
    EXPECT_EQ(heap_mesh.is_sliver[sliver.wide], 0);
    EXPECT_LT(heap_mesh.plan.area_m2[sliver.column], heap_mesh.plan.area_m2[sliver.wide]);
  }
}

TEST(FoundBySweep, SliversStayBetweenTheirNeighboursAndTheBalancesClose) {
  const Request request = narrow_request(4);
  const Heap heap = make_heap(request, {}, grid_size(request.design, Grid::draft));
  Stepper stepper(heap, step_rule(Grid::draft));
  while (stepper.state().time_s < request.days * 86400.0) {
    stepper.step(86400.0);
    const std::vector<double>& celsius = stepper.state().temperature_c;
    for (const Sliver& sliver : heap.heap_mesh.slivers) {
      for (int l = 0; l < heap.heap_mesh.layers; ++l) {
        const int thin = sliver.column * heap.heap_mesh.layers + l;
        EXPECT_NEAR(celsius[thin], celsius[sliver.wide * heap.heap_mesh.layers + l], 8.0);
        EXPECT_GE(stepper.state().water_kg[thin], 0.0);
      }
    }
  }
  EXPECT_LT(stepper.balances().energy.error(), 1e-9);
  EXPECT_LT(stepper.balances().water.error(), 1e-9);
}

// A channel in the middle of a low wide heap hardly draws: with its air lagging its draft it blew up and down in turn,
// every step, and the corners of the sector at its rim went to 95 degC.
TEST(FoundBySweep, AChannelThatHardlyDrawsDoesNotSwing) {
  Request request = draft_weather(common_request(30));
  request.design.diameter_m = 4.363;
  request.design.height_m = 1.634;
  request.design.fill_height_m = 1.17;
  request.design.base_gap_m = 0.02;
  request.design.channels = vessel::ring_channels({60, 1.585, 0.0}, 0.055, true);
  request.surfaces.cover_flow_resistance_pa_s_m = 9800.0;
  request.surfaces.lining_flow_resistance_pa_s_m = 70.0;
  request.sprinkling.automatic = false;
  request.start_day_of_year = 235;
  request.blend.bulk_density_kg_m3 = 650.0;
  request.blend.moisture_wet = 0.70;
  const Heap heap = make_heap(request, {}, grid_size(request.design, Grid::draft));
  Stepper stepper(heap, step_rule(Grid::draft));
  const int link = heap.heap_mesh.kind_start[3];
  double last = 0.0;
  int turns = 0;
  while (stepper.state().time_s < request.days * 86400.0) {
    stepper.step(86400.0);
    const double flow = stepper.coefficients().gas_flow_kg_s[link];
    turns += flow * last < 0.0 ? 1 : 0;
    last = flow;
  }
  EXPECT_LT(turns, 20);
  EXPECT_LT(stepper.steps(), 600);
}

}  // namespace
}  // namespace stillheap::forecast
