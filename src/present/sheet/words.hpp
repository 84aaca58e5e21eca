#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/quantity/quantity.hpp"
#include "core/quantity/told.hpp"
#include "model/forecast/result.hpp"
#include "present/draw/dates.hpp"

/// Numbers as words of the pack, always with their unit.
namespace stillheap::sheet {

using quantity::percent;
/// Whole percentages of parts of a whole that add up to 100 (largest remainders go up).
[[nodiscard]] std::vector<int> whole_percent(const std::vector<double>& parts);
/// "12.5": a plain number to so many decimals; "unbounded" when it is not finite.
[[nodiscard]] std::string decimal(double value, int decimals);
/// "412.50 EUR"; without a label the bare amount is followed by "(currency not named)".
[[nodiscard]] std::string money(double value, std::string_view currency);
/// "3 h 40 min", to 5 min.
[[nodiscard]] std::string clock_time(double hours);
/// "1 day", "9 days", rounded to whole days.
[[nodiscard]] std::string counted_days(double days);
/// "72°", at most one decimal.
[[nodiscard]] std::string degrees(double radians);
/// "1.2e-07": for balance errors.
[[nodiscard]] std::string scientific(double value);
/// One temperature to the whole degree, "68 degC".
[[nodiscard]] std::string temperature(double celsius, UnitSystem units);
/// "64 to 71 degC": the unit once when both ends share it.
[[nodiscard]] std::string span_of(const std::string& low, const std::string& high);
[[nodiscard]] std::string temperature_span(const forecast::Banded& band, UnitSystem units);
[[nodiscard]] std::string percent_span(const forecast::Banded& band, int decimals = 0);
[[nodiscard]] std::string amount_span(const forecast::Banded& band, Dimension dimension, UnitSystem units);
/// Force per length of wall: "2.1 kN/m", or for US readers as the weight that hangs on each foot.
[[nodiscard]] std::string line_load(double newton_per_m, UnitSystem units);
/// Force: "1.2 kN", or for US readers as the weight in pounds.
[[nodiscard]] std::string force(double newton, UnitSystem units);
/// Water by mass, written as the volume people draw: 1 kg is 1 L.
[[nodiscard]] std::string water_volume(double kg, UnitSystem units, int digits = 2);

/// A reader's unit for axes: shown = si * scale + offset, found through quantity::parse, the only place that converts.
struct AxisUnit {
  std::string label;
  double scale = 1.0, offset = 0.0;
  [[nodiscard]] double shown(double si) const noexcept { return si * scale + offset; }
};
/// The axis unit for temperature, fraction, mass, volume, density or length.
[[nodiscard]] AxisUnit axis_unit(Dimension dimension, UnitSystem units);

}  // namespace stillheap::sheet
