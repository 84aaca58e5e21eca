#include "solver/sparse.hpp"

#include <algorithm>

namespace stillheap::solver {
// Share of the dropped fill that goes to the diagonal: 0 is the plain incomplete factorisation, 1 keeps row sums.
// Close to 1 serves elliptic systems best (Gustafsson 1978); less serves those that flow. Measured on our own heaps.
constexpr double kept_fill = 0.9;

Sparse make_pattern(int nodes, std::span<const std::array<int, 2>> links) {
  std::vector<std::vector<int>> neighbours(nodes);
  for (int i = 0; i < nodes; ++i) neighbours[i].push_back(i);
  for (const auto& [a, b] : links) {
    neighbours[a].push_back(b);
    neighbours[b].push_back(a);
  }
  Sparse matrix;
  matrix.row_start.push_back(0);
  for (int i = 0; i < nodes; ++i) {
    auto& row = neighbours[i];
    std::sort(row.begin(), row.end());
    row.erase(std::unique(row.begin(), row.end()), row.end());
    for (const int j : row) {
      if (j == i) matrix.diagonal.push_back(static_cast<int>(matrix.column.size()));
      matrix.column.push_back(j);
    }
    matrix.row_start.push_back(static_cast<int>(matrix.column.size()));
  }
  matrix.value.assign(matrix.column.size(), 0.0);
  return matrix;
}

std::vector<LinkPlace> find_places(const Sparse& pattern, std::span<const std::array<int, 2>> links) {
  const auto place = [&](int row, int column) {
    const auto first = pattern.column.begin() + pattern.row_start[row];
    const auto last = pattern.column.begin() + pattern.row_start[row + 1];
    return static_cast<int>(std::lower_bound(first, last, column) - pattern.column.begin());
  };
  std::vector<LinkPlace> places;
  places.reserve(links.size());
  for (const auto& [a, b] : links) places.push_back({place(a, b), place(b, a)});
  return places;
}

void multiply(const Sparse& matrix, const double* x, double* y) noexcept {
  for (int i = 0; i < matrix.rows(); ++i) {
    double sum = 0.0;
    for (int k = matrix.row_start[i]; k < matrix.row_start[i + 1]; ++k) sum += matrix.value[k] * x[matrix.column[k]];
    y[i] = sum;
  }
}

Factor make_factor(const Sparse& pattern) {
  return {pattern, std::vector<double>(pattern.rows(), 1.0), std::vector<int>(pattern.rows(), -1)};
}

void factorise(const Sparse& matrix, Factor& factor) noexcept {
  Sparse& lu = factor.both;
  std::copy(matrix.value.begin(), matrix.value.end(), lu.value.begin());
  for (int i = 0; i < lu.rows(); ++i) {
    const int begin = lu.row_start[i];
    const int end = lu.row_start[i + 1];
    for (int k = begin; k < end; ++k) factor.place[lu.column[k]] = k;
    for (int k = begin; lu.column[k] < i; ++k) {
      const int j = lu.column[k];
      lu.value[k] *= factor.inverse_diagonal[j];
      for (int m = lu.diagonal[j] + 1; m < lu.row_start[j + 1]; ++m) {
        const int place = factor.place[lu.column[m]];
        const double fill = lu.value[k] * lu.value[m];
        lu.value[place >= 0 ? place : lu.diagonal[i]] -= place >= 0 ? fill : kept_fill * fill;
      }
    }
    factor.inverse_diagonal[i] = 1.0 / lu.value[lu.diagonal[i]];
    for (int k = begin; k < end; ++k) factor.place[lu.column[k]] = -1;
  }
}

// Each row takes its nearest neighbour last: that one was finished a moment ago, the others are long there.
void solve_factors(const Factor& factor, const double* b, double* x) noexcept {
  const Sparse& lu = factor.both;
  const int n = lu.rows();
  for (int i = 0; i < n; ++i) {
    double sum = b[i];
    for (int k = lu.row_start[i]; k < lu.diagonal[i]; ++k) sum -= lu.value[k] * x[lu.column[k]];
    x[i] = sum;
  }
  for (int i = n - 1; i >= 0; --i) {
    double sum = x[i];
    for (int k = lu.row_start[i + 1] - 1; k > lu.diagonal[i]; --k) sum -= lu.value[k] * x[lu.column[k]];
    x[i] = sum * factor.inverse_diagonal[i];
  }
}

}  // namespace stillheap::solver
