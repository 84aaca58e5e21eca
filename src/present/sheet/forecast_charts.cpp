#include "present/sheet/forecast_charts.hpp"

#include <algorithm>
#include <cmath>

#include "domain/rules/worms.hpp"
#include "present/sheet/chart_words.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

using forecast::HistoryRow;
using Pick = double HistoryRow::*;

constexpr double hygiene_c = 55.0;  // 40 CFR 503 appendix B and EU 142/2011 speak of 55 degC

const Pen main_pen{accent, 1.6};
const Pen thin_pen{ink, 0.8};
const Pen broken_pen{soft, 0.8, {4.0, 2.0}};

// Every field that is averaged; `day` among them, so a row stands in the middle of its day.
constexpr Pick fields[] = {&HistoryRow::day,           &HistoryRow::outside_c,   &HistoryRow::mean_c,
                           &HistoryRow::core_c,        &HistoryRow::hottest_c,   &HistoryRow::coldest_c,
                           &HistoryRow::lowest_oxygen, &HistoryRow::mean_oxygen, &HistoryRow::mean_moisture_wet,
                           &HistoryRow::dry_mass_kg,   &HistoryRow::height_m};

std::vector<double> column(const std::vector<HistoryRow>& rows, Pick pick, const AxisUnit& unit) {
  std::vector<double> values;
  values.reserve(rows.size());
  for (const HistoryRow& row : rows) values.push_back(unit.shown(row.*pick));
  return values;
}

std::vector<double> days_of(const std::vector<HistoryRow>& rows) { return column(rows, &HistoryRow::day, {}); }

Chart frame_of(const forecast::Result& result, Date start, const std::string& title) {
  Chart chart;
  chart.title = title;
  chart.start = start;
  chart.days = result.history.empty() ? 1.0 : std::max(1.0, result.history.back().day);
  return chart;
}

/// The same chart over its first days: curves end at the window's edge, and so does the scale of values.
Chart first_days(Chart chart, double days) {
  const auto kept = [days](const std::vector<double>& day) {
    return static_cast<std::size_t>(std::upper_bound(day.begin(), day.end(), days) - day.begin());
  };
  for (Ribbon& ribbon : chart.ribbons) {
    const std::size_t count = kept(ribbon.day);
    for (std::vector<double>* values : {&ribbon.day, &ribbon.low, &ribbon.high}) values->resize(count);
  }
  for (Curve& curve : chart.curves) {
    const std::size_t count = kept(curve.day);
    for (std::vector<double>* values : {&curve.day, &curve.value}) values->resize(count);
  }
  chart.days = std::min(chart.days, days);
  chart.weekly = true;
  chart.text_pt = 10.0;
  return chart;
}

}  // namespace

std::vector<HistoryRow> daily_rows(const std::vector<HistoryRow>& history) {
  const auto day_of = [](const HistoryRow& row) { return std::ceil(row.day) - 1.0; };
  std::vector<HistoryRow> rows;
  std::size_t first = history.size() > 1 && history.front().day == 0.0 ? 1 : 0;
  while (first < history.size()) {
    std::size_t last = first;
    HistoryRow mean = history[first];
    while (last + 1 < history.size() && day_of(history[last + 1]) == day_of(history[first])) ++last;
    for (const Pick pick : fields) {
      double total = 0.0;
      for (std::size_t i = first; i <= last; ++i) total += history[i].*pick;
      mean.*pick = total / static_cast<double>(last - first + 1);
    }
    rows.push_back(mean);
    first = last + 1;
  }
  return rows;
}

namespace {

/// The band of one column, day by day. Without members it has no width.
Ribbon band_of(const forecast::Result& result, Pick pick, const AxisUnit& unit, const std::string& label) {
  const auto low = daily_rows(result.history_low);
  return {label, days_of(low), column(low, pick, unit), column(daily_rows(result.history_high), pick, unit)};
}

}  // namespace

Chart temperature_chart(const forecast::Result& result, Date start, UnitSystem units) {
  const AxisUnit unit = axis_unit(Dimension::temperature, units);
  const auto rows = daily_rows(result.history);
  const auto day = days_of(rows);
  Chart chart = frame_of(result, start, "Temperature, " + unit.label + ", daily means");
  chart.ribbons = {band_of(result, &HistoryRow::core_c, unit, "core, likely range")};
  chart.curves = {{"outside air", day, column(rows, &HistoryRow::outside_c, unit), {soft, 0.6}},
                  {"coldest place", day, column(rows, &HistoryRow::coldest_c, unit), broken_pen},
                  {"core, middle run", day, column(rows, &HistoryRow::core_c, unit), main_pen},
                  {"hottest place", day, column(rows, &HistoryRow::hottest_c, unit), {ink, 1.4, {1.5, 2.0}}}};
  chart.message = heat_words(rows, result.summary, units);
  chart.most_ticks = 9;
  chart.marks = {{unit.shown(hygiene_c), quantity::format(hygiene_c, Dimension::temperature, units) + " hygiene"},
                 {unit.shown(rules::worms::most_c),
                  quantity::format(rules::worms::most_c, Dimension::temperature, units) + " worms"}};
  return chart;
}

