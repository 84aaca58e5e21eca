#include <gtest/gtest.h>

#include <string>

#include "../unit/model/forecast/sample_request.hpp"
#include "check.hpp"
#include "model/forecast/central.hpp"
#include "model/forecast/run.hpp"
#include "model/physics/conduction.hpp"
#include "model/physics/decay_factors.hpp"
#include "model/physics/freezing.hpp"
#include "model/physics/gas.hpp"
#include "model/physics/parameters.hpp"
#include "model/physics/permeability.hpp"
#include "model/physics/temperature_response.hpp"

namespace stillheap {
namespace {

using outside::expect;
using namespace physics;

std::string at(int value) { return "at_" + std::to_string(value); }

TEST(Kinetics, K01TwoExponentials) {
  for (const int celsius : {20, 30, 40, 50, 60, 70, 80, 85})
    expect("K01", at(celsius), two_exponential_response(celsius));
}

TEST(Kinetics, K03CardinalModel) { expect("K03", "at_22", cardinal_response(22.0, 5.0, 20.0, 30.0)); }

TEST(Kinetics, K05CardinalModelOfCompost) {
  for (const int celsius : {20, 40, 50, 55, 65, 70})
    expect("K05", at(celsius), cardinal_response(celsius, 5, 58.6, 71.6));
}

TEST(Kinetics, K06MoistureAirSpaceAndOxygen) {
  for (const int m : {30, 40, 50, 60}) expect("K06", "moisture_" + std::to_string(m), moisture_factor(0.01 * m));
  for (const int a : {10, 20, 30}) expect("K06", "air_space_" + std::to_string(a), air_space_factor(0.01 * a));
  for (const int o : {2, 5, 10, 21}) expect("K06", "oxygen_" + std::to_string(o), oxygen_factor(o, 2.0));
}

TEST(Kinetics, K07Yields) {
  expect("K07", "oxygen_yield", Parameters{}.oxygen_yield);
  expect("K07", "water_yield", Parameters{}.water_yield);
}

double peak_uptake_g_kg_h(const forecast::Request& request) {
  return forecast::run(request, [](double, const std::string&) { return true; }).summary.peak_uptake_g_kg_h.middle;
}

double uptake_at_best_g_kg_h(const material::Blend& blend) {
  const Parameters parameters = forecast::material_parameters(blend);
  double loss_1_s = 0.0;
  for (std::size_t p = 0; p < material::pool_count; ++p) loss_1_s += blend.pool_dry[p] * blend.pool_rate_20c_per_s[p];
  const auto response = [&](double celsius) {
    return cardinal_response(celsius, parameters.temperature_least_c, parameters.temperature_best_c,
                             parameters.temperature_most_c);
  };
  const double factor = response(parameters.temperature_best_c) / response(20.0) * moisture_factor(blend.moisture_wet) *
                        air_space_factor(blend.free_air_space) *
                        oxygen_factor(100.0 * oxygen_share(oxygen_outside), parameters.oxygen_half_percent);
  return 3.6e6 * parameters.oxygen_yield * loss_1_s * factor / (1.0 - blend.ash_dry);
}

TEST(Kinetics, K10PeakUptake) {
  expect("K10", "kept_at_best_temperature", uptake_at_best_g_kg_h(forecast::active_blend()));
  forecast::Request request = forecast::common_request(20);
  outside::report_miss(
      "K10", "vessel_in_april", peak_uptake_g_kg_h(request),
      "filled at 15 degC into a cool windy spring the modelled vessel evaporates about 9 kg a day from "
      "its wet wall and warms slowly, so the heap never nears the temperature of its best uptake");
  request.start_day_of_year = 180;
  request.fill_temperature_c = 22.0;
  request.blend =
      forecast::blend_of({{"wood-chips", 0.2}, {"leaves", 0.3}, {"horse-manure", 0.3}, {"food-scraps", 0.2}}, 0.62);
  expect("K10", "vessel_in_summer_with_food_scraps", peak_uptake_g_kg_h(request));
}

/// Conductivity and heat capacity of a filling of solids without ash.
struct Filling {
  double k;
  double c_mj;
};
Filling filling(double dry_kg_m3, double moisture_wet) {
  const double water_kg_m3 = dry_kg_m3 * moisture_wet / (1.0 - moisture_wet);
  const double solids = dry_kg_m3 / 1600.0, water = water_kg_m3 / 1000.0;
  const Parameters parameters;
  return {conductivity_w_m_k(solids, water, 0.0, 1.0 - solids - water, parameters.conductivity_factor),
          1e-6 * (dry_kg_m3 * parameters.solids_heat_j_kg_k + water_kg_m3 * water_heat_j_kg_k)};
}

TEST(Kinetics, K11ConductivityAndHeatCapacity) {
  const auto both = [](const std::string& name, Filling f) {
    expect("K11", name + "_k", f.k);
    expect("K11", name + "_c", f.c_mj);
  };
  both("straw_100_kg_m3_30_percent", filling(100, 0.30));
  both("straw_150_kg_m3_70_percent", filling(150, 0.70));
  both("silage_220_kg_m3_65_percent", filling(220, 0.65));
  both("manure_250_kg_m3_55_percent", filling(250, 0.55));
  both("manure_350_kg_m3_65_percent", filling(350, 0.65));
  outside::report_miss("K11", "straw_200_kg_m3_70_percent_k", filling(200, 0.70).k,
                       "a parallel mean is the upper bound of mixing laws, and straw packed to 200 kg/m3 and soaked is "
                       "the wet end of the class; the parameter's spread of 20 % covers it");
}

TEST(Kinetics, W14Freezing) {
  // From a potential in MPa to the log of activity: V psi / (R T), V = 18.02e-6 m3/mol, at 0 degC.
  const auto log_activity = [](double megapascal) { return 18.02 * megapascal / (8.3145 * 273.15); };
  expect("W14", "at_minus_0_1_mpa_c", ice_balance(freeing_work_j_kg(log_activity(-0.1))).celsius);
  expect("W14", "at_minus_10_mpa_c", ice_balance(freeing_work_j_kg(log_activity(-10.0))).celsius);
  const double sea = 0.035 / 0.965;  // kg of salt per kg of water
  expect("W14", "sea_water_c", freezing(3.0, 3.0 * sea).celsius);
  expect("W14", "fusion_kj_kg", -1e-3 * ice_enthalpy_j_kg(0.0));
  expect("W14", "ice_over_water_at_minus_10", ice_activity(-10.0).value);
  expect("W14", "kept_liquid_at_minus_1", liquid_beside_ice(-1.0, 0.0, 2.0).dry);
  expect("W14", "kept_liquid_at_minus_15", liquid_beside_ice(-15.0, 0.0, 2.0).dry);
}

TEST(Kinetics, F04PoresSquared) {
  expect("F04", "at_30", pore_diffusion_factor(0.3));
  expect("F04", "at_50", pore_diffusion_factor(0.5));
}

TEST(Kinetics, T15Permeability) { expect("T15", "permeability_m2", permeability_m2(0.4, 0.01)); }

TEST(Kinetics, T16OxygenInAir) {
  for (const int celsius : {0, 20, 40, 60}) expect("T16", at(celsius), 1e4 * oxygen_diffusivity_m2_s(celsius));
}

TEST(Kinetics, T18AgainstOtherPoreLaws) {
  expect("T18", "air_30_pores_70", pore_diffusion_factor(0.3));
  expect("T18", "air_50_pores_80", pore_diffusion_factor(0.5));
  expect("T18", "air_20_pores_60", pore_diffusion_factor(0.2));
}

TEST(Kinetics, W12HeatOfEvaporationInTheBalance) {
  for (const int celsius : {20, 55})
    expect("W12b", at(celsius), 1e-6 * (vapour_enthalpy_j_kg(celsius) - water_heat_j_kg_k * celsius));
}

}  // namespace
}  // namespace stillheap
