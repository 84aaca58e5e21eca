#pragma once
#include <string>
#include <vector>

#include "core/quantity/quantity.hpp"
#include "model/forecast/result.hpp"

/// What a chart of the forecast says, in a sentence from the very rows it draws (one a day).
namespace stillheap::sheet {

/// Below it a place is short of air. Source: Rynk et al. 1992, NRAES-54, table 2.1 (from memory).
inline constexpr double least_oxygen = 0.05;

/// Whether it gets hot, where and when.
[[nodiscard]] std::string heat_words(const std::vector<forecast::HistoryRow>& rows, const forecast::Summary& summary,
                                     UnitSystem units);
/// Whether some place is short of air, and when.
[[nodiscard]] std::string air_words(const std::vector<forecast::HistoryRow>& rows);
/// Whether it keeps moist: the mean, and what the driest place falls to.
[[nodiscard]] std::string moisture_words(const std::vector<forecast::HistoryRow>& rows,
                                         const forecast::Summary& summary);

}  // namespace stillheap::sheet
