#pragma once
#include <cstddef>

#include "solver/sparse.hpp"

namespace stillheap::solver {

/// Column c of y = A x. Inlined, so that it is compiled for the processor its caller is compiled for.
[[gnu::always_inline]] inline void multiply_column(const Sparse& matrix, int c, const double* x, double* y) noexcept {
  const int layers = matrix.layers;
  const int row = c * layers;
  const double* const value = matrix.value.data();
  const double* const here = value + matrix.diagonal[row];
  const double* const up = value + matrix.upward(row);
  const double* const down = value + matrix.downward(row);
  const double* const own = x + row;
  double* const out = y + row;
#pragma GCC ivdep
  for (int l = 0; l < layers; ++l) out[l] = here[l] * own[l];
#pragma GCC ivdep
  for (int l = 0; l < layers - 1; ++l) out[l] += up[l] * own[l + 1];
#pragma GCC ivdep
  for (int l = 1; l < layers; ++l) out[l] += down[l] * own[l - 1];
  for (int k = matrix.start[c]; k < matrix.start[c + 1]; ++k) {
    const double* const a = value + static_cast<std::ptrdiff_t>(k) * layers;
    const double* const other = x + static_cast<std::ptrdiff_t>(matrix.neighbour[k]) * layers;
#pragma GCC ivdep
    for (int l = 0; l < layers; ++l) out[l] += a[l] * other[l];
  }
}

}  // namespace stillheap::solver
