#pragma once
#include <array>

#include "base/note.hpp"
#include "water/line.hpp"

namespace stillheap::water {

/// What leaves one vessel in each calendar month, mean over the days of that month, kg/s.
struct MonthlyLoss {
  std::array<double, 12> evaporated_kg_s{};  ///< net of metabolic water
  std::array<double, 12> rain_kg_s{};        ///< falls on the open top and stays
  std::array<double, 12> eto_m_s{};
};

struct MonthlyWater {
  std::array<double, 12> need_kg_day{};
  std::array<double, 12> minutes_day{};
  std::array<double, 12> drained_kg_day{};
  std::array<double, 12> salt_out_g_day{};
  double most_kg_day = 0.0;
};

/// Daily run minutes by month: (evaporation - rain) / application efficiency / flow, plus a leaching share.
[[nodiscard]] MonthlyWater plan_water(const MonthlyLoss& loss, const LineFlow& flow, double application_efficiency,
                                      double leaching_share, double drain_conductivity_s_m);

/// Total dissolved salts from electrical conductivity, kg/m3. Source: FAO-29 rev. 1, table 1 (640 mg/L per dS/m).
[[nodiscard]] double dissolved_salts_kg_m3(double conductivity_s_m) noexcept;

}  // namespace stillheap::water
