#include "model/solver/sparse.hpp"

#include <algorithm>
#include <cassert>
#include <cstdlib>

#include "model/solver/clones.hpp"
#include "model/solver/multiply_column.hpp"

namespace stillheap::solver {
namespace {

int beside(const Sparse& pattern, int row, int other) {
  const int column = row / pattern.layers;
  const auto first = pattern.neighbour.begin() + pattern.start[column];
  const auto last = pattern.neighbour.begin() + pattern.start[column + 1];
  const auto found = std::lower_bound(first, last, other / pattern.layers);
  return static_cast<int>(found - pattern.neighbour.begin()) * pattern.layers + row % pattern.layers;
}

}  // namespace

Sparse make_pattern(int columns, int layers, std::span<const std::array<int, 2>> links) {
  std::vector<std::vector<int>> neighbours(columns);
  for (const auto& [a, b] : links) {
    if (a / layers == b / layers) {
      assert(std::abs(a - b) == 1);
      continue;
    }
    assert(a % layers == b % layers);
    neighbours[a / layers].push_back(b / layers);
    neighbours[b / layers].push_back(a / layers);
  }
  Sparse matrix;
  matrix.layers = layers;
  matrix.start.push_back(0);
  for (int c = 0; c < columns; ++c) {
    auto& row = neighbours[c];
    std::sort(row.begin(), row.end());
    row.erase(std::unique(row.begin(), row.end()), row.end());
    const auto later = std::upper_bound(row.begin(), row.end(), c) - row.begin();
    matrix.first_later.push_back(matrix.start.back() + static_cast<int>(later));
    matrix.neighbour.insert(matrix.neighbour.end(), row.begin(), row.end());
    matrix.start.push_back(static_cast<int>(matrix.neighbour.size()));
  }
  const int rows = columns * layers;
  const int first_diagonal = static_cast<int>(matrix.neighbour.size()) * layers;
  for (int i = 0; i < rows; ++i) matrix.diagonal.push_back(first_diagonal + i);
  matrix.value.assign(first_diagonal + std::size_t{3} * rows, 0.0);
  return matrix;
}

std::vector<LinkPlace> find_places(const Sparse& pattern, std::span<const std::array<int, 2>> links) {
  const auto place = [&](int row, int other) {
    if (row / pattern.layers != other / pattern.layers) return beside(pattern, row, other);
    return other > row ? pattern.upward(row) : pattern.downward(row);
  };
  std::vector<LinkPlace> places;
  places.reserve(links.size());
  for (const auto& [a, b] : links) places.push_back({place(a, b), place(b, a)});
  return places;
}

STILLHEAP_CLONES void multiply(const Sparse& matrix, const double* x, double* y) noexcept {
  for (int c = 0; c < matrix.columns(); ++c) multiply_column(matrix, matrix.value.data(), c, x, y);
}

}  // namespace stillheap::solver
