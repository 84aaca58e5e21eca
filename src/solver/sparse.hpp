#pragma once
#include <array>
#include <span>
#include <vector>

namespace stillheap::solver {

/// A square sparse matrix by rows whose pattern never changes after it is built. Columns ascend in a row.
struct Sparse {
  std::vector<int> row_start;  ///< size rows + 1
  std::vector<int> column;
  std::vector<int> diagonal;  ///< position of each row's diagonal
  std::vector<double> value;

  [[nodiscard]] int rows() const noexcept { return static_cast<int>(diagonal.size()); }
};

/// Where the two unknowns of a link meet in the matrix.
struct LinkPlace {
  int ab = 0;
  int ba = 0;
};

/// Builds the pattern of a graph: every node, and both sides of every link.
[[nodiscard]] Sparse make_pattern(int nodes, std::span<const std::array<int, 2>> links);

/// The places of each link's entries, in the order of the links.
[[nodiscard]] std::vector<LinkPlace> find_places(const Sparse& pattern, std::span<const std::array<int, 2>> links);

/// y = A x.
void multiply(const Sparse& matrix, const double* x, double* y) noexcept;

/// Incomplete factors L U of a matrix, on its own pattern: L below the diagonal with ones on it, U above, and the
/// inverse of U's diagonal: a product where a division would hold up the next row. In single precision: they only
/// guide a solver whose residuals are double, and half the memory passes faster.
struct Factor {
  std::vector<float> value;
  std::vector<float> inverse_diagonal;
  std::vector<int> place;  ///< scratch, by column
};
[[nodiscard]] Factor make_factor(const Sparse& pattern);

/// Incomplete factorisation without fill, on the matrix's own pattern. Columns of the heap stand together in the
/// numbering, so what is coupled upwards in a column is factorised exactly and only the sideways fill is dropped.
/// `kept_fill` of what is dropped goes to the diagonal: 0 plain, 1 keeps row sums (I. Gustafsson, BIT 18 (1978) 142).
/// Source: Y. Saad, Iterative Methods for Sparse Linear Systems, 2nd ed., algorithm 10.4.
/// Our own because the libraries at hand allocate at each factorisation (docs/decisions/0004).
void factorise(const Sparse& matrix, Factor& factor, float kept_fill = 0.0F) noexcept;

/// Solves L U x = b with the incomplete factors of a matrix on `pattern`.
void solve_factors(const Sparse& pattern, const Factor& factor, const double* b, double* x) noexcept;

}  // namespace stillheap::solver
