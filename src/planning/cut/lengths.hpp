#pragma once
#include <optional>
#include <vector>

/// Cutting pieces out of pipes, boards and panels: only the length counts.
namespace stillheap::cut {

struct Want {
  double length_m = 0.0;
  int count = 0;
};

/// One kind of stock.
struct Bar {
  double length_m = 0.0;
  double cost = 0.0;           ///< of one; what is made least
  std::optional<int> at_most;  ///< nothing: as many as it takes
};

/// One stick of stock and what comes out of it.
struct CutBar {
  std::size_t stock = 0;           ///< which of the bars
  std::vector<std::size_t> wants;  ///< what is cut from it, in order along it
  double rest_m = 0.0;             ///< what is left at the end, saw cuts taken off
};

struct LengthCuts {
  std::vector<CutBar> bars;
  double cost = 0.0;
  double bound = 0.0;          ///< no other way of cutting can cost less
  bool every_pattern = false;  ///< all patterns were weighed against each other, not only generated ones
  [[nodiscard]] bool optimal() const noexcept { return cost - bound <= 1e-7 * (1.0 + cost); }
};

/// The cheapest way to cut the wants from the bars, `saw_m` lost between a piece and what follows it.
///
///   min sum c_s x_p   with   sum_p a_pi x_p >= d_i,   sum_{p of s} x_p <= n_s,   x whole,
///
/// over patterns p: what fits on one bar of stock s (Kantorovich 1960; Gilmore and Gomory 1961). All patterns that
/// leave no room for another piece are listed if they are few; otherwise the linear programme generates those it
/// needs (the knapsack by branch and bound), and `bound` says how far off the whole answer can be at most.
/// Nothing when some piece fits no bar or the bars at hand do not suffice. Throws InputError for sizes that are not
/// above 0, RunError when the solver gives up.
[[nodiscard]] std::optional<LengthCuts> cut_lengths(const std::vector<Bar>& bars, const std::vector<Want>& wants,
                                                    double saw_m);

}  // namespace stillheap::cut
