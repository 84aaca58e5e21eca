#include "planning/plan/forecast_step.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/base/constants.hpp"
#include "core/base/date.hpp"
#include "core/base/error.hpp"
#include "domain/material/salts.hpp"
#include "domain/rules/harvest.hpp"
#include "domain/rules/worms.hpp"
#include "model/forecast/run.hpp"
#include "planning/plan/practice.hpp"
#include "planning/plan/progress.hpp"

namespace stillheap::plan {
namespace {

date::Day start_of(const site::Site& site) {
  const auto day = date::parse_iso(site.start_date);
  if (!day) {
    throw InputError(site.file.filename().string() + ": start date",
                     "\"" + site.start_date + "\" is no date of the calendar", "write it as 2025-03-31");
  }
  return *day;
}

int start_day_of_year(const site::Site& site) { return std::min(365, date::day_of_year(start_of(site))); }

double fill_temperature_c(const site::Site& site, const weather::Series& weather) {
  const double first_s = (start_day_of_year(site) - 1) * constant::seconds_per_day;
  double sum_c = 0.0;
  for (int hour = 0; hour < 24; ++hour) sum_c += weather::at(weather, first_s + hour * 3600.0).air_c;
  return std::max(practice::coldest_fill_c, sum_c / 24.0);
}

std::array<bool, 12> months_covered(const site::Site& site) {
  std::array<bool, 12> covered{};
  const date::Day start = start_of(site);
  for (int day = 0; day < std::min(site.forecast_days, 366); ++day) {
    covered[static_cast<std::size_t>(date::month_index(start + std::chrono::days{day}))] = true;
  }
  return covered;
}

std::array<double, 12> monthly_rain_kg_s(const weather::Series& weather, double area_m2) {
  const date::Day first{std::chrono::year{2025} / std::chrono::January / 1};  // any year of 365 days
  std::array<double, 12> sum_m_s{};
  std::array<int, 12> hours{};
  for (int hour = 0; hour < 8760; ++hour) {
    const auto month = static_cast<std::size_t>(date::month_index(first + std::chrono::days{hour / 24}));
    sum_m_s[month] += weather::at(weather, hour * 3600.0).rain_m_s;
    ++hours[month];
  }
  std::array<double, 12> rain_kg_s{};
  for (std::size_t i = 0; i < 12; ++i) rain_kg_s[i] = sum_m_s[i] / hours[i] * area_m2 * 1000.0;  // 1000 kg/m3
  return rain_kg_s;
}

/// Conductivity of the drainage from its salt: 640 mg/L per dS/m is 6.4 kg/m3 per S/m (FAO-29 rev. 1 table 1).
double drain_conductivity_s_m(const forecast::Result& result, const site::Site& site) {
  double salt_kg_s = 0.0;
  double water_kg_s = 0.0;
  for (std::size_t i = 0; i < 12; ++i) {
    salt_kg_s += result.salt_out_kg_s[i];
    water_kg_s += result.drained_kg_s[i];
  }
  if (water_kg_s <= 0.0) return site.water.supply.conductivity_s_m;
  return salt_kg_s / water_kg_s * 1000.0 / material::salt_in_water_kg_m3(1.0);
}

water::MonthlyWater water_for(const VesselPlan& vessel, const std::array<double, 12>& evaporated_kg_s,
                              const site::Site& site, const weather::Series& weather) {
  water::MonthlyLoss loss;
  loss.evaporated_kg_s = evaporated_kg_s;
  loss.rain_kg_s = monthly_rain_kg_s(weather, vessel::footprint_area_m2(vessel.design));
  loss.eto_m_s = weather::monthly_eto_m_s(weather);
  return water::plan_water(loss, vessel.line_flow, site.water.application_efficiency, site.water.leaching_share,
                           vessel.drain_conductivity_s_m);
}

rules::History history_of(const forecast::Result& result, double forecast::HistoryRow::*column) {
  rules::History history;
  history.reserve(result.history.size());
  for (const forecast::HistoryRow& row : result.history) {
    history.push_back({row.day * constant::seconds_per_day, row.*column});
  }
  return history;
}

HygieneOutlook hygiene_of(const VesselPlan& vessel) {
  const rules::Circumstances circumstances{.carbon_to_nitrogen = vessel.blend_soaked.carbon_to_nitrogen,
                                           .solids_wet = 1.0 - vessel.blend_soaked.moisture_wet};
  const rules::History core = core_history(vessel.forecast);
  const rules::History coldest = history_of(vessel.forecast, &forecast::HistoryRow::coldest_c);
  return {rules::judge_all(core, circumstances), rules::judge_all(coldest, circumstances),
          rules::fractional_lethality(core)};
}

Harvest harvest_of(const forecast::Summary& summary) {
  Harvest harvest{rules::harvest::least_age_days, rules::harvest::usual_age_days, summary.cool_day.has_value()};
  if (!summary.cool_day) return harvest;
  harvest.early_day = std::max(harvest.early_day, *summary.cool_day + rules::harvest::curing_days);
  const double cool_late = std::max(*summary.cool_day, summary.cool_day_high.value_or(*summary.cool_day));
  harvest.late_day = std::max(harvest.late_day, cool_late + rules::harvest::curing_days);
  return harvest;
}

/// Coldest daily mean of the outside air from a day of the forecast on.
double coldest_ahead_c(const site::Site& site, const std::vector<double>& means_c, double day) {
  const int first = start_day_of_year(site) - 1 + static_cast<int>(day);
  double coldest_c = std::numeric_limits<double>::infinity();
  for (int ahead = 0; ahead <= static_cast<int>(rules::worms::frost_free_days); ++ahead) {
    coldest_c = std::min(coldest_c, means_c[static_cast<std::size_t>((first + ahead) % 365)]);
  }
  return coldest_c;
}

std::vector<double> daily_means_c(const weather::Series& weather) {
  std::vector<double> means_c;
  for (int day = 0; day < 365; ++day) {
    double sum_c = 0.0;
    for (int hour = 0; hour < 24; ++hour)
      sum_c += weather::at(weather, day * constant::seconds_per_day + hour * constant::seconds_per_hour).air_c;
    means_c.push_back(sum_c / 24.0);
  }
  return means_c;
}

std::vector<rules::worms::Day> worm_days(const forecast::Result& result, const site::Site& site,
                                         const weather::Series& weather) {
  const std::vector<double> means_c = daily_means_c(weather);
  std::vector<rules::worms::Day> days;
  for (const forecast::HistoryRow& row : result.history) {
    if (!days.empty() && row.day < days.back().day + 1.0 - 1e-6) continue;
    days.push_back({row.day, row.core_c, row.hottest_c, row.mean_moisture_wet, row.mean_oxygen,
                    coldest_ahead_c(site, means_c, row.day)});
  }
  return days;
}

WormWindow worms_of(const forecast::Result& result, const site::Site& site, const weather::Series& weather) {
  const forecast::Summary& summary = result.summary;
  WormWindow window;
  if (summary.heated && !summary.cool_day) {
    window.why_none = "self-heating does not end within the forecast";
    return window;
  }
  const std::vector<rules::worms::Day> days = worm_days(result, site, weather);
  const double end_day = summary.cool_day.value_or(0.0);
  window.day = rules::worms::first_day(days, end_day);
  if (!window.day) {
    window.why_none =
        "after self-heating the forecast has no day that is warm, wet and airy enough with no frost ahead";
    return window;
  }
  window.early_day = rules::worms::first_day(days, std::min(end_day, summary.cool_day_low.value_or(end_day)));
  const auto late = rules::worms::first_day(days, std::max(end_day, summary.cool_day_high.value_or(end_day)));
  window.late_day = late.value_or(*window.day);
  return window;
}

}  // namespace

ForecastFunction forecast_engine(unsigned most_threads) {
  return [most_threads](const forecast::Request& request, const Progress& progress) {
    return forecast::run(request, progress, most_threads);
  };
}

EndState end_state(const forecast::Summary& summary) noexcept {
  // Chosen: half of what can decay still there is no compost, whatever its temperature.
  constexpr double most_left = 0.5;
  if (!summary.heated) return EndState::never_heated;
  if (summary.degradable_left.middle > most_left) return EndState::hardly_decayed;
  return summary.cool_day ? EndState::finished : EndState::working;
}

std::string_view words_of(EndState state) noexcept {
  switch (state) {
    case EndState::finished:
      return "Finished compost";
    case EndState::working:
      return "Compost, still heating";
    case EndState::hardly_decayed:
      return "Hardly decayed material";
    case EndState::never_heated:
      return "Material that never heated";
  }
  return "";
}

rules::History core_history(const forecast::Result& result) {
  return history_of(result, &forecast::HistoryRow::core_c);
}

weather::Series weather_of(const site::Site& site) {
  switch (site.weather.source) {
    case site::WeatherSource::epw:
      return weather::from_epw(site.weather.file);
    case site::WeatherSource::csv:
      return weather::from_csv(site.weather.file, site.weather.columns, site.place);
    case site::WeatherSource::monthly:
      break;
  }
  return weather::from_monthly(site.weather.monthly, site.place);
}

forecast::Request request_for(const site::Site& site, const weather::Series& weather, const VesselPlan& vessel) {
  forecast::Request request;
  request.design = vessel.design;
  request.blend = vessel.blend_soaked;
  request.weather = weather;
  request.surfaces = site.surfaces;
  request.sprinkling.automatic = true;
  request.sprinkling.conductivity_s_m = site.water.supply.conductivity_s_m;
  request.fill_temperature_c = fill_temperature_c(site, weather);
  request.start_day_of_year = start_day_of_year(site);
  request.days = site.forecast_days;
  request.grid = site.grid;
  request.members = site.members;
  if (!site.picture_days.empty()) request.picture_days = site.picture_days;
  request.animated = site.animated;
  return request;
}

void add_forecast(VesselPlan& vessel, const site::Site& site, const weather::Series& weather,
                  const ForecastFunction& forecast, const Progress& progress) {
  vessel.forecast = forecast(request_for(site, weather, vessel), part_of(progress, 0.0, 1.0));
  if (vessel.forecast.stopped_by_user) return;
  vessel.drain_conductivity_s_m = drain_conductivity_s_m(vessel.forecast, site);
  vessel.water = water_for(vessel, vessel.forecast.evaporated_kg_s, site, weather);
  vessel.water_low = water_for(vessel, vessel.forecast.months_low.evaporated_kg_s, site, weather);
  vessel.water_high = water_for(vessel, vessel.forecast.months_high.evaporated_kg_s, site, weather);
  vessel.water_known = months_covered(site);
  vessel.hygiene = hygiene_of(vessel);
  vessel.harvest = harvest_of(vessel.forecast.summary);
  vessel.worms = worms_of(vessel.forecast, site, weather);
}

Assumptions forecast_choices(const site::Site& site, const weather::Series& weather) {
  const forecast::Sprinkling sprinkling;
  const auto amount = [&](double value, Dimension dimension) { return quantity::format(value, dimension, site.units); };
  return {
      {"plan: temperature of the fill",
       amount(fill_temperature_c(site, weather), Dimension::temperature) +
           ": mean outside air of the first day, not below " + amount(practice::coldest_fill_c, Dimension::temperature),
       "chosen"},
      {"plan: sprinkling in the forecast",
       "every day what the heap lost, at most " + amount(sprinkling.most_kg_day, Dimension::mass) + " a day and vessel",
       "chosen"},
      {"plan: rain", "all rain on the footprint passes the cover and counts against the daily minutes", "chosen"},
      {"plan: finished volume", "the forecast's last day; one fill a vessel and year", "chosen"},
      {"plan: runs of the timer",
       "whole steps; every so many days where one run brings twice a day's need or more; the forecast sprinkles daily",
       "chosen"},
      {"plan: water line", "one vessel runs at a time on the whole supply", "chosen"},
      {"plan: harvest age",
       "9 to 12 months, and not before " + std::to_string(static_cast<int>(rules::harvest::curing_days)) +
           " days after self-heating has ended",
       "common practice, no source"},
  };
}

}  // namespace stillheap::plan
