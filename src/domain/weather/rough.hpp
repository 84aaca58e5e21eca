#pragma once
#include "domain/weather/series.hpp"

namespace stillheap::weather {

/// A climate as people know it by heart.
struct Extremes {
  double coldest_low_c = 0.0, coldest_high_c = 0.0;  ///< usual night and day of the coldest month
  double warmest_low_c = 0.0, warmest_high_c = 0.0;  ///< and of the warmest
  double rain_m_year = 0.0;
};

/// Monthly normals worked out from those, for a first look where no table of a weather service is at hand.
/// Temperatures follow a cosine with the warmest month in July, south of the equator in January, rain falls evenly
/// (both chosen). Sun from latitude and the range of the day: FAO-56 eq. 50; humidity from the night's low as dew
/// point: eq. 48 and 17; wind 2 m/s: p. 63, for where none is measured.
[[nodiscard]] Monthly rough_monthly(const Extremes& extremes, double latitude_rad) noexcept;

}  // namespace stillheap::weather