Chart oxygen_chart(const forecast::Result& result, Date start, UnitSystem units) {
  const AxisUnit unit = axis_unit(Dimension::fraction, units);
  const auto rows = daily_rows(result.history);
  const auto day = days_of(rows);
  Chart chart = frame_of(result, start, "Oxygen in the pores, % by volume");
  chart.ribbons = {band_of(result, &HistoryRow::lowest_oxygen, unit, "poorest place, 10th to 90th percentile")};
  chart.curves = {{"mean of the heap", day, column(rows, &HistoryRow::mean_oxygen, unit), thin_pen},
                  {"poorest place", day, column(rows, &HistoryRow::lowest_oxygen, unit), main_pen}};
  chart.message = air_words(rows);
  chart.marks = {{unit.shown(least_oxygen), percent(least_oxygen)}};
  chart.floor = 0.0;
  chart.ceiling = 22.0;  // a little above free air, 20.9 %
  chart.most_ticks = 5;
  return chart;
}

Chart moisture_chart(const forecast::Result& result, Date start, UnitSystem units) {
  const AxisUnit unit = axis_unit(Dimension::fraction, units);
  const auto rows = daily_rows(result.history);
  const auto day = days_of(rows);
  Chart chart = frame_of(result, start, "Moisture, % of wet mass");
  chart.ribbons = {band_of(result, &HistoryRow::mean_moisture_wet, unit, "10th to 90th percentile of the runs")};
  chart.curves = {{"mean of the heap, middle run", day, column(rows, &HistoryRow::mean_moisture_wet, unit), main_pen}};
  // The poor places belong on the scale: the mean alone looks wet enough.
  const double driest = result.summary.driest_moisture_wet.middle;
  chart.message = moisture_words(rows, result.summary);
  chart.marks = {{unit.shown(driest), percent(driest) + " driest place"}};
  chart.floor = 0.0;
  chart.most_ticks = 5;
  return chart;
}

Chart height_chart(const forecast::Result& result, Date start, UnitSystem units) {
  const AxisUnit unit = axis_unit(Dimension::length, units);
  const auto rows = daily_rows(result.history);
  Chart chart = frame_of(result, start, "Height of the heap, " + unit.label);
  chart.ribbons = {band_of(result, &HistoryRow::height_m, unit, "")};
  chart.curves = {{"", days_of(rows), column(rows, &HistoryRow::height_m, unit), main_pen}};
  chart.message = "Sinks by " + percent(result.summary.height_lost.middle) + ".";
  chart.floor = 0.0;
  chart.most_ticks = 5;
  return chart;
}

Chart mass_chart(const forecast::Result& result, Date start, UnitSystem units) {
  const AxisUnit unit = axis_unit(Dimension::mass, units);
  const auto rows = daily_rows(result.history);
  Chart chart = frame_of(result, start, "Dry mass in one vessel, " + unit.label);
  chart.ribbons = {band_of(result, &HistoryRow::dry_mass_kg, unit, "")};
  chart.curves = {{"", days_of(rows), column(rows, &HistoryRow::dry_mass_kg, unit), main_pen}};
  chart.message = "Loses " + percent(result.summary.solids_lost.middle) + " of its dry matter.";
  chart.floor = 0.0;
  chart.most_ticks = 5;
  return chart;
}

namespace {

std::vector<HistoryRow> first_rows(std::vector<HistoryRow> rows, double days) {
  std::erase_if(rows, [days](const HistoryRow& row) { return row.day > days; });
  return rows;
}

}  // namespace

Chart first_temperature_chart(const forecast::Result& result, Date start, UnitSystem units, double days) {
  Chart chart = first_days(temperature_chart(result, start, units), days);
  chart.message = heat_words(first_rows(daily_rows(result.history), days), result.summary, units);
  return chart;
}

Chart first_oxygen_chart(const forecast::Result& result, Date start, UnitSystem units, double days) {
  Chart chart = first_days(oxygen_chart(result, start, units), days);
  chart.message = air_words(first_rows(daily_rows(result.history), days));
  return chart;
}

}  // namespace stillheap::sheet
