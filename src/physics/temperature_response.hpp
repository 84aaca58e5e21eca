#pragma once

namespace stillheap::physics {

/// Decay rate against temperature: the cardinal model.
///
///   f = (T - Tx)(T - Tn)^2 / { (To - Tn) [ (To - Tn)(T - To) - (To - Tx)(To + Tn - 2 T) ] }
///
/// Symbols: T temperature, Tn least, To best, Tx most [degC]; f 1 at To, 0 outside [Tn, Tx].
/// Source: Rosso et al. 1993.
/// Why this one and not the two-exponential below: measured carbon dioxide evolution is best at 56 to
/// 60 degC and lower from 64 degC on (Suler & Finstein 1977); the two-exponential still rises to 71.6 degC.
[[nodiscard]] inline double cardinal_response(double celsius, double least_c, double best_c, double most_c) noexcept {
  if (celsius <= least_c || celsius >= most_c) return 0.0;
  const double above = celsius - least_c;
  const double span = best_c - least_c;
  const double below = span * (celsius - best_c) - (best_c - most_c) * (best_c + least_c - 2.0 * celsius);
  return (celsius - most_c) * above * above / (span * below);
}

/// 1.066^(T-20) - 1.21^(T-60), held at 0 above 80.2 degC where it would turn negative.
/// Source: Haug 1993 after Andrews & Kambhu 1973, from memory.
[[nodiscard]] double two_exponential_response(double celsius) noexcept;

}  // namespace stillheap::physics
