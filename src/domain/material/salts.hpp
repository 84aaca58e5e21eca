#pragma once
#include <array>
#include <string_view>

/// Electrical conductivity of extracts, and the salt behind it. 1 dS/m = 0.1 S/m.
namespace stillheap::material {

/// One published line from the 1:5 extract to the saturated extract, both in S/m.
struct ExtractLine {
  std::string_view source;
  double slope = 0.0;
  double offset_s_m = 0.0;
};

/// The lines of the Australian soil chemical methods, 14B1 table 14.2 (read). They were fitted to soils: no line for
/// compost is claimed, and their spread is the honest uncertainty.
[[nodiscard]] const std::array<ExtractLine, 4>& extract_lines();

struct Spread {
  double low = 0.0;
  double middle = 0.0;  ///< mean of the lines
  double high = 0.0;
};

/// Conductivity of the saturated extract from that of the 1:5 extract, with the spread of the lines. Never below 0.
[[nodiscard]] Spread saturated_conductivity_s_m(double conductivity_1_5_s_m);

/// Salt in solution, kg per m3 of water: 640 mg/l per dS/m (from memory: FAO Irrigation and Drainage Paper 29,
/// table 1). For mixed salts below 5 dS/m; pure chlorides have a fifth to a quarter less.
[[nodiscard]] double salt_in_water_kg_m3(double conductivity_s_m);

/// Soluble salt, kg/kg dry matter, behind a 1:5 extract (5 l of water a kg of dry matter).
[[nodiscard]] double soluble_salt_dry(double conductivity_1_5_s_m);

}  // namespace stillheap::material
