#pragma once
#include <array>
#include <filesystem>
#include <string>
#include <vector>

#include "base/note.hpp"

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

/// One value an hour over a whole year (8760), from 1 January 00:00 local standard time; repeats each year.
struct Series {
  std::vector<Hour> hours;
  Place place;
  std::string source;  ///< "monthly normals", "EPW file x", "CSV file x"
  Assumptions assumptions;
};

/// Smooth daily means whose monthly averages equal the normals, with a diurnal wave.
[[nodiscard]] Series from_monthly(const Monthly& monthly, const Place& place);

/// Reads an EnergyPlus weather file (open format). Throws InputError with file, line and field.
[[nodiscard]] Series from_epw(const std::filesystem::path& file);

/// Which columns of a CSV hold what; `units` are texts such as "degF". Empty: not in the file.
struct CsvColumns {
  std::string time, air, humidity, wind, sun, rain;
};
[[nodiscard]] Series from_csv(const std::filesystem::path& file, const CsvColumns& columns, const Place& place);

/// Daily mean of a series: 365 values of every field, for draft forecasts.
[[nodiscard]] Series daily_means(const Series& series);

/// The weather `seconds` after 1 January 00:00, linear between hours, wrapping at the year's end.
[[nodiscard]] Hour at(const Series& series, double seconds) noexcept;

/// Mean reference evapotranspiration of each month, m/s (FAO-56 Penman-Monteith on daily values).
[[nodiscard]] std::array<double, 12> monthly_eto_m_s(const Series& series);

}  // namespace stillheap::weather
