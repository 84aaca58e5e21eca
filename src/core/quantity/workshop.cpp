#include "core/quantity/workshop.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "core/base/plain_number.hpp"

namespace stillheap::quantity {
namespace {

constexpr double inch_m = 0.0254;  // exact, international inch 1959

}  // namespace

double workshop_step_m(UnitSystem system) noexcept { return system == UnitSystem::us ? inch_m / 16.0 : 0.001; }

double to_workshop_m(double length_m, UnitSystem system) noexcept {
  constexpr double hair = 1e-9;  // of a step, as format_workshop has it
  const double step = workshop_step_m(system);
  return std::copysign(std::floor(std::abs(length_m) / step + 0.5 + hair) * step, length_m);
}

std::string WorkshopLengths::operator()(double length_m) {
  const double error = std::abs(to_workshop_m(length_m, system_) - length_m);
  if (std::isfinite(error)) worst_m_ = std::max(worst_m_, error);
  return format_workshop(length_m, system_);
}

std::string WorkshopLengths::statement() const {
  constexpr double seen_m = 0.00005;  // less reads as 0.0 mm or 0.002 in: nothing was rounded
  if (worst_m_ < seen_m) return "";
  char worst[32];
  if (system_ == UnitSystem::us) {
    std::snprintf(worst, sizeof worst, "%.3f in", worst_m_ / inch_m);
  } else {
    std::snprintf(worst, sizeof worst, "%.1f mm", worst_m_ * 1000.0);
  }
  return std::string("Lengths are rounded to ") + (system_ == UnitSystem::us ? "1/16 in" : "1 mm") +
         "; the largest rounding on this sheet is " + worst + ".";
}

std::string format_ground(double pressure_pa, UnitSystem system) {
  if (system == UnitSystem::metric) return format(pressure_pa, Dimension::pressure, system);
  return plain::decimal(pressure_pa / parse("1 lb/ft2", Dimension::pressure), 0) + " lb/ft2";
}

std::string format_water(double kg, UnitSystem system, int digits) {
  static const double gallon_m3 = parse("1 gal", Dimension::volume);
  const bool us = system == UnitSystem::us;
  const double shown = kg / 1000.0 / (us ? gallon_m3 : 0.001);
  const std::string unit = us ? " gal" : " L";
  if (std::abs(shown) < 0.005) return "0" + unit;
  const double rounded = plain::round_to_digits(shown, digits);  // 9.996 is 10.0, not 10.00
  const int decimals =
      rounded >= 100.0 ? 0 : std::max(0, digits - 1 - static_cast<int>(std::floor(std::log10(std::max(rounded, 0.1)))));
  char text[48];
  std::snprintf(text, sizeof text, "%.*f", decimals, shown);
  return text + unit;
}

}  // namespace stillheap::quantity
