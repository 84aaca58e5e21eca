#include "planning/fill/lifting.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

#include "core/base/constants.hpp"

namespace stillheap::fill {
namespace {

double horizontal_factor(double h_cm) noexcept { return h_cm > 63.0 ? 0.0 : 25.0 / std::max(h_cm, 25.0); }

double vertical_factor(double v_cm) noexcept {
  return v_cm > 175.0 || v_cm < 0.0 ? 0.0 : 1.0 - 0.003 * std::abs(v_cm - 75.0);
}

double travel_factor(double d_cm) noexcept { return d_cm > 175.0 ? 0.0 : 0.82 + 4.5 / std::max(d_cm, 25.0); }

double twist_factor(double a_degrees) noexcept { return a_degrees > 135.0 ? 0.0 : 1.0 - 0.0032 * a_degrees; }

struct Row {
  double lifts_per_minute;
  double factor;
};
constexpr std::array<Row, 10> eight_hours{{{0.2, 0.85},
                                           {0.5, 0.81},
                                           {1.0, 0.75},
                                           {2.0, 0.65},
                                           {3.0, 0.55},
                                           {4.0, 0.45},
                                           {5.0, 0.35},
                                           {6.0, 0.27},
                                           {7.0, 0.22},
                                           {8.0, 0.18}}};

}  // namespace

double recommended_weight_limit_kg(const Lift& lift) noexcept {
  constexpr double load_constant_kg = 23.0;
  return load_constant_kg * horizontal_factor(lift.horizontal_m * 100.0) *
         vertical_factor(lift.start_height_m * 100.0) * travel_factor(lift.travel_m * 100.0) *
         twist_factor(lift.twist_rad * 180.0 / constant::pi) * lift.frequency_factor * lift.coupling_factor;
}

double part_filled_share(double full_pail_kg, double limit_kg) noexcept {
  if (full_pail_kg <= limit_kg) return 1.0;
  if (limit_kg <= empty_pail_kg) return 0.0;
  constexpr double steps = 20.0;
  return std::floor(steps * (limit_kg - empty_pail_kg) / (full_pail_kg - empty_pail_kg) + 1e-9) / steps;
}

double frequency_factor(double lifts_per_minute) noexcept {
  if (lifts_per_minute <= eight_hours.front().lifts_per_minute) return eight_hours.front().factor;
  for (std::size_t i = 1; i < eight_hours.size(); ++i) {
    const Row& low = eight_hours[i - 1];
    const Row& high = eight_hours[i];
    if (lifts_per_minute > high.lifts_per_minute) continue;
    const double t = (lifts_per_minute - low.lifts_per_minute) / (high.lifts_per_minute - low.lifts_per_minute);
    return low.factor + t * (high.factor - low.factor);
  }
  return 0.0;
}

}  // namespace stillheap::fill
