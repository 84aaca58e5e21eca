#include "solver/sparse.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <random>
#include <vector>

namespace stillheap::solver {
namespace {

using Links = std::vector<std::array<int, 2>>;

Links chain(int nodes) {
  Links links;
  for (int i = 0; i + 1 < nodes; ++i) links.push_back({i, i + 1});
  return links;
}

TEST(Sparse, HoldsEveryNodeAndBothSidesOfEveryLinkOnceInOrder) {
  const Links links{{0, 2}, {2, 1}, {0, 2}};  // one link given twice
  const Sparse pattern = make_pattern(4, links);
  EXPECT_EQ(pattern.rows(), 4);
  EXPECT_EQ(pattern.row_start, (std::vector<int>{0, 2, 4, 7, 8}));
  EXPECT_EQ(pattern.column, (std::vector<int>{0, 2, 1, 2, 0, 1, 2, 3}));
  for (int i = 0; i < 4; ++i) EXPECT_EQ(pattern.column[pattern.diagonal[i]], i);
}

TEST(Sparse, FindsThePlacesOfALink) {
  const Links links{{0, 2}, {2, 1}};
  const Sparse pattern = make_pattern(3, links);
  const std::vector<LinkPlace> places = find_places(pattern, links);
  ASSERT_EQ(places.size(), 2U);
  EXPECT_EQ(pattern.column[places[0].ab], 2);
  EXPECT_EQ(pattern.column[places[0].ba], 0);
  EXPECT_EQ(pattern.column[places[1].ab], 1);
  EXPECT_EQ(pattern.column[places[1].ba], 2);
}

TEST(Sparse, MultipliesRowByRow) {
  Sparse matrix = make_pattern(3, chain(3));
  matrix.value = {2.0, -1.0, -3.0, 4.0, -1.0, 5.0, 6.0};
  const std::vector<double> x{1.0, 2.0, 3.0};
  std::vector<double> y(3);
  multiply(matrix, x.data(), y.data());
  EXPECT_EQ(y, (std::vector<double>{0.0, 2.0, 28.0}));
}

TEST(IncompleteFactors, AreExactWhereNothingFillsIn) {
  // A chain has a tridiagonal matrix, whose exact factors stay on its own pattern.
  constexpr int nodes = 50;
  Sparse matrix = make_pattern(nodes, chain(nodes));
  std::mt19937 generator(7);
  std::uniform_real_distribution<double> uniform(0.1, 1.0);
  for (double& v : matrix.value) v = -uniform(generator);
  for (int i = 0; i < nodes; ++i) matrix.value[matrix.diagonal[i]] = 3.0 + uniform(generator);
  std::vector<double> wanted(nodes), right(nodes), found(nodes);
  for (double& v : wanted) v = uniform(generator);
  multiply(matrix, wanted.data(), right.data());
  Factor factor = make_factor(matrix);
  factorise(matrix, factor);
  solve_factors(matrix, factor, right.data(), found.data());
  for (int i = 0; i < nodes; ++i) EXPECT_NEAR(found[i], wanted[i], 1e-6);  // the factors are single precision
}

TEST(IncompleteFactors, LeaveTheMatrixAndTheScratchAsTheyWere) {
  Sparse matrix = make_pattern(3, chain(3));
  matrix.value = {2.0, -1.0, -1.0, 2.0, -1.0, -1.0, 2.0};
  const std::vector<double> before = matrix.value;
  Factor factor = make_factor(matrix);
  factorise(matrix, factor);
  EXPECT_EQ(matrix.value, before);
  EXPECT_EQ(factor.place, (std::vector<int>{-1, -1, -1}));
}

}  // namespace
}  // namespace stillheap::solver
