#pragma once
#include <limits>
#include <optional>
#include <span>
#include <vector>

/// A small linear programme over columns that are never negative, solved by GLPK's simplex.
namespace stillheap::material {

inline constexpr double no_bound = std::numeric_limits<double>::infinity();

/// lower <= sum of weight * column <= upper. Bounds may be infinite.
struct ProgramRow {
  std::vector<double> weight;  ///< one per column
  double lower = -no_bound;
  double upper = no_bound;
};

/// Columns that make `objective` least under all rows, or nothing when the rows contradict one another.
/// Rows are scaled to largest weight 1 inside. Throws RunError when the simplex gives up or the objective has no
/// bottom. GLPK keeps its memory per thread: this call makes it, keeps it silent and frees it, and leaves alone what a
/// caller's own use of GLPK made before.
[[nodiscard]] std::optional<std::vector<double>> minimise(std::span<const ProgramRow> rows,
                                                          std::span<const double> objective);

}  // namespace stillheap::material
