#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "core/quantity/quantity.hpp"

/// What is allowed, where more than one reader asks: the site file, planning on the page, the command line, the records
/// and the import. A limit that one reader alone knows stands in that reader's own table.
namespace stillheap::limits {

/// The ends of one amount, both written as in a site file.
struct Limit {
  std::string_view name;                 ///< "diameter"; the page gets it under this name
  std::optional<Dimension> dimension{};  ///< none: a plain number
  std::string_view least{};
  std::string_view most{};
  bool least_itself = true;  ///< false: only what lies above `least`
  std::string_view why{};    ///< source, or "chosen" and the reason
};

using enum Dimension;
inline constexpr Limit diameter{"diameter", length, "0.3 m", "6 m", true, "chosen: from a pail to a round stack"};
inline constexpr Limit side{"side", length, "0.3 m", "20 m", true, "chosen: from a pail to a long bay"};
inline constexpr Limit height{"height", length, "0.3 m", "4 m", true, "chosen: higher than anybody fills by hand"};
inline constexpr Limit fill_height{"fill_height", length, "0.1 m", "4 m", true, "chosen: at most the height"};
inline constexpr Limit channel_diameter{
    "channel_diameter", length, "20 mm", "400 mm", true, "chosen: from a hose to the widest drain pipe at hand"};
inline constexpr Limit channels{
    "channels", {}, "0", "60", true, "chosen: above it the search for the longest air path takes seconds to minutes"};
inline constexpr Limit ring_radius{"ring_radius", length, "0 m", "10 m", false, "chosen: half the longest side"};
inline constexpr Limit channel_place{"channel_place", length, "-10 m", "10 m", true, "chosen: half the longest side"};
inline constexpr Limit grid_lines{"grid_lines", {}, "1", "20", true, "chosen"};
inline constexpr Limit soaked_moisture{
    "soaked_moisture", fraction, "20 %", "85 %", true, "chosen: dry straw to what only a sludge holds"};
inline constexpr Limit carbon_to_nitrogen{
    "carbon_to_nitrogen", {}, "5", "200", true, "chosen: manure slurry to sawdust"};
inline constexpr Limit water_a_day{"water_a_day", mass, "0 kg", "500 kg", true, "chosen: for one vessel"};
inline constexpr Limit forecast_days{"forecast_days", {},   "1",
                                     "540",           true, "chosen: a harvest after a year and a half"};
inline constexpr Limit members{"members", {}, "1", "500", true, "chosen: the band moves no more"};
inline constexpr Limit picture_day{"picture_day", {}, "0", "540", false, "chosen: days of a forecast"};

// Of the records. A probe stands in a vessel, so its places are bounded by the vessels' sizes.
inline constexpr Limit probe_depth{"probe_depth", length, "0 m", height.most, true, "chosen: the highest vessel"};
inline constexpr Limit probe_height{"probe_height", length, "0 m", height.most, true, "chosen: the highest vessel"};
inline constexpr Limit probe_radius{"probe_radius", length, "0 m", "15 m", true, "chosen: half the longest diagonal"};
inline constexpr Limit probe_angle{"probe_angle", angle, "-360 deg", "360 deg", true, "chosen: once round"};
inline constexpr Limit fill_volume{"fill_volume", volume, "0 m3", "1600 m3", false, "chosen: 20 m by 20 m, 4 m high"};
inline constexpr Limit lot_mass{"lot_mass", mass, "0 kg", "1000 t", false, "chosen: forty lorries"};
inline constexpr Limit event_volume{"event_volume", volume, "0 m3", "1600 m3", false, "chosen: a vessel full"};
inline constexpr Limit event_mass{"event_mass", mass, "0 kg", "1000 t", false, "chosen: a vessel full"};
inline constexpr Limit event_duration{"event_duration", duration, "0 s", "7 d", false, "chosen: a week's soaking"};
inline constexpr Limit spread_area{"spread_area", area, "0 m2", "1000 ha", false, "chosen: a large farm"};
inline constexpr Limit year{"year", {}, "1990", "2200", true, "chosen: no logger is older; no plan looks farther"};

/// Every limit above.
[[nodiscard]] std::span<const Limit* const> all() noexcept;

/// The ends in the SI unit of the dimension.
[[nodiscard]] double least(const Limit& limit);
[[nodiscard]] double most(const Limit& limit);

/// Whether a value in SI lies within; NaN does not. An end is met when it is missed by rounding alone.
[[nodiscard]] bool holds(const Limit& limit, double si);

/// "0.3 m to 6 m", "1 ft to 19 ft 8 in"; with an end that is left out: "above 0 m to 10 m".
[[nodiscard]] std::string allowed(const Limit& limit, UnitSystem system = UnitSystem::metric);

/// The same in both systems, for who does not know which the reader uses: "0.3 m to 6 m (1 ft to 19 ft 8 in)".
[[nodiscard]] std::string allowed_in_both(const Limit& limit);

/// The SI unit as the page and JSON name it: "m", "1", "kg".
[[nodiscard]] std::string_view unit(const Limit& limit) noexcept;

}  // namespace stillheap::limits
