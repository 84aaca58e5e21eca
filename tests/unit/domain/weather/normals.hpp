#pragma once
#include "core/base/constants.hpp"
#include "domain/weather/series.hpp"

namespace stillheap::weather {

inline Place test_place() { return {47.4 * constant::pi / 180.0, 9.2 * constant::pi / 180.0, 430.0}; }

/// An invented temperate place.
inline Monthly test_normals() {
  Monthly monthly;
  monthly.low_c = {-2.4, -1.8, 1.4, 4.6, 8.9, 12.2, 14.1, 13.7, 10.2, 6.4, 1.6, -1.2};
  monthly.high_c = {3.1, 5.2, 10.4, 15.1, 19.3, 22.6, 25.0, 24.3, 19.4, 13.8, 7.2, 3.8};
  monthly.humidity = {0.84, 0.80, 0.73, 0.69, 0.71, 0.71, 0.72, 0.75, 0.80, 0.84, 0.86, 0.86};
  monthly.sun_j_m2_day = {3.4e6, 6.0e6, 10.4e6, 14.8e6, 18.0e6, 20.1e6, 20.3e6, 17.2e6, 12.4e6, 7.3e6, 3.9e6, 2.7e6};
  monthly.wind_m_s = {1.9, 2.0, 2.1, 2.0, 1.8, 1.7, 1.7, 1.6, 1.6, 1.6, 1.8, 1.9};
  monthly.rain_m_month = {0.063, 0.058, 0.071, 0.082, 0.115, 0.124, 0.128, 0.130, 0.098, 0.081, 0.074, 0.071};
  return monthly;
}

}  // namespace stillheap::weather
