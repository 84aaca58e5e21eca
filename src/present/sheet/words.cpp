#include "present/sheet/words.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numeric>

#include "core/base/constants.hpp"
#include "core/base/plain_number.hpp"

namespace stillheap::sheet {
namespace {

constexpr double foot_m = 0.3048;  // exact, international foot 1959

AxisUnit through_parse(const std::string& unit, Dimension dimension) {
  const double zero = quantity::parse("0 " + unit, dimension);
  const double one = quantity::parse("1 " + unit, dimension);
  const double scale = 1.0 / (one - zero);
  return {unit, scale, -zero * scale};
}

}  // namespace

std::string decimal(double value, int decimals) { return plain::decimal(value, decimals); }

std::vector<int> whole_percent(const std::vector<double>& parts) {
  const double total = std::accumulate(parts.begin(), parts.end(), 0.0);
  std::vector<int> shares(parts.size(), 0);
  if (!(total > 0.0)) return shares;
  std::vector<std::size_t> order(parts.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const auto exact = [&](std::size_t i) { return 100.0 * parts[i] / total; };
  int missing = 100;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    shares[i] = static_cast<int>(exact(i) + 1e-9);
    missing -= shares[i];
  }
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return exact(a) - shares[a] > exact(b) - shares[b]; });
  for (std::size_t i = 0; i < order.size() && missing > 0; ++i, --missing) ++shares[order[i]];
  return shares;
}

std::string money(double value, std::string_view currency) {
  const std::string amount = decimal(value, 2);
  if (currency.empty()) return amount + " (currency not named)";
  return amount + "\u00A0" + std::string(currency);
}

std::string clock_time(double hours) {
  const long minutes = std::lround(hours * 12.0) * 5;
  if (minutes < 60) return std::to_string(minutes) + " min";
  std::string text = std::to_string(minutes / 60) + " h";
  if (minutes % 60 != 0) text += " " + std::to_string(minutes % 60) + " min";
  return text;
}

std::string counted_days(double days) {
  const std::string count = decimal(days, 0);
  return count + (count == "1" ? " day" : " days");
}

std::string degrees(double radians) {
  const double turned = radians * 180.0 / constant::pi;
  const bool whole = std::abs(turned - std::round(turned)) < 0.05;
  return decimal(turned, whole ? 0 : 1) + "°";
}

std::string scientific(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.1e", value);
  return text;
}

std::string temperature(double celsius, UnitSystem units) { return quantity::whole_degrees(celsius, units); }

std::string span_of(const std::string& low, const std::string& high) {
  if (low == high) return low;
  const std::size_t low_space = low.find(' ');
  const std::size_t high_space = high.find(' ');
  const bool one_unit = low_space != std::string::npos && high_space != std::string::npos &&
                        low.substr(low_space) == high.substr(high_space) &&
                        low.find(' ', low_space + 1) == std::string::npos;
  return (one_unit ? low.substr(0, low_space) : low) + " to " + high;
}

std::string temperature_span(const forecast::Banded& band, UnitSystem units) {
  return span_of(temperature(band.low, units), temperature(band.high, units));
}

std::string percent_span(const forecast::Banded& band, int decimals) {
  return span_of(percent(band.low, decimals), percent(band.high, decimals));
}

std::string amount_span(const forecast::Banded& band, Dimension dimension, UnitSystem units) {
  return span_of(quantity::format_beside(band.low, band.middle, dimension, units),
                 quantity::format_beside(band.high, band.middle, dimension, units));
}

std::string line_load(double newton_per_m, UnitSystem units) {
  if (units == UnitSystem::us) {
    return quantity::format(newton_per_m * foot_m / constant::gravity_m_s2, Dimension::mass, units) + " on each ft";
  }
  return newton_per_m < 1000.0 ? decimal(newton_per_m, 0) + " N/m" : decimal(newton_per_m / 1000.0, 2) + " kN/m";
}

std::string force(double newton, UnitSystem units) {
  if (units == UnitSystem::us) return quantity::format(newton / constant::gravity_m_s2, Dimension::mass, units);
  return newton < 1000.0 ? decimal(newton, 0) + " N" : decimal(newton / 1000.0, 1) + " kN";
}

std::string water_volume(double kg, UnitSystem units, int digits) { return quantity::format_water(kg, units, digits); }

AxisUnit axis_unit(Dimension dimension, UnitSystem units) {
  const bool us = units == UnitSystem::us;
  switch (dimension) {
    case Dimension::temperature:
      return through_parse(us ? "degF" : "degC", dimension);
    case Dimension::fraction:
      return {"%", 100.0, 0.0};
    case Dimension::mass:
      return through_parse(us ? "lb" : "kg", dimension);
    case Dimension::volume:
      return through_parse(us ? "yd3" : "m3", dimension);
    case Dimension::density:
      return through_parse(us ? "lb/yd3" : "kg/m3", dimension);
    default:
      return us ? through_parse("ft", Dimension::length) : through_parse("m", Dimension::length);
  }
}

}  // namespace stillheap::sheet
