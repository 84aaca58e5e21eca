#pragma once
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace stillheap::forecast {

/// How the inputs of a sample are spread: standard normal, or even between 0 and 1.
enum class InputLaw { normal, even };

/// How much of an answer's variance each input owes, 0..1.
struct FirstOrder {
  std::vector<double> share;                   ///< first-order index of each input
  std::vector<std::vector<double>> resampled;  ///< the same from runs drawn again with replacement, one row a draw
  double unexplained = 1.0;  ///< inputs acting together, and what the polynomials and so few runs do not reach
  int terms = 0;             ///< polynomial terms kept
};

struct FirstOrderRule {
  InputLaw law = InputLaw::normal;
  int highest_degree = 3;
  int resamples = 200;
  std::uint64_t seed = 1;
};

/// First-order Sobol' indices from runs that are there already, by a sparse polynomial chaos expansion:
///
///   y = c_0 + sum over inputs i and degrees d of c_id P_d(x_i),   S_i = sum_d c_id^2 / Var(y)
///
/// Symbols: P_d polynomials orthonormal under the input's law (Hermite, Legendre); S_i what the variance would fall
///          by on average if input i were known. Terms enter one by one, the one that lowers the squared miss most
///          first, as long as the extended Bayes criterion n ln(RSS) + k (ln n + 2 ln M) falls (k of M terms, n runs).
///          Squared coefficients are freed of the noise they would show by chance, s^2/n each.
/// Source: Sudret 2008, Reliab. Eng. Syst. Saf. 93, 964 (indices from the expansion); Blatman & Sudret 2011,
///         J. Comput. Phys. 230, 2345 (sparse expansions); Chen & Chen 2008, Biometrika 95, 759 (criterion, gamma 1);
///         all from memory. Limits: inputs must be independent; an input that acts only together with others counts
///         as unexplained; shares below what the criterion lets in (some per cent of what is unexplained) read 0.
///
/// `inputs` holds one row a run, `answers` one number a run. The resamples hold the terms and so tell how
/// well the shares are known, not whether a term was missed. Nothing when there are fewer than 8 runs or the answers
/// hardly differ.
[[nodiscard]] std::optional<FirstOrder> first_order(const std::vector<std::vector<double>>& inputs,
                                                    std::span<const double> answers, const FirstOrderRule& rule = {});

}  // namespace stillheap::forecast
