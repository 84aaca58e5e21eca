#pragma once
#include <array>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace stillheap::material {

/// The three speeds at which organic matter goes: sugars and proteins, cellulose, ligno-cellulose.
inline constexpr std::size_t pool_count = 3;
enum Pool : std::size_t { fast = 0, medium = 1, slow = 2 };

/// Classes of materials that behave alike where nothing better is known: what a record teaches of one belongs to its
/// class. Manure counts with its bedding; ripe is what has decayed already, peat too.
enum class Kind : std::size_t { wood, dry_plant, fresh, manure, ripe };
inline constexpr std::size_t kind_count = 5;
inline constexpr std::array<std::string_view, kind_count> kind_names{"wood", "dry plant", "fresh", "manure", "ripe"};

/// How a material resists air, holds water and bears heat, shredded and soaked as a heap is filled.
struct Habit {
  double particle_size_m = 0.0;  ///< that resists air, see physics/permeability.hpp
  double envelope_kg_m3 = 0.0;   ///< dry matter over the volume of a piece with its inner pores
  double holding_dry = 0.0;      ///< water held against gravity, kg/kg dry
  double best_c = 0.0;           ///< temperature at which it decays fastest
  double most_c = 0.0;           ///< temperature at which its decay ends
};

/// For a material of which nothing is known. Chosen: middle of the typical table.
inline constexpr Habit middling_habit{0.45e-3, 330.0, 2.2, 57.0, 71.0};

/// What is known of one raw material, as delivered. Mass fractions say their basis in the name:
/// `_wet` is kg per kg of material as delivered, `_dry` is kg per kg of dry matter.
struct Feedstock {
  std::string id;    ///< key used in site files, for example "wood-chips"
  std::string name;  ///< what people call it

  double moisture_wet = 0.0;        ///< water, kg/kg wet
  double carbon_dry = 0.0;          ///< total organic carbon, kg/kg dry
  double nitrogen_dry = 0.0;        ///< total nitrogen, kg/kg dry
  double ash_dry = 0.0;             ///< mineral matter, kg/kg dry
  double bulk_density_kg_m3 = 0.0;  ///< loosely filled, as delivered
  double conductivity_s_m = 0.0;    ///< electrical, of the 1:5 extract (dry matter to water by mass), at 25 degC
  std::array<double, pool_count> pool_dry{};  ///< degradable solids, kg/kg dry; the rest of the volatile solids lasts
  std::array<double, pool_count> pool_rate_20c_per_s{};  ///< first-order rate at 20 degC with all other factors 1
  Kind kind = Kind::dry_plant;
  Habit habit = middling_habit;

  std::map<std::string, std::string, std::less<>> source;  ///< field name -> author, year, table
};

/// Typical values of common feedstocks, each number with its source.
[[nodiscard]] const std::vector<Feedstock>& typical_feedstocks();

/// Finds a typical feedstock by id; nothing if there is none.
[[nodiscard]] std::optional<Feedstock> find_typical(std::string_view id);

/// The ids closest to a mistyped one, best first (for error messages).
[[nodiscard]] std::vector<std::string> nearest_ids(std::string_view id, std::size_t most = 3);

/// The whole table as a Markdown page: every value with its source (docs/feedstocks.md is this text).
[[nodiscard]] std::string feedstock_markdown();

}  // namespace stillheap::material
