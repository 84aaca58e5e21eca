// How much of the memory's speed the hottest kernels reach: against triads (a = b + s c, J. D. McCalpin's STREAM) of
// the same process, once with arrays as large as the kernel's data and once larger than the caches.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <vector>

#include "model/forecast/heap_mesh.hpp"
#include "model/solver/incomplete_factors.hpp"
#include "model/solver/sparse.hpp"
#include "sample_heap.hpp"

namespace {

using namespace stillheap;

solver::Sparse matrix_of(forecast::Grid grid) {
  const forecast::Request request = bench::request_of(grid, 1);
  solver::Sparse matrix = forecast::make_lattice(request.design, forecast::grid_size(request.design, grid)).pattern;
  const auto size = static_cast<std::ptrdiff_t>(matrix.neighbour.size()) * matrix.layers;
  std::fill(matrix.value.begin(), matrix.value.begin() + size, -1.0);
  for (int i = 0; i < matrix.rows(); ++i) {
    const int column = i / matrix.layers;
    const bool lowest = i % matrix.layers == 0, highest = i % matrix.layers == matrix.layers - 1;
    matrix.value[matrix.upward(i)] = highest ? 0.0 : -1.0;
    matrix.value[matrix.downward(i)] = lowest ? 0.0 : -1.0;
    matrix.value[matrix.diagonal[i]] = matrix.start[column + 1] - matrix.start[column] + 2.1;
  }
  return matrix;
}

std::int64_t entries(const solver::Sparse& matrix) { return static_cast<std::int64_t>(matrix.value.size()); }

void Triad(benchmark::State& state) {
  const auto size = static_cast<std::size_t>(state.range(0)) / (3 * sizeof(double));
  std::vector<double> a(size, 0.0), b(size, 1.0), c(size, 2.0);
  for (auto _ : state) {
    for (std::size_t i = 0; i < size; ++i) a[i] = b[i] + 3.0 * c[i];
    benchmark::DoNotOptimize(a.data());
    benchmark::ClobberMemory();
  }
  state.SetBytesProcessed(state.iterations() * static_cast<std::int64_t>(3 * size * sizeof(double)));
}

/// Bytes that must pass at least once: the entries, and both vectors.
void Multiply(benchmark::State& state, forecast::Grid grid) {
  const solver::Sparse matrix = matrix_of(grid);
  std::vector<double> x(matrix.rows(), 1.0), y(matrix.rows());
  for (auto _ : state) {
    solver::multiply(matrix, x.data(), y.data());
    benchmark::DoNotOptimize(y.data());
  }
  state.SetBytesProcessed(state.iterations() * (entries(matrix) * 8 + std::int64_t{16} * matrix.rows()));
}

void SolveFactors(benchmark::State& state, forecast::Grid grid) {
  const solver::Sparse matrix = matrix_of(grid);
  solver::Factor factor = solver::make_factor(matrix);
  solver::factorise(matrix, factor);
  std::vector<float> b(matrix.rows(), 1.0F), x(matrix.rows());
  for (auto _ : state) {
    solver::solve_factors(matrix, factor, b.data(), x.data());
    benchmark::DoNotOptimize(x.data());
  }
  state.SetBytesProcessed(state.iterations() * (entries(matrix) * 4 + std::int64_t{16} * matrix.rows()));
}

BENCHMARK(Triad)->Arg(1 << 18)->Arg(1 << 21)->Arg(1 << 28);
BENCHMARK_CAPTURE(Multiply, standard, forecast::Grid::standard);
BENCHMARK_CAPTURE(Multiply, fine, forecast::Grid::fine);
BENCHMARK_CAPTURE(SolveFactors, standard, forecast::Grid::standard);
BENCHMARK_CAPTURE(SolveFactors, fine, forecast::Grid::fine);

}  // namespace
