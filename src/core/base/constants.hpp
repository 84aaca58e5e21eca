#pragma once

/// Constants of nature and exact definitions, SI. Nothing about compost stands here.
namespace stillheap::constant {

inline constexpr double gravity_m_s2 = 9.80665;                     // standard gravity, ISO 80000-3
inline constexpr double gas_constant_j_mol_k = 8.31446261815324;    // SI 2019, exact
inline constexpr double stefan_boltzmann_w_m2_k4 = 5.670374419e-8;  // CODATA 2018
inline constexpr double zero_celsius_k = 273.15;                    // exact
inline constexpr double standard_pressure_pa = 101325.0;            // exact
inline constexpr double molar_mass_dry_air_kg_mol = 0.0289647;      // ISO 2533 (28.9644 g/mol, rounded by CIPM-2007)
inline constexpr double molar_mass_water_kg_mol = 0.01801528;       // IUPAC 2018
inline constexpr double molar_mass_oxygen_kg_mol = 0.0319988;       // IUPAC 2018
inline constexpr double seconds_per_day = 86400.0;
inline constexpr double seconds_per_hour = 3600.0;
inline constexpr double pi = 3.14159265358979323846;

}  // namespace stillheap::constant
