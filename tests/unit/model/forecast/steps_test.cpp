#include "model/forecast/steps.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "core/base/constants.hpp"
#include "heap_bench.hpp"
#include "model/physics/gas.hpp"
#include "model/physics/retention.hpp"
#include "model/physics/settlement.hpp"

namespace stillheap::forecast {
namespace {

double sum(const std::vector<double>& values) { return std::accumulate(values.begin(), values.end(), 0.0); }

Bench common_bench(double air_c = 10.0) {
  Bench bench(common_request(5), grid_size(common_round(), Grid::draft));
  bench.outside.air_c = air_c;
  bench.outside.humidity = 0.7;
  bench.outside.wind_m_s = 1.0;
  bench.outside.longwave_w_m2 = 300.0;
  bench.refresh();
  return bench;
}

void warm(Bench& bench, double celsius) {
  std::fill(bench.state.temperature_c.begin(), bench.state.temperature_c.end(), celsius);
  std::fill(bench.state.duct_density_kg_m3.begin(), bench.state.duct_density_kg_m3.end(),
            weather::moist_air_density_kg_m3(celsius, 0.0, bench.outside.pressure_pa));
  bench.refresh();
  bench.mark();
}

double outflow(const Bench& bench, FaceKind kind) {
  double flow = 0.0;
  for (std::size_t f = 0; f < bench.coefficients.face.size(); ++f)
    if (bench.heap.heap_mesh.faces[f].kind == kind) flow += bench.coefficients.face_flow_kg_s[f];
  return flow;
}

double outflow_of_all(const Bench& bench) {
  double flow = 0.0;
  for (const double one : bench.coefficients.face_flow_kg_s) flow += std::max(one, 0.0);
  return flow;
}

TEST(GasStep, LetsWarmAirRiseAndKeepsItsMass) {
  Bench bench = common_bench();
  warm(bench, 60.0);
  ASSERT_EQ(gas_step(bench.heap, 3600.0, bench.state, bench.coefficients, bench.balances, bench.work),
            solver::Status::converged);
  EXPECT_GT(outflow(bench, FaceKind::top) + outflow(bench, FaceKind::mouth_top), 0.0);
  EXPECT_LT(outflow(bench, FaceKind::base) + outflow(bench, FaceKind::mouth_base), 0.0);
  EXPECT_LT(bench.balances.dry_air.error(), 1e-6);
  EXPECT_NEAR(bench.balances.dry_air.out, 3600.0 * outflow_of_all(bench),
              1e-9 * bench.balances.dry_air.out);  // kilograms, not kilograms a second
}

TEST(GasStep, TurnsRoundWhenTheAirOutsideIsWarmer) {
  Bench bench = common_bench(35.0);
  warm(bench, 5.0);
  ASSERT_EQ(gas_step(bench.heap, 3600.0, bench.state, bench.coefficients, bench.balances, bench.work),
            solver::Status::converged);
  EXPECT_LT(outflow(bench, FaceKind::top) + outflow(bench, FaceKind::mouth_top), 0.0);
  EXPECT_GT(outflow(bench, FaceKind::base) + outflow(bench, FaceKind::mouth_base), 0.0);
}

TEST(OxygenStep, TakesFromTheAirWhatDecayUses) {
  Bench bench = common_bench();
  warm(bench, 50.0);
  ASSERT_EQ(gas_step(bench.heap, 3600.0, bench.state, bench.coefficients, bench.balances, bench.work),
            solver::Status::converged);
  const double before = sum(bench.state.pool_kg[0]) + sum(bench.state.pool_kg[1]) + sum(bench.state.pool_kg[2]);
  ASSERT_EQ(oxygen_step(bench.heap, bench.coefficients, 3600.0, bench.state, bench.balances, bench.work),
            solver::Status::converged);
  const double after = sum(bench.state.pool_kg[0]) + sum(bench.state.pool_kg[1]) + sum(bench.state.pool_kg[2]);
  EXPECT_LT(after, before);
  EXPECT_NEAR(bench.balances.oxygen_used_kg, bench.heap.parameters.oxygen_yield * (before - after), 1e-9 * before);
  EXPECT_NEAR(3600.0 * sum(bench.work.heat_made_w),
              bench.heap.parameters.heat_per_oxygen_j_kg * bench.balances.oxygen_used_kg, 1.0);
  EXPECT_LT(bench.measured().oxygen.error(), 1e-7);
  for (int i = 0; i < bench.heap.heap_mesh.nodes(); ++i) {
    EXPECT_GE(bench.state.oxygen_ratio[i], 0.0);
    EXPECT_LE(bench.state.oxygen_ratio[i], physics::oxygen_outside * (1.0 + 1e-9));
  }
}

TEST(OxygenStep, LeavesNoneRatherThanLessThanNone) {
  Bench bench = common_bench();
  warm(bench, 58.0);
  for (double& factor : bench.coefficients.decay_factor) factor *= 1e4;
  std::fill(bench.coefficients.gas_flow_kg_s.begin(), bench.coefficients.gas_flow_kg_s.end(), 0.0);
  std::fill(bench.coefficients.face_flow_kg_s.begin(), bench.coefficients.face_flow_kg_s.end(), 0.0);
  ASSERT_EQ(oxygen_step(bench.heap, bench.coefficients, 3600.0, bench.state, bench.balances, bench.work),
            solver::Status::converged);
  for (const double ratio : bench.state.oxygen_ratio) EXPECT_GE(ratio, 0.0);
  EXPECT_LT(bench.measured().oxygen.error(), 1e-6);
}

TEST(OxygenStep, EndsInAHeapTooColdToDecay) {
  Bench bench = common_bench(-12.0);
  warm(bench, -3.0);
  ASSERT_EQ(gas_step(bench.heap, 3600.0, bench.state, bench.coefficients, bench.balances, bench.work),
            solver::Status::converged);
  for (const double dt_s : {1.0, 60.0, 3600.0, 86400.0}) {
    EXPECT_EQ(oxygen_step(bench.heap, bench.coefficients, dt_s, bench.state, bench.balances, bench.work),
              solver::Status::converged);
  }
  EXPECT_EQ(bench.balances.oxygen_used_kg, 0.0);
}

TEST(HeatStep, KeepsEnergyAndWaterTogether) {
  Bench bench = common_bench();
  warm(bench, 55.0);
  ASSERT_EQ(gas_step(bench.heap, 3600.0, bench.state, bench.coefficients, bench.balances, bench.work),
            solver::Status::converged);
  const double water = sum(bench.state.water_kg);
  ASSERT_TRUE(heat_for(bench, 3600.0, 1));
  EXPECT_LT(bench.mean(bench.state.temperature_c), 55.0);
  EXPECT_NEAR(water - sum(bench.state.water_kg), bench.balances.evaporated_kg, 1e-9 * water);
  EXPECT_GT(bench.balances.evaporated_kg, 0.0);
  EXPECT_LT(bench.measured().energy.error(), 1e-7);
  EXPECT_LT(bench.measured().water.error(), 1e-7);
}

// A rim that warms wets its channel's air. Followed one after the other, a cell of the rim that leads the others went
// too far every round; found together they settle.
TEST(HeatStep, FindsTheRimsHeatTogetherWithTheChannelsVapour) {
  Bench bench = common_bench();
  warm(bench, 65.0);
  ASSERT_EQ(gas_step(bench.heap, 3600.0, bench.state, bench.coefficients, bench.balances, bench.work),
            solver::Status::converged);
  const auto& starts = bench.heap.heap_mesh.kind_start;
  for (int k = starts[2]; k < starts[3]; k += 7) bench.coefficients.vapour_kg_s[k] *= 40.0;
  EXPECT_TRUE(heat_for(bench, 3600.0, 1));
  EXPECT_LT(bench.measured().energy.error(), 1e-9);
}

TEST(HeatStep, LeavesASealedHeapAlone) {
  Bench bench = common_bench();
  warm(bench, 40.0);
  shut(bench);
  // A channel's air needs something to hold on to.
  const auto& starts = bench.heap.heap_mesh.kind_start;
  for (int k = starts[2]; k < starts[3]; ++k) bench.coefficients.heat_w_k[k] = 1e-3;
  ASSERT_TRUE(heat_for(bench, 86400.0, 5));
  for (int i = 0; i < bench.cells(); ++i) EXPECT_NEAR(bench.state.temperature_c[i], 40.0, 1e-9);
}

TEST(WaterStep, KeepsWaterAndSalt) {
  Bench bench = common_bench();
  const double copies = bench.heap.heap_mesh.plan.sector.copies();
  const double water = sum(bench.state.water_kg), salt = sum(bench.state.salt_kg);
  for (int n = 0; n < 200; ++n) {
    ASSERT_EQ(water_step(bench.heap, bench.coefficients, 3600.0, 5e-4, 1e-4, bench.state, bench.balances, bench.work),
              solver::Status::converged);
  }
  EXPECT_NEAR(bench.balances.sprinkled_kg, 200 * 3600.0 * 5e-4 / copies, 1e-9);
  EXPECT_NEAR(sum(bench.state.water_kg) - water, bench.balances.water.in - bench.balances.water.out, 1e-9 * water);
  EXPECT_NEAR(sum(bench.state.salt_kg) - salt, bench.balances.salt.in - bench.balances.salt.out, 1e-9 * salt);
  EXPECT_GT(bench.balances.salt_leached_kg, 0.0);
}

TEST(WaterStep, SpreadsAWetSpotWithoutLosingWaterOrHeat) {
  Bench bench(plain_request(plain_box(0.6, 0.6, 0.6)), {{0.2, 0.2, 0.2}, 6});
  bench.state.water_kg[3] *= 1.1;  // still below what is held
  bench.state.temperature_c[3] = 50.0;
  bench.refresh();
  const auto energy = [&] {
    double total = 0.0;
    for (int i = 0; i < bench.cells(); ++i) total += enthalpy_of(bench.heap, bench.state, i).held_j;
    return total;
  };
  const double water = sum(bench.state.water_kg), heat = energy(), spot = bench.state.water_kg[3];
  for (int n = 0; n < 20; ++n) {
    ASSERT_EQ(water_step(bench.heap, bench.coefficients, 3600.0, 0.0, 0.0, bench.state, bench.balances, bench.work),
              solver::Status::converged);
  }
  EXPECT_LT(bench.state.water_kg[3], spot);
  EXPECT_NEAR(sum(bench.state.water_kg), water, 1e-10 * water);
  EXPECT_NEAR(energy(), heat, 1e-9 * heat);
}

TEST(WaterStep, ComesToRestWhereSuctionCarriesTheHeight) {
  physics::Parameters parameters;
  parameters.capillary_m2_s *= 1e4;  // years become days
  Bench bench(plain_request(plain_box(0.6, 0.6, 0.6)), {{0.6, 0.6, 0.6}, 12}, parameters);
  const double holding = parameters.holding_capacity;
  for (int i = 0; i < bench.cells(); ++i) bench.state.water_kg[i] = 0.75 * holding * bench.heap.first_dry_kg[i];
  bench.refresh();
  for (int n = 0; n < 3000; ++n) {
    ASSERT_EQ(water_step(bench.heap, bench.coefficients, 300.0, 0.0, 0.0, bench.state, bench.balances, bench.work),
              solver::Status::converged);
  }
  const auto suction = [&](int i) {
    const double share = bench.state.water_kg[i] / (holding * bench.heap.first_dry_kg[i]);
    return physics::suction_m(share, parameters.retention_exponent, parameters.holding_suction_m);
  };
  // Eleven layers of 0.05 m lie between the lowest and the highest cell of a column.
  EXPECT_NEAR(suction(11) - suction(0), 0.55, 0.03);
  EXPECT_GT(bench.state.water_kg[0], bench.state.water_kg[11]);
}

TEST(SettleStep, FollowsItsLoadWithADelayAndKeepsTheMass) {
  Bench bench(plain_request(plain_round(1.0, 1.0)), {{0.3, 0.3, 0.3}, 1});
  const double wet_kg = sum(bench.state.water_kg) + sum(bench.heap.first_dry_kg);
  const double load_pa = 0.5 * wet_kg * constant::gravity_m_s2 / sum(bench.heap.heap_mesh.plan.area_m2);
  const double target = physics::compression_strain(load_pa, bench.heap.parameters.compression_index);
  const State before = bench.state;
  for (int n = 0; n < 5; ++n) settle_step(bench.heap, 86400.0, bench.state);
  // Five days of the five days' delay, in steps or at once.
  EXPECT_NEAR(bench.state.strain[0], target * (1.0 - std::exp(-1.0)), 1e-12);
  EXPECT_NEAR(bench.state.layer_height_m[0], 1.0 - bench.state.strain[0], 1e-12);
  EXPECT_EQ(bench.state.water_kg, before.water_kg);
  EXPECT_EQ(bench.state.pool_kg, before.pool_kg);
}

TEST(SettleStep, PressesTheLowestLayerMostAndNeverSpringsBack) {
  Bench bench(plain_request(plain_round(1.0, 1.0)), {{0.3, 0.3, 0.3}, 4});
  settle_step(bench.heap, 30 * 86400.0, bench.state);
  for (int l = 0; l + 1 < 4; ++l) EXPECT_LT(bench.state.layer_height_m[l], bench.state.layer_height_m[l + 1]);
  const std::vector<double> strain = bench.state.strain;
  for (double& water : bench.state.water_kg) water = 0.0;
  settle_step(bench.heap, 30 * 86400.0, bench.state);
  EXPECT_EQ(bench.state.strain, strain);
}

}  // namespace
}  // namespace stillheap::forecast
