#include "sample_heap.hpp"

#include "domain/vessel/design.hpp"
#include "domain/weather/series.hpp"

namespace stillheap::bench {

forecast::Request request_of(forecast::Grid grid, int days) {
  forecast::Request request;
  request.design.diameter_m = 1.6;
  request.design.height_m = 1.35;
  request.design.fill_height_m = 1.3;
  request.design.channels = vessel::ring_channels({7, 0.45, 0.0}, 0.09, false);
  material::Blend& blend = request.blend;
  blend.moisture_wet = 0.65;
  blend.bulk_density_kg_m3 = 500.0;
  blend.free_air_space = 0.5;
  blend.ash_dry = 0.12;
  blend.pool_dry = {0.13, 0.28, 0.20};
  blend.pool_rate_20c_per_s = {3.5e-7, 4.0e-8, 5.0e-9};
  blend.conductivity_s_m = 0.3;
  weather::Monthly monthly;
  monthly.low_c = {-3, -2, 1, 4, 8, 12, 14, 13, 10, 6, 1, -2};
  monthly.high_c = {3, 5, 11, 15, 20, 23, 26, 25, 20, 15, 8, 4};
  monthly.humidity.fill(0.75);
  monthly.sun_j_m2_day = {4e6, 7e6, 12e6, 16e6, 19e6, 21e6, 21e6, 18e6, 13e6, 8e6, 5e6, 4e6};
  monthly.wind_m_s.fill(1.6);
  request.weather = weather::from_monthly(monthly, {0.82, 0.16, 480.0});
  if (grid == forecast::Grid::draft) request.weather = weather::daily_means(request.weather);
  request.start_day_of_year = 250;
  request.days = days;
  request.grid = grid;
  request.members = 0;
  return request;
}

}  // namespace stillheap::bench
