#include "model/forecast/enthalpy.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "heap_bench.hpp"
#include "model/physics/freezing.hpp"

namespace stillheap::forecast {
namespace {

/// One cell's heap with so much water and salt a kilogram of solids.
Bench wet(double water_dry, double salt_dry) {
  Bench bench(plain_request(plain_box(0.6, 0.6, 0.6)), {{0.6, 0.6, 0.6}, 2});
  for (int i = 0; i < bench.cells(); ++i) {
    bench.state.water_kg[i] = water_dry * bench.heap.first_dry_kg[i];
    bench.state.salt_kg[i] = salt_dry * bench.heap.first_dry_kg[i];
  }
  bench.mark();
  return bench;
}

TEST(Enthalpy, IsThatOfSolidsAndWaterAboveZero) {
  const Bench bench = wet(1.5, 0.01);
  const double dry = bench.heap.first_dry_kg[0];
  const double capacity = dry * (bench.heap.parameters.solids_heat_j_kg_k + 1.5 * physics::water_heat_j_kg_k);
  const Enthalpy at = enthalpy_at(bench.heap, bench.state, 0, 40.0, bench.state.water_kg[0]);
  EXPECT_NEAR(at.held_j, 40.0 * capacity, 1e-9 * at.held_j);
  EXPECT_NEAR(at.slope_j_k, capacity, 1e-9 * capacity);
  EXPECT_EQ(at.liquid_kg, bench.state.water_kg[0]);
}

TEST(Enthalpy, GivesOffTheHeatOfFusionOfWhatFreezes) {
  const Bench bench = wet(2.0, 0.0);
  const double warm = enthalpy_at(bench.heap, bench.state, 0, 0.0, bench.state.water_kg[0]).held_j;
  const Enthalpy cold = enthalpy_at(bench.heap, bench.state, 0, -0.5, bench.state.water_kg[0]);
  const double ice_kg = bench.state.water_kg[0] - cold.liquid_kg;
  EXPECT_GT(ice_kg, 0.75 * bench.state.water_kg[0]);
  const double cooled = 0.5 * cold.slope_j_k;
  EXPECT_NEAR(warm - cold.held_j, ice_kg * physics::fusion_heat_j_kg, cooled);
}

TEST(Enthalpy, HasTheSlopeOfItsCurve) {
  for (const double water : {0.15, 0.5, 2.0}) {
    const Bench bench = wet(water, 0.02);
    for (const double celsius : {-30.0, -5.0, -1.0, 3.0}) {
      constexpr double h = 1e-4;
      const auto held = [&](double c) {
        return enthalpy_at(bench.heap, bench.state, 0, c, bench.state.water_kg[0]).held_j;
      };
      const double differenced = (held(celsius + h) - held(celsius - h)) / (2.0 * h);
      const double slope = enthalpy_at(bench.heap, bench.state, 0, celsius, bench.state.water_kg[0]).slope_j_k;
      EXPECT_NEAR(slope, differenced, 1e-4 * differenced) << water << " " << celsius;
    }
  }
}

TEST(Enthalpy, NamesTheTemperatureAtWhichItIsHeld) {
  for (const double water : {0.0, 0.1, 0.4, 1.0, 3.0}) {
    for (const double salt : {0.0, 0.005, 0.06}) {
      const Bench bench = wet(water, salt);
      for (const double celsius : {-40.0, -8.0, -1.0, -0.05, 0.0, 0.5, 70.0}) {
        const double water_kg = bench.state.water_kg[0];
        const Enthalpy at = enthalpy_at(bench.heap, bench.state, 0, celsius, water_kg);
        for (const double near_kg : {at.liquid_kg, 0.3 * water_kg, 0.0}) {
          const Warmth warmth = warmth_holding(bench.heap, bench.state, 0, at.held_j, water_kg, near_kg);
          EXPECT_NEAR(warmth.celsius, celsius, 1e-7) << water << " " << salt;
          EXPECT_NEAR(warmth.liquid_kg, at.liquid_kg, 1e-5 * water_kg) << water << " " << salt;
        }
      }
    }
  }
}

TEST(Enthalpy, CountsWaterThatComesAsIceWhereThereIsIce) {
  const Bench bench = wet(2.0, 0.0);
  constexpr double more = 1e-3;
  const double water = bench.state.water_kg[0];
  const Enthalpy at = enthalpy_at(bench.heap, bench.state, 0, -5.0, water);
  const double held_more = enthalpy_at(bench.heap, bench.state, 0, -5.0, water + more).held_j - at.held_j;
  EXPECT_NEAR(held_more / more, at.water_j_kg, 1e-3 * std::abs(at.water_j_kg));
  EXPECT_NEAR(at.water_j_kg, physics::ice_enthalpy_j_kg(-5.0), 1e-6);
}

TEST(HeatStep, FreezesThroughAndThawsAgainWithoutLosingHeat) {
  Bench bench = wet(1.8, 0.01);
  shut(bench);
  for (FaceExchange& face : bench.coefficients.face) face.heat_w_k = 2.0;
  const auto held = [&] {
    double total = 0.0;
    for (int i = 0; i < bench.cells(); ++i) total += enthalpy_of(bench.heap, bench.state, i).held_j;
    return total;
  };
  const auto ice = [&] {
    double total = 0.0;
    for (int i = 0; i < bench.cells(); ++i)
      total += bench.state.water_kg[i] - enthalpy_of(bench.heap, bench.state, i).liquid_kg;
    return total;
  };
  const double first = held();
  const auto keep_at = [&](double celsius, int days) {
    for (FaceExchange& face : bench.coefficients.face) face.apparent_c = celsius;
    ASSERT_TRUE(heat_for(bench, 7200.0, 12 * days));
  };
  keep_at(-15.0, 200);
  EXPECT_NEAR(bench.state.temperature_c[0], -15.0, 0.1);
  EXPECT_GT(ice(), 0.8 * std::accumulate(bench.state.water_kg.begin(), bench.state.water_kg.end(), 0.0));
  keep_at(8.0, 200);
  EXPECT_NEAR(bench.state.temperature_c[0], 8.0, 0.1);
  EXPECT_EQ(ice(), 0.0);
  EXPECT_NEAR(held() - first, bench.balances.energy.in - bench.balances.energy.out, 1e-9 * bench.balances.energy.in);
  EXPECT_LT(bench.measured().energy.error(), 1e-9);
}

TEST(WaterStep, LeavesIceWhereItIs) {
  Bench warm = wet(4.0, 0.0), frozen = wet(4.0, 0.0);
  for (int i = 0; i < frozen.cells(); ++i) frozen.state.temperature_c[i] = -5.0;
  for (Bench* bench : {&warm, &frozen}) {
    bench->refresh();
    for (int n = 0; n < 24; ++n) {
      ASSERT_EQ(
          water_step(bench->heap, bench->coefficients, 3600.0, 0.0, 0.0, bench->state, bench->balances, bench->work),
          solver::Status::converged);
    }
  }
  EXPECT_GT(warm.balances.drained_kg, 1.0);
  EXPECT_LT(frozen.balances.drained_kg, 1e-3 * warm.balances.drained_kg);
}

}  // namespace
}  // namespace stillheap::forecast
