// How long a forecast takes. Configure with -DSTILLHEAP_BENCH=ON, then run build/release/bin/bench_forecast.
#include <benchmark/benchmark.h>

#include "model/forecast/ensemble.hpp"
#include "model/forecast/heap_mesh.hpp"
#include "model/forecast/run.hpp"
#include "model/forecast/stepper.hpp"
#include "sample_heap.hpp"

namespace {

using namespace stillheap;

using bench::request_of;

void follow_days(benchmark::State& state, forecast::Grid grid, int days) {
  const forecast::Request request = request_of(grid, days);
  const forecast::Heap heap = forecast::make_heap(request, {}, forecast::grid_size(request.design, grid));
  int steps = 0;
  for (auto _ : state) {
    const forecast::RunHistory track =
        forecast::follow(heap, forecast::step_rule(grid), {}, [](double) { return true; });
    steps = track.steps;
    benchmark::DoNotOptimize(track.peak_c);
  }
  state.counters["cells solved"] = heap.heap_mesh.cells();
  state.counters["cells full"] = heap.heap_mesh.cells() * heap.heap_mesh.plan.sector.copies();
  state.counters["steps"] = steps;
}

void DraftYear(benchmark::State& state) { follow_days(state, forecast::Grid::draft, 365); }
void StandardMonth(benchmark::State& state) { follow_days(state, forecast::Grid::standard, 30); }
void FineMonth(benchmark::State& state) { follow_days(state, forecast::Grid::fine, 30); }
void StandardYear(benchmark::State& state) { follow_days(state, forecast::Grid::standard, 365); }
void FineYear(benchmark::State& state) { follow_days(state, forecast::Grid::fine, 365); }

void DraftEnsembleOf64(benchmark::State& state) {
  const forecast::Request request = request_of(forecast::Grid::draft, 365);
  for (auto _ : state)
    benchmark::DoNotOptimize(
        forecast::run_members(forecast::draw_members(request, 64, 1), [](double) { return true; }).size());
}

BENCHMARK(DraftYear)->Unit(benchmark::kMillisecond);
BENCHMARK(StandardMonth)->Unit(benchmark::kMillisecond);
BENCHMARK(FineMonth)->Unit(benchmark::kMillisecond)->Iterations(1);
BENCHMARK(StandardYear)->Unit(benchmark::kSecond)->Iterations(1);
BENCHMARK(FineYear)->Unit(benchmark::kSecond)->Iterations(1);
BENCHMARK(DraftEnsembleOf64)->Unit(benchmark::kSecond)->Iterations(1)->MeasureProcessCPUTime()->UseRealTime();

}  // namespace
