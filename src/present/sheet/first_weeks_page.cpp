#include <algorithm>
#include <cmath>
#include <optional>

#include "planning/plan/practice.hpp"
#include "present/sheet/forecast_charts.hpp"
#include "present/sheet/pages.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

using forecast::HistoryRow;

constexpr double weeks_days = 42.0;  // chosen: six weeks, as the log sheet
constexpr double least_oxygen = 0.05;

/// First and last of the first weeks' days on which something holds.
struct Days {
  double first = 0.0, last = 0.0;
};

template <typename Holds>
std::optional<Days> days_when(const std::vector<HistoryRow>& rows, Holds holds) {
  std::optional<Days> days;
  for (const HistoryRow& row : rows) {
    if (row.day > weeks_days || !holds(row)) continue;
    const double day = std::floor(row.day) + 1.0;
    if (!days) days = Days{day, day};
    days->last = day;
  }
  return days;
}

std::string span_words(const Days& days) {
  return days.first == days.last ? "on day " + decimal(days.first, 0)
                                 : "from day " + decimal(days.first, 0) + " to " + decimal(days.last, 0);
}

/// The chart's message in a sentence, from the very rows that it draws.
std::string heat_words(const std::vector<HistoryRow>& rows, const forecast::Summary& summary, UnitSystem units) {
  const std::string limit = temperature(plan::practice::hot_c, units);
  const auto core = days_when(rows, [](const HistoryRow& row) { return row.core_c >= plan::practice::hot_c; });
  const auto hottest = days_when(rows, [](const HistoryRow& row) { return row.hottest_c >= plan::practice::hot_c; });
  if (!hottest) return "Not hot enough to count on: in the middle run no place is above " + limit + " for a day.";
  std::string text =
      core ? "Hot: the core is above " + limit + " " + span_words(*core)
           : "Half hot: the hottest place is above " + limit + " " + span_words(*hottest) + ", the core never";
  return text + ", and " + percent(summary.share_3_days_above_55.middle) +
         " of the mass is above it for three days in a row.";
}

std::string air_words(const std::vector<HistoryRow>& rows) {
  const auto poor = days_when(rows, [](const HistoryRow& row) { return row.lowest_oxygen < least_oxygen; });
  if (!poor) return "Air everywhere: in the middle run no place is below 5 % oxygen for a day.";
  return "Short of air in places: the poorest place is below 5 % oxygen " + span_words(*poor) +
         ". Keep base and channels open.";
}

}  // namespace

void first_weeks_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel, double kept_pt) {
  const Date start = read_date(plan.site.start_date);
  const UnitSystem units = plan.site.units;
  const forecast::Result& result = vessel.forecast;
  flow.start_sheet("The first six weeks", vessel_title(vessel.design) + ", as the forecast has them");
  if (result.history.empty()) {
    flow.paragraph("This forecast has no days to show.");
    return;
  }
  if (result.stopped) flow.paragraph("The forecast stopped early: " + *result.stopped);
  const std::vector<HistoryRow> rows = daily_rows(result.history);
  std::vector<Chart> charts{first_temperature_chart(result, start, units, weeks_days),
                            first_oxygen_chart(result, start, units, weeks_days)};
  align_frames(flow.canvas(), charts);
  const std::string words[] = {heat_words(rows, result.summary, units), air_words(rows)};
  constexpr double shares[] = {0.58, 0.42};            // of the figures, chosen
  constexpr double least_pt = 245.0, most_pt = 430.0;  // of both figures
  const double words_pt = flow.height_of([&](Flow& below) {
    for (const std::string& text : words) below.paragraph(text, {11.0, Weight::strong});
  });
  const double room = flow.room() - words_pt - 24.0;
  const double figures = std::clamp(room - kept_pt < least_pt ? room : room - kept_pt, least_pt, most_pt);
  for (std::size_t i = 0; i < charts.size(); ++i) {
    flow.need(shares[i] * figures + 40.0);
    flow.paragraph(words[i], {11.0, Weight::strong});
    draw_chart(flow.canvas(), flow.take(shares[i] * figures), charts[i]);
    flow.space(8.0);
  }
}

}  // namespace stillheap::sheet
