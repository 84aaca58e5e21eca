#include "model/solver/sparse.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <random>
#include <vector>

#include "model/solver/incomplete_factors.hpp"

namespace stillheap::solver {
namespace {

using Links = std::vector<std::array<int, 2>>;

Links chain(int nodes) {
  Links links;
  for (int i = 0; i + 1 < nodes; ++i) links.push_back({i, i + 1});
  return links;
}

/// The matrix as rows of numbers, read off by multiplying unit vectors.
std::vector<std::vector<double>> dense(const Sparse& matrix) {
  const int n = matrix.rows();
  std::vector<std::vector<double>> rows(n, std::vector<double>(n));
  std::vector<double> unit(n, 0.0), out(n);
  for (int j = 0; j < n; ++j) {
    unit[j] = 1.0;
    multiply(matrix, unit.data(), out.data());
    for (int i = 0; i < n; ++i) rows[i][j] = out[i];
    unit[j] = 0.0;
  }
  return rows;
}

/// Four columns of some layers: a ring with one chord, every entry set by hand through the links' places.
struct Ring {
  explicit Ring(int layers) {
    for (const auto& [a, b] : Links{{0, 1}, {1, 2}, {2, 3}, {0, 3}, {3, 1}})
      for (int l = 0; l < layers; ++l) links.push_back({a * layers + l, b * layers + l});
    for (int c = 0; c < 4; ++c)
      for (int l = 0; l + 1 < layers; ++l) links.push_back({c * layers + l, c * layers + l + 1});
    matrix = make_pattern(4, layers, links);
    rows.assign(matrix.rows(), std::vector<double>(matrix.rows()));
    std::mt19937 generator(11);
    std::uniform_real_distribution<double> uniform(0.1, 1.0);
    const auto places = find_places(matrix, links);
    for (std::size_t k = 0; k < links.size(); ++k) {
      const auto [a, b] = links[k];
      rows[a][b] = matrix.value[places[k].ab] = -uniform(generator);
      rows[b][a] = matrix.value[places[k].ba] = -uniform(generator);
    }
    for (int i = 0; i < matrix.rows(); ++i) rows[i][i] = matrix.value[matrix.diagonal[i]] = 5.0 + uniform(generator);
  }

  Links links;
  Sparse matrix;
  std::vector<std::vector<double>> rows;
};

TEST(Sparse, HoldsEveryColumnsNeighboursOnceInOrder) {
  const Links links{{0, 2}, {2, 1}, {0, 2}};  // one link given twice
  const Sparse pattern = make_pattern(4, 1, links);
  EXPECT_EQ(pattern.rows(), 4);
  EXPECT_EQ(pattern.start, (std::vector<int>{0, 1, 2, 4, 4}));
  EXPECT_EQ(pattern.neighbour, (std::vector<int>{2, 2, 0, 1}));
  EXPECT_EQ(pattern.first_later, (std::vector<int>{0, 1, 4, 4}));
}

TEST(Sparse, MultipliesWhatWasPutAtThePlacesOfLinksAndDiagonals) {
  for (const int layers : {1, 2, 3, 5, 9}) {
    const Ring ring(layers);
    EXPECT_EQ(dense(ring.matrix), ring.rows) << layers << " layers";
  }
}

TEST(IncompleteFactors, AreExactWhereNothingFillsIn) {
  // A chain has a tridiagonal matrix, whose exact factors stay on its own pattern, be it upright or lying.
  constexpr int nodes = 50;
  for (const bool upright : {false, true}) {
    Sparse matrix = make_pattern(upright ? 1 : nodes, upright ? nodes : 1, chain(nodes));
    std::mt19937 generator(7);
    std::uniform_real_distribution<double> uniform(0.1, 1.0);
    for (const LinkPlace place : find_places(matrix, chain(nodes))) {
      matrix.value[place.ab] = -uniform(generator);
      matrix.value[place.ba] = -uniform(generator);
    }
    for (int i = 0; i < nodes; ++i) matrix.value[matrix.diagonal[i]] = 3.0 + uniform(generator);
    std::vector<double> wanted(nodes), right(nodes), found(nodes);
    for (double& v : wanted) v = uniform(generator);
    multiply(matrix, wanted.data(), right.data());
    Factor factor = make_factor(matrix);
    factorise(matrix, factor);
    solve_factors(matrix, factor, right.data(), found.data());
    for (int i = 0; i < nodes; ++i) EXPECT_NEAR(found[i], wanted[i], 1e-6);  // the factors are single precision
  }
}

/// Algorithm 10.4 of Saad (2003) as printed, on a dense array, with the dropped fill's share to the diagonal.
std::vector<std::vector<double>> printed_factors(std::vector<std::vector<double>> a, double kept_fill) {
  const auto pattern = a;
  for (std::size_t i = 1; i < a.size(); ++i) {
    for (std::size_t k = 0; k < i; ++k) {
      if (pattern[i][k] == 0.0) continue;
      a[i][k] /= a[k][k];
      for (std::size_t j = k + 1; j < a.size(); ++j) {
        if (pattern[k][j] == 0.0) continue;
        if (pattern[i][j] != 0.0) a[i][j] -= a[i][k] * a[k][j];
        if (pattern[i][j] == 0.0) a[i][i] -= kept_fill * a[i][k] * a[k][j];
      }
    }
  }
  return a;
}

std::vector<double> solved(const std::vector<std::vector<double>>& lu, std::vector<double> x) {
  const std::size_t n = x.size();
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = 0; j < i; ++j) x[i] -= lu[i][j] * x[j];
  for (std::size_t i = n; i-- > 0;) {
    for (std::size_t j = i + 1; j < n; ++j) x[i] -= lu[i][j] * x[j];
    x[i] /= lu[i][i];
  }
  return x;
}

TEST(IncompleteFactors, AreThoseOfThePrintedAlgorithm) {
  for (const int layers : {1, 2, 3, 5, 9}) {
    for (const double kept_fill : {0.0, 0.5, 0.9}) {
      const Ring ring(layers);
      Factor factor = make_factor(ring.matrix);
      factorise(ring.matrix, factor, static_cast<float>(kept_fill));
      std::vector<double> right(ring.matrix.rows()), found(ring.matrix.rows());
      for (std::size_t i = 0; i < right.size(); ++i) right[i] = std::sin(1.0 + static_cast<double>(i));
      solve_factors(ring.matrix, factor, right.data(), found.data());
      const std::vector<double> wanted = solved(printed_factors(ring.rows, kept_fill), right);
      for (std::size_t i = 0; i < right.size(); ++i)
        EXPECT_NEAR(found[i], wanted[i], 1e-6) << layers << " layers, " << kept_fill;
    }
  }
}

TEST(IncompleteFactors, LeaveTheMatrixAsItWasAndCanBeMadeAgain) {
  const Ring ring(4);
  const std::vector<double> before = ring.matrix.value;
  Factor once = make_factor(ring.matrix);
  factorise(ring.matrix, once, 0.9F);
  Factor twice = once;
  factorise(ring.matrix, twice, 0.9F);
  EXPECT_EQ(ring.matrix.value, before);
  EXPECT_EQ(once.beside, twice.beside);
  EXPECT_EQ(once.inverse_diagonal, twice.inverse_diagonal);
}

}  // namespace
}  // namespace stillheap::solver
