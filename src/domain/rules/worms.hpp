#pragma once
#include <optional>
#include <span>
#include <string_view>

/// When and where compost worms (Eisenia fetida and E. andrei) go into a heap. The one table of their limits: forecast,
/// plan, sheets, status and page read it.
namespace stillheap::rules::worms {

/// Cold end. They live from about 4 degC up and feed little below 10 degC: Edwards (ed.), Earthworm Ecology, 2nd ed.
/// 2004, table 18.3 (limits 4 to 30 degC, best 15 to 20), read; 10 degC chosen within it.
inline constexpr double least_c = 10.0;
/// Warm end at the core: 80 degF, common practice, no source; inside the limits of table 18.3.
inline constexpr double most_c = (80.0 - 32.0) / 1.8;
/// No place they can reach may be hotter: table 18.3, read.
inline constexpr double hottest_c = 30.0;
/// They live at 50 to 90 % and breed at 60 to 90 %: table 18.3, read (60 to 90 %); 50 %: public growers' guides, read.
inline constexpr double least_moisture_wet = 0.50;
inline constexpr double most_moisture_wet = 0.90;
/// They breathe through a wet skin and flee places short of air (the same chapter, read); the number is chosen.
inline constexpr double least_oxygen = 0.10;
/// Chosen: so long they need to go deep and breed before the top freezes.
inline constexpr double frost_free_days = 28.0;
/// Chosen: a cool start may still heat up.
inline constexpr double earliest_day = 28.0;

inline constexpr std::string_view source =
    "Edwards (ed.), Earthworm Ecology, 2nd ed. 2004, table 18.3; 80 degF: common practice, no source; 10 degC, oxygen, "
    "28 days: chosen";

/// Why there: the edge dries out and freezes first, channels are air; and once self-heating is over the middle is no
/// warmer than the edge, so there is no reason to keep away from it.
inline constexpr std::string_view place =
    "Put the worms with their bedding in six hollows as deep as a hand, midway between wall and channels: the edge "
    "dries "
    "and freezes first.";

inline constexpr std::string_view caution =
    "Use kinds that already live in your region and keep them out of woods and land without worms: strange ones change "
    "soils, and setting them free may be against the law.";

/// One day of a heap as worms would find it.
struct Day {
  double day = 0.0;  ///< since filling
  double core_c = 0.0, hottest_c = 0.0;
  double moisture_wet = 0.0;
  double oxygen = 0.0;           ///< mean of the heap
  double coldest_ahead_c = 0.0;  ///< coldest daily mean of the outside air in the next `frost_free_days`
  bool rests = true;             ///< it does not heat itself anew on that day
};

/// The first day, not before self-heating has ended nor the first weeks are over, on which all limits hold, it does not
/// heat anew and no frost is ahead. Nothing: no such day among those given.
[[nodiscard]] inline std::optional<double> first_day(std::span<const Day> days, double heat_end_day) {
  for (const Day& one : days) {
    if (one.day < heat_end_day || one.day < earliest_day) continue;
    const bool warm_enough = one.core_c >= least_c && one.core_c < most_c && one.hottest_c <= hottest_c;
    const bool wet_enough = one.moisture_wet >= least_moisture_wet && one.moisture_wet <= most_moisture_wet;
    if (one.rests && warm_enough && wet_enough && one.oxygen >= least_oxygen && one.coldest_ahead_c >= 0.0)
      return one.day;
  }
  return std::nullopt;
}

}  // namespace stillheap::rules::worms
