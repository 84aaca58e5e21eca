#include "solver/sparse.hpp"

#include <algorithm>

namespace stillheap::solver {
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
  return {std::vector<float>(pattern.column.size()), std::vector<float>(pattern.rows(), 1.0F),
          std::vector<int>(pattern.rows(), -1)};
}

void factorise(const Sparse& matrix, Factor& factor, float kept_fill) noexcept {
  auto& lu = factor.value;
  std::transform(matrix.value.begin(), matrix.value.end(), lu.begin(), [](double v) { return static_cast<float>(v); });
  for (int i = 0; i < matrix.rows(); ++i) {
    const int begin = matrix.row_start[i];
    const int end = matrix.row_start[i + 1];
    const int diagonal = matrix.diagonal[i];
    for (int k = begin; k < end; ++k) factor.place[matrix.column[k]] = k;
    for (int k = begin; k < diagonal; ++k) {
      const int j = matrix.column[k];
      lu[k] *= factor.inverse_diagonal[j];
      for (int m = matrix.diagonal[j] + 1; m < matrix.row_start[j + 1]; ++m) {
        const int place = factor.place[matrix.column[m]];
        const float fill = lu[k] * lu[m];
        lu[place >= 0 ? place : diagonal] -= place >= 0 ? fill : kept_fill * fill;
      }
    }
    factor.inverse_diagonal[i] = 1.0F / lu[diagonal];
    for (int k = begin; k < end; ++k) factor.place[matrix.column[k]] = -1;
  }
}

// Each row takes its nearest neighbour last: that one was finished a moment ago, the others are long there.
void solve_factors(const Sparse& pattern, const Factor& factor, const double* b, double* x) noexcept {
  const auto& lu = factor.value;
  for (int i = 0; i < pattern.rows(); ++i) {
    double sum = b[i];
    for (int k = pattern.row_start[i]; k < pattern.diagonal[i]; ++k)
      sum -= static_cast<double>(lu[k]) * x[pattern.column[k]];
    x[i] = sum;
  }
  for (int i = pattern.rows() - 1; i >= 0; --i) {
    double sum = x[i];
    for (int k = pattern.row_start[i + 1] - 1; k > pattern.diagonal[i]; --k)
      sum -= static_cast<double>(lu[k]) * x[pattern.column[k]];
    x[i] = sum * static_cast<double>(factor.inverse_diagonal[i]);
  }
}

}  // namespace stillheap::solver
