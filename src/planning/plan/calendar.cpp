#include "planning/plan/calendar.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/base/constants.hpp"
#include "core/base/date.hpp"
#include "core/quantity/retold.hpp"
#include "core/quantity/told.hpp"
#include "domain/rules/caution_words.hpp"
#include "domain/rules/harvest.hpp"
#include "domain/rules/planned_work.hpp"
#include "domain/rules/worms.hpp"
#include "planning/plan/forecast_step.hpp"
#include "planning/plan/hours.hpp"
#include "planning/plan/practice.hpp"
#include "planning/plan/water_step.hpp"
#include "planning/water/programme.hpp"

namespace stillheap::plan {
namespace {

/// Writes entries of one kind of vessel; `spread_days` later for the last vessel filled.
struct Writer {
  std::vector<CalendarEntry>& entries;
  date::Day start;
  double spread_days = 0.0;
  std::string vessel;

  void between(double early_day, double late_day, const std::string& what) const {
    const std::string first = date::to_iso(date::add_days(start, early_day));
    const std::string last = date::to_iso(date::add_days(start, late_day));
    entries.push_back({first, last == first ? "" : last, what, vessel});
  }
  void on(double day, const std::string& what) const { between(day, day + spread_days, what); }
};

std::string amount(const Plan& plan, double value, Dimension dimension) {
  return quantity::format(value, dimension, plan.site.units);
}

std::string opening(const rules::PlannedWork& work) { return std::string(work.opening); }

/// When the programme first lets water out; where it never does, that is said instead. `own_days`: that a vessel takes
/// to fill after its first day.
void write_first_water(const Writer& write, const VesselPlan& vessel, double own_days, double forms_day) {
  const auto& rows = vessel.programme.rows;
  const auto runs =
      std::find_if(rows.begin(), rows.end(), [](const water::Row& row) { return row.setting == water::Setting::runs; });
  if (runs != rows.end()) {
    const auto days_after_fill = static_cast<double>((runs->first - rows.front().first).count());
    // A run that waited for its season begins on one day for all that are full by then.
    write.between(std::max(own_days + forms_day, days_after_fill),
                  std::max(forms_day + write.spread_days, days_after_fill), opening(rules::sprinkle_work));
  } else if (!rows.empty()) {
    write.between(own_days + forms_day, forms_day + write.spread_days,
                  "No watering to start: in typical weather the heap keeps what it needs. Squeeze a handful once "
                  "a week, and see the water card");
  }
}

/// `write.spread_days` runs from the first vessel begun to the last one full.
void write_preparation(const Writer& write, const VesselPlan& vessel, const Plan& plan) {
  const fill::FillPlan& fill = vessel.fill;
  const double own_days = days_of_filling(vessel) - 1.0;
  const Writer full{write.entries, date::add_days(write.start, own_days), write.spread_days - own_days, write.vessel};
  if (fill.soak.batches > 0) {
    write.on(0.0, opening(rules::soak_work) + " while filling: " + std::to_string(fill.soak.batches) +
                      " batches a vessel, " + quantity::format_water(fill.soak.water_to_draw_kg, plan.site.units, 2) +
                      " of water");
  }
  write.on(0.0, opening(rules::fill_work) + " " + std::to_string(fill.pails) + " pails in " +
                    std::to_string(fill.lifts) + " lifts a vessel");
  const double forms_day = plan.site.practice.forms_out_after_s / constant::seconds_per_day;
  if (!vessel.design.channels.empty()) full.on(forms_day, opening(rules::forms_work) + " straight up, two people");
  write_first_water(write, vessel, own_days, forms_day);
  full.on(practice::first_check_days, opening(rules::check_work) +
                                          ": core temperature with the probe, a squeeze for moisture from a hand's "
                                          "depth, drainage, cage and base upright. " +
                                          std::string(rules::words::arm));
}

void write_hot_phase(const Writer& write, const VesselPlan& vessel, const Plan& plan) {
  const auto& summary = vessel.forecast.summary;
  const auto hot =
      rules::stretches_within(core_history(vessel.forecast), practice::hot_c, std::numeric_limits<double>::infinity());
  const std::string limit = amount(plan, practice::hot_c, Dimension::temperature);
  if (!hot.empty()) {
    write.between(hot.front().begin_s / constant::seconds_per_day,
                  hot.back().end_s / constant::seconds_per_day + write.spread_days,
                  "Hot phase: core above " + limit + "; read it daily, keep it moist, mind burns and steam");
  }
  write.between(summary.peak_day.low, summary.peak_day.high + write.spread_days,
                "Hottest, forecast " + quantity::whole_degrees(summary.peak_temperature_c.middle, plan.site.units) +
                    " (" + quantity::whole_degrees(summary.peak_temperature_c.low, plan.site.units) + " to " +
                    quantity::whole_degrees(summary.peak_temperature_c.high, plan.site.units) + ")");
  for (const rules::Verdict& verdict : vessel.hygiene.core) {
    if (!verdict.met_at_s || !rules::counts_as_hygiene(verdict.rule_id)) continue;
    write.on(*verdict.met_at_s / constant::seconds_per_day,
             "Core meets the hygiene rule \"" + verdict.rule_id + "\" if the forecast holds; the readings decide");
  }
}

/// A word of warning where the day is below freezing by the site's weather.
std::string frozen_then(const Writer& write, double day, const weather::Series& weather) {
  const std::vector<double> means_c = daily_means_c(weather);
  if (means_c.empty()) return {};
  const int at = date::day_of_year(date::add_days(write.start, day)) - 1;
  const bool frozen = means_c[static_cast<std::size_t>(at) % means_c.size()] < 0.0;
  return frozen ? ". The window opens in frost: wait until the heap has thawed" : "";
}

void write_cool_phase(const Writer& write, const VesselPlan& vessel, const Plan& plan) {
  const std::string ready = rules::harvest::all_words();
  if (vessel.worms.early_day) {
    write.between(*vessel.worms.early_day, last_worm_day(vessel, plan.site, plan.weather, write.spread_days),
                  opening(rules::worm_work) + " once self-heating is over and the core reads " +
                      amount(plan, rules::worms::least_c, Dimension::temperature) + " to " +
                      amount(plan, rules::worms::most_c, Dimension::temperature) +
                      ", with no day ahead whose mean is below freezing");
  }
  write.between(
      vessel.harvest.early_day, vessel.harvest.late_day + write.spread_days,
      opening(rules::harvest_work) +
          (vessel.harvest.cooled_in_forecast
               ? " (9 to 12 months: common practice, no source). Ready when "
               : " by age alone (9 to 12 months: common practice, no source); the forecast has no month without "
                 "self-heating before, so let readings decide. Ready when ") +
          ready + frozen_then(write, vessel.harvest.early_day, plan.weather));
}

/// The half-months without runs for frost, as the programme has them.
void write_frost(const Writer& write, const Plan& plan) {
  const std::array<bool, 24> frost = frost_half_months(plan.site, plan.weather);
  const bool by_hand = plan.site.water.by_hand;
  const bool any_water = std::any_of(plan.vessels.begin(), plan.vessels.end(), [](const VesselPlan& vessel) {
    return water::let_out_kg(vessel.programme) > 0.0;
  });
  for (int day = 0; day < 365; ++day) {
    const auto frosty = [&](int at) {
      return frost[static_cast<std::size_t>(date::half_month_of(write.start + std::chrono::days{at}))];
    };
    if (frosty(day) && (day == 0 || !frosty(day - 1)))
      write.on(day, by_hand ? "Stop watering by hand for the frost"
                            : std::string("Drain water line, timer and back-flow preventer before frost") +
                                  (any_water ? "; the programme stops" : ""));
    if (day > 0 && !frosty(day) && frosty(day - 1))
      write.on(day, by_hand     ? "Frost over by the normals: water by hand again, by the water card"
                    : any_water ? "Frost over by the normals: put the water line back, set it by the water card"
                                : "Frost over by the normals: put the water line back, for a spell drier than usual");
  }
}

}  // namespace

std::vector<FrostSeason> frost_seasons(const site::Site& site, const weather::Series& weather) {
  const date::Day start = start_of(site);
  const bool normals = site.weather.source == site::WeatherSource::monthly;
  const double limit_c = normals ? practice::frost_in_normals_c : 0.0;
  std::vector<FrostSeason> seasons;
  for (int day = 0; day < 365; ++day) {
    const double begin_s = (date::day_of_year(start) - 1 + day) * constant::seconds_per_day;
    double low_c = std::numeric_limits<double>::infinity();
    for (int hour = 0; hour < 24; ++hour) low_c = std::min(low_c, weather::at(weather, begin_s + hour * 3600.0).air_c);
    if (low_c >= limit_c) continue;
    if (!seasons.empty() && day - seasons.back().last_day < practice::join_frosts_days) {
      seasons.back().last_day = day;
    } else {
      seasons.push_back({day, day});
    }
  }
  return seasons;
}

std::vector<CalendarEntry> calendar_of(const Plan& plan) {
  std::vector<CalendarEntry> entries;
  const date::Day start = start_of(plan.site);
  const Writer yard{entries, start, 0.0, ""};
  yard.on(-practice::order_days_ahead, opening(rules::order_work) + ", mesh, cloth and the rest of the shopping list");
  yard.on(-practice::build_days_ahead, opening(rules::build_work) + ", build bases and cages" +
                                           (plan.site.water.by_hand ? "" : ", try the water line"));
  double begun_days = 0.0;
  for (const VesselPlan& vessel : plan.vessels) {
    const double fill_days = days_to_fill(plan.site, vessel);
    const Writer write{entries, date::add_days(start, begun_days), fill_days - 1.0, vessel.design.name};
    write_preparation(write, vessel, plan);
    write_hot_phase(write, vessel, plan);
    write_cool_phase(write, vessel, plan);
    begun_days += fill_days;
  }
  write_frost(yard, plan);
  for (CalendarEntry& entry : entries) entry.what = quantity::retold(entry.what, plan.site.units);
  std::stable_sort(entries.begin(), entries.end(),
                   [](const CalendarEntry& a, const CalendarEntry& b) { return a.date < b.date; });
  return entries;
}

Assumptions calendar_choices(const Plan& plan) {
  const auto days = [](double value) { return std::to_string(static_cast<int>(value)) + " days"; };
  Assumptions choices = {
      {"plan: lead times",
       "order " + days(practice::order_days_ahead) + " and build " + days(practice::build_days_ahead) +
           " before the first fill; working day of " + std::to_string(static_cast<int>(practice::working_day_h)) + " h",
       "chosen"},
  };
  choices.push_back({"plan: worms",
                     "not in the first " + days(rules::worms::earliest_day) +
                         "; by the site's weather no day with a mean below freezing in the " +
                         days(rules::worms::frost_free_days) + " after",
                     std::string(rules::worms::source)});
  if (plan.site.weather.source == site::WeatherSource::monthly) {
    choices.push_back({"plan: frost dates",
                       "from the first day with a mean low under " +
                           quantity::format(practice::frost_in_normals_c, Dimension::temperature, plan.site.units) +
                           ": normals hide single frosty nights; follow the local weather service",
                       "chosen"});
  }
  return choices;
}

}  // namespace stillheap::plan
