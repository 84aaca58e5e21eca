#include <cvode/cvode.h>
#include <gtest/gtest.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_spbcgs.h>

#include <cmath>
#include <numeric>
#include <string>

#include "../unit/model/forecast/heap_bench.hpp"
#include "check.hpp"
#include "core/base/constants.hpp"
#include "model/forecast/run_history.hpp"
#include "model/physics/gas.hpp"
#include "model/physics/liquid_water.hpp"

namespace stillheap::forecast {
namespace {

using constant::seconds_per_day;
using outside::expect;

// ---- V01: one cubic metre of heap as ordinary differential equations, written without the program's physics ----

struct Batch {
  double rate_1_s[3] = {}, lasting_kg = 0.0, ash_kg = 0.0;
};

/// y: three pools, water [kg/m3], temperature [degC].
int batch_rates(realtype, N_Vector y, N_Vector dy, void* data) {
  const Batch& batch = *static_cast<const Batch*>(data);
  const double* now = NV_DATA_S(y);
  double* rate = NV_DATA_S(dy);
  const double organic = now[0] + now[1] + now[2] + batch.lasting_kg;
  const double dry = organic + batch.ash_kg, water = now[3], t = now[4];
  const auto cardinal = [](double c) {
    const double least = 5.0, best = 58.6, most = 71.6;
    if (c <= least || c >= most) return 0.0;
    return (c - most) * std::pow(c - least, 2) /
           ((best - least) * ((best - least) * (c - best) - (best - most) * (best + least - 2.0 * c)));
  };
  const double wet = water / (water + dry);
  const double air = 1.0 - organic / 1600.0 - batch.ash_kg / 2500.0 - water / 1000.0;
  const double factor = cardinal(t) / cardinal(20.0) / (1.0 + std::exp(7.0622 - 17.684 * wet)) /
                        (1.0 + std::exp(3.4945 - 23.675 * air)) * 20.946 / (20.946 + 1.0);
  double lost = 0.0;
  for (int p = 0; p < 3; ++p) {
    rate[p] = -batch.rate_1_s[p] * factor * now[p];
    lost -= rate[p];
  }
  rate[3] = 0.55 * lost;
  rate[4] = 1.35 * 14.0e6 * lost / (1400.0 * dry + 4186.0 * water);
  return 0;
}

struct BatchState {
  double celsius = 0.0, dry_kg = 0.0, water_kg = 0.0;
};

BatchState integrate(const material::Blend& blend, double days) {
  const double first_dry = blend.bulk_density_kg_m3 * (1.0 - blend.moisture_wet);
  Batch batch;
  batch.ash_kg = blend.ash_dry * first_dry;
  batch.lasting_kg = first_dry - batch.ash_kg;
  SUNContext context = nullptr;
  EXPECT_EQ(SUNContext_Create(nullptr, &context), 0);
  N_Vector y = N_VNew_Serial(5, context);
  double* now = NV_DATA_S(y);
  for (int p = 0; p < 3; ++p) {
    batch.rate_1_s[p] = blend.pool_rate_20c_per_s[p];
    now[p] = blend.pool_dry[p] * first_dry;
    batch.lasting_kg -= now[p];
  }
  now[3] = blend.bulk_density_kg_m3 * blend.moisture_wet;
  now[4] = 20.0;
  void* cvode = CVodeCreate(CV_BDF, context);
  CVodeInit(cvode, batch_rates, 0.0, y);
  CVodeSetUserData(cvode, &batch);
  CVodeSStolerances(cvode, 1e-10, 1e-10);
  CVodeSetMaxNumSteps(cvode, 100000);
  SUNLinearSolver linear = SUNLinSol_SPBCGS(y, SUN_PREC_NONE, 20, context);
  CVodeSetLinearSolver(cvode, linear, nullptr);
  double reached = 0.0;
  EXPECT_EQ(CVode(cvode, days * seconds_per_day, y, &reached, CV_NORMAL), CV_SUCCESS);
  const BatchState end{now[4], batch.lasting_kg + batch.ash_kg + now[0] + now[1] + now[2], now[3]};
  SUNLinSolFree(linear);
  CVodeFree(&cvode);
  N_VDestroy(y);
  SUNContext_Free(&context);
  return end;
}

/// The program's steps with every exchange but oxygen's taken away.
BatchState step_through(const material::Blend& blend, double days, double dt_s) {
  Request request = plain_request(plain_box(1.0, 1.0, 1.0));
  request.blend = blend;
  Bench bench(request, {{0.5, 0.5, 0.5}, 2});
  const int steps = static_cast<int>(std::lround(days * seconds_per_day / dt_s));
  for (int n = 0; n < steps; ++n) {
    bench.refresh();
    const std::vector<double> decay = bench.coefficients.decay_factor;
    shut(bench);
    bench.coefficients.decay_factor = decay;
    conduct(bench, &Coefficients::oxygen_kg_s, 1e-3);
    for (FaceExchange& face : bench.coefficients.face) face.oxygen_kg_s = 1e-3;
    bench.work.guess_c = bench.state.temperature_c;
    EXPECT_EQ(oxygen_step(bench.heap, bench.coefficients, dt_s, bench.state, bench.balances, bench.work),
              solver::Status::converged);
    EXPECT_EQ(heat_step(bench.heap, bench.coefficients, dt_s, bench.state, bench.balances, bench.work),
              solver::Status::converged);
  }
  const auto sum = [](const std::vector<double>& v) { return std::accumulate(v.begin(), v.end(), 0.0); };
  const double volume = bench.volume_m3();
  const double dry = sum(bench.state.pool_kg[0]) + sum(bench.state.pool_kg[1]) + sum(bench.state.pool_kg[2]) +
                     sum(bench.heap.lasting_kg) + sum(bench.heap.ash_kg);
  return {bench.mean(bench.state.temperature_c), dry / volume, sum(bench.state.water_kg) / volume};
}

TEST(VesselHeat, V01BatchThatKeepsItsHeat) {
  const material::Blend blend = active_blend();
  const double first_dry = blend.bulk_density_kg_m3 * (1.0 - blend.moisture_wet);
  for (const int day : {1, 2, 3, 6}) {
    const BatchState exact = integrate(blend, day);
    const BatchState ours = step_through(blend, day, 300.0);
    expect("V01", "day_" + std::to_string(day) + "_miss_k", ours.celsius - exact.celsius);
    if (day < 6) continue;
    expect("V01", "solids_lost_miss", (ours.dry_kg - exact.dry_kg) / first_dry);
    expect("V01", "water_miss", (ours.water_kg - exact.water_kg) / exact.water_kg);
  }
  const double exact_c = integrate(blend, 1.0).celsius;
  const double slow = step_through(blend, 1.0, 7200.0).celsius - exact_c;
  const double quick = step_through(blend, 1.0, 1800.0).celsius - exact_c;
  outside::report_miss(
      "V01", "order_in_time", 0.5 * std::log2(std::abs(slow / quick)),
      "the error falls faster than first order since materials burn at rates of their own; why is not found yet");
}

// ---- V02, V03: water ------------------------------------------------------------------------------------------

Request soaked(double moisture_wet) {
  Request request = plain_request(plain_round(1.0, 1.0));
  request.blend.moisture_wet = moisture_wet;
  request.blend.bulk_density_kg_m3 = 200.0 / (1.0 - moisture_wet);
  return request;
}

double excess_share(const Bench& bench, int cell) {
  const double holding = bench.heap.parameters.holding_capacity;
  const double full = saturated_water_dry(bench.heap, bench.coefficients, cell);
  return (bench.state.water_kg[cell] / bench.coefficients.dry_kg[cell] - holding) / (full - holding);
}

/// Excess left after a day over the exact one.
double drained_ratio(double dt_s) {
  Bench bench(soaked(0.75), {{0.4, 0.4, 0.4}, 1});
  const double start = excess_share(bench, 0);
  const double full = saturated_water_dry(bench.heap, bench.coefficients, 0) - bench.heap.parameters.holding_capacity;
  const double dry_kg_m2 = bench.coefficients.dry_kg[0] / bench.heap.heap_mesh.plan.area_m2[0];
  const double a = 1000.0 * bench.heap.parameters.saturated_conductivity_m_s / (dry_kg_m2 * full);
  const long steps = std::lround(seconds_per_day / dt_s);
  for (long n = 0; n < steps; ++n) {
    EXPECT_EQ(water_step(bench.heap, bench.coefficients, dt_s, 0.0, 0.0, bench.state, bench.balances, bench.work),
              solver::Status::converged);
  }
  return excess_share(bench, 0) / std::pow(1.0 / (start * start) + 2.0 * a * seconds_per_day, -0.5);
}

TEST(VesselHeat, V02OneLayerDrains) {
  const double medium = drained_ratio(600.0), quick = drained_ratio(150.0);
  expect("V02", "excess_share_ratio", medium);
  expect("V02", "order_in_time", 0.5 * std::log2(std::abs((medium - 1.0) / (quick - 1.0))));
}

TEST(VesselHeat, V03SteadySprinkling) {
  physics::Parameters parameters;
  parameters.capillary_m2_s = 0.0;  // drainage alone
  Bench bench(soaked(0.68), {{0.4, 0.4, 0.4}, 6}, parameters);
  const double sprinkle_kg_s = 40.0 / seconds_per_day;
  const auto held = [&] { return std::accumulate(bench.state.water_kg.begin(), bench.state.water_kg.end(), 0.0); };
  const double first_kg = held();
  double drained_before = 0.0;
  for (int n = 0; n < 480; ++n) {
    drained_before = bench.balances.drained_kg;
    ASSERT_EQ(
        water_step(bench.heap, bench.coefficients, 3600.0, sprinkle_kg_s, 0.0, bench.state, bench.balances, bench.work),
        solver::Status::converged);
  }
  const double copies = bench.heap.heap_mesh.plan.sector.copies();
  const double area_m2 = vessel::footprint_area_m2(bench.heap.request.design);
  const double share = std::cbrt(sprinkle_kg_s / area_m2 / 1000.0 / bench.heap.parameters.saturated_conductivity_m_s);
  expect("V03", "top_share_ratio", excess_share(bench, 5) / share);
  expect("V03", "base_share_ratio", excess_share(bench, 0) / share);
  expect("V03", "outflow_ratio", copies * (bench.balances.drained_kg - drained_before) / 3600.0 / sprinkle_kg_s);
  expect("V03", "water_error",
         (bench.balances.water.in - bench.balances.water.out - (held() - first_kg)) / bench.balances.water.in);
}

// ---- V06: settling --------------------------------------------------------------------------------------------

double wet_kg(const Bench& bench) {
  double sum = 0.0;
  for (int i = 0; i < bench.cells(); ++i) sum += dry_kg(bench.heap, bench.state, i) + bench.state.water_kg[i];
  return sum;
}

double height_m(const Bench& bench) {
  return std::accumulate(bench.state.layer_height_m.begin(), bench.state.layer_height_m.end(), 0.0);
}

Bench settled(int steps) {
  physics::Parameters parameters;
  parameters.compression_index = 0.12;
  parameters.height_per_solids = 1.0;
  Bench bench(plain_request(plain_round(1.0, 1.0)), {{0.4, 0.4, 0.4}, 4}, parameters);
  for (int n = 0; n < steps; ++n) settle_step(bench.heap, 100.0 * seconds_per_day / steps, bench.state);
  return bench;
}

TEST(VesselHeat, V06Settling) {
  Bench bench = settled(100);
  expect("V06", "height_m", height_m(bench));
  expect("V06", "height_in_longer_steps", height_m(bench) / height_m(settled(20)));
  expect("V06", "mass_lost_kg", wet_kg(Bench(bench.heap)) - wet_kg(bench));
  // Two fifths of a pool that is half of all solids.
  for (double& kg : bench.state.pool_kg[0]) kg *= 0.6;
  settle_step(bench.heap, seconds_per_day, bench.state);
  expect("V06", "height_with_solids_lost_m", height_m(bench));
}

// ---- V04, V05: the whole vessel -------------------------------------------------------------------------------

struct DayFive {
  double mean_c = 0.0, lowest_oxygen = 1.0, evaporated_kg = 0.0;
};

DayFive day_five(bool whole_plan) {
  const Request request = draft_weather(common_request(5));
  GridSize size = grid_size(request.design, Grid::draft);
  size.layers = 6;
  const Heap heap = make_heap(request, {}, size, whole_plan);
  const RunHistory track = follow(heap, step_rule(Grid::draft), {}, [](double) { return true; });
  EXPECT_FALSE(track.stopped.has_value());
  return {track.history.back().mean_c, track.lowest_oxygen, track.balances.evaporated_kg};
}

TEST(VesselHeat, V04SectorAgainstWholePlan) {
  const DayFive sector = day_five(false), whole = day_five(true);
  expect("V04", "mean_difference_k", whole.mean_c - sector.mean_c);
  expect("V04", "lowest_oxygen_difference", whole.lowest_oxygen - sector.lowest_oxygen);
  expect("V04", "evaporated_ratio", whole.evaporated_kg / sector.evaporated_kg);
}

TEST(VesselHeat, V05BooksOfAMonth) {
  Request request = draft_weather(common_request(30));
  request.sprinkling.automatic = false;
  request.sprinkling.kg_by_day.assign(static_cast<std::size_t>(request.days), 8.0);
  request.sprinkling.conductivity_s_m = 0.05;
  const Heap heap = make_heap(request, {}, grid_size(request.design, Grid::draft));
  const RunHistory track = follow(heap, step_rule(Grid::draft), {}, [](double) { return true; });
  ASSERT_FALSE(track.stopped.has_value());
  expect("V05", "solids", track.balances.solids.error());
  expect("V05", "oxygen", track.balances.oxygen.error());
  expect("V05", "water", track.balances.water.error());
  expect("V05", "energy", track.balances.energy.error());
  expect("V05", "salt", track.balances.salt.error());
  expect("V05", "dry_air", track.balances.dry_air.error());
  expect("V05", "water_moved_kg", track.balances.water.in + track.balances.water.out);
  expect("V05", "dry_air_moved_kg", track.balances.dry_air.in + track.balances.dry_air.out);
}

/// The same heap, with a fault put into one cell on day 10.
TEST(VesselHeat, V07BooksWithAFaultPutIn) {
  Request request = draft_weather(common_request(30));
  request.sprinkling.conductivity_s_m = 0.05;
  const Heap heap = make_heap(request, {}, grid_size(request.design, Grid::draft));
  Stepper stepper(heap, step_rule(Grid::draft));
  while (stepper.state().time_s < 10.0 * seconds_per_day) stepper.step(seconds_per_day);
  const auto off = [&](auto&& wrong, Balance Balances::*balance) {
    StepperMemory memory = stepper.memory();
    wrong(memory.state);
    Stepper faulty(heap, step_rule(Grid::draft), std::move(memory));
    faulty.step(3600.0);
    return (faulty.balances().*balance).error();
  };
  const auto take_a_gram = [](double& kg) { kg -= 1e-3; };
  expect("V07", "solids", off([&](State& s) { take_a_gram(s.pool_kg[2][0]); }, &Balances::solids));
  expect("V07", "water", off([&](State& s) { take_a_gram(s.water_kg[0]); }, &Balances::water));
  const auto warmed = [&](double by_k) {
    return off([=](State& s) { s.temperature_c[0] += by_k; }, &Balances::energy);
  };
  outside::report_miss("V07", "energy", warmed(1.0),
                       "1 K in one cell is less than 1e-6 of the heat that ten days move since the prior makes more "
                       "heat; 10 K shows");
  EXPECT_GT(warmed(10.0), 1e-6);
  EXPECT_NEAR(warmed(10.0) / warmed(1.0), 10.0, 1.0) << "a fault is booked as large as it is";
  expect("V07", "salt", off([&](State& s) { s.salt_kg[0] *= 0.9; }, &Balances::salt));
}

struct Summer {
  double peak_c = 0.0, days_to_55 = 1e9;
};

Summer summer_of(Request request) {
  request.start_day_of_year = 180;
  request.fill_temperature_c = 22.0;
  request = draft_weather(request);
  const RunHistory track = follow(make_heap(request, {}, grid_size(request.design, Grid::draft)),
                                  step_rule(Grid::draft), {}, [](double) { return true; });
  Summer summer{track.peak_c, 1e9};
  for (const HistoryRow& row : track.history)
    if (row.hottest_c >= 55.0) summer.days_to_55 = std::min(summer.days_to_55, row.day);
  return summer;
}

TEST(VesselHeat, P2SummerFill) {
  Request request = common_request(30);
  outside::report_miss(
      "P2", "peak_c", summer_of(request).peak_c,
      "the typical horse manure of the table is slow and the modelled wall stays wet and cool; pools and "
      "rates are chosen within published bounds and were not raised to meet the trade's word");
  request.blend = blend_of({{"wood-chips", 0.2}, {"leaves", 0.3}, {"horse-manure", 0.3}, {"food-scraps", 0.2}}, 0.62);
  const Summer lively = summer_of(request);
  outside::report_miss("P2", "peak_with_food_scraps_c", lively.peak_c,
                       "a livelier blend comes nearer; the same reasons hold");
  expect("P2", "days_to_55_with_food_scraps", lively.days_to_55);
}

}  // namespace
}  // namespace stillheap::forecast
