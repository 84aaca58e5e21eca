#include <algorithm>
#include <array>

#include "core/base/date.hpp"
#include "planning/site/build.hpp"

namespace stillheap::site {
namespace {

constexpr std::array<std::string_view, 6> normals{"low", "high", "humidity", "sun", "wind", "rain"};

void copy(Reader& reader, const Section& section, std::string_view name, std::array<double, 12>& months) {
  const std::vector<double>& given_months = numbers(reader, section, name);
  if (given_months.size() == months.size()) std::copy(given_months.begin(), given_months.end(), months.begin());
}

void build_monthly(Reader& reader, const Section& section, weather::Monthly& monthly) {
  for (const std::string_view name : normals) {
    if (!given(section, name)) miss(reader, section, name, "beside the other monthly normals");
  }
  copy(reader, section, "low", monthly.low_c);
  copy(reader, section, "high", monthly.high_c);
  copy(reader, section, "humidity", monthly.humidity);
  copy(reader, section, "sun", monthly.sun_j_m2_day);
  copy(reader, section, "wind", monthly.wind_m_s);
  copy(reader, section, "rain", monthly.rain_m_month);
  for (std::size_t i = 0; i < date::month_names.size(); ++i) {
    if (!(monthly.low_c[i] > monthly.high_c[i])) continue;
    refuse(reader, section, "low",
           "has " + shown(reader, monthly.low_c[i], Dimension::temperature) + " in " + date::month_names[i] +
               ", above that month's high",
           "give at most " + shown(reader, monthly.high_c[i], Dimension::temperature));
  }
}

void build_csv(Reader& reader, const Section& section, WeatherChoice& weather) {
  const auto column = [&](std::string_view name) {
    return given(section, name) ? word(reader, section, name) : std::string{};
  };
  weather::CsvColumns& columns = weather.columns;
  columns.time = column("time");
  columns.air = column("air");
  columns.low = column("low");
  columns.high = column("high");
  columns.humidity = column("humidity");
  columns.wind = column("wind");
  columns.sun = column("sun");
  columns.rain = column("rain");
  columns.wind_height_m = amount(reader, section, "wind_height");
  const bool extremes = given(section, "low") && given(section, "high");
  if (!given(section, "air") && !extremes) miss(reader, section, "air", "and so is the pair of \"low\" and \"high\"");
}

}  // namespace

void build_weather(Reader& reader, const Document& document, Site& site) {
  const Block& block = only_block(document, "weather");
  const Section& csv = part(block, "weather.csv");
  if (!block.own.present) return;
  const bool monthly =
      std::any_of(normals.begin(), normals.end(), [&](std::string_view name) { return given(block.own, name); });
  const bool epw = given(block.own, "epw");
  const int sources = int{monthly} + int{epw} + int{csv.present};
  if (sources != 1) {
    add(reader.report, block.own.line, block.own.path,
        sources == 0 ? "is empty" : "names " + std::to_string(sources) + " sources of weather",
        "give exactly one: monthly normals (low, high, humidity, sun, wind, rain), epw, or [weather.csv]");
    return;
  }
  if (monthly) build_monthly(reader, block.own, site.weather.monthly);
  if (epw) {
    site.weather.source = WeatherSource::epw;
    site.weather.file = site.file.parent_path() / word(reader, block.own, "epw");
  }
  if (csv.present) {
    site.weather.source = WeatherSource::csv;
    site.weather.file = site.file.parent_path() / word(reader, csv, "file");
    build_csv(reader, csv, site.weather);
  }
}

}  // namespace stillheap::site
