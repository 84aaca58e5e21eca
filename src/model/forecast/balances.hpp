#pragma once
#include <array>

namespace stillheap::forecast {

/// One quantity's account: what came in, went out, was made or used up, and what the sum of all cells says.
struct Balance {
  double in = 0.0;
  double out = 0.0;
  double made = 0.0;    ///< inside: heat of decay, water of decay; negative when used up
  double stored = 0.0;  ///< change of the sum over all nodes since the start, measured on the state: see totals.hpp
  double held = 0.0;    ///< the two sums whose difference that is: their rounding shows in it

  /// Relative error of the balance against all that moved, or against a millionth of what is held where less moved.
  [[nodiscard]] double error() const noexcept {
    double moved = in + out + (made < 0 ? -made : made);
    if (moved < 1e-6 * held) moved = 1e-6 * held;
    const double miss = in - out + made - stored;
    return moved > 0.0 ? (miss < 0 ? -miss : miss) / moved : 0.0;
  }
};

/// All accounts of a run, in the solved sector's amounts.
struct Balances {
  Balance solids, oxygen, water, energy, salt, dry_air;
  double evaporated_kg = 0.0;
  double drained_kg = 0.0;
  double sprinkled_kg = 0.0;
  double rain_kg = 0.0;
  double water_made_kg = 0.0;
  double salt_leached_kg = 0.0;
  double oxygen_used_kg = 0.0;
};

}  // namespace stillheap::forecast
