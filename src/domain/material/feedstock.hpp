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
