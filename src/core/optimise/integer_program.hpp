#pragma once
#include <optional>
#include <vector>

/// A small integer programme over columns that are never negative, whole unless said otherwise, solved by GLPK's
/// branch and cut.
namespace stillheap::cut {

struct Entry {
  int column = 0;  ///< from 0
  double weight = 0.0;
};

/// lower <= sum of weight * column <= upper; infinite ends allowed.
struct Row {
  std::vector<Entry> entries;
  double lower = 0.0;
  double upper = 0.0;
};

struct IntegerProgram {
  std::vector<double> cost;  ///< one a column, to be made least in sum
  std::vector<Row> rows;
  std::vector<bool> divisible{};  ///< columns that need not be whole; empty: all must
  int most_nodes = 20000;         ///< of the search; counted, not timed, so that the same input gives the same answer
};

struct IntegerAnswer {
  std::vector<int> columns;    ///< rounded to whole ones
  std::vector<double> values;  ///< as found; for the divisible columns
  double cost = 0.0;
  double bound = 0.0;  ///< no whole answer can cost less
};

/// The cheapest whole answer, or the best found within the nodes with a bound that says how far off it can be.
/// Nothing when the rows contradict one another. Throws RunError when GLPK gives up without any answer.
[[nodiscard]] std::optional<IntegerAnswer> solve(const IntegerProgram& program);

struct Relaxed {
  double cost = 0.0;
  std::vector<double> row_price;  ///< what one more unit of a row would cost
};

/// The same without wholeness. Nothing when infeasible; throws RunError when GLPK gives up.
[[nodiscard]] std::optional<Relaxed> relax(const IntegerProgram& program);

}  // namespace stillheap::cut
