#include "domain/weather/rough.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"
#include "core/base/date.hpp"
#include "domain/weather/air.hpp"
#include "domain/weather/evapotranspiration.hpp"

namespace stillheap::weather {
namespace {

constexpr double wind_unknown_m_s = 2.0;  // FAO-56 p. 63: mean over 2,000 weather stations
constexpr int days_to_middle = 15;

/// Relative humidity when the night's low is the dew point.
double humidity_of(double low_c, double high_c) noexcept {
  const double low_pa = saturation_pressure_pa(low_c);
  return std::min(1.0, low_pa / (0.5 * (low_pa + saturation_pressure_pa(high_c))));
}

}  // namespace

Monthly rough_monthly(const Extremes& extremes, double latitude_rad) noexcept {
  Monthly monthly;
  const std::size_t warmest = latitude_rad < 0.0 ? 0 : 6;
  int day = 1 + days_to_middle;
  for (std::size_t month = 0; month < monthly.low_c.size(); ++month) {
    const double turn = 2.0 * constant::pi * (static_cast<double>(month) - static_cast<double>(warmest)) / 12.0;
    const double warmth = 0.5 * (1.0 + std::cos(turn));
    monthly.low_c[month] = std::lerp(extremes.coldest_low_c, extremes.warmest_low_c, warmth);
    monthly.high_c[month] = std::lerp(extremes.coldest_high_c, extremes.warmest_high_c, warmth);
    monthly.humidity[month] = humidity_of(monthly.low_c[month], monthly.high_c[month]);
    monthly.sun_j_m2_day[month] = sun_from_temperatures_j_m2(monthly.low_c[month], monthly.high_c[month],
                                                             extraterrestrial_j_m2(latitude_rad, day));
    monthly.wind_m_s[month] = wind_unknown_m_s;
    monthly.rain_m_month[month] = extremes.rain_m_year / 12.0;
    day += date::month_days[month];
  }
  return monthly;
}

}  // namespace stillheap::weather
