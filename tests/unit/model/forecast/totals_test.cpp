#include "model/forecast/totals.hpp"

#include <gtest/gtest.h>

#include <functional>

#include "core/base/error.hpp"
#include "heap_bench.hpp"
#include "model/forecast/runner.hpp"

namespace stillheap::forecast {
namespace {

/// A step that goes wrong by a millionth or so of what moved, and the balance that must show it.
struct Injected {
  const char* what;
  std::function<void(State&)> wrong;
  Balance Balances::*balance;
};

const std::vector<Injected>& injected_errors() {
  static const std::vector<Injected> list{
      {"solids", [](State& s) { s.pool_kg[1][7] *= 0.99; }, &Balances::solids},
      {"water", [](State& s) { s.water_kg[7] *= 0.99; }, &Balances::water},
      {"energy", [](State& s) { s.temperature_c[7] -= 1.0; }, &Balances::energy},
      {"salt", [](State& s) { s.salt_kg[7] *= 1.01; }, &Balances::salt},
  };
  return list;
}

Request two_days() {
  Request request = draft_weather(common_request(3));
  request.sprinkling.automatic = false;
  request.sprinkling.kg_by_day.assign(static_cast<std::size_t>(request.days), 8.0);
  request.sprinkling.conductivity_s_m = 0.05;
  return request;
}

// The books used to write down the same number twice, so that no error of solids, water or energy could show.
TEST(Balances, SeeWhatAWrongStepLosesOrInvents) {
  const Request request = two_days();
  const Heap heap = make_heap(request, {}, grid_size(request.design, Grid::draft));
  Stepper right(heap, step_rule(Grid::draft));
  while (right.state().time_s < 86400.0) right.step(3600.0);
  for (const Injected& error : injected_errors()) {
    EXPECT_LT((right.balances().*error.balance).error(), 1e-8) << error.what;
    StepperMemory memory = right.memory();
    error.wrong(memory.state);
    Stepper wrong(heap, step_rule(Grid::draft), memory);
    wrong.step(600.0);
    EXPECT_GT((wrong.balances().*error.balance).error(), 1e-6) << error.what;
  }
}

TEST(Balances, StopARunThatGoesWrong) {
  const Request request = two_days();
  const Heap heap = make_heap(request, {}, grid_size(request.design, Grid::draft));
  Runner right(heap, step_rule(Grid::draft), {});
  while (right.track().history.size() < 2) right.step();
  for (const Injected& error : injected_errors()) {
    RunState state = right.walk();
    error.wrong(state.stepper.state);
    Runner wrong(heap, step_rule(Grid::draft), {}, std::move(state));
    const auto to_the_end = [&] {
      while (!wrong.ended()) wrong.step();
    };
    EXPECT_THROW(to_the_end(), RunError) << error.what;
  }
}

TEST(Balances, SeeOxygenThatAStepMakesOutOfNothing) {
  Bench bench(two_days(), grid_size(two_days().design, Grid::draft));
  std::fill(bench.state.temperature_c.begin(), bench.state.temperature_c.end(), 50.0);
  bench.refresh();
  bench.mark();
  ASSERT_EQ(gas_step(bench.heap, 3600.0, bench.state, bench.coefficients, bench.balances, bench.work),
            solver::Status::converged);
  ASSERT_EQ(oxygen_step(bench.heap, bench.coefficients, 3600.0, bench.state, bench.balances, bench.work),
            solver::Status::converged);
  EXPECT_LT(bench.measured().oxygen.error(), 1e-6);
  EXPECT_LT(bench.measured().solids.error(), 1e-9);
  bench.state.oxygen_ratio[7] *= 2.0;
  EXPECT_GT(bench.measured().oxygen.error(), 1e-6);
}

TEST(Balances, CountHeatOfDecayOnce) {
  Bench bench(two_days(), grid_size(two_days().design, Grid::draft));
  std::fill(bench.state.temperature_c.begin(), bench.state.temperature_c.end(), 50.0);
  bench.refresh();
  bench.mark();
  ASSERT_EQ(gas_step(bench.heap, 3600.0, bench.state, bench.coefficients, bench.balances, bench.work),
            solver::Status::converged);
  ASSERT_EQ(oxygen_step(bench.heap, bench.coefficients, 3600.0, bench.state, bench.balances, bench.work),
            solver::Status::converged);
  const double made_j = bench.balances.energy.made;
  ASSERT_TRUE(heat_for(bench, 3600.0, 1));
  EXPECT_EQ(bench.balances.energy.made, made_j);
  EXPECT_LT(bench.measured().energy.error(), 1e-7);
  EXPECT_LT(bench.measured().water.error(), 1e-7);
}

}  // namespace
}  // namespace stillheap::forecast
