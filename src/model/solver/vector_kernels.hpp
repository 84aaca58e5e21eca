#pragma once
#include <algorithm>
#include <array>
#include <cstddef>

#include "model/solver/multiply_column.hpp"
#include "model/solver/sparse.hpp"

/// The loops over whole vectors of the Krylov methods, each doing in one pass what the method does between two
/// products, in single or double precision. Inlined, so that they are compiled for the processor their caller is
/// compiled for. Every sum is taken in lanes along short runs and in double over the runs, in a fixed order, so the
/// same input gives the same bits.
namespace stillheap::solver {

/// Short enough that what one loop writes is still at hand when the next one reads it, and that single precision sums
/// it.
constexpr std::size_t stretch = 512;

/// a b of one run.
template <typename Real>
[[gnu::always_inline]] inline double sum_run(std::size_t n, const Real* a, const Real* b) noexcept {
  constexpr std::size_t lanes = 8;
  std::array<Real, lanes> sum{};
  std::size_t i = 0;
  for (; i + lanes <= n; i += lanes)
    for (std::size_t lane = 0; lane < lanes; ++lane) sum[lane] += a[i + lane] * b[i + lane];
  for (std::size_t lane = 0; i < n; ++i, ++lane) sum[lane] += a[i] * b[i];
  return ((sum[0] + sum[4]) + (sum[1] + sum[5])) + ((sum[2] + sum[6]) + (sum[3] + sum[7]));
}

/// a b.
template <typename Real>
[[gnu::always_inline]] inline double dot(std::size_t n, const Real* a, const Real* b) noexcept {
  double sum = 0.0;
  for (std::size_t i = 0; i < n; i += stretch) sum += sum_run(std::min(stretch, n - i), a + i, b + i);
  return sum;
}

/// y = A x, with the entries of a matrix on `pattern` in `value`. Returns y w.
template <typename Real>
[[gnu::always_inline]] inline double multiply_dot(const Sparse& pattern, const Real* value, const Real* x, Real* y,
                                                  const Real* w) noexcept {
  double sum = 0.0;
  const auto layers = static_cast<std::size_t>(pattern.layers);
  for (int c = 0; c < pattern.columns(); ++c) {
    multiply_column(pattern, value, c, x, y);
    const std::ptrdiff_t row = std::ptrdiff_t{c} * pattern.layers;
    sum += sum_run(layers, y + row, w + row);
  }
  return sum;
}

struct Dots {
  double with_w = 0.0;
  double with_itself = 0.0;
};
/// y = A x, with the entries of a matrix on `pattern` in `value`. Returns y w and y y.
template <typename Real>
[[gnu::always_inline]] inline Dots multiply_dots(const Sparse& pattern, const Real* value, const Real* x, Real* y,
                                                 const Real* w) noexcept {
  Dots sum;
  const auto layers = static_cast<std::size_t>(pattern.layers);
  for (int c = 0; c < pattern.columns(); ++c) {
    multiply_column(pattern, value, c, x, y);
    const std::ptrdiff_t row = std::ptrdiff_t{c} * pattern.layers;
    const Real* const own = y + row;
    sum.with_w += sum_run(layers, own, w + row);
    sum.with_itself += sum_run(layers, own, own);
  }
  return sum;
}

/// x += a p and r -= a q. Returns r r.
template <typename Real>
[[gnu::always_inline]] inline double advance(std::size_t n, Real a, const Real* p, const Real* q, Real* x,
                                             Real* r) noexcept {
  double sum = 0.0;
  for (std::size_t from = 0; from < n; from += stretch) {
    const std::size_t end = std::min(from + stretch, n);
#pragma GCC ivdep
    for (std::size_t i = from; i < end; ++i) x[i] += a * p[i];
#pragma GCC ivdep
    for (std::size_t i = from; i < end; ++i) r[i] -= a * q[i];
    sum += sum_run(end - from, r + from, r + from);
  }
  return sum;
}

/// r -= a q. Returns r r.
template <typename Real>
[[gnu::always_inline]] inline double subtract(std::size_t n, Real a, const Real* q, Real* r) noexcept {
  double sum = 0.0;
  for (std::size_t from = 0; from < n; from += stretch) {
    const std::size_t end = std::min(from + stretch, n);
#pragma GCC ivdep
    for (std::size_t i = from; i < end; ++i) r[i] -= a * q[i];
    sum += sum_run(end - from, r + from, r + from);
  }
  return sum;
}

/// x += a p + c s and r -= c t. Returns r w and r r.
template <typename Real>
[[gnu::always_inline]] inline Dots advance_twice(std::size_t n, Real a, const Real* p, Real c, const Real* s,
                                                 const Real* t, Real* x, Real* r, const Real* w) noexcept {
  Dots sum;
  for (std::size_t from = 0; from < n; from += stretch) {
    const std::size_t end = std::min(from + stretch, n);
#pragma GCC ivdep
    for (std::size_t i = from; i < end; ++i) x[i] += a * p[i] + c * s[i];
#pragma GCC ivdep
    for (std::size_t i = from; i < end; ++i) r[i] -= c * t[i];
    sum.with_w += sum_run(end - from, r + from, w + from);
    sum.with_itself += sum_run(end - from, r + from, r + from);
  }
  return sum;
}

/// x += a p, where p may be less precise than x.
template <typename Real, typename Less>
[[gnu::always_inline]] inline void add(std::size_t n, Real a, const Less* p, Real* x) noexcept {
#pragma GCC ivdep
  for (std::size_t i = 0; i < n; ++i) x[i] += a * static_cast<Real>(p[i]);
}

/// p = r + b p.
template <typename Real>
[[gnu::always_inline]] inline void turn(std::size_t n, const Real* r, Real b, Real* p) noexcept {
#pragma GCC ivdep
  for (std::size_t i = 0; i < n; ++i) p[i] = r[i] + b * p[i];
}

/// p = r + b (p - c v).
template <typename Real>
[[gnu::always_inline]] inline void turn_away(std::size_t n, const Real* r, Real b, Real c, const Real* v,
                                             Real* p) noexcept {
#pragma GCC ivdep
  for (std::size_t i = 0; i < n; ++i) p[i] = r[i] + b * (p[i] - c * v[i]);
}

}  // namespace stillheap::solver
