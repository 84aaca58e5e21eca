#include "solver/vector_kernels.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace stillheap::solver {
namespace {

// Longer than two of the stretches the loops work in, and no multiple of the lanes.
constexpr std::size_t n = 1237;

std::vector<double> wave(double pace) {
  std::vector<double> v(n);
  for (std::size_t i = 0; i < n; ++i) v[i] = std::sin(pace * static_cast<double>(i)) + 0.1;
  return v;
}

double plain_dot(const std::vector<double>& a, const std::vector<double>& b) {
  double sum = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i) sum += a[i] * b[i];
  return sum;
}

TEST(VectorKernels, SumAsAPlainLoopDoes) {
  const std::vector<double> a = wave(0.3), b = wave(0.7);
  for (const std::size_t count : {std::size_t{0}, std::size_t{1}, std::size_t{7}, std::size_t{8}, n}) {
    const std::vector<double> p(a.begin(), a.begin() + static_cast<std::ptrdiff_t>(count));
    const std::vector<double> q(b.begin(), b.begin() + static_cast<std::ptrdiff_t>(count));
    EXPECT_NEAR(dot(count, p.data(), q.data()), plain_dot(p, q), 1e-10);
  }
}

TEST(VectorKernels, AdvanceBothVectorsAndMeasureTheRest) {
  const std::vector<double> p = wave(0.3), q = wave(0.7), first_x = wave(0.2), first_r = wave(0.9);
  std::vector<double> x = first_x, r = first_r;
  const double norm2 = advance(n, 0.4, p.data(), q.data(), x.data(), r.data());
  for (std::size_t i = 0; i < n; ++i) {
    ASSERT_NEAR(x[i], first_x[i] + 0.4 * p[i], 1e-14);
    ASSERT_NEAR(r[i], first_r[i] - 0.4 * q[i], 1e-14);
  }
  EXPECT_NEAR(norm2, plain_dot(r, r), 1e-10);
  std::vector<double> half = first_r;
  EXPECT_DOUBLE_EQ(subtract(n, 0.4, q.data(), half.data()), norm2);
  EXPECT_EQ(half, r);
}

TEST(VectorKernels, AdvanceTwiceIsTwoAdvances) {
  const std::vector<double> p = wave(0.3), s = wave(0.7), t = wave(0.45), w = wave(0.11);
  const std::vector<double> first_x = wave(0.2), first_r = wave(0.9);
  std::vector<double> x = first_x, r = first_r;
  const Dots dots = advance_twice(n, 0.4, p.data(), -0.3, s.data(), t.data(), x.data(), r.data(), w.data());
  for (std::size_t i = 0; i < n; ++i) {
    ASSERT_NEAR(x[i], first_x[i] + 0.4 * p[i] - 0.3 * s[i], 1e-14);
    ASSERT_NEAR(r[i], first_r[i] + 0.3 * t[i], 1e-14);
  }
  EXPECT_NEAR(dots.with_w, plain_dot(r, w), 1e-10);
  EXPECT_NEAR(dots.with_itself, plain_dot(r, r), 1e-10);
}

TEST(VectorKernels, TurnTheDirection) {
  const std::vector<double> r = wave(0.3), v = wave(0.7), first = wave(0.2);
  std::vector<double> p = first, q = first;
  turn(n, r.data(), 0.6, p.data());
  turn_away(n, r.data(), 0.6, 0.2, v.data(), q.data());
  for (std::size_t i = 0; i < n; ++i) {
    ASSERT_NEAR(p[i], r[i] + 0.6 * first[i], 1e-14);
    ASSERT_NEAR(q[i], r[i] + 0.6 * (first[i] - 0.2 * v[i]), 1e-14);
  }
}

TEST(VectorKernels, MultiplyAndSumInOnePass) {
  // 11 layers: a full run of lanes and a rest in every column.
  constexpr int columns = 6, layers = 11;
  std::vector<std::array<int, 2>> links;
  for (int c = 0; c < columns; ++c) {
    for (int l = 0; l < layers; ++l) {
      const int i = c * layers + l;
      if (l + 1 < layers) links.push_back({i, i + 1});
      if (c + 1 < columns) links.push_back({i, i + layers});
    }
  }
  Sparse matrix = make_pattern(columns, layers, links);
  for (const int d : matrix.diagonal) matrix.value[d] = 3.0;
  for (const LinkPlace place : find_places(matrix, links)) {
    matrix.value[place.ab] = -1.0;
    matrix.value[place.ba] = -0.5;
  }
  std::vector<double> x = wave(0.3), w = wave(0.7);
  x.resize(matrix.rows());
  w.resize(matrix.rows());
  std::vector<double> y(matrix.rows()), once(matrix.rows()), twice(matrix.rows());
  multiply(matrix, x.data(), y.data());
  const double with_w = multiply_dot(matrix, x.data(), once.data(), w.data());
  const Dots dots = multiply_dots(matrix, x.data(), twice.data(), w.data());
  EXPECT_EQ(once, y);
  EXPECT_EQ(twice, y);
  EXPECT_NEAR(with_w, plain_dot(y, w), 1e-12);
  EXPECT_NEAR(dots.with_w, plain_dot(y, w), 1e-12);
  EXPECT_NEAR(dots.with_itself, plain_dot(y, y), 1e-12);
}

}  // namespace
}  // namespace stillheap::solver
