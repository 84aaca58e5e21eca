#pragma once
#include <array>
#include <span>
#include <vector>

namespace stillheap::solver {

/// A square sparse matrix of unknowns that stand in columns of equally many layers: unknown `column * layers + layer`.
/// A row meets the unknowns above and below it in its column, and in other columns those of its own layer. So one
/// number names a whole run of entries, and every sum runs along a column without looking anything up. With one
/// layer it is an ordinary sparse matrix. The pattern never changes after it is built.
struct Sparse {
  int layers = 1;
  std::vector<int> start;        ///< of each column's neighbours in `neighbour`; size columns + 1
  std::vector<int> neighbour;    ///< columns beside it, ascending
  std::vector<int> first_later;  ///< position in `neighbour` of the first that comes after the column itself
  std::vector<int> diagonal;     ///< place of each row's diagonal in `value`
  /// First beside: `k * layers + layer` for neighbour k; then diagonals, upward and downward entries, a row each.
  std::vector<double> value;

  [[nodiscard]] int rows() const noexcept { return static_cast<int>(diagonal.size()); }
  [[nodiscard]] int columns() const noexcept { return static_cast<int>(first_later.size()); }
  [[nodiscard]] int upward(int row) const noexcept { return diagonal[row] + rows(); }
  [[nodiscard]] int downward(int row) const noexcept { return diagonal[row] + 2 * rows(); }
};

/// Where the two unknowns of a link meet in the matrix.
struct LinkPlace {
  int ab = 0;
  int ba = 0;
};

/// Builds the pattern of a graph: every node, and both sides of every link. A link joins two nodes of one layer, or a
/// node with the one above it.
[[nodiscard]] Sparse make_pattern(int columns, int layers, std::span<const std::array<int, 2>> links);

/// The places of each link's entries, in the order of the links.
[[nodiscard]] std::vector<LinkPlace> find_places(const Sparse& pattern, std::span<const std::array<int, 2>> links);

/// y = A x.
void multiply(const Sparse& matrix, const double* x, double* y) noexcept;

}  // namespace stillheap::solver
