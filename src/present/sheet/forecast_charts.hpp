#pragma once
#include <vector>

#include "core/quantity/quantity.hpp"
#include "model/forecast/result.hpp"
#include "present/draw/chart.hpp"

/// The forecast as charts, in the reader's units; the pack and the plot files draw the same ones.
namespace stillheap::sheet {

/// One row a day: means of the rows that end within it (band edges too), so that a year of hours reads as a line. The
/// row of the start ends nothing and is left out.
[[nodiscard]] std::vector<forecast::HistoryRow> daily_rows(const std::vector<forecast::HistoryRow>& history);

[[nodiscard]] Chart temperature_chart(const forecast::Result& result, Date start, UnitSystem units);
[[nodiscard]] Chart oxygen_chart(const forecast::Result& result, Date start, UnitSystem units);
[[nodiscard]] Chart moisture_chart(const forecast::Result& result, Date start, UnitSystem units);
[[nodiscard]] Chart height_chart(const forecast::Result& result, Date start, UnitSystem units);
[[nodiscard]] Chart mass_chart(const forecast::Result& result, Date start, UnitSystem units);

/// The first days alone, which the chart of a year squeezes into its margin.
[[nodiscard]] Chart first_temperature_chart(const forecast::Result& result, Date start, UnitSystem units, double days);
[[nodiscard]] Chart first_oxygen_chart(const forecast::Result& result, Date start, UnitSystem units, double days);

}  // namespace stillheap::sheet
