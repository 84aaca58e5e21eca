#pragma once
#include <string_view>

namespace stillheap::material {

/// What handbooks ask of a blend when composting starts. Between `low` and `high` is reasonable, between the two
/// preferred values better. An end that no handbook sets is infinite.
struct StartingRange {
  double low = 0.0;
  double preferred_low = 0.0;
  double preferred_high = 0.0;
  double high = 0.0;
  std::string_view source;
};

enum class Standing { too_low, low, preferred, high, too_high };

/// Where a value stands; the ends of a range belong to it, with a millionth for rounding.
[[nodiscard]] Standing judge(double value, const StartingRange& range);

[[nodiscard]] StartingRange moisture_range();            ///< kg/kg wet
[[nodiscard]] StartingRange carbon_to_nitrogen_range();  ///< of total carbon
[[nodiscard]] StartingRange bulk_density_range();        ///< kg/m3, wet
[[nodiscard]] StartingRange free_air_space_range();      ///< m3/m3
[[nodiscard]] StartingRange conductivity_range();        ///< S/m, 1:5 extract

}  // namespace stillheap::material
