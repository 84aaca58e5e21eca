#pragma once
#include <vector>

#include "model/solver/sparse.hpp"

namespace stillheap::solver {

/// Incomplete factors L U of a matrix, on its own pattern: L below the diagonal with ones on it, U above. In single
/// precision: they only guide a solver whose residuals are double, and half the memory passes faster.
struct Factor {
  std::vector<float> beside;            ///< as in the matrix; L for earlier neighbours, U for later ones
  std::vector<float> inverse_diagonal;  ///< of U
  std::vector<float> up;    ///< U upward times `inverse_diagonal`, so that a column is one chain of products
  std::vector<float> down;  ///< L downward
  std::vector<float> up_two, down_two;  ///< products of two neighbours of `up` and of `down`
  /// For every earlier neighbour of a column, one entry for each later neighbour of that one: where its fill goes.
  std::vector<int> fill_to;
  std::vector<float> later_sum;  ///< scratch, by layer
};
[[nodiscard]] Factor make_factor(const Sparse& pattern);

/// Incomplete factorisation without fill, on the matrix's own pattern. Columns stand together in the numbering, so what
/// is coupled upwards in a column is factorised exactly and only the sideways fill is dropped.
/// `kept_fill` of what is dropped goes to the diagonal: 0 plain, 1 keeps row sums (I. Gustafsson, BIT 18 (1978) 142).
/// Source: Y. Saad, Iterative Methods for Sparse Linear Systems, 2nd ed., algorithm 10.4.
/// Our own because the libraries at hand allocate at each factorisation (docs/decisions/0004).
void factorise(const Sparse& matrix, Factor& factor, float kept_fill = 0.0F) noexcept;

/// Solves L U x = b with the incomplete factors of a matrix on `pattern`.
void solve_factors(const Sparse& pattern, const Factor& factor, const float* b, float* x) noexcept;
void solve_factors(const Sparse& pattern, const Factor& factor, const double* b, double* x) noexcept;

}  // namespace stillheap::solver
