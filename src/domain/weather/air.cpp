#include "domain/weather/air.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"

namespace stillheap::weather {
namespace {

// Tetens form as FAO-56 eq. 11 writes it.
constexpr double tetens_pa = 610.8;
constexpr double tetens_a = 17.27;
constexpr double tetens_b_c = 237.3;

constexpr double mass_ratio = constant::molar_mass_water_kg_mol / constant::molar_mass_dry_air_kg_mol;

/// How much vapour air of `celsius` would hold more than `humidity_ratio` if its wet bulb were `bulb_c`, as a ratio.
/// Source: ASHRAE Fundamentals 2017, ch. 1, eq. 33 (bulb wet) and eq. 35 (bulb frozen).
double wet_bulb_excess(double bulb_c, double celsius, double ratio, double pressure_pa) noexcept {
  const double saturated = humidity_ratio(saturation_pressure_fine_pa(bulb_c), pressure_pa);
  if (bulb_c >= 0.0) {
    return ((2501.0 - 2.326 * bulb_c) * saturated - 1.006 * (celsius - bulb_c)) /
               (2501.0 + 1.86 * celsius - 4.186 * bulb_c) -
           ratio;
  }
  return ((2830.0 - 0.24 * bulb_c) * saturated - 1.006 * (celsius - bulb_c)) /
             (2830.0 + 1.86 * celsius - 2.1 * bulb_c) -
         ratio;
}

}  // namespace

double saturation_pressure_pa(double celsius) noexcept {
  return tetens_pa * std::exp(tetens_a * celsius / (celsius + tetens_b_c));
}

double saturation_growth_1_k(double celsius) noexcept {
  const double spread = celsius + tetens_b_c;
  return tetens_a * tetens_b_c / (spread * spread);
}

double saturation_slope_pa_k(double celsius) noexcept {
  return saturation_pressure_pa(celsius) * saturation_growth_1_k(celsius);
}

double saturation_pressure_fine_pa(double celsius) noexcept {
  const double kelvin = celsius + constant::zero_celsius_k;
  if (celsius < 0.0) {
    return std::exp(-5.6745359e3 / kelvin + 6.3925247 +
                    kelvin *
                        (-9.677843e-3 + kelvin * (6.2215701e-7 + kelvin * (2.0747825e-9 - 9.484024e-13 * kelvin))) +
                    4.1635019 * std::log(kelvin));
  }
  return std::exp(-5.8002206e3 / kelvin + 1.3914993 +
                  kelvin * (-4.8640239e-2 + kelvin * (4.1764768e-5 - 1.4452093e-8 * kelvin)) +
                  6.5459673 * std::log(kelvin));
}

double latent_heat_j_kg(double celsius) noexcept { return 2.501e6 - 2361.0 * celsius; }

double humidity_ratio(double vapour_pa, double pressure_pa) noexcept {
  return mass_ratio * vapour_pa / (pressure_pa - vapour_pa);
}

double vapour_pressure_pa(double humidity_ratio, double pressure_pa) noexcept {
  return pressure_pa * humidity_ratio / (mass_ratio + humidity_ratio);
}

double moist_air_density_kg_m3(double celsius, double vapour_pa, double pressure_pa) noexcept {
  const double molar_energy = constant::gas_constant_j_mol_k * (celsius + constant::zero_celsius_k);
  return ((pressure_pa - vapour_pa) * constant::molar_mass_dry_air_kg_mol +
          vapour_pa * constant::molar_mass_water_kg_mol) /
         molar_energy;
}

double vapour_density_kg_m3(double celsius, double vapour_pa) noexcept {
  return vapour_pa * constant::molar_mass_water_kg_mol /
         (constant::gas_constant_j_mol_k * (celsius + constant::zero_celsius_k));
}

double dew_point_c(double vapour_pa) noexcept {
  // Written so that dry air (logarithm -inf) gives the pole of the Tetens form and 610.8 Pa gives 0, not NaN.
  const double logarithm = std::log(std::max(vapour_pa, 0.0) / tetens_pa);
  return tetens_b_c / (tetens_a / logarithm - 1.0);
}

double wet_bulb_c(double celsius, double humidity, double pressure_pa) noexcept {
  const double vapour_pa = std::clamp(humidity, 0.0, 1.0) * saturation_pressure_fine_pa(celsius);
  const double ratio = humidity_ratio(vapour_pa, pressure_pa);
  // The excess rises with the bulb; dry air of 100 degC has its wet bulb within 75 K of the dry one.
  double low = celsius - 100.0;
  double high = celsius;
  for (int step = 0; step < 50; ++step) {
    const double middle = 0.5 * (low + high);
    (wet_bulb_excess(middle, celsius, ratio, pressure_pa) < 0.0 ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

double standard_pressure_pa(double elevation_m) noexcept {
  // US Standard Atmosphere 1976: g0 M / (R L) with its own R and M, on geopotential height.
  constexpr double earth_radius_m = 6356766.0;
  constexpr double sea_level_k = 288.15;
  constexpr double lapse_k_m = 0.0065;
  constexpr double exponent = constant::gravity_m_s2 * 0.0289644 / (8.31432 * lapse_k_m);
  const double geopotential_m = earth_radius_m * elevation_m / (earth_radius_m + elevation_m);
  return constant::standard_pressure_pa * std::pow(1.0 - lapse_k_m * geopotential_m / sea_level_k, exponent);
}

}  // namespace stillheap::weather
