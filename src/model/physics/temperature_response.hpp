#pragma once
#include <algorithm>
#include <cmath>

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

/// What the cold leaves of decay, relative to 20 degC, for T below 20 degC.
///
///   f = Q^((T - 20) / 10), nothing once the water is ice (fading from 0 to -2 degC)
///
/// The cardinal curve has nothing left at 5 degC and a tenth at 10; incubations of soils and litter between 5 and
/// 35 degC lost a factor Q of about two in ten kelvin. Source: Kaetterer et al. 1998. The fade is chosen.
[[nodiscard]] inline double cool_response(double celsius, double factor_10k) noexcept {
  return std::pow(factor_10k, (celsius - 20.0) / 10.0) * std::clamp(1.0 + 0.5 * celsius, 0.0, 1.0);
}

/// Decay rate against temperature, 1 at 20 degC where the rates are given: the cardinal curve above, the cool one
/// below.
[[nodiscard]] inline double decay_response(double celsius, double least_c, double best_c, double most_c,
                                           double cool_factor_10k) noexcept {
  if (celsius < 20.0) return cool_response(celsius, cool_factor_10k);
  return cardinal_response(celsius, least_c, best_c, most_c) / cardinal_response(20.0, least_c, best_c, most_c);
}

/// 1.066^(T-20) - 1.21^(T-60), held at 0 above 80.2 degC where it would turn negative.
/// Source: Haug 1993 after Andrews & Kambhu 1973, from memory.
[[nodiscard]] double two_exponential_response(double celsius) noexcept;

}  // namespace stillheap::physics
