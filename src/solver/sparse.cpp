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

void factorise(const Sparse& matrix, Sparse& factor, std::vector<int>& place_scratch) noexcept {
  factor.value = matrix.value;
  std::fill(place_scratch.begin(), place_scratch.end(), -1);
  for (int i = 0; i < factor.rows(); ++i) {
    const int begin = factor.row_start[i];
    const int end = factor.row_start[i + 1];
    for (int k = begin; k < end; ++k) place_scratch[factor.column[k]] = k;
    for (int k = begin; factor.column[k] < i; ++k) {
      const int j = factor.column[k];
      factor.value[k] /= factor.value[factor.diagonal[j]];
      for (int m = factor.diagonal[j] + 1; m < factor.row_start[j + 1]; ++m) {
        const int place = place_scratch[factor.column[m]];
        if (place >= 0) factor.value[place] -= factor.value[k] * factor.value[m];
      }
    }
    for (int k = begin; k < end; ++k) place_scratch[factor.column[k]] = -1;
  }
}

void solve_factors(const Sparse& factor, const double* b, double* x) noexcept {
  const int n = factor.rows();
  for (int i = 0; i < n; ++i) {
    double sum = b[i];
    for (int k = factor.row_start[i]; k < factor.diagonal[i]; ++k) sum -= factor.value[k] * x[factor.column[k]];
    x[i] = sum;
  }
  for (int i = n - 1; i >= 0; --i) {
    double sum = x[i];
    for (int k = factor.diagonal[i] + 1; k < factor.row_start[i + 1]; ++k) sum -= factor.value[k] * x[factor.column[k]];
    x[i] = sum / factor.value[factor.diagonal[i]];
  }
}

}  // namespace stillheap::solver
