#pragma once
#include <span>
#include <string_view>

namespace stillheap::physics {

/// Every constant of the model that nature does not fix, SI. Central values; spreads and sources stand in
/// the rows of `parameter_rows()`, which the assumptions list and the ensemble are made from.
struct Parameters {
  double temperature_least_c = 5.0;
  double temperature_best_c = 58.6;
  double temperature_most_c = 71.6;
  double cool_factor_10k = 2.0;
  double rate_factor = 1.0;
  double moisture_half_wet = 0.3994;
  double oxygen_half_percent = 1.0;
  double oxygen_yield = 1.35;
  double heat_per_oxygen_j_kg = 14.0e6;
  double water_yield = 0.55;
  double particle_size_m = 1.5e-3;
  double particle_kg_m3 = 400.0;
  double conductivity_factor = 1.0;
  double solids_heat_j_kg_k = 1400.0;
  double holding_capacity = 1.8;
  double saturated_conductivity_m_s = 5e-4;
  double capillary_m2_s = 2e-7;
  double retention_exponent = 3.7;
  double holding_suction_m = 0.10;
  double height_per_solids = 1.0;
  double compression_index = 0.12;
  double compression_time_s = 5.0 * 86400.0;
  double film_factor = 1.0;
  double cloth_flow_factor = 1.0;
  double cloth_vapour_s_m = 85.0;
  double channel_loss = 1.5;
  double channel_transfer_factor = 1.0;
  double salt_per_conductivity = 3.2e-3 / 0.1;
};

enum class Spread { lognormal, normal };

/// One constant: what it is, how sure we are of it, and where it comes from.
struct ParameterRow {
  std::string_view name;
  std::string_view unit;
  double Parameters::*member;
  Spread spread;
  double deviation;  ///< standard deviation: of the logarithm, or absolute
  std::string_view source;
};

[[nodiscard]] std::span<const ParameterRow> parameter_rows() noexcept;

}  // namespace stillheap::physics
