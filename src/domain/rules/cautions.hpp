#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// What can hurt someone, at the place of the work where it can. Every caution defers to local codes and
/// licensed practice; none replaces them.
namespace stillheap::rules {

/// Where in the work a caution belongs, in the order of the work.
enum class WorkPlace { building, filling, hot_phase, watering, winter, harvest, spreading };

[[nodiscard]] std::string_view name_of(WorkPlace place) noexcept;

/// What is known of the planned run. Unknown values stay empty; a caution that needs one is then shown.
struct Conditions {
  bool drinking_water_supply = true;
  bool has_manure = false;
  bool may_carry_weedkiller = false;  ///< hay, straw, grass or manure of grazing animals
  double brim_height_m = 0.0;         ///< of the tallest vessel
  std::vector<std::string> slender;   ///< names of the vessels that are taller than wide
  int vessels = 1;                    ///< kinds of vessel
  double pail_mass_kg = 0.0;          ///< a full pail, soaked
  double pail_limit_kg = 0.0;         ///< recommended limit for lifting it to the brim
  std::optional<double> ground_pressure_pa;
  std::optional<double> soil_bearing_pa;      ///< allowed, as given by the user
  std::optional<double> peak_c;               ///< upper end of the forecast's band
  std::optional<double> driest_moisture_wet;  ///< lower end of the forecast's band
  std::optional<double> drain_conductivity_s_m;
  std::optional<double> coldest_outside_c;
  bool hygiene_met_everywhere = false;  ///< the coldest place met a rule for static heaps
};

struct Warned {
  WorkPlace place{};
  std::string text;
  std::string source;
};

/// The cautions that apply, in the order of the work.
[[nodiscard]] std::vector<Warned> select_cautions(const Conditions& conditions);

/// Limits the cautions turn on.
namespace caution_limit {
/// Above this a heap is watched closely. Source: practice standard 317 job sheet (2002) asks to watch from
/// 165 degF and to act at 185 degF; a state guidance on debris piles acts at 160 degF. Chosen: 70 degC.
inline constexpr double hot_c = 70.0;
/// Act at once to cool. Source: practice standard 317 job sheet (2002), 185 degF.
inline constexpr double act_c = (185.0 - 32.0) / 1.8;
/// Dry enough to feed self-ignition. Source: NRAES-54, On-Farm Composting Handbook 1992, 25 to 45 % moisture
/// (from memory).
inline constexpr double dry_moisture_wet = 0.45;
/// Drainage this salty harms sensitive plants. Source: FAO-29 rev. 1 table 1, severe above 3 dS/m (from memory).
inline constexpr double salty_s_m = 0.3;
/// Height that cannot be filled from the ground with a level lift. Chosen: about the elbow of a standing worker.
inline constexpr double reach_height_m = 1.1;
/// Height over least width from which a vessel counts as taller than wide.
inline constexpr double slenderness = 1.0;
}  // namespace caution_limit

}  // namespace stillheap::rules
