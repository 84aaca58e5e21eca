#include <cmath>

#include "domain/weather/series.hpp"
#include "fuzz.hpp"

/// A weather file. The first byte tells which: EPW, hourly CSV or daily CSV.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace stillheap;
  static const fuzz::Scratch scratch("weather");
  if (size == 0) return 0;
  const auto file = scratch.write("weather", fuzz::text_of(data + 1, size - 1));
  weather::Place place;
  place.latitude_rad = 0.7;
  weather::CsvColumns columns;
  columns.time = "time";
  columns.rain = "rain [mm]";
  if (data[0] % 3 == 1) {
    columns.air = "air [degC]";
    columns.humidity = "humidity [%]";
    columns.wind = "wind [m/s]";
    columns.sun = "sun [W/m2]";
  } else {
    columns.low = "low [degC]";
    columns.high = "high [degC]";
  }
  fuzz::try_it([&] {
    const weather::Series series = data[0] % 3 == 0 ? weather::from_epw(file) : weather::from_csv(file, columns, place);
    fuzz::expect(!series.hours.empty(), "a series of nothing was taken");
    for (const weather::Hour& hour : series.hours) {
      fuzz::expect(std::isfinite(hour.air_c) && std::isfinite(hour.humidity) && std::isfinite(hour.sun_w_m2) &&
                       std::isfinite(hour.rain_m_s) && std::isfinite(hour.longwave_w_m2),
                   "an hour of weather is not finite");
    }
  });
  return 0;
}
