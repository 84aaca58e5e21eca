#include "core/quantity/units.hpp"

#include <algorithm>
#include <array>
#include <vector>

#include "core/quantity/database.hpp"

namespace stillheap::quantity {
namespace {

using D = Dimension;

constexpr bool quiet = false;  // understood, but not listed

constexpr std::array kinds{
    Kind{D::length, "a length", "1.2 m", "m", true},
    Kind{D::area, "an area", "2.5 m2", "m2"},
    Kind{D::volume, "a volume", "1.2 m3", "m3", true},
    Kind{D::mass, "a mass", "250 kg", "kg", true},
    Kind{D::duration, "a time", "30 min", "s", true},
    Kind{D::temperature, "a temperature", "18 degC", "degC"},
    Kind{D::temperature_step, "a temperature difference", "5 K", "K"},
    Kind{D::fraction, "a share", "60 %", "1"},
    Kind{D::angle, "an angle", "30 deg", "rad"},
    Kind{D::pressure, "a pressure", "150 kPa", "Pa"},
    Kind{D::speed, "a speed", "2.5 m/s", "m/s"},
    Kind{D::flow, "a flow", "12 L/min", "m3/s"},
    Kind{D::density, "a density", "350 kg/m3", "kg/m3"},
    Kind{D::conductivity, "an electrical conductivity", "1.2 dS/m", "S/m"},
    Kind{D::daily_energy, "a daily radiation", "18 MJ/m2/d", "J/m2/day"},
    Kind{D::depth_rate, "a depth a time", "3 mm/d", "m/s"},
    Kind{D::flow_resistance, "a resistance to air flow", "400 Pa s/m", "Pa.s/m"},
    Kind{D::thermal_resistance, "a thermal resistance", "0.05 m2 K/W", "m2.K/W"},
    Kind{D::money_per_mass, "a price by mass", "40 per t", "kg", false, D::mass, true},
    Kind{D::money_per_volume, "a price by volume", "12 per m3", "m3", false, D::volume, true},
    Kind{D::money_per_length, "a price by length", "2.40 per m", "m", false, D::length, true},
    Kind{D::money_per_area, "a price by area", "3.10 per m2", "m2", false, D::area, true},
    Kind{D::money_per_time, "a wage", "18 per h", "s", false, D::duration, true},
    Kind{D::money_per_piece, "a price a piece", "9.50 each", "1", false, D::money_per_piece, true},
    Kind{D::rate, "a rate", "5 %/d", "1/s"},
};

// "gal" is the US liquid gallon, "oz" and "lb" are avoirdupois, "ft" and "in" are international.
// The database rounds gallon and ounce to seven digits; their exact definitions are written out here.
// A bare "ton" is left out on purpose: it means three different masses.
constexpr std::array table{
    Unit{D::length, "m", "m"},
    Unit{D::length, "cm", "cm"},
    Unit{D::length, "mm", "mm"},
    Unit{D::length, "km", "km"},
    Unit{D::length, "ft", "international_foot"},
    Unit{D::length, "in", "international_inch"},
    Unit{D::length, "yd", "3 international_foot"},
    Unit{D::length, "foot", "international_foot", quiet},
    Unit{D::length, "feet", "international_foot", quiet},
    Unit{D::length, "inch", "international_inch", quiet},
    Unit{D::length, "inches", "international_inch", quiet},
    Unit{D::length, "mi", "international_mile", quiet},
    Unit{D::area, "m2", "m2"},
    Unit{D::area, "cm2", "cm2"},
    Unit{D::area, "ha", "hectare"},
    Unit{D::area, "ft2", "international_foot2"},
    Unit{D::area, "yd2", "9 international_foot2"},
    Unit{D::area, "in2", "international_inch2", quiet},
    Unit{D::volume, "m3", "m3"},
    Unit{D::volume, "L", "L"},
    Unit{D::volume, "l", "L", quiet},
    Unit{D::volume, "mL", "mL", quiet},
    Unit{D::volume, "yd3", "27 international_foot3"},
    Unit{D::volume, "ft3", "international_foot3"},
    Unit{D::volume, "gal", "231 international_inch3"},
    Unit{D::volume, "gallon", "231 international_inch3", quiet},
    Unit{D::volume, "gallons", "231 international_inch3", quiet},
    Unit{D::volume, "US gallon", "231 international_inch3", quiet},
    Unit{D::volume, "US gal", "231 international_inch3", quiet},
    Unit{D::volume, "qt", "57.75 international_inch3", quiet},
    Unit{D::mass, "kg", "kg"},
    Unit{D::mass, "g", "g"},
    Unit{D::mass, "t", "metric_ton"},
    Unit{D::mass, "lb", "avoirdupois_pound"},
    Unit{D::mass, "lbs", "avoirdupois_pound", quiet},
    Unit{D::mass, "oz", "avoirdupois_pound/16"},
    Unit{D::mass, "short ton", "short_ton"},
    Unit{D::duration, "s", "s"},
    Unit{D::duration, "min", "minute"},
    Unit{D::duration, "h", "hour"},
    Unit{D::duration, "d", "day"},
    Unit{D::duration, "week", "7 day"},
    Unit{D::duration, "weeks", "7 day", quiet},
    Unit{D::duration, "hr", "hour", quiet},
    Unit{D::duration, "hours", "hour", quiet},
    Unit{D::duration, "hour", "hour", quiet},
    Unit{D::duration, "day", "day", quiet},
    Unit{D::duration, "days", "day", quiet},
    Unit{D::duration, "minutes", "minute", quiet},
    Unit{D::temperature, "degC", "degC"},
    Unit{D::temperature, "degF", "degF"},
    Unit{D::temperature, "K", "K"},
    Unit{D::temperature, "C", "degC", quiet},
    Unit{D::temperature, "F", "degF", quiet},
    Unit{D::temperature_step, "K", "K"},
    Unit{D::temperature_step, "degC", "K"},
    Unit{D::temperature_step, "degF", "degree_rankine"},
    Unit{D::fraction, "%", "percent"},
    Unit{D::fraction, "percent", "percent", quiet},
    Unit{D::angle, "deg", "degree"},
    Unit{D::angle, "rad", "radian"},
    Unit{D::angle, "degrees", "degree", quiet},
    Unit{D::pressure, "Pa", "Pa"},
    Unit{D::pressure, "kPa", "kPa"},
    Unit{D::pressure, "bar", "bar"},
    Unit{D::pressure, "MPa", "MPa"},
    Unit{D::pressure, "psi", "psi"},
    Unit{D::pressure, "lb/ft2", "pound_force/international_foot2"},
    Unit{D::pressure, "hPa", "hPa", quiet},
    Unit{D::pressure, "ksi", "1000 psi", quiet},
    Unit{D::speed, "m/s", "m/s"},
    Unit{D::speed, "km/h", "km/hour"},
    Unit{D::speed, "mph", "international_mile/hour"},
    Unit{D::speed, "ft/min", "international_foot/minute"},
    Unit{D::speed, "mm/s", "mm/s", quiet},
    Unit{D::flow, "L/min", "L/minute"},
    Unit{D::flow, "L/h", "L/hour"},
    Unit{D::flow, "L/s", "L/s"},
    Unit{D::flow, "m3/h", "m3/hour"},
    Unit{D::flow, "gpm", "231 international_inch3/minute"},
    Unit{D::flow, "gph", "231 international_inch3/hour"},
    Unit{D::flow, "gal/min", "231 international_inch3/minute", quiet},
    Unit{D::flow, "gal/h", "231 international_inch3/hour", quiet},
    Unit{D::flow, "l/min", "L/minute", quiet},
    Unit{D::density, "kg/m3", "kg/m3"},
    Unit{D::density, "kg/L", "kg/L"},
    Unit{D::density, "t/m3", "metric_ton/m3"},
    Unit{D::density, "lb/yd3", "avoirdupois_pound/(27 international_foot3)"},
    Unit{D::density, "lb/ft3", "avoirdupois_pound/international_foot3"},
    Unit{D::density, "g/L", "g/L", quiet},
    Unit{D::conductivity, "dS/m", "dS/m"},
    Unit{D::conductivity, "mS/cm", "mS/cm"},
    Unit{D::conductivity, "uS/cm", "uS/cm"},
    Unit{D::conductivity, "S/m", "S/m"},
    Unit{D::conductivity, "mmho/cm", "mS/cm", quiet},
    Unit{D::daily_energy, "MJ/m2/d", "MJ/m2/day"},
    Unit{D::daily_energy, "kWh/m2/d", "kW.hour/m2/day"},
    Unit{D::daily_energy, "W/m2", "W/m2"},
    Unit{D::daily_energy, "MJ/m2/day", "MJ/m2/day", quiet},
    Unit{D::daily_energy, "kWh/m2/day", "kW.hour/m2/day", quiet},
    Unit{D::depth_rate, "mm/d", "mm/day"},
    Unit{D::depth_rate, "mm/h", "mm/hour"},
    Unit{D::depth_rate, "in/d", "international_inch/day"},
    Unit{D::depth_rate, "mm/day", "mm/day", quiet},
    Unit{D::depth_rate, "in/day", "international_inch/day", quiet},
    Unit{D::flow_resistance, "Pa s/m", "Pa.s/m"},
    Unit{D::thermal_resistance, "m2 K/W", "m2.K/W"},
    Unit{D::thermal_resistance, "ft2 degF h/BTU", "international_foot2.degree_rankine.hour/Btu"},
    Unit{D::money_per_piece, "each", "1"},
    Unit{D::rate, "%/d", "percent/day"},
    Unit{D::rate, "per d", "1/day"},
    Unit{D::rate, "/d", "1/day", quiet},
    Unit{D::rate, "/day", "1/day", quiet},
    Unit{D::rate, "per day", "1/day", quiet},
    Unit{D::rate, "%/day", "percent/day", quiet},
};

std::vector<Conversion> convert_table() {
  std::vector<Conversion> conversions;
  conversions.reserve(table.size());
  for (const Unit& unit : table)
    conversions.push_back(ask_database(unit.definition, kind_of(unit.dimension).si).value());
  return conversions;
}

}  // namespace

std::span<const Unit> units() noexcept { return table; }

const Kind& kind_of(Dimension dimension) noexcept {
  return *std::find_if(kinds.begin(), kinds.end(), [&](const Kind& kind) { return kind.dimension == dimension; });
}

const Unit* find_unit(Dimension dimension, std::string_view written) noexcept {
  const auto* const found = std::find_if(table.begin(), table.end(), [&](const Unit& unit) {
    return unit.dimension == dimension && unit.written == written;
  });
  return found == table.end() ? nullptr : found;
}

Conversion conversion_of(const Unit& unit) {
  static const std::vector<Conversion> conversions = convert_table();  // asked once, then only read
  return conversions[static_cast<std::size_t>(&unit - table.data())];
}

}  // namespace stillheap::quantity
