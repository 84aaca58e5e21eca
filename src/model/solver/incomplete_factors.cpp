#include "model/solver/incomplete_factors.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "model/solver/clones.hpp"

namespace stillheap::solver {
namespace {

// A pivot keeps this share of its diagonal at least. In single precision one that is smaller is but rounding, and may
// be nothing: a channel's air is tied to itself ten million times tighter than to a dense heap around it.
constexpr float least_pivot = 1e-6F;

constexpr int to_diagonal = -1;
constexpr int dropped = -2;

std::ptrdiff_t run(int index, int layers) { return static_cast<std::ptrdiff_t>(index) * layers; }

/// Where the product of column c's multiplier and an earlier neighbour's entry for column `other` goes.
int place_of_fill(const Sparse& pattern, int c, int other) {
  if (other == c) return to_diagonal;
  const auto first = pattern.neighbour.begin() + pattern.start[c];
  const auto last = pattern.neighbour.begin() + pattern.start[c + 1];
  const auto found = std::lower_bound(first, last, other);
  return found != last && *found == other ? static_cast<int>(found - pattern.neighbour.begin()) : dropped;
}

/// Takes every earlier neighbour out of column c's rows. The column's diagonals gather in `inverse_diagonal` until
/// `finish_column` inverts them. Returns where the next column's part of `fill_to` begins.
[[gnu::always_inline]] inline const int* take_earlier(const Sparse& matrix, int c, float kept_fill, const int* fill_to,
                                                      Factor& factor) {
  const int layers = matrix.layers;
  float* const beside = factor.beside.data();
  float* const pivot = factor.inverse_diagonal.data() + run(c, layers);
  const double* const here = matrix.value.data() + matrix.diagonal[run(c, layers)];
  for (int l = 0; l < layers; ++l) pivot[l] = static_cast<float>(here[l]);
  for (int k = matrix.start[c]; k < matrix.first_later[c]; ++k) {
    const int earlier = matrix.neighbour[k];
    float* const times = beside + run(k, layers);
    const float* const inverse = factor.inverse_diagonal.data() + run(earlier, layers);
    const float* const up = factor.up.data() + run(earlier, layers);
#pragma GCC ivdep
    for (int l = 0; l < layers; ++l) {
      pivot[l] -= kept_fill * times[l] * up[l];  // what the neighbour has upwards meets nothing of ours
      times[l] *= inverse[l];
    }
    for (int m = matrix.first_later[earlier]; m < matrix.start[earlier + 1]; ++m, ++fill_to) {
      const float* const entry = beside + run(m, layers);
      float* const target = *fill_to >= 0 ? beside + run(*fill_to, layers) : pivot;
      const float share = *fill_to == dropped ? kept_fill : 1.0F;
#pragma GCC ivdep
      for (int l = 0; l < layers; ++l) target[l] -= share * times[l] * entry[l];
    }
  }
  return fill_to;
}

/// Factorises the column itself, bottom to top: exact, but for what its rows have with later columns.
[[gnu::always_inline]] inline void finish_column(const Sparse& matrix, int c, float kept_fill, Factor& factor) {
  const int layers = matrix.layers;
  const int row = c * layers;
  float* const later = factor.later_sum.data();
  std::fill(later, later + layers, 0.0F);
  for (int k = matrix.first_later[c]; k < matrix.start[c + 1]; ++k) {
    const float* const entry = factor.beside.data() + run(k, layers);
#pragma GCC ivdep
    for (int l = 0; l < layers; ++l) later[l] += entry[l];
  }
  const double* const here = matrix.value.data() + matrix.diagonal[row];
  const double* const below = matrix.value.data() + matrix.downward(row);
  const double* const above = matrix.value.data() + matrix.upward(row);
  float* const pivot = factor.inverse_diagonal.data() + row;
  float* const down = factor.down.data() + row;
  float* const up = factor.up.data() + row;
  for (int l = 0; l < layers; ++l) {
    if (l > 0) {
      down[l] = static_cast<float>(below[l]) * pivot[l - 1];
      pivot[l] -= down[l] * (static_cast<float>(above[l - 1]) + kept_fill * later[l - 1]);
    }
    const float least = least_pivot * static_cast<float>(here[l]);
    if (std::abs(pivot[l]) < std::abs(least)) pivot[l] = least;
    pivot[l] = 1.0F / pivot[l];
    up[l] = l + 1 < layers ? static_cast<float>(above[l]) * pivot[l] : 0.0F;
  }
  for (int l = 2; l < layers; ++l) factor.down_two[row + l] = down[l] * down[l - 1];
  for (int l = 0; l + 2 < layers; ++l) factor.up_two[row + l] = up[l] * up[l + 1];
}

// x[l] = t[l] - d[l] x[l-1] would wait for each row before the next. With x[l-1] put in, x[l] = (t[l] - d[l] t[l-1]) +
// d[l] d[l-1] x[l-2]: the brackets do not wait at all, and odd and even rows run side by side.
template <typename Real>
[[gnu::always_inline]] inline void climb(int layers, const float* down, const float* down_two, Real* x) {
#pragma GCC ivdep
  for (int l = layers - 1; l > 0; --l) x[l] -= down[l] * x[l - 1];
  Real before = 0, last = x[0];
  for (int l = 1; l < layers; ++l) {
    const Real now = x[l] + down_two[l] * before;
    before = last;
    x[l] = last = now;
  }
}

template <typename Real>
[[gnu::always_inline]] inline void descend(int layers, const float* up, const float* up_two, Real* x) {
#pragma GCC ivdep
  for (int l = 0; l < layers - 1; ++l) x[l] -= up[l] * x[l + 1];
  Real before = 0, last = x[layers - 1];
  for (int l = layers - 2; l >= 0; --l) {
    const Real now = x[l] + up_two[l] * before;
    before = last;
    x[l] = last = now;
  }
}

template <typename Real>
[[gnu::always_inline]] inline void solve_in(const Sparse& pattern, const Factor& factor, const Real* b, Real* x) {
  const int layers = pattern.layers;
  const float* const beside = factor.beside.data();
  for (int c = 0; c < pattern.columns(); ++c) {
    Real* const own = x + run(c, layers);
    const Real* const right = b + run(c, layers);
#pragma GCC ivdep
    for (int l = 0; l < layers; ++l) own[l] = right[l];
    for (int k = pattern.start[c]; k < pattern.first_later[c]; ++k) {
      const float* const times = beside + run(k, layers);
      const Real* const other = x + run(pattern.neighbour[k], layers);
#pragma GCC ivdep
      for (int l = 0; l < layers; ++l) own[l] -= times[l] * other[l];
    }
    const float* const down = factor.down.data() + run(c, layers);
    climb(layers, down, factor.down_two.data() + run(c, layers), own);
  }
  for (int c = pattern.columns() - 1; c >= 0; --c) {
    Real* const own = x + run(c, layers);
    for (int k = pattern.first_later[c]; k < pattern.start[c + 1]; ++k) {
      const float* const entry = beside + run(k, layers);
      const Real* const other = x + run(pattern.neighbour[k], layers);
#pragma GCC ivdep
      for (int l = 0; l < layers; ++l) own[l] -= entry[l] * other[l];
    }
    const float* const inverse = factor.inverse_diagonal.data() + run(c, layers);
#pragma GCC ivdep
    for (int l = 0; l < layers; ++l) own[l] *= inverse[l];
    const float* const up = factor.up.data() + run(c, layers);
    descend(layers, up, factor.up_two.data() + run(c, layers), own);
  }
}

}  // namespace

Factor make_factor(const Sparse& pattern) {
  Factor factor;
  const std::size_t rows = pattern.rows();
  factor.beside.resize(pattern.neighbour.size() * pattern.layers);
  factor.inverse_diagonal.assign(rows, 1.0F);
  factor.up.resize(rows);
  factor.down.resize(rows);
  factor.up_two.resize(rows);
  factor.down_two.resize(rows);
  factor.later_sum.resize(pattern.layers);
  for (int c = 0; c < pattern.columns(); ++c) {
    for (int k = pattern.start[c]; k < pattern.first_later[c]; ++k) {
      const int earlier = pattern.neighbour[k];
      for (int m = pattern.first_later[earlier]; m < pattern.start[earlier + 1]; ++m)
        factor.fill_to.push_back(place_of_fill(pattern, c, pattern.neighbour[m]));
    }
  }
  return factor;
}

STILLHEAP_CLONES void factorise(const Sparse& matrix, Factor& factor, float kept_fill) noexcept {
  const std::ptrdiff_t entries = run(static_cast<int>(matrix.neighbour.size()), matrix.layers);
  const double* const value = matrix.value.data();
  float* const beside = factor.beside.data();
#pragma GCC ivdep
  for (std::ptrdiff_t k = 0; k < entries; ++k) beside[k] = static_cast<float>(value[k]);
  const int* fill_to = factor.fill_to.data();
  for (int c = 0; c < matrix.columns(); ++c) {
    fill_to = take_earlier(matrix, c, kept_fill, fill_to, factor);
    finish_column(matrix, c, kept_fill, factor);
  }
}

STILLHEAP_CLONES void solve_factors(const Sparse& pattern, const Factor& factor, const float* b, float* x) noexcept {
  solve_in(pattern, factor, b, x);
}

STILLHEAP_CLONES void solve_factors(const Sparse& pattern, const Factor& factor, const double* b, double* x) noexcept {
  solve_in(pattern, factor, b, x);
}

}  // namespace stillheap::solver
