#include "planning/plan/water_step.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"
#include "core/quantity/told.hpp"
#include "domain/material/salts.hpp"
#include "model/forecast/band.hpp"
#include "planning/plan/calendar.hpp"
#include "planning/plan/forecast_step.hpp"
#include "planning/plan/practice.hpp"

namespace stillheap::plan {
namespace {

std::array<bool, 24> drained_half_months(const site::Site& site, const weather::Series& weather) {
  std::array<bool, 24> drained{};
  const date::Day start = start_of(site);
  for (const FrostSeason& season : frost_seasons(site, weather)) {
    const int first = std::max(0, season.first_day - static_cast<int>(practice::drain_days_before_frost));
    for (int day = first; day <= season.last_day; ++day)
      drained[static_cast<std::size_t>(date::half_month_of(start + std::chrono::days{day}))] = true;
  }
  return drained;
}

std::array<bool, 24> freezing_half_months(const weather::Series& weather) {
  const date::Day first{std::chrono::year{2025} / std::chrono::January / 1};  // any year of 365 days
  std::array<double, 24> sum_c{};
  int day = 0;
  for (const double mean_c : daily_means_c(weather))
    sum_c[static_cast<std::size_t>(date::half_month_of(first + std::chrono::days{day++}))] += mean_c;
  std::array<bool, 24> freezing{};
  std::transform(sum_c.begin(), sum_c.end(), freezing.begin(), [](double sum) { return sum < 0.0; });
  return freezing;
}

/// What a heap loses and gets on each day, and what it should hold at its end.
std::vector<water::DayOfHeap> days_of(const forecast::Result& found) {
  constexpr double clearly_wetter = 1.05;  // chosen
  bool too_wet = true;
  std::vector<water::DayOfHeap> days;
  for (std::size_t i = 1; i < found.history.size(); ++i) {
    const forecast::HistoryRow& row = found.history[i];
    const double span = row.day - found.history[i - 1].day;
    const auto day = static_cast<std::size_t>(std::max(0.0, row.day - 0.5 * span));
    if (day >= days.size()) days.resize(day + 1);
    const double held_kg_kg = row.mean_moisture_wet / (1.0 - row.mean_moisture_wet);
    too_wet = too_wet && held_kg_kg > clearly_wetter * found.wanted_water_kg_kg;
    // What was filled in too wet pays for its losses itself until it has dried to what is wanted.
    if (!too_wet) days[day].lost_kg += span * (row.evaporated_kg_day - row.water_made_kg_day);
    days[day].rain_kg += span * row.rain_kg_day;
    days[day].wanted_kg = found.wanted_water_kg_kg * row.dry_mass_kg;
  }
  return days;
}

int first_run_day(const site::Site& site) {
  return static_cast<int>(std::ceil(site.practice.forms_out_after_s / constant::seconds_per_day));
}

double most_reaching_kg(const site::Site& site, const vessel::Design& design) {
  return site.water.most_reaching_kg_day.value_or(practice::most_water_mm_day * vessel::footprint_area_m2(design));
}

}  // namespace

std::array<bool, 24> frost_half_months(const site::Site& site, const weather::Series& weather) {
  if (weather.hours.empty()) return {};
  return site.water.by_hand ? freezing_half_months(weather) : drained_half_months(site, weather);
}

water::Way way_for(const site::Site& site, const VesselPlan& vessel) {
  water::Way way;
  way.by_hand = site.water.by_hand;
  way.step_s = way.by_hand ? 0.0 : site.water.timer_step_s;
  way.step_kg = water::water_density_kg_m3 *
                (way.by_hand ? site.water.can_m3 : vessel.line_flow.total_flow_m3_s * site.water.timer_step_s);
  way.efficiency = site.water.application_efficiency;
  way.leaching_share = site.water.leaching_share;
  way.most_reaching_kg = most_reaching_kg(site, vessel.design);
  return way;
}

forecast::Request finding_request(const forecast::Request& request) {
  forecast::Request finding = request;
  finding.sprinkling.automatic = true;
  finding.grid = forecast::Grid::draft;
  finding.members = 0;
  finding.picture_days.clear();
  finding.animated = false;
  return finding;
}

water::Programme programme_from(const forecast::Result& found, const site::Site& site, const weather::Series& weather,
                                const VesselPlan& vessel) {
  std::vector<water::DayOfHeap> days = days_of(found);
  const std::array<bool, 24> frost = frost_half_months(site, weather);
  const date::Day start = start_of(site);
  for (std::size_t day = 0; day < days.size(); ++day)
    days[day].frost = frost[static_cast<std::size_t>(date::half_month_of(start + std::chrono::days{day}))];
  return water::make_programme(start, days, way_for(site, vessel), first_run_day(site));
}

void follow_programme(forecast::Request& request, const water::Programme& programme) {
  request.sprinkling.automatic = false;
  request.sprinkling.kg_by_day = programme.reaching_kg;
}

std::vector<forecast::Banded> drained_by_row(const water::Programme& programme, const forecast::Result& result) {
  std::vector<forecast::Banded> drained(programme.rows.size());
  if (programme.rows.empty()) return drained;
  const date::Day start = programme.rows.front().first;
  std::vector<double> days(drained.size());
  std::size_t row = 0;
  for (std::size_t i = 1; i < result.history.size(); ++i) {
    const double span = result.history[i].day - result.history[i - 1].day;
    const date::Day day = start + std::chrono::days{static_cast<int>(result.history[i].day - 0.5 * span)};
    while (row + 1 < drained.size() && day > programme.rows[row].last) ++row;
    days[row] += span;
    drained[row].middle += span * result.history[i].drained_kg_day;
    drained[row].low += span * (i < result.history_low.size() ? result.history_low : result.history)[i].drained_kg_day;
    drained[row].high +=
        span * (i < result.history_high.size() ? result.history_high : result.history)[i].drained_kg_day;
  }
  // Rows that a stopped forecast never came to are not known.
  while (!days.empty() && days.back() <= 0.0) {
    days.pop_back();
    drained.pop_back();
  }
  for (std::size_t i = 0; i < drained.size(); ++i) {
    drained[i] = forecast::in_order(drained[i].middle / days[i], drained[i].low / days[i], drained[i].high / days[i]);
  }
  return drained;
}

std::optional<forecast::Banded> drained_in(const VesselPlan& vessel, std::size_t row) noexcept {
  return row < vessel.drained_kg_day.size() ? std::optional(vessel.drained_kg_day[row]) : std::nullopt;
}

double drained_salt_g_kg(const VesselPlan& vessel) {
  return material::salt_in_water_kg_m3(vessel.drain_conductivity_s_m);  // 1 kg/m3 is 1 g/kg of water
}

namespace {

/// Why a programme puts nothing on.
std::string words_without_runs(const VesselPlan& vessel) {
  double lost_kg = 0.0, credited_kg = 0.0;
  bool frost = false;
  for (const water::Row& row : vessel.programme.rows) {
    lost_kg += row.lost_kg;
    credited_kg += row.rain_credited_kg;
    frost = frost || row.setting == water::Setting::frost;
  }
  constexpr double covered = 0.95;  // chosen: nearer than the books know
  if (credited_kg >= covered * lost_kg)
    return "In typical weather rain covers what this heap loses: nothing is to be put on, and what is meant to drain "
           "drains with the rain. ";
  const forecast::Banded& end = vessel.forecast.summary.mean_moisture_end_wet;
  return std::string("Nothing is to be put on") + (frost ? " outside frost" : "") +
         ": the heap lives on the water it was soaked with" + (credited_kg > 0.0 ? " and on rain" : "") +
         ", and on what decay sets free. Its mean ends at " + quantity::percent(end.middle) + " moisture (" +
         quantity::percent(end.low) + " to " + quantity::percent(end.high) + "). ";
}

}  // namespace

std::string programme_limits(const VesselPlan& vessel) {
  std::string text;
  if (!vessel.programme.rows.empty() && water::let_out_kg(vessel.programme) <= 0.0) text = words_without_runs(vessel);
  const forecast::Banded& driest = vessel.forecast.summary.driest_moisture_wet;
  return text + "The programme keeps up the mean of the heap: in the forecast its driest place falls to " +
         quantity::percent(driest.middle) +
         " moisture. Where a handful crumbles dry, mostly at the wall and under the cover, wet that place by hand.";
}

Assumptions water_choices(const site::Site& site) {
  const auto amount = [&](double value, Dimension dimension) { return quantity::format(value, dimension, site.units); };
  Assumptions choices = water::programme_choices();
  choices.push_back(
      site.water.most_reaching_kg_day
          ? Assumption{"plan: most water a day",
                       quantity::format_water(*site.water.most_reaching_kg_day, site.units) + " reaching the material",
                       "given"}
          : Assumption{"plan: most water a day",
                       amount(practice::most_water_mm_day / 1000.0, Dimension::length) +
                           " over the footprint reaching the material",
                       "chosen: no more than soaks in without running off"});
  choices.push_back({"plan: first run",
                     "from day " + std::to_string(first_run_day(site)) + " after the fill, once the forms are out",
                     "chosen"});
  if (site.water.by_hand) {
    choices.push_back({"plan: frost", "no watering by hand in half-months with a mean below freezing", "chosen"});
    choices.push_back({"plan: watering by hand",
                       amount(practice::minutes_a_can * 60.0, Dimension::duration) + " a can: fill, carry, pour",
                       "chosen"});
    return choices;
  }
  const bool normals = site.weather.source == site::WeatherSource::monthly;
  choices.push_back({"plan: frost",
                     "no runs in any half-month that touches a frosty season or the " +
                         std::to_string(static_cast<int>(practice::drain_days_before_frost)) +
                         " days before it; a day counts with a low under " +
                         amount(normals ? practice::frost_in_normals_c : 0.0, Dimension::temperature) +
                         ", days less than " + std::to_string(practice::join_frosts_days) +
                         " days apart are one season",
                     "chosen"});
  return choices;
}

}  // namespace stillheap::plan
