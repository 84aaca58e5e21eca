#pragma once
#include <array>
#include <filesystem>
#include <string>
#include <vector>

#include "core/base/note.hpp"

namespace stillheap::weather {

struct Place {
  double latitude_rad = 0.0;
  double longitude_rad = 0.0;
  double elevation_m = 0.0;
};

/// Monthly normals, January first.
struct Monthly {
  std::array<double, 12> low_c{};         ///< mean daily minimum
  std::array<double, 12> high_c{};        ///< mean daily maximum
  std::array<double, 12> humidity{};      ///< mean relative humidity, 0..1
  std::array<double, 12> sun_j_m2_day{};  ///< global horizontal
  std::array<double, 12> wind_m_s{};      ///< at 2 m
  std::array<double, 12> rain_m_month{};
};

/// Outside air and sky at one time.
struct Hour {
  double air_c = 0.0;
  double humidity = 0.0;       ///< 0..1
  double wind_m_s = 0.0;       ///< at 2 m
  double sun_w_m2 = 0.0;       ///< global horizontal
  double longwave_w_m2 = 0.0;  ///< from the sky, down
  double rain_m_s = 0.0;
  double pressure_pa = 101325.0;
};

/// Equal steps over a whole year of 365 days from 1 January 00:00 local standard time; repeats each year.
/// Mostly 8760 values, `hours[i]` for the moment the clock shows i hours; daily means are 365 values for the noons.
struct Series {
  std::vector<Hour> hours;
  double first_s = 0.0;  ///< moment of hours[0]: 0 for hourly values, noon for daily means
  Place place;
  std::string source;  ///< "monthly normals", "EPW file x", "CSV file x"
  Assumptions assumptions;
};

/// Smooth daily values whose monthly averages equal the normals, with a diurnal wave: the mean of the days' lowest and
/// highest temperatures, the mean relative humidity of all hours, daily sun, wind and rain come back as given.
/// Throws InputError naming every normal that cannot be (low above high, more sun than reaches the air).
[[nodiscard]] Series from_monthly(const Monthly& monthly, const Place& place);

/// Reads an EnergyPlus weather file (open format): one year, one record an hour; 29 February is left out.
/// Wind comes down from 10 m to 2 m. Sun and rain of an hour are shared between its two ends, which keeps their sums.
/// Short gaps are bridged and listed as assumptions. Throws InputError with file, line and field.
[[nodiscard]] Series from_epw(const std::filesystem::path& file);

/// Which columns of a CSV hold what. Each text is the name of a column as its header stands, with the unit in square
/// brackets either there or here: "Tair [degF]" finds a header "Tair" or "Tair [degF]". Empty: not in the file.
struct CsvColumns {
  std::string time, air, humidity, wind, sun, rain;
  std::string low, high;       ///< daily files: lowest and highest air temperature, instead of `air` or beside it
  double wind_height_m = 2.0;  ///< height of the wind gauge
};

/// Reads a CSV (RFC 4180, comma, semicolon or tab) of hourly or daily rows in order of time, times as ISO 8601 in local
/// standard time without zone. The first whole year is used; short gaps are bridged and listed, longer ones, and
/// times given twice, are errors. What the file lacks is estimated as FAO-56 says and listed.
/// Throws InputError with file, line and column.
[[nodiscard]] Series from_csv(const std::filesystem::path& file, const CsvColumns& columns, const Place& place);

/// Daily mean of a series: 365 values of every field, for draft forecasts. Humidity is that of the mean vapour pressure
/// at the mean temperature.
[[nodiscard]] Series daily_means(const Series& series);

/// The weather `seconds` after 1 January 00:00, linear between steps, wrapping at the year's end. Takes the same short
/// time whatever the series; an empty series gives the defaults of Hour.
[[nodiscard]] Hour at(const Series& series, double seconds) noexcept;

/// Mean reference evapotranspiration of each month, m/s (FAO-56 Penman-Monteith on daily values).
[[nodiscard]] std::array<double, 12> monthly_eto_m_s(const Series& series);

}  // namespace stillheap::weather
