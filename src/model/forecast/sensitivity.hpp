#pragma once
#include <optional>
#include <vector>

#include "model/forecast/run_history.hpp"

namespace stillheap::forecast {

/// Fewer runs of the ensemble than this tell nothing of 28 inputs. Chosen: with 32, an input must owe a third of what
/// is unexplained to be seen, with 64 a fifth.
inline constexpr int fewest_sensitivity_runs = 32;

/// What to measure first: the share of the variance of five answers that each unknown owes, first order, from the
/// ensemble's own runs (see first_order.hpp for method, source and limits), and by how much the band would narrow.
///
/// The unknowns are the ensemble's inputs gathered to what a maker can measure, and one last group for what nobody can.
/// Measuring brings an input's deviation down to the share `left` of it (chosen, see the table in sensitivity.cpp):
///
///   narrowing = 1 - sqrt(1 - sum over its inputs of S_i (1 - left_i^2))
///
/// which holds for the deviation of the answer, and for its band as far as its shape stays.
/// `tracks` are those of the members that `draw_members` gives for the blend and the seed, in their order; nothing: it
/// did not end.
[[nodiscard]] Sensitivity sensitivity(const std::vector<std::optional<RunHistory>>& tracks,
                                      const material::Blend& blend, std::uint64_t seed);

/// The unknowns by name and the inputs in each, as numbered by `Input`: every input stands in just one.
struct UnknownInputs {
  std::string what;
  std::vector<std::size_t> inputs;
};
[[nodiscard]] std::vector<UnknownInputs> unknown_inputs();

}  // namespace stillheap::forecast
