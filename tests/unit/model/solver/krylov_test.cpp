#include "model/solver/krylov.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <utility>

namespace stillheap::solver {
namespace {

constexpr int side = 20;

/// The five-point stencil on a square, with a wind along x when asked for.
Sparse square(double wind) {
  std::vector<std::array<int, 2>> links;
  for (int j = 0; j < side; ++j) {
    for (int i = 0; i < side; ++i) {
      if (i + 1 < side) links.push_back({j * side + i, j * side + i + 1});
      if (j + 1 < side) links.push_back({j * side + i, (j + 1) * side + i});
    }
  }
  Sparse matrix = make_pattern(side * side, 1, links);
  const auto places = find_places(matrix, links);
  for (const int d : matrix.diagonal) matrix.value[d] = 0.01;
  for (std::size_t k = 0; k < links.size(); ++k) {
    const auto [a, b] = links[k];
    const double along = b == a + 1 ? wind : 0.0;
    matrix.value[matrix.diagonal[a]] += 1.0 + along;
    matrix.value[matrix.diagonal[b]] += 1.0;
    matrix.value[places[k].ab] -= 1.0;
    matrix.value[places[k].ba] -= 1.0 + along;
  }
  return matrix;
}

double residual(const Sparse& matrix, const std::vector<double>& b, const std::vector<double>& x) {
  std::vector<double> y(b.size());
  multiply(matrix, x.data(), y.data());
  double sum = 0.0;
  for (std::size_t i = 0; i < b.size(); ++i) sum += (b[i] - y[i]) * (b[i] - y[i]);
  return std::sqrt(sum);
}

std::vector<double> wave() {
  std::vector<double> b(side * side);
  for (std::size_t i = 0; i < b.size(); ++i) b[i] = std::sin(0.37 * static_cast<double>(i));
  return b;
}

TEST(Krylov, BringsTheResidualBelowTheTolerance) {
  for (const auto& [kind, wind] : {std::pair{Kind::symmetric, 0.0}, {Kind::general, 0.0}, {Kind::general, 3.0}}) {
    const Sparse matrix = square(wind);
    Krylov solver(matrix, kind);
    std::vector<double> x(side * side, 0.0);
    const std::vector<double> b = wave();
    EXPECT_EQ(solver.solve(matrix, b, x, 1e-10), Status::converged);
    EXPECT_LE(residual(matrix, b, x), 2e-10);
  }
}

TEST(Krylov, SolvesANewMatrixOnTheSamePatternAgain) {
  Sparse matrix = square(0.0);
  Krylov solver(matrix, Kind::symmetric);
  std::vector<double> x(side * side, 0.0);
  const std::vector<double> b = wave();
  ASSERT_EQ(solver.solve(matrix, b, x, 1e-10), Status::converged);
  const double before = x[100];
  for (double& v : matrix.value) v *= 2.0;
  ASSERT_EQ(solver.solve(matrix, b, x, 1e-10), Status::converged);
  EXPECT_NEAR(x[100], 0.5 * before, 1e-9);
}

TEST(Krylov, KeepsAGuessThatIsGoodEnough) {
  const Sparse matrix = square(0.0);
  Krylov solver(matrix, Kind::symmetric);
  std::vector<double> x(side * side, 0.0);
  ASSERT_EQ(solver.solve(matrix, wave(), x, 1e-10), Status::converged);
  const std::vector<double> before = x;
  EXPECT_EQ(solver.solve(matrix, wave(), x, 1e-6), Status::converged);
  EXPECT_EQ(x, before);
}

TEST(Krylov, SaysWhenItDidNotGetThere) {
  const Sparse matrix = square(0.0);
  Krylov solver(matrix, Kind::symmetric, Fill::shared, 2);
  std::vector<double> x(side * side, 0.0);
  EXPECT_EQ(solver.solve(matrix, wave(), x, 1e-12), Status::not_converged);
}

TEST(Krylov, RefusesWhatIsNotANumber) {
  const Sparse matrix = square(0.0);
  Krylov solver(matrix, Kind::general);
  std::vector<double> x(side * side, 0.0), b = wave();
  b[3] = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(solver.solve(matrix, b, x, 1e-10), Status::not_converged);
}

TEST(Krylov, SolvesADiagonalInOneRound) {
  // The factors of a diagonal are its inverse, so the first direction ends it for both methods.
  Sparse matrix = make_pattern(8, 1, {});
  for (int i = 0; i < 8; ++i) matrix.value[matrix.diagonal[i]] = 1.0 + i;
  const std::vector<double> b(8, 2.0);
  for (const Kind kind : {Kind::symmetric, Kind::general}) {
    Krylov solver(matrix, kind, Fill::shared, 1);
    std::vector<double> x(8, 0.0);
    ASSERT_EQ(solver.solve(matrix, b, x, 1e-5), Status::converged);
    for (int i = 0; i < 8; ++i) EXPECT_NEAR(x[i], 2.0 / (1.0 + i), 1e-6);
  }
}

TEST(Krylov, BothMethodsAgreeOnASymmetricSystem) {
  const Sparse matrix = square(0.0);
  Krylov symmetric(matrix, Kind::symmetric), general(matrix, Kind::general);
  std::vector<double> x(side * side, 0.5), y(side * side, 0.0);
  ASSERT_EQ(symmetric.solve(matrix, wave(), x, 1e-11), Status::converged);
  ASSERT_EQ(general.solve(matrix, wave(), y, 1e-11), Status::converged);
  for (int i = 0; i < side * side; ++i) ASSERT_NEAR(x[i], y[i], 1e-8);
}

TEST(Krylov, RefusesAMatrixThatIsNotPositive) {
  Sparse matrix = square(0.0);
  for (double& v : matrix.value) v = -v;
  Krylov solver(matrix, Kind::symmetric);
  std::vector<double> x(side * side, 0.0);
  EXPECT_EQ(solver.solve(matrix, wave(), x, 1e-10), Status::not_converged);
}

/// A string of nodes tied to each other far more tightly than to anything else, as a wide channel's air in a dense
/// heap: in single precision its matrix has lost what ties it to the rest.
Sparse tight_string(int nodes, double tie) {
  std::vector<std::array<int, 2>> links;
  for (int i = 0; i + 1 < nodes; ++i) links.push_back({i, i + 1});
  Sparse matrix = make_pattern(1, nodes, links);
  for (const int d : matrix.diagonal) matrix.value[d] = 1.0;
  for (const LinkPlace place : find_places(matrix, links)) matrix.value[place.ab] = matrix.value[place.ba] = -tie;
  for (int i = 0; i < nodes; ++i) matrix.value[matrix.diagonal[i]] += i == 0 || i + 1 == nodes ? tie : 2.0 * tie;
  return matrix;
}

TEST(Krylov, GoesOnInDoubleWhereSinglePrecisionGetsNowhere) {
  constexpr int nodes = 40;
  std::vector<double> b(nodes);
  for (int i = 0; i < nodes; ++i) b[i] = std::sin(0.37 * i);
  for (const double tie : {1e7, 1e8, 1e9}) {
    const Sparse matrix = tight_string(nodes, tie);
    for (const Kind kind : {Kind::symmetric, Kind::general}) {
      Krylov solver(matrix, kind);
      std::vector<double> x(nodes, 0.0);
      EXPECT_EQ(solver.solve(matrix, b, x, 1e-5), Status::converged) << tie;
      EXPECT_LE(residual(matrix, b, x), 2e-5) << tie;
    }
  }
}

TEST(Krylov, CanBeMoved) {
  const Sparse matrix = square(0.0);
  Krylov first(matrix, Kind::symmetric);
  Krylov second = std::move(first);
  std::vector<double> x(side * side, 0.0);
  EXPECT_EQ(second.solve(matrix, wave(), x, 1e-10), Status::converged);
}

}  // namespace
}  // namespace stillheap::solver
