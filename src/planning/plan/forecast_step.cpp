#include "planning/plan/forecast_step.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/base/constants.hpp"
#include "core/base/date.hpp"
#include "core/base/error.hpp"
#include "core/quantity/retold.hpp"
#include "domain/material/salts.hpp"
#include "domain/rules/harvest.hpp"
#include "domain/rules/moisture.hpp"
#include "domain/rules/worms.hpp"
#include "model/forecast/run.hpp"
#include "planning/plan/practice.hpp"
#include "planning/plan/progress.hpp"
#include "planning/plan/water_step.hpp"

namespace stillheap::plan {
namespace {

constexpr double finding_share = 0.1;  // of the progress shown; chosen

int start_day_of_year(const site::Site& site) { return std::min(365, date::day_of_year(start_of(site))); }

double fill_temperature_c(const site::Site& site, const weather::Series& weather) {
  if (site.fill_temperature_c) return *site.fill_temperature_c;
  const double first_s = (start_day_of_year(site) - 1) * constant::seconds_per_day;
  double sum_c = 0.0;
  for (int hour = 0; hour < 24; ++hour) sum_c += weather::at(weather, first_s + hour * 3600.0).air_c;
  return std::max(practice::coldest_fill_c, sum_c / 24.0);
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

rules::History history_of(const forecast::Result& result, double forecast::HistoryRow::*column) {
  rules::History history;
  history.reserve(result.history.size());
  for (const forecast::HistoryRow& row : result.history) {
    history.push_back({row.day * constant::seconds_per_day, row.*column});
  }
  return history;
}

std::vector<rules::Verdict> judged(const rules::History& history, const rules::Circumstances& circumstances,
                                   UnitSystem units) {
  std::vector<rules::Verdict> verdicts = rules::judge_all(history, circumstances);
  for (rules::Verdict& one : verdicts) {
    for (std::string* const text : {&one.rule, &one.reading, &one.source}) *text = quantity::retold(*text, units);
  }
  return verdicts;
}

HygieneOutlook hygiene_of(const VesselPlan& vessel, UnitSystem units) {
  const rules::Circumstances circumstances{.carbon_to_nitrogen = vessel.blend_soaked.carbon_to_nitrogen,
                                           .solids_wet = 1.0 - vessel.blend_soaked.moisture_wet};
  const rules::History core = core_history(vessel.forecast);
  const rules::History coldest = history_of(vessel.forecast, &forecast::HistoryRow::coldest_c);
  return {judged(core, circumstances, units), judged(coldest, circumstances, units), rules::fractional_lethality(core)};
}

Harvest harvest_of(const forecast::Result& result) {
  const forecast::Summary& summary = result.summary;
  const double last_day = result.history.empty() ? 0.0 : result.history.back().day;
  const std::optional<double> cured =
      rules::harvest::cured_day(summary.rests, last_day, rules::harvest::least_age_days);
  Harvest harvest{rules::harvest::least_age_days, rules::harvest::usual_age_days, cured.has_value()};
  if (!cured || !summary.cool_day) return harvest;
  harvest.early_day = *cured;
  harvest.late_day = std::max(harvest.late_day, *cured);
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

/// Whether the middle line makes no heat on that day. Before its first rest other runs of the band may rest already.
bool rests_on(const forecast::Summary& summary, double day) {
  const auto holds = [day](const rules::Rest& rest) { return rest.begin_day <= day && day <= rest.end_day; };
  return !summary.heated || !summary.cool_day || day < *summary.cool_day ||
         std::any_of(summary.rests.begin(), summary.rests.end(), holds);
}

std::vector<rules::worms::Day> worm_days(const forecast::Result& result, const site::Site& site,
                                         const weather::Series& weather) {
  const std::vector<double> means_c = daily_means_c(weather);
  std::vector<rules::worms::Day> days;
  for (const forecast::HistoryRow& row : result.history) {
    if (!days.empty() && row.day < days.back().day + 1.0 - 1e-6) continue;
    days.push_back({row.day, row.core_c, row.hottest_c, row.mean_moisture_wet, row.mean_oxygen,
                    coldest_ahead_c(site, means_c, row.day), rests_on(result.summary, row.day)});
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

double last_worm_day(const VesselPlan& vessel, const site::Site& site, const weather::Series& weather,
                     double later_days) {
  const forecast::Summary& summary = vessel.forecast.summary;
  const double end_day = std::max(summary.cool_day.value_or(0.0), summary.cool_day_high.value_or(0.0)) + later_days;
  std::vector<rules::worms::Day> days = worm_days(vessel.forecast, site, weather);
  for (rules::worms::Day& one : days) one.rests = true;  // of a heap filled later nothing more is known
  return std::max(*vessel.worms.late_day,
                  rules::worms::first_day(days, end_day).value_or(*vessel.worms.late_day + later_days));
}

date::Day start_of(const site::Site& site) {
  const auto day = date::parse_iso(site.start_date);
  if (!day) {
    throw InputError(site::where(site, "site.first_fill"), "\"" + site.start_date + "\" is no date of the calendar",
                     "write it as 2025-03-31");
  }
  return *day;
}

std::vector<double> daily_means_c(const weather::Series& weather) {
  std::vector<double> means_c;
  for (const weather::Hour& day : weather::daily_means(weather).hours) means_c.push_back(day.air_c);
  return means_c;
}

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
  request.sprinkling.automatic = true;  // the programme takes its place once it is found
  request.sprinkling.most_kg_day = way_for(site, vessel).most_reaching_kg;
  request.sprinkling.most_kept_wet = rules::moisture::soaked_wet;
  request.sprinkling.conductivity_s_m = site.water.supply.conductivity_s_m;
  request.fill_temperature_c = fill_temperature_c(site, weather);
  request.start_day_of_year = start_day_of_year(site);
  request.days = site.forecast_days;
  request.grid = site.grid;
  request.members = site.members;
  if (!site.picture_days.empty()) request.picture_days = site.picture_days;
  request.animated = site.animated;
  request.own = vessel.own;
  return request;
}

void add_forecast(VesselPlan& vessel, const site::Site& site, const weather::Series& weather,
                  const ForecastFunction& forecast, const Progress& progress) {
  forecast::Request request = request_for(site, weather, vessel);
  forecast::Result found = forecast(finding_request(request), part_of(progress, 0.0, finding_share));
  if (found.stopped_by_user) {
    vessel.forecast = std::move(found);
    return;
  }
  vessel.programme = programme_from(found, site, weather, vessel);
  follow_programme(request, vessel.programme);
  vessel.forecast = forecast(request, part_of(progress, finding_share, 1.0));
  if (vessel.forecast.stopped_by_user) return;
  vessel.drain_conductivity_s_m = drain_conductivity_s_m(vessel.forecast, site);
  vessel.drained_kg_day = drained_by_row(vessel.programme, vessel.forecast);
  vessel.hygiene = hygiene_of(vessel, site.units);
  vessel.harvest = harvest_of(vessel.forecast);
  vessel.worms = worms_of(vessel.forecast, site, weather);
}

Assumptions forecast_choices(const site::Site& site, const weather::Series& weather) {
  const auto amount = [&](double value, Dimension dimension) { return quantity::format(value, dimension, site.units); };
  return {
      {"plan: temperature of the fill",
       amount(fill_temperature_c(site, weather), Dimension::temperature) +
           (site.fill_temperature_c ? ""
                                    : ": mean outside air of the first day, not below " +
                                          amount(practice::coldest_fill_c, Dimension::temperature)),
       site.fill_temperature_c ? "site file" : "chosen"},
      {"plan: density of the filling",
       site.settled_density_kg_m3 ? amount(*site.settled_density_kg_m3, Dimension::density) + " soaked, in the vessel"
                                  : "as loose as the feedstocks lie in a pail, soaked",
       site.settled_density_kg_m3 ? "site file" : "chosen"},
      {"plan: rain", "all rain on the footprint passes the cover; what the material keeps is credited", "chosen"},
      {"plan: finished volume", "the forecast's last day; one fill a vessel and year", "chosen"},
      {"plan: water line", "one vessel runs at a time on the whole supply", "chosen"},
      {"plan: harvest age",
       "9 to 12 months, and not before " + std::to_string(static_cast<int>(rules::harvest::curing_days)) +
           " days after self-heating has ended",
       "common practice, no source"},
  };
}

}  // namespace stillheap::plan
