#pragma once
#include <cstddef>

#include "model/solver/sparse.hpp"

namespace stillheap::solver {

/// Column c of y = A x, with the entries of A in double or single precision. Inlined, so that it is compiled for the
/// processor its caller is compiled for.
template <typename Real>
[[gnu::always_inline]] inline void multiply_column(const Sparse& pattern, const Real* value, int c, const Real* x,
                                                   Real* y) noexcept {
  const int layers = pattern.layers;
  const int row = c * layers;
  const Real* const here = value + pattern.diagonal[row];
  const Real* const up = value + pattern.upward(row);
  const Real* const down = value + pattern.downward(row);
  const Real* const own = x + row;
  Real* const out = y + row;
#pragma GCC ivdep
  for (int l = 0; l < layers; ++l) out[l] = here[l] * own[l];
#pragma GCC ivdep
  for (int l = 0; l < layers - 1; ++l) out[l] += up[l] * own[l + 1];
#pragma GCC ivdep
  for (int l = 1; l < layers; ++l) out[l] += down[l] * own[l - 1];
  for (int k = pattern.start[c]; k < pattern.start[c + 1]; ++k) {
    const Real* const a = value + static_cast<std::ptrdiff_t>(k) * layers;
    const Real* const other = x + static_cast<std::ptrdiff_t>(pattern.neighbour[k]) * layers;
#pragma GCC ivdep
    for (int l = 0; l < layers; ++l) out[l] += a[l] * other[l];
  }
}

}  // namespace stillheap::solver
