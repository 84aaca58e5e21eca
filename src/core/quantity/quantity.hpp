#pragma once
#include <string>
#include <string_view>

namespace stillheap {

/// Which customary units the user reads. Files may mix both freely.
enum class UnitSystem { metric, us };

/// What kind of amount a text must hold. The comment names the SI unit of the parsed double.
enum class Dimension {
  length,              ///< m
  area,                ///< m2
  volume,              ///< m3
  mass,                ///< kg
  duration,            ///< s
  temperature,         ///< degC (absolute temperatures are kept in Celsius at the edge)
  temperature_step,    ///< K
  fraction,            ///< 1 (accepts "60 %", "0.6")
  angle,               ///< rad
  pressure,            ///< Pa
  speed,               ///< m/s
  flow,                ///< m3/s
  density,             ///< kg/m3
  conductivity,        ///< S/m, electrical ("1.2 dS/m")
  daily_energy,        ///< J/m2 per day ("18 MJ/m2/d", "210 W/m2")
  depth_rate,          ///< m/s ("3 mm/day")
  flow_resistance,     ///< Pa s/m
  thermal_resistance,  ///< m2 K/W
  money_per_mass,      ///< 1/kg ("40 per t")
  money_per_volume,    ///< 1/m3 ("12 per m3")
  money_per_length,    ///< 1/m
  money_per_area,      ///< 1/m2
  money_per_time,      ///< 1/s ("18 per h")
  money_per_piece,     ///< 1 ("9.50 each")
  rate,                ///< 1/s ("5 %/d", "0.05 per d")
};

}  // namespace stillheap

namespace stillheap::quantity {

/// Reads one amount with its unit: "12 ft 6 in", "5 gal", "60 %", "80 degF", "1.2 m3", "12 ft 6 1/2 in",
/// "40 per t", "9.50 each". Lengths, volumes, masses and times may be sums of parts, each in a smaller unit
/// than the one before; a number may be a fraction ("1/32 in"). "gal" is the US liquid gallon. Units that are
/// not in the list of accepted_units but that UDUNITS-2 knows ("acre", "dm3") are taken as well.
/// Only shares may stand without a unit, and then between 0 and 1.
/// Returns the value in the SI unit noted at the Dimension.
/// Throws InputError (where = `where`) naming the text and the accepted units; RunError when the unit
/// database is missing. Safe to call from several threads.
[[nodiscard]] double parse(std::string_view text, Dimension dimension, std::string_view where = "");

/// Writes an SI value for people, in the given system, with a sensible unit and `digits` significant
/// digits (trailing zeros dropped): 1.905 m, length, 4 digits -> "1.905 m" or "6 ft 3 in". Prices are
/// written to the cent instead. The text can be read back by parse. Not finite: "unknown".
[[nodiscard]] std::string format(double si, Dimension dimension, UnitSystem system, int digits = 3);

/// Writes a length the way it is marked on a workbench: to 1 mm or 1/16 in, halves up. 0.3020 -> "302 mm" or
/// "11 7/8 in"; from 4 ft on in feet and inches, "12 ft 6 in". For drill sizes take format instead.
[[nodiscard]] std::string format_workshop(double length_m, UnitSystem system);

/// An end of a band in the unit in which its middle is told: "2.81 yd3 (0.84 yd3 to 3.61 yd3)".
[[nodiscard]] std::string format_beside(double si, double beside_si, Dimension dimension, UnitSystem system);

/// Pressure on ground, base and wall: in the US always pounds a square foot, as codes give it: "1348 lb/ft2", "65.2
/// kPa".
[[nodiscard]] std::string format_ground(double pressure_pa, UnitSystem system);

/// Water by mass as the volume people draw, 1 kg as 1 L: litres or US gallons whatever the amount.
[[nodiscard]] std::string format_water(double kg, UnitSystem system, int digits = 3);

/// Sets a formatted amount for print: "1.2 m3" -> "1.2 m\u00b3", "55 degC" -> "55 \u00b0C" (UTF-8). Only for show.
[[nodiscard]] std::string typeset(std::string_view formatted);

/// The SI unit of the parsed double, as UDUNITS-2 writes it: "m3", "kg"; "1" for a share.
[[nodiscard]] std::string_view si_unit(Dimension dimension) noexcept;

/// What a dimension is called in a sentence ("a length") and an amount as an example of it ("1.2 m").
[[nodiscard]] std::string noun(Dimension dimension);
[[nodiscard]] std::string example(Dimension dimension);

/// The units a user may write for a dimension, for messages and the generated docs: "m, cm, mm, ft, in".
[[nodiscard]] std::string accepted_units(Dimension dimension);

}  // namespace stillheap::quantity
