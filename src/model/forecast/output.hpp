#pragma once
#include <filesystem>
#include <nlohmann/json_fwd.hpp>
#include <vector>

#include "model/forecast/result.hpp"

/// What a forecast leaves on disk. Every file is written whole under a temporary name beside its place and then
/// renamed, so that nobody ever reads half a file; an older file of that name is replaced.
namespace stillheap::forecast {

/// Counts the layout of forecast.json. Raised when a key changes its name or meaning, not when one is added.
inline constexpr int forecast_schema_version = 2;

/// The content of forecast.json, keys in reading order. Key names end in their unit: `_c` degC, `_kg`, `_m`, `_m3`,
/// `_kg_s`; `_share` and `_wet` are 0..1; `_day` counts days since filling, `_days` is a length of time.
/// A number with a band is {middle, low, high}. What did not happen, and what is not a finite number, is null.
[[nodiscard]] nlohmann::ordered_json to_json(const Result& result);

/// The odds as forecast.json and plan.json write them: a list of {event, share, in_ten}, for worms with its days.
[[nodiscard]] nlohmann::ordered_json to_json(const std::vector<Odds>& odds);

/// Writes forecast.json. The folder must be there. Throws RunError when the file cannot be written.
void write_forecast_json(const Result& result, const std::filesystem::path& file);

/// Writes the history as CSV after RFC 4180, every column but day and outside air followed by the ends of its band, a
/// header with units and one line a row, nine digits, always with a decimal point. A number that is not finite leaves
/// its field empty. The folder must be there. Throws RunError when the file cannot be written.
void write_history_csv(const Result& result, const std::filesystem::path& file);

/// Writes one fields_NNNN.vtu a snapshot and fields.pvd, the collection with the time in days, for general 3-D
/// viewers that read VTK's XML files. Makes the folder when it is missing. Cells are wedges between two levels;
/// nodes carry temperature_degC, oxygen_share (0..1 by volume of the gas) and moisture_wet (water over wet mass),
/// all 32-bit. The collection is written last and names only files of this result.
/// Throws RunError when something cannot be written.
void write_fields(const Result& result, const std::filesystem::path& folder);

}  // namespace stillheap::forecast
