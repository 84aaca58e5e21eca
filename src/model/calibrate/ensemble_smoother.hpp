#pragma once
#include <cstdint>
#include <vector>

/// An ensemble is brought to what was observed in one analysis that bridges the particle filter and the ensemble Kalman
/// filter. Source: Frei and Kuensch 2013, "Bridging the ensemble Kalman and particle filters", Biometrika 100, 781-800
/// (from memory; theirs takes the two parts in the other order). No run is needed for it.
namespace stillheap::calibrate {

/// One vector a member: of states, or of predictions.
using Vectors = std::vector<std::vector<double>>;

/// What was observed, and how far each value may be off (one standard deviation, errors independent).
struct Observed {
  std::vector<double> values;
  std::vector<double> deviations;
};

struct SmootherRule {
  double effective_share = 0.15;  ///< of the members that weighing must leave in effect; chosen
  std::uint64_t seed = 1;
};

struct Smoothed {
  Vectors states;          ///< as many as went in, all equally likely
  double weighed = 1.0;    ///< exponent g: 1 when weighing did it all, 0 when shifting did
  double effective = 0.0;  ///< members in effect after weighing
};

/// The likelihood L of the observations is taken in two parts, L = L^g L^(1-g), errors taken as normal:
///
///   1. weigh:  w_j ~ exp(-g q_j / 2),  q_j = sum_i ((d_i - d_ji) / s_i)^2,  and members are drawn anew by weight
///   2. shift:  x_j <- x_j + C_xd (C_dd + R)^-1 (d + e_j - d_j),  R = s^2 / (1 - g),  e_j normal with variance R
///
/// Symbols: x state, d_j prediction of member j, d observed, s deviations, C covariances under the weights of 1.
/// g is the largest that leaves 1 / sum w^2 at `effective_share` of the members or more: weighing makes no assumption
/// on how states hang on predictions but needs members near the observations, shifting takes a straight line there.
/// e is shifted to mean zero, which takes its sampling error out of the mean.
/// Same input, same answer. Throws InputError when fewer than three members are given or shapes do not agree.
[[nodiscard]] Smoothed bridge(const Vectors& states, const Vectors& predictions, const Observed& observed,
                              const SmootherRule& rule = {});

/// Whether the observations lie farther from every prediction than any prediction, with errors as large drawn onto it,
/// lies from its nearest neighbour: then no member speaks for them. Of as many members as these, one in n + 1 would.
[[nodiscard]] bool is_strange(const Vectors& predictions, const Observed& observed, std::uint64_t seed);

/// Solves A x = b for all right sides by Cholesky; A symmetric positive definite, row-major n x n, destroyed.
/// Throws RunError when A is not positive definite.
void solve_positive(std::vector<double>& a, std::size_t n, Vectors& right_sides);

}  // namespace stillheap::calibrate
