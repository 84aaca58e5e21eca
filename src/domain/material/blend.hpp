#pragma once
#include <array>
#include <span>
#include <string>
#include <vector>

#include "core/base/note.hpp"
#include "domain/material/feedstock.hpp"

namespace stillheap::material {

/// One feedstock and how much of it goes in, as delivered.
struct Part {
  Feedstock feedstock;
  double mass_wet_kg = 0.0;
};

/// Densities of what the heap is made of, for free air space.
struct ParticleDensity {
  double water_kg_m3 = 1000.0;
  double organic_kg_m3 = 1600.0;
  double mineral_kg_m3 = 2500.0;
};

/// Properties of a mixture. Extensive values are for the whole of its parts; the rest are averages
/// weighted by the mass they belong to (wet basis: wet mass; dry basis: dry mass; pools' rates: pool mass).
struct Blend {
  std::vector<Part> parts;
  double mass_wet_kg = 0.0;
  double mass_dry_kg = 0.0;
  double volume_m3 = 0.0;  ///< sum of the parts' loose volumes times `mixing_volume_ratio`
  double moisture_wet = 0.0;
  double carbon_dry = 0.0;
  double nitrogen_dry = 0.0;
  double ash_dry = 0.0;
  double carbon_to_nitrogen = 0.0;             ///< from total carbon; infinite where there is no nitrogen
  double degradable_carbon_to_nitrogen = 0.0;  ///< carbon of the three pools only, over total nitrogen
  double conductivity_s_m = 0.0;               ///< of the 1:5 extract
  double bulk_density_kg_m3 = 0.0;             ///< wet
  double free_air_space = 0.0;                 ///< m3 of air per m3 of heap
  std::array<double, pool_count> pool_dry{};
  std::array<double, pool_count> pool_rate_20c_per_s{};
  Habit habit;                                   ///< zeros where nothing was mixed: the model's own constants hold then
  std::array<double, kind_count> kind_dry{};     ///< share of the dry mass by kind
  std::array<double, kind_count> kind_uptake{};  ///< share of the starting uptake by kind
};

/// Loose volume of a mix over the sum of its parts' loose volumes. Below 1 where fines fall between coarse pieces.
/// No published value fits shredded blends in general, so 1 is assumed (chosen, said in every report); measure your
/// own with a pail before and after mixing.
inline constexpr double default_mixing_volume_ratio = 1.0;

/// Mixes parts as delivered. Order does not matter. Source of each rule: see blend.cpp.
/// Throws InputError, with every problem found, when there is no part, no dry mass, or a value out of its range.
[[nodiscard]] Blend mix(std::span<const Part> parts, const ParticleDensity& density = {},
                        double mixing_volume_ratio = default_mixing_volume_ratio);

/// The same blend after soaking or drying to `moisture_wet`: the volume stays, water fills pores; `parts` stay as
/// delivered. Where the water is more than the pores hold, free air space is 0. Throws InputError outside 0 <= m < 1.
[[nodiscard]] Blend at_moisture(const Blend& blend, double moisture_wet, const ParticleDensity& density = {});

/// The blend as it comes out of the bath: at `moisture_wet`, or as it is where it was wetter. Throws as `at_moisture`.
[[nodiscard]] Blend soaked_to(const Blend& blend, double moisture_wet);

/// Air-filled porosity, 1 - rho_b [ M/rho_w + (1-M) OM/rho_om + (1-M)(1-OM)/rho_ash ].
/// Source: Van Ginkel et al. 1999; Richard et al. 2002 (formula and densities from memory). Never below 0.
[[nodiscard]] double free_air_space(double bulk_density_kg_m3, double moisture_wet, double ash_dry,
                                    const ParticleDensity& density = {});

/// Water to bring a blend to a wanted moisture, in kg; negative means it must dry. Throws InputError outside 0 <= m
/// < 1.
[[nodiscard]] double water_to_add_kg(const Blend& blend, double moisture_wet);

/// Findings against the published starting ranges of ranges.hpp (moisture, C:N, bulk density, free air space, salts).
[[nodiscard]] Warnings check_ranges(const Blend& soaked);

}  // namespace stillheap::material
