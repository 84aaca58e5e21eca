#include "present/sheet/chart_words.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "domain/rules/moisture.hpp"
#include "planning/plan/practice.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

using forecast::HistoryRow;

/// First and last of the days on which something holds, and how many those are.
struct Days {
  double first = 0.0, last = 0.0;
  int count = 0;
};

template <typename Holds>
std::optional<Days> days_when(const std::vector<HistoryRow>& rows, Holds holds) {
  std::optional<Days> days;
  for (const HistoryRow& row : rows) {
    if (!holds(row)) continue;
    const double day = std::floor(row.day) + 1.0;
    if (!days) days = Days{day, day, 0};
    days->last = day;
    ++days->count;
  }
  return days;
}

std::string span_words(const Days& days) {
  if (days.first == days.last) return "on day " + decimal(days.first, 0);
  const bool whole = days.last - days.first + 1.0 == static_cast<double>(days.count);
  return (whole ? "from day " : "on " + counted_days(days.count) + " from day ") + decimal(days.first, 0) + " to " +
         decimal(days.last, 0);
}

}  // namespace

std::string heat_words(const std::vector<HistoryRow>& rows, const forecast::Summary& summary, UnitSystem units) {
  const std::string limit = temperature(plan::practice::hot_c, units);
  const auto core = days_when(rows, [](const HistoryRow& row) { return row.core_c >= plan::practice::hot_c; });
  const auto hottest = days_when(rows, [](const HistoryRow& row) { return row.hottest_c >= plan::practice::hot_c; });
  if (!hottest) return "Not hot enough to count on: in the middle run no place is above " + limit + " for a day.";
  const std::string where =
      core ? "The core is above " + limit + " " + span_words(*core)
           : "The hottest place is above " + limit + " " + span_words(*hottest) + ", the core never";
  const double share = summary.share_3_days_above_55.middle;
  if (share < 0.005) return where + ": too short to count on for weed seeds.";
  return "Hot enough for most weed seeds in " + percent(share) + " of the heap (" + limit +
         " for three days in a row; common practice, no source). " + where + ".";
}

std::string air_words(const std::vector<HistoryRow>& rows) {
  const auto poor = days_when(rows, [](const HistoryRow& row) { return row.lowest_oxygen < least_oxygen; });
  if (!poor)
    return "Air everywhere: in the middle run no place is below " + percent(least_oxygen) + " oxygen for a day.";
  return "Short of air in places: the poorest place is below " + percent(least_oxygen) + " oxygen " +
         span_words(*poor) + ". Keep base and channels open.";
}

std::string moisture_words(const std::vector<HistoryRow>& rows, const forecast::Summary& summary) {
  if (rows.empty()) return {};
  const auto [least, most] = std::minmax_element(
      rows.begin(), rows.end(), [](const auto& a, const auto& b) { return a.mean_moisture_wet < b.mean_moisture_wet; });
  const double driest = summary.driest_moisture_wet.middle;
  return "The heap as a whole keeps " + percent(least->mean_moisture_wet) + " to " + percent(most->mean_moisture_wet) +
         " moisture; its driest place falls to " + percent(driest) +
         (driest < rules::moisture::dry_wet ? ": squeeze at the wall and under the cover, and wet what crumbles."
                                            : ", moist enough to go on.");
}

}  // namespace stillheap::sheet
