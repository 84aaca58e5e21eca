#include <algorithm>
#include <array>
#include <chrono>

#include "core/base/date.hpp"
#include "planning/plan/calendar.hpp"
#include "planning/water/fittings.hpp"
#include "present/draw/table.hpp"
#include "present/sheet/pages.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

using plan::Plan;
using plan::VesselPlan;

void paint_bar(Canvas& canvas, const Box& cell, double share) {
  const Box bar{cell.x, cell.y + 5.0, std::max(0.0, share) * cell.width, cell.height - 10.0};
  if (bar.width > 0.3) fill(canvas, bar, accent);
}

/// Months of which a day lies in a season of frost.
std::array<bool, 12> frost_months(const Plan& plan) {
  std::array<bool, 12> frost{};
  const auto start = date::parse_iso(plan.site.start_date);
  if (!start || plan.weather.hours.empty()) return frost;
  for (const plan::FrostSeason& season : plan::frost_seasons(plan.site, plan.weather)) {
    for (int day = season.first_day; day <= season.last_day; ++day) {
      frost[static_cast<std::size_t>(date::month_index(*start + std::chrono::days{day}))] = true;
    }
  }
  return frost;
}

/// "1 min", or "1 min every 8 days".
std::string setting_of(double minutes_day, double step_s) {
  const int days = water::days_a_run(minutes_day, step_s);
  const std::string run = run_time(water::timer_minutes(minutes_day, step_s));
  return days == 1 ? run : run + " every " + std::to_string(days) + " days";
}

void wall_table(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  const UnitSystem units = plan.site.units;
  const water::MonthlyWater& water = vessel.water;
  double most = 0.0;
  for (std::size_t m = 0; m < 12; ++m) most = std::max(most, vessel.water_known[m] ? water.minutes_day[m] : 0.0);
  const auto bar = [&vessel, most](Canvas& canvas, const Box& cell, std::size_t row) {
    if (most > 0.0 && row < 12 && vessel.water_known[row]) {
      paint_bar(canvas, cell, vessel.water.minutes_day[row] / most);
    }
  };
  const std::array<bool, 12> frost = frost_months(plan);
  Table table;
  table.size_pt = 11.0;
  table.row_padding_pt = 4.5;
  table.columns = {{.head = "Month", .strong = true},
                   {.head = "Set timer to", .align = Align::right, .strong = true},
                   {.head = "A run puts on", .align = Align::right},
                   {.head = "A day's run", .align = Align::right},
                   {.head = "", .fixed_pt = 44.0, .paint = bar},
                   {.head = "By the band", .align = Align::right},
                   {.head = "A day's need", .align = Align::right},
                   {.head = "Drains a day", .align = Align::right},
                   {.head = "Salt out a day", .align = Align::right}};
  for (std::size_t m = 0; m < 12; ++m) {
    Row row{{month_long(static_cast<unsigned>(m + 1)) + (frost[m] ? "\u00A0*" : "")}};
    if (vessel.water_known[m]) {
      const double need_min = water.minutes_day[m];
      const double step_s = plan.site.water.timer_step_s;
      const double a_run_kg =
          need_min > 0.0 ? water.need_kg_day[m] * water::timer_minutes(need_min, step_s) / need_min : 0.0;
      row.cells.insert(row.cells.end(),
                       {setting_of(need_min, step_s), water_volume(a_run_kg, units), run_time(need_min), "",
                        span_of(run_time(vessel.water_low.minutes_day[m]), run_time(vessel.water_high.minutes_day[m])),
                        water_volume(water.need_kg_day[m], units), water_volume(water.drained_kg_day[m], units),
                        quantity::format(water.salt_out_g_day[m] / 1000.0, Dimension::mass, units, 2)});
    } else {
      row.cells.insert(row.cells.end(), {"not forecast", "", "", "", "", "", "", ""});
    }
    table.rows.push_back(std::move(row));
  }
  table.heading = "Minutes by month, one vessel: pin this to the wall";
  draw_table(flow, table);
}

std::vector<std::string> water_cautions(const Plan& plan) {
  std::vector<std::string> lines =
      cautions_at(plan, {"watering"},
                  "Keep what drains away from wells, ditches and streams, and let it soak into planted ground.");
  const bool said = std::any_of(lines.begin(), lines.end(), [](const std::string& line) {
    return line.find("back-flow") != std::string::npos || line.find("backflow") != std::string::npos;
  });
  if (plan.site.water.drinking_water && !said) {
    lines.insert(lines.begin(),
                 "The line hangs on a drinking-water supply: fit a back-flow preventer of the kind your local "
                 "code asks for, by a licensed plumber where it says so.");
  }
  return lines;
}

}  // namespace

void water_page(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  flow.start_sheet("Water card", vessel_title(vessel.design));
  wall_table(flow, plan, vessel);
  flow.paragraph(
      "Squeeze a handful from the depth of an arm now and then: a few drops are right. Skip a day after heavy rain "
      "on an open top. Minutes come from the forecast and typical weather; the timer goes up to whole steps of " +
          quantity::format(plan.site.water.timer_step_s, Dimension::duration, plan.site.units) +
          " and, where one run then brings several days' need, is set every so many days: the forecast sprinkles "
          "every day, so watch that the top does not dry in between, or throttle the line and fit a timer of shorter "
          "steps. What drains is for the need, not for more. * Frost is usual in this month: the line is drained, "
          "water by hand in mild spells. Salts: " +
          quantity::format(plan.site.water.supply.conductivity_s_m, Dimension::conductivity, plan.site.units, 2) +
          " in the water, " +
          quantity::format(vessel.drain_conductivity_s_m, Dimension::conductivity, plan.site.units, 2) +
          " in what drains.",
      style::note);
  flow.space(4.0);
  flow.caution_box("While watering", water_cautions(plan));
}

}  // namespace stillheap::sheet
