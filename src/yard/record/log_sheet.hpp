#pragma once
#include <array>
#include <string>
#include <string_view>

#include "core/quantity/quantity.hpp"

/// The log sheet of a plan: what is written by the vessel each day, on paper and in the file it is typed into.
/// The one home of its columns; the printed sheet and the import read them here.
namespace stillheap::record {

inline constexpr int logged_days = 42;  // chosen: six weeks, the hot phase and what follows

enum class LogColumn { day, time, core, side, moisture, water, who };

struct LogColumnInfo {
  std::string_view name;  ///< on paper and, with the unit in brackets, in the file
  Dimension dimension = Dimension::fraction;
  std::string_view metric_unit{}, us_unit{};  ///< empty: the cell is no amount
};

inline constexpr std::array<LogColumnInfo, 7> log_columns{{{"Day"},
                                                           {"Time"},
                                                           {"Core", Dimension::temperature, "degC", "degF"},
                                                           {"Side", Dimension::temperature, "degC", "degF"},
                                                           {"Moisture"},
                                                           {"Water", Dimension::volume, "L", "gal"},
                                                           {"Who"}}};
[[nodiscard]] constexpr const LogColumnInfo& info(LogColumn column) noexcept {
  return log_columns[static_cast<std::size_t>(column)];
}
[[nodiscard]] constexpr std::string_view unit_of(const LogColumnInfo& column, UnitSystem units) noexcept {
  return units == UnitSystem::us ? column.us_unit : column.metric_unit;
}

/// What a squeezed handful says, and the words for it. Source: common practice, no source.
struct Squeeze {
  std::string_view word, meaning;
};
inline constexpr std::array<Squeeze, 3> squeezes{{{"dry", "no drop"}, {"right", "a few drops"}, {"wet", "it runs"}}};

/// Hour at which the file's rows begin; chosen, changed by whoever reads at another.
inline constexpr std::string_view usual_hour = "08:00";

/// The file to type the sheet into: a head, then a row a day, counted from the filling, with empty cells. The same
/// file serves every vessel.
[[nodiscard]] std::string blank_log_csv(UnitSystem units);

}  // namespace stillheap::record
