#pragma once
#include <array>

#include "core/base/note.hpp"
#include "planning/water/line.hpp"

namespace stillheap::water {

/// What leaves one vessel in each calendar month, mean over the days of that month, kg/s.
struct MonthlyLoss {
  std::array<double, 12> evaporated_kg_s{};  ///< net of metabolic water
  std::array<double, 12> rain_kg_s{};        ///< falls on the open top and stays
  std::array<double, 12> eto_m_s{};          ///< shown beside the need for comparison; plan_water does not use it
};

struct MonthlyWater {
  std::array<double, 12> need_kg_day{};     ///< to let out of the line, overspray and leaching included
  std::array<double, 12> minutes_day{};     ///< not rounded
  std::array<double, 12> drained_kg_day{};  ///< leaves at the base: leaching share and rain beyond evaporation
  std::array<double, 12> salt_out_g_day{};
  double most_kg_day = 0.0;
};

/// Daily run minutes by month: (evaporation - rain) / application efficiency / flow, plus a leaching share.
///
///   need = max(0, evaporated - rain) / (1 - L) / efficiency
///   drained = L max(0, evaporated - rain) / (1 - L) + max(0, rain - evaporated)
///
/// L: the share of water entering the material that drains (leaching fraction as in FAO-29 rev. 1, eq. 7; from
/// memory), 0 to below 1. Efficiency: the share of what leaves the line that enters the material, above 0 to 1.
/// Throws InputError for values outside those ranges, or if water is needed and the line gives none.
[[nodiscard]] MonthlyWater plan_water(const MonthlyLoss& loss, const LineFlow& flow, double application_efficiency,
                                      double leaching_share, double drain_conductivity_s_m);

}  // namespace stillheap::water
