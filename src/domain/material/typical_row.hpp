#pragma once
#include <array>
#include <span>
#include <string_view>

#include "domain/material/feedstock.hpp"

/// Rows of the typical table as they are written down: per cent and dS/m, each number beside its source. Turned into
/// feedstocks by typical.cpp.
namespace stillheap::material::table {

struct Cited {
  double value = 0.0;
  std::string_view source;
};

/// How the volatile solids of a class of materials decay.
struct Decay {
  std::array<double, pool_count> share_of_volatile{};
  std::array<double, pool_count> rate_20c_per_day{};
  std::string_view share_source;
  std::string_view rate_source;
};

/// How a class of materials takes air, water and heat, with where the five numbers come from.
struct Nature {
  Kind kind{};
  Habit habit;
  std::string_view air_source;  ///< of particle size and envelope
  std::string_view water_source;
  std::string_view heat_source;  ///< of best and most temperature
};

struct Row {
  std::string_view id;
  std::string_view name;
  Cited moisture_percent_wet;
  Cited nitrogen_percent_dry;
  Cited ash_percent_dry;
  Cited density_kg_m3;
  Cited conductivity_ds_m;
  const Decay& decay;
  const Nature& nature;
  Cited carbon_percent_dry = {};  ///< without a source: volatile solids / 1.8
};

[[nodiscard]] std::span<const Row> wood_rows();
[[nodiscard]] std::span<const Row> crop_rows();
[[nodiscard]] std::span<const Row> manure_rows();
[[nodiscard]] std::span<const Row> kitchen_rows();

// Decay classes (typical_decay.cpp).
extern const Decay food, grass, fruit, coffee, grain, poultry, pig, cow, horse, hay, straw, leaf, hull, paper, wood,
    shoots, bark, seaweed, spent, ripe, deep_litter, poultry_litter, peat;

// Natures (typical_nature.cpp).
extern const Nature chips, shredded_bark, shavings, fine_wood, straws, dry_leaves, hulls, paper_sheets, green, scraps,
    juicy, marcs, solid_manure, bedded_manure, hen_dung, bird_litter, humus, moss_peat;

// Sources met more than once. "read": the number was read in a stored copy. "from memory": it was not.
inline constexpr std::string_view sheet =
    "agency fact sheet, table 3, characteristics of common composting materials (read; ranges as NRAES-54 table A.1)";
inline constexpr std::string_view sheet_middle =
    "middle of the range in an agency fact sheet, table 3, characteristics of common composting materials (read)";
inline constexpr std::string_view nraes = "from memory: Rynk et al. 1992, NRAES-54, table A.1";
inline constexpr std::string_view manual =
    "AHDB 2023, Nutrient Management Guide RB209, section 2, typical dry matter and nitrogen of manures (read)";
inline constexpr std::string_view manual_recalled =
    "from memory: AHDB 2023, Nutrient Management Guide RB209, section 2, typical nitrogen of farmyard manure";
inline constexpr std::string_view ash_recalled = "from memory: usual ash of this material, proximate analyses";
inline constexpr std::string_view salt_recalled = "from memory: middle of 1:5 extracts in composting papers";
inline constexpr std::string_view chosen = "chosen: no source found, a usual value";

}  // namespace stillheap::material::table
