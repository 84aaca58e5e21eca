#include "model/solver/vector_kernels.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <type_traits>
#include <vector>

namespace stillheap::solver {
namespace {

// Longer than two of the stretches the loops work in, and no multiple of the lanes.
constexpr std::size_t n = 1237;

template <typename Real>
class VectorKernels : public testing::Test {
 protected:
  // Of numbers near one, and of sums of a thousand of them.
  static constexpr double rounding = std::is_same_v<Real, float> ? 1e-6 : 1e-14;
  static constexpr double sum_rounding = std::is_same_v<Real, float> ? 2e-4 : 1e-10;

  static std::vector<Real> wave(double pace, std::size_t size = n) {
    std::vector<Real> v(size);
    for (std::size_t i = 0; i < size; ++i) v[i] = static_cast<Real>(std::sin(pace * static_cast<double>(i)) + 0.1);
    return v;
  }

  static double plain_dot(const std::vector<Real>& a, const std::vector<Real>& b) {
    double sum = 0.0;
    for (std::size_t i = 0; i < a.size(); ++i) sum += static_cast<double>(a[i]) * static_cast<double>(b[i]);
    return sum;
  }
};

using Precisions = testing::Types<float, double>;
TYPED_TEST_SUITE(VectorKernels, Precisions);

TYPED_TEST(VectorKernels, SumAsAPlainLoopDoes) {
  for (const std::size_t count : {std::size_t{0}, std::size_t{1}, std::size_t{7}, std::size_t{8}, n}) {
    const auto a = this->wave(0.3, count), b = this->wave(0.7, count);
    EXPECT_NEAR(dot(count, a.data(), b.data()), this->plain_dot(a, b), this->sum_rounding);
  }
}

TYPED_TEST(VectorKernels, AdvanceBothVectorsAndMeasureTheRest) {
  const auto p = this->wave(0.3), q = this->wave(0.7), first_x = this->wave(0.2), first_r = this->wave(0.9);
  const TypeParam step{0.4F};
  auto x = first_x, r = first_r;
  const double norm2 = advance(n, step, p.data(), q.data(), x.data(), r.data());
  for (std::size_t i = 0; i < n; ++i) {
    ASSERT_NEAR(x[i], first_x[i] + step * p[i], this->rounding);
    ASSERT_NEAR(r[i], first_r[i] - step * q[i], this->rounding);
  }
  EXPECT_NEAR(norm2, this->plain_dot(r, r), this->sum_rounding);
  auto half = first_r;
  EXPECT_DOUBLE_EQ(subtract(n, step, q.data(), half.data()), norm2);
  EXPECT_EQ(half, r);
}

TYPED_TEST(VectorKernels, AdvanceTwiceIsTwoAdvances) {
  const auto p = this->wave(0.3), s = this->wave(0.7), t = this->wave(0.45), w = this->wave(0.11);
  const auto first_x = this->wave(0.2), first_r = this->wave(0.9);
  const TypeParam one{0.4F}, other{-0.3F};
  auto x = first_x, r = first_r;
  const Dots dots = advance_twice(n, one, p.data(), other, s.data(), t.data(), x.data(), r.data(), w.data());
  for (std::size_t i = 0; i < n; ++i) {
    ASSERT_NEAR(x[i], first_x[i] + one * p[i] + other * s[i], this->rounding);
    ASSERT_NEAR(r[i], first_r[i] - other * t[i], this->rounding);
  }
  EXPECT_NEAR(dots.with_w, this->plain_dot(r, w), this->sum_rounding);
  EXPECT_NEAR(dots.with_itself, this->plain_dot(r, r), this->sum_rounding);
}

TYPED_TEST(VectorKernels, TurnTheDirection) {
  const auto r = this->wave(0.3), v = this->wave(0.7), first = this->wave(0.2);
  const TypeParam turned{0.6F}, away{0.2F};
  auto p = first, q = first;
  turn(n, r.data(), turned, p.data());
  turn_away(n, r.data(), turned, away, v.data(), q.data());
  for (std::size_t i = 0; i < n; ++i) {
    ASSERT_NEAR(p[i], r[i] + turned * first[i], this->rounding);
    ASSERT_NEAR(q[i], r[i] + turned * (first[i] - away * v[i]), this->rounding);
  }
}

TYPED_TEST(VectorKernels, AddWhatIsLessPrecise) {
  const auto p = this->wave(0.3);
  std::vector<double> x(n, 1.0);
  add(n, 0.25, p.data(), x.data());
  for (std::size_t i = 0; i < n; ++i) ASSERT_DOUBLE_EQ(x[i], 1.0 + 0.25 * static_cast<double>(p[i]));
}

TYPED_TEST(VectorKernels, MultiplyAndSumInOnePass) {
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
  const std::size_t rows = matrix.diagonal.size();
  const std::vector<TypeParam> value(matrix.value.begin(), matrix.value.end());
  const auto x = this->wave(0.3, rows), w = this->wave(0.7, rows);
  std::vector<TypeParam> once(rows), twice(rows);
  const std::vector<double> as_double(x.begin(), x.end());
  std::vector<double> y(rows);
  multiply(matrix, as_double.data(), y.data());
  const double with_w = multiply_dot(matrix, value.data(), x.data(), once.data(), w.data());
  const Dots dots = multiply_dots(matrix, value.data(), x.data(), twice.data(), w.data());
  for (std::size_t i = 0; i < rows; ++i) ASSERT_NEAR(once[i], y[i], 4.0 * this->rounding);
  EXPECT_EQ(twice, once);
  EXPECT_NEAR(with_w, this->plain_dot(once, w), this->sum_rounding);
  EXPECT_NEAR(dots.with_w, with_w, this->sum_rounding);
  EXPECT_NEAR(dots.with_itself, this->plain_dot(once, once), this->sum_rounding);
}

}  // namespace
}  // namespace stillheap::solver
