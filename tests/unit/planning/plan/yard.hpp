#pragma once
#include <algorithm>
#include <array>
#include <string>

#include "core/base/constants.hpp"
#include "domain/material/feedstock.hpp"
#include "planning/plan/plan.hpp"

/// A small invented yard and a small invented forecast, for the tests of the plan.
namespace stillheap::plan::test {

inline material::Offer offer(const char* id, double price_per_kg) {
  material::Offer one;
  one.feedstock = *material::find_typical(id);
  one.price_per_kg = price_per_kg;
  one.price_given = price_per_kg > 0.0;
  return one;
}

inline vessel::Design round_vessel() {
  vessel::Design design;
  design.name = "north bed";
  design.count = 1;
  design.diameter_m = 1.2;
  design.height_m = 1.4;
  design.fill_height_m = 1.3;
  design.base_gap_m = 0.1;
  design.channels = vessel::ring_channels({5, 0.33, 0.0}, 0.1, true);
  design.panel_width_m = 1.5;
  design.lining_overlap_m = 0.15;
  design.lining_fold_m = 0.15;
  return design;
}

inline weather::Monthly mild_year() {
  weather::Monthly monthly;
  monthly.low_c = {-3, -2, 1, 4, 8, 11, 13, 13, 9, 6, 2, -1};
  monthly.high_c = {4, 5, 10, 15, 19, 23, 25, 25, 20, 14, 8, 5};
  monthly.humidity.fill(0.7);
  monthly.sun_j_m2_day = {3e6, 5e6, 9e6, 14e6, 18e6, 20e6, 19e6, 16e6, 12e6, 7e6, 4e6, 2.5e6};
  monthly.wind_m_s.fill(2.0);
  monthly.rain_m_month.fill(0.05);
  return monthly;
}

/// Fixed recipe, two vessels wanted, filled on 1 April.
inline site::Site small_yard() {
  site::Site site;
  site.file = "/somewhere/private/yard.toml";
  site.name = "Hollow Lane";
  site.currency = "EUR";
  site.start_date = "2025-04-01";
  site.place = {0.83, 0.15, 300.0};
  site.weather.monthly = mild_year();
  site.offers = {offer("wood-chips", 0.02), offer("horse-manure", 0.0)};
  site.goal.vessels = 2;
  site.blend.shares_by_mass = {{"wood-chips", 0.5}, {"horse-manure", 0.5}};
  site.vessels = {round_vessel()};
  site.water.line.inside_diameter_m = 0.0135;
  site.water.line.length_m = 3.8;
  site.water.line.hole_diameter_m = 0.0008;
  site.water.line.spacing_m = 0.1;
  site.water.supply.pressure_pa = 150000.0;
  site.water.supply.flow_max_m3_s = 2e-4;
  site.water.supply.conductivity_s_m = 0.05;
  site.prices = {{"mesh", 6.0}, {"line", 0.5}, {"water", 2.0}};
  site.labour.wage_per_s = 18.0 / 3600.0;
  site.defaults = {{"labour.people", "2", "chosen"}, {"labour.people", "2", "chosen"}};
  return site;
}

/// Core up to `peak_c` on day 5, there until day 20, down to 20 degC on day 80; loses 55 % (45 to 65 %) of its volume.
inline forecast::Result small_forecast(const forecast::Request& request, double peak_c = 65.0) {
  forecast::Result result;
  const double volume_m3 = vessel::material_volume_m3(request.design);
  for (int hour = 0; hour <= request.days * 24; ++hour) {
    const double day = hour / 24.0;
    const double rise = std::min(1.0, day / 5.0);
    const double fall = std::clamp((day - 20.0) / 60.0, 0.0, 1.0);
    forecast::HistoryRow row;
    row.day = day;
    row.core_c = 15.0 + (peak_c - 15.0) * rise - (peak_c - 20.0) * fall;
    row.coldest_c = std::min(row.core_c, 30.0);
    row.hottest_c = row.core_c;
    row.mean_moisture_wet = 0.6;
    row.mean_oxygen = 0.18;
    row.evaporated_kg_day = 6.0;
    row.drained_kg_day = 1.0;
    row.dry_mass_kg = 200.0;
    result.history.push_back(row);
  }
  result.history_low = result.history_high = result.history;
  forecast::Summary& summary = result.summary;
  summary.peak_temperature_c = {peak_c, peak_c - 3.0, peak_c + 3.0};
  summary.peak_day = {5.0, 4.0, 7.0};
  summary.cool_day = 71.0;
  summary.rests = {{71.0, static_cast<double>(request.days)}};
  summary.cool_day_low = 60.0;
  summary.cool_day_high = 90.0;
  summary.lowest_oxygen = {0.08, 0.06, 0.10};
  summary.driest_moisture_wet = {0.55, 0.50, 0.60};
  summary.finished_volume_m3 = {0.45 * volume_m3, 0.35 * volume_m3, 0.55 * volume_m3};
  summary.finished_mass_kg = {200.0, 180.0, 220.0};
  summary.peak_uptake_g_kg_h = {3.0, 2.0, 4.0};
  result.wanted_water_kg_kg = 1.8;
  result.evaporated_kg_s.fill(6.0 / constant::seconds_per_day);
  result.months_low.evaporated_kg_s.fill(5.0 / constant::seconds_per_day);
  result.months_high.evaporated_kg_s.fill(8.0 / constant::seconds_per_day);
  result.drained_kg_s.fill(1.0 / constant::seconds_per_day);
  result.salt_out_kg_s.fill(0.002 / constant::seconds_per_day);
  result.assumptions = {{"model: temperature response", "clamped at 80 degC", "chosen"}};
  return result;
}

inline ForecastFunction small_engine(double peak_c = 65.0) {
  return [peak_c](const forecast::Request& request, const Progress& progress) {
    forecast::Result result = small_forecast(request, peak_c);
    for (int step = 0; step <= 10 && !result.stopped_by_user; ++step)
      result.stopped_by_user = progress && !progress(0.1 * step, "forecasting");
    return result;
  };
}

}  // namespace stillheap::plan::test
