#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "core/quantity/quantity.hpp"
#include "core/quantity/rounding.hpp"
#include "core/quantity/units.hpp"

namespace stillheap::quantity {
namespace {

using D = Dimension;

constexpr double in_m = 0.0254;

/// From this size on (SI) an amount is shown in this unit. The rows of a dimension go from small to large.
struct Step {
  Dimension dimension;
  UnitSystem system;
  double from_si;
  std::string_view unit;
};

constexpr auto metric = UnitSystem::metric;
constexpr auto us = UnitSystem::us;

// The sizes at which the unit changes are chosen for reading, each at one of the larger unit or where the
// trade changes over. US lengths from 6 ft to 100 ft are written in feet and inches.
constexpr std::array steps{
    Step{D::length, metric, 0.0, "mm"},
    Step{D::length, metric, 1.0, "m"},
    Step{D::length, metric, 1e4, "km"},
    Step{D::length, us, 0.0, "in"},
    Step{D::length, us, 72 * in_m, "ft"},
    Step{D::area, metric, 0.0, "cm2"},
    Step{D::area, metric, 0.01, "m2"},
    Step{D::area, us, 0.0, "ft2"},
    Step{D::volume, metric, 0.0, "mL"},
    Step{D::volume, metric, 1e-3, "L"},
    Step{D::volume, metric, 1.0, "m3"},
    Step{D::volume, us, 0.0, "gal"},
    Step{D::volume, us, 0.764554857984, "yd3"},
    Step{D::mass, metric, 0.0, "g"},
    Step{D::mass, metric, 1.0, "kg"},
    Step{D::mass, metric, 1000.0, "t"},
    Step{D::mass, us, 0.0, "oz"},
    Step{D::mass, us, 0.45359237, "lb"},
    Step{D::mass, us, 4535.9237, "short ton"},
    Step{D::temperature, metric, 0.0, "degC"},
    Step{D::temperature, us, 0.0, "degF"},
    Step{D::temperature_step, metric, 0.0, "K"},
    Step{D::temperature_step, us, 0.0, "degF"},
    Step{D::pressure, metric, 0.0, "Pa"},
    Step{D::pressure, metric, 1e3, "kPa"},
    Step{D::pressure, metric, 1e6, "MPa"},
    Step{D::pressure, us, 0.0, "lb/ft2"},
    Step{D::pressure, us, 6894.757, "psi"},
    Step{D::speed, metric, 0.0, "mm/s"},
    Step{D::speed, metric, 0.1, "m/s"},
    Step{D::speed, us, 0.0, "ft/min"},
    Step{D::speed, us, 0.44704, "mph"},
    Step{D::flow, metric, 0.0, "L/h"},
    Step{D::flow, metric, 1e-3 / 60, "L/min"},
    Step{D::flow, metric, 0.1 / 60, "m3/h"},
    Step{D::flow, us, 0.0, "gph"},
    Step{D::flow, us, 6.30901964e-5, "gpm"},
    Step{D::density, metric, 0.0, "kg/m3"},
    Step{D::density, us, 0.0, "lb/yd3"},
    Step{D::depth_rate, metric, 0.0, "mm/d"},
    Step{D::depth_rate, us, 0.0, "in/d"},
    Step{D::thermal_resistance, metric, 0.0, "m2 K/W"},
    Step{D::thermal_resistance, us, 0.0, "ft2 degF h/BTU"},
};

/// Dimensions the trade reads alike in both systems.
constexpr std::array same_everywhere{
    Step{D::duration, metric, 0.0, "s"},
    Step{D::duration, metric, 60.0, "min"},
    Step{D::duration, metric, 3600.0, "h"},
    Step{D::duration, metric, 172800.0, "d"},
    Step{D::fraction, metric, 0.0, "%"},
    Step{D::angle, metric, 0.0, "deg"},
    Step{D::conductivity, metric, 0.0, "dS/m"},
    Step{D::daily_energy, metric, 0.0, "MJ/m2/d"},
    Step{D::flow_resistance, metric, 0.0, "Pa s/m"},
    Step{D::rate, metric, 0.0, "%/d"},
};

double in_unit(double si, Dimension dimension, std::string_view unit) {
  const Conversion conversion = conversion_of(*find_unit(dimension, unit));
  return (si - conversion.offset) / conversion.factor;
}

/// The largest unit whose threshold the rounded amount reaches; "0.9999 m" counts as 1 m.
std::string_view choose_unit(double si, Dimension dimension, UnitSystem system, int digits) {
  const double size = std::abs(round_to_digits(si, digits)) * (1.0 + 1e-9);
  std::string_view chosen;
  for (const Step& step : steps) {
    if (step.dimension != dimension || step.system != system) continue;
    if (chosen.empty() || size >= step.from_si) chosen = step.unit;
  }
  for (const Step& step : same_everywhere) {
    if (step.dimension != dimension) continue;
    if (chosen.empty() || size >= step.from_si) chosen = step.unit;
  }
  return chosen;
}

/// Less than this (SI) reads as nothing: "0 %", not "0.00000000846 %". Chosen far below what anybody measures: 5 parts
/// in a million, a tenth of a micrometre, a tenth of a milligram, a cubic millimetre.
double least_shown(Dimension dimension) {
  switch (dimension) {
    case D::fraction:
      return 5e-6;
    case D::length:
      return 1e-7;
    case D::mass:
      return 1e-7;
    case D::volume:
      return 1e-9;
    default:
      return 0.0;
  }
}

/// "1/32 in": a drill size that is a whole number of 64ths below one inch. Empty when it is not.
std::string drill_size(double inches) {
  const double count = inches * 64.0;
  const double whole = std::round(count);
  if (whole < 1.0 || whole > 63.0 || std::abs(count - whole) > 1e-6) return {};
  int above = static_cast<int>(whole);
  int below = 64;
  while (above % 2 == 0) {
    above /= 2;
    below /= 2;
  }
  return std::to_string(above) + '/' + std::to_string(below) + " in";
}

std::string format_us_length(double length_m, int digits) {
  const double inches = round_to_digits(length_m / in_m, digits);
  const double size = std::abs(inches);
  if (std::string drill = drill_size(length_m / in_m); !drill.empty()) return drill;
  if (size < 72.0) return to_text(length_m / in_m, digits) + " in";
  if (size >= 1200.0) return to_text(length_m / (12 * in_m), digits) + " ft";
  const double feet = std::floor(size / 12.0);
  const double rest = size - 12.0 * feet;
  std::string text = (inches < 0.0 ? "-" : "") + to_text(feet, 4) + " ft";
  if (rest > 1e-9) text += ' ' + to_text(rest, std::max(1, digits - (rest >= 10.0 ? 1 : 2))) + " in";
  return text;
}

/// Prices go by the unit that makes them at least one, or else by the largest.
std::string format_price(double si, Dimension dimension, UnitSystem system) {
  if (dimension == D::money_per_piece) return money_text(si) + " each";
  const bool in_us = system == us;
  const bool dear = std::abs(si) >= (in_us ? 2.0 : 1.0);
  std::string_view unit = "h";
  if (dimension == D::money_per_mass) unit = in_us ? (dear ? "lb" : "short ton") : (dear ? "kg" : "t");
  if (dimension == D::money_per_volume) unit = in_us ? "yd3" : "m3";
  if (dimension == D::money_per_length) unit = in_us ? "ft" : "m";
  if (dimension == D::money_per_area) unit = in_us ? "ft2" : "m2";
  const double factor = conversion_of(*find_unit(kind_of(dimension).priced_per, unit)).factor;
  return money_text(si * factor) + " per " + std::string(unit);
}

}  // namespace

std::string format(double si, Dimension dimension, UnitSystem system, int digits) {
  if (!std::isfinite(si)) return "unknown";
  if (std::abs(si) < least_shown(dimension)) si = 0.0;
  if (kind_of(dimension).money) return format_price(si, dimension, system);
  if (dimension == D::length && system == us) return format_us_length(si, digits);
  const std::string_view unit = choose_unit(si, dimension, system, digits);
  return to_text(in_unit(si, dimension, unit), digits) + ' ' + std::string(unit);
}

std::string format_beside(double si, double beside_si, Dimension dimension, UnitSystem system) {
  const bool has_own_form = kind_of(dimension).money || (dimension == D::length && system == us);
  if (has_own_form || !std::isfinite(si) || !std::isfinite(beside_si)) return format(si, dimension, system);
  const std::string_view unit = choose_unit(beside_si, dimension, system, 3);
  return to_text(in_unit(si, dimension, unit), 3) + ' ' + std::string(unit);
}

std::string format_workshop(double length_m, UnitSystem system) {
  if (!(std::abs(length_m) < 1e6)) return "unknown";  // not a number, or nothing anyone builds
  constexpr double hair = 1e-9;  // of a step: a half that lost its last bit in a conversion still goes up
  const std::string sign = length_m < 0.0 ? "-" : "";
  const double size = std::abs(length_m);
  if (system == metric) {
    const double millimetres = std::floor(size * 1000.0 + 0.5 + hair);
    return (millimetres > 0.0 ? sign : "") + std::to_string(static_cast<long long>(millimetres)) + " mm";
  }
  const auto sixteenths = static_cast<long long>(std::floor(size / in_m * 16.0 + 0.5 + hair));
  constexpr long long a_foot = 192;
  const long long feet = sixteenths >= 4 * a_foot ? sixteenths / a_foot : 0;
  const long long rest = sixteenths - feet * a_foot;
  std::string text = sixteenths > 0 ? sign : "";
  if (feet > 0) text += std::to_string(feet) + " ft ";
  const std::string part = drill_size(static_cast<double>(rest % 16) / 16.0);
  if (part.empty()) return text + std::to_string(rest / 16) + " in";
  return text + (rest >= 16 ? std::to_string(rest / 16) + ' ' : "") + part;
}

std::string typeset(std::string_view formatted) {
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 8> signs{{{"m2", "m\u00b2"},
                                                                                       {"m3", "m\u00b3"},
                                                                                       {"ft2", "ft\u00b2"},
                                                                                       {"ft3", "ft\u00b3"},
                                                                                       {"yd3", "yd\u00b3"},
                                                                                       {"degC", "\u00b0C"},
                                                                                       {"degF", "\u00b0F"},
                                                                                       {" deg", "\u00b0"}}};
  std::string text(formatted);
  for (const auto& [plain, sign] : signs) {
    for (std::size_t at = text.find(plain); at != std::string::npos; at = text.find(plain, at + sign.size())) {
      text.replace(at, plain.size(), sign);
    }
  }
  return text;
}

}  // namespace stillheap::quantity
