#include "solver/vector_kernels.hpp"

#include <array>

#include "solver/clones.hpp"
#include "solver/multiply_column.hpp"

namespace stillheap::solver {
namespace {

constexpr std::size_t lanes = 8;
using Lanes = std::array<double, lanes>;

[[gnu::always_inline]] inline double total(const Lanes& sum) {
  return ((sum[0] + sum[4]) + (sum[1] + sum[5])) + ((sum[2] + sum[6]) + (sum[3] + sum[7]));
}

/// Adds a b to the lanes; a rest of the run falls into the first ones.
[[gnu::always_inline]] inline void gather(std::size_t n, const double* a, const double* b, Lanes& sum) {
  std::size_t i = 0;
  for (; i + lanes <= n; i += lanes)
    for (std::size_t lane = 0; lane < lanes; ++lane) sum[lane] += a[i + lane] * b[i + lane];
  for (std::size_t lane = 0; i < n; ++i, ++lane) sum[lane] += a[i] * b[i];
}

/// Short enough that what one loop writes is still at hand when the next one reads it.
constexpr std::size_t stretch = 512;

template <typename Part>
[[gnu::always_inline]] inline void in_stretches(std::size_t n, Part part) {
  for (std::size_t i = 0; i < n; i += stretch) part(i, n - i < stretch ? n - i : stretch);
}

}  // namespace

STILLHEAP_CLONES double dot(std::size_t n, const double* a, const double* b) noexcept {
  Lanes sum{};
  gather(n, a, b, sum);
  return total(sum);
}

STILLHEAP_CLONES double multiply_dot(const Sparse& matrix, const double* x, double* y, const double* w) noexcept {
  Lanes sum{};
  const auto layers = static_cast<std::size_t>(matrix.layers);
  for (int c = 0; c < matrix.columns(); ++c) {
    multiply_column(matrix, c, x, y);
    const std::ptrdiff_t row = std::ptrdiff_t{c} * matrix.layers;
    gather(layers, y + row, w + row, sum);
  }
  return total(sum);
}

STILLHEAP_CLONES Dots multiply_dots(const Sparse& matrix, const double* x, double* y, const double* w) noexcept {
  Lanes with_w{}, with_itself{};
  const auto layers = static_cast<std::size_t>(matrix.layers);
  for (int c = 0; c < matrix.columns(); ++c) {
    multiply_column(matrix, c, x, y);
    const std::ptrdiff_t row = std::ptrdiff_t{c} * matrix.layers;
    const double* const own = y + row;
    gather(layers, own, w + row, with_w);
    gather(layers, own, own, with_itself);
  }
  return {total(with_w), total(with_itself)};
}

STILLHEAP_CLONES double advance(std::size_t n, double a, const double* p, const double* q, double* x,
                                double* r) noexcept {
  Lanes sum{};
  in_stretches(n, [&](std::size_t from, std::size_t count) {
#pragma GCC ivdep
    for (std::size_t i = from; i < from + count; ++i) x[i] += a * p[i];
#pragma GCC ivdep
    for (std::size_t i = from; i < from + count; ++i) r[i] -= a * q[i];
    gather(count, r + from, r + from, sum);
  });
  return total(sum);
}

STILLHEAP_CLONES double subtract(std::size_t n, double a, const double* q, double* r) noexcept {
  Lanes sum{};
  in_stretches(n, [&](std::size_t from, std::size_t count) {
#pragma GCC ivdep
    for (std::size_t i = from; i < from + count; ++i) r[i] -= a * q[i];
    gather(count, r + from, r + from, sum);
  });
  return total(sum);
}

STILLHEAP_CLONES Dots advance_twice(std::size_t n, double a, const double* p, double c, const double* s,
                                    const double* t, double* x, double* r, const double* w) noexcept {
  Lanes with_w{}, with_itself{};
  in_stretches(n, [&](std::size_t from, std::size_t count) {
#pragma GCC ivdep
    for (std::size_t i = from; i < from + count; ++i) x[i] += a * p[i] + c * s[i];
#pragma GCC ivdep
    for (std::size_t i = from; i < from + count; ++i) r[i] -= c * t[i];
    gather(count, r + from, w + from, with_w);
    gather(count, r + from, r + from, with_itself);
  });
  return {total(with_w), total(with_itself)};
}

STILLHEAP_CLONES void add(std::size_t n, double a, const double* p, double* x) noexcept {
#pragma GCC ivdep
  for (std::size_t i = 0; i < n; ++i) x[i] += a * p[i];
}

STILLHEAP_CLONES void turn(std::size_t n, const double* r, double b, double* p) noexcept {
#pragma GCC ivdep
  for (std::size_t i = 0; i < n; ++i) p[i] = r[i] + b * p[i];
}

STILLHEAP_CLONES void turn_away(std::size_t n, const double* r, double b, double c, const double* v,
                                double* p) noexcept {
#pragma GCC ivdep
  for (std::size_t i = 0; i < n; ++i) p[i] = r[i] + b * (p[i] - c * v[i]);
}

}  // namespace stillheap::solver
