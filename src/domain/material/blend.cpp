#include "domain/material/blend.hpp"

#include <algorithm>
#include <limits>

#include "core/base/error.hpp"

// Rules, each a mass or volume balance:
//  - moisture: water of the parts over their wet mass (Cornell, "Getting the Right Mix").
//  - carbon, nitrogen, ash, pools: dry-mass weighted, so C:N = sum of carbon over sum of nitrogen (same source).
//  - conductivity of the 1:5 extract: dry-mass weighted, because an extract of a mix holds the salts of its parts and
//    conductivity is near proportional to salt at that dilution (chosen).
//  - a pool's rate: weighted by the pool's mass, so that the starting uptake of the mix is that of its parts.
//  - degradable carbon: a pool is taken to hold the same carbon share as all volatile solids of its feedstock (chosen;
//    sugars hold about 42 %, lignin about 62 %, so fast pools are a little overstated and slow ones understated).
//  - water held: dry-mass weighted, each part keeps its own.
//  - envelope: the parts' envelopes add up, so dry mass over the sum of their volumes.
//  - particle size that resists air: surfaces add up, so the mean is 1 / sum(v / d) over the shares v of the envelopes'
//    volume: the surface-volume mean diameter of a mixed packed bed (Ergun 1952). The fine part rules.
//  - best and most temperature of decay: weighted by the starting uptake, so by what makes the heat (chosen).
//  - volume: the parts' loose volumes add up, times the mixing volume ratio.

namespace stillheap::material {
namespace {

constexpr double no_nitrogen = std::numeric_limits<double>::infinity();

double ratio(double carbon, double nitrogen) { return nitrogen > 0.0 ? carbon / nitrogen : no_nitrogen; }

bool is_share(double value) { return value >= 0.0 && value <= 1.0; }

void check_part(const Part& part, std::vector<Problem>& problems) {
  const Feedstock& f = part.feedstock;
  const auto require = [&](bool good, const char* field, double value, const char* mend) {
    if (!good) problems.push_back({"feedstock " + f.id + "." + field, "is " + std::to_string(value), mend});
  };
  require(part.mass_wet_kg >= 0.0, "mass", part.mass_wet_kg, "give a mass of 0 kg or more");
  require(f.bulk_density_kg_m3 > 0.0, "bulk_density", f.bulk_density_kg_m3, "give a bulk density above 0 kg/m3");
  require(is_share(f.moisture_wet), "moisture", f.moisture_wet, "give 0 to 100 % of wet mass");
  require(is_share(f.carbon_dry), "carbon", f.carbon_dry, "give 0 to 100 % of dry matter");
  require(is_share(f.nitrogen_dry), "nitrogen", f.nitrogen_dry, "give 0 to 100 % of dry matter");
  require(is_share(f.ash_dry), "ash", f.ash_dry, "give 0 to 100 % of dry matter");
  require(f.conductivity_s_m >= 0.0, "conductivity", f.conductivity_s_m, "give 0 S/m or more");
  const double pools = f.pool_dry[fast] + f.pool_dry[medium] + f.pool_dry[slow];
  require(pools <= 1.0 - f.ash_dry + 1e-9, "pools", pools, "let the pools add up to no more than all but the ash");
}

void check(std::span<const Part> parts, double mixing_volume_ratio) {
  std::vector<Problem> problems;
  if (parts.empty()) problems.push_back({"blend", "has no feedstock", "name at least one"});
  if (!(mixing_volume_ratio > 0.0)) {
    problems.push_back({"mixing_volume_ratio", "is " + std::to_string(mixing_volume_ratio), "use a value above 0"});
  }
  double dry_kg = 0.0;
  for (const Part& part : parts) {
    check_part(part, problems);
    dry_kg += part.mass_wet_kg * (1.0 - part.feedstock.moisture_wet);
  }
  if (problems.empty() && !(dry_kg > 0.0)) {
    problems.push_back({"blend", "has no dry matter", "add a feedstock that is not only water"});
  }
  if (!problems.empty()) throw InputError(problems);
}

void check_moisture(double moisture_wet) {
  if (!(moisture_wet >= 0.0 && moisture_wet < 1.0)) {
    throw InputError("moisture", "is " + std::to_string(100.0 * moisture_wet) + " % of wet mass",
                     "use 0 % to below 100 %");
  }
}

/// Sums of what each part brings; the averages come afterwards.
struct Sums {
  double water_kg = 0.0;
  double carbon_kg = 0.0;
  double degradable_carbon_kg = 0.0;
  double nitrogen_kg = 0.0;
  double ash_kg = 0.0;
  double salt_weight = 0.0;
  std::array<double, pool_count> pool_kg{};
  std::array<double, pool_count> pool_rate{};
  double uptake = 0.0, best = 0.0, most = 0.0;
  double envelope_m3 = 0.0, envelope_per_size = 0.0;
  double held_kg = 0.0;
  std::array<double, kind_count> kind_kg{}, kind_uptake{};
};

/// What the habits of a part bring.
void add_habit(Sums& sums, const Feedstock& f, double dry_kg) {
  double uptake = 0.0;
  for (std::size_t i = 0; i < pool_count; ++i) uptake += dry_kg * f.pool_dry[i] * f.pool_rate_20c_per_s[i];
  const auto kind = static_cast<std::size_t>(f.kind);
  const double envelope_m3 = dry_kg / f.habit.envelope_kg_m3;
  sums.uptake += uptake;
  sums.best += uptake * f.habit.best_c;
  sums.most += uptake * f.habit.most_c;
  sums.envelope_m3 += envelope_m3;
  sums.envelope_per_size += envelope_m3 / f.habit.particle_size_m;
  sums.held_kg += dry_kg * f.habit.holding_dry;
  sums.kind_kg[kind] += dry_kg;
  sums.kind_uptake[kind] += uptake;
}

void set_habit(Blend& blend, const Sums& sums) {
  blend.habit.envelope_kg_m3 = blend.mass_dry_kg / sums.envelope_m3;
  blend.habit.particle_size_m = sums.envelope_m3 / sums.envelope_per_size;
  blend.habit.holding_dry = sums.held_kg / blend.mass_dry_kg;
  blend.habit.best_c = sums.uptake > 0.0 ? sums.best / sums.uptake : middling_habit.best_c;
  blend.habit.most_c = sums.uptake > 0.0 ? sums.most / sums.uptake : middling_habit.most_c;
  for (std::size_t k = 0; k < kind_count; ++k) {
    blend.kind_dry[k] = sums.kind_kg[k] / blend.mass_dry_kg;
    blend.kind_uptake[k] = sums.uptake > 0.0 ? sums.kind_uptake[k] / sums.uptake : blend.kind_dry[k];
  }
}

void add(Sums& sums, const Part& part) {
  const Feedstock& f = part.feedstock;
  const double dry_kg = part.mass_wet_kg * (1.0 - f.moisture_wet);
  const double volatile_dry = 1.0 - f.ash_dry;
  sums.water_kg += part.mass_wet_kg * f.moisture_wet;
  sums.carbon_kg += dry_kg * f.carbon_dry;
  sums.nitrogen_kg += dry_kg * f.nitrogen_dry;
  sums.ash_kg += dry_kg * f.ash_dry;
  sums.salt_weight += dry_kg * f.conductivity_s_m;
  add_habit(sums, f, dry_kg);
  for (std::size_t i = 0; i < pool_count; ++i) {
    const double pool_kg = dry_kg * f.pool_dry[i];
    sums.pool_kg[i] += pool_kg;
    sums.pool_rate[i] += pool_kg * f.pool_rate_20c_per_s[i];
    if (volatile_dry > 0.0) sums.degradable_carbon_kg += pool_kg * f.carbon_dry / volatile_dry;
  }
}

void set_density(Blend& blend, const ParticleDensity& density) {
  blend.bulk_density_kg_m3 = blend.mass_wet_kg / blend.volume_m3;
  blend.free_air_space = free_air_space(blend.bulk_density_kg_m3, blend.moisture_wet, blend.ash_dry, density);
}

}  // namespace

Blend mix(std::span<const Part> parts, const ParticleDensity& density, double mixing_volume_ratio) {
  check(parts, mixing_volume_ratio);
  Blend blend;
  Sums sums;
  for (const Part& part : parts) {
    add(sums, part);
    blend.mass_wet_kg += part.mass_wet_kg;
    blend.volume_m3 += mixing_volume_ratio * part.mass_wet_kg / part.feedstock.bulk_density_kg_m3;
  }
  blend.parts.assign(parts.begin(), parts.end());
  blend.mass_dry_kg = blend.mass_wet_kg - sums.water_kg;
  blend.moisture_wet = sums.water_kg / blend.mass_wet_kg;
  blend.carbon_dry = sums.carbon_kg / blend.mass_dry_kg;
  blend.nitrogen_dry = sums.nitrogen_kg / blend.mass_dry_kg;
  blend.ash_dry = sums.ash_kg / blend.mass_dry_kg;
  blend.carbon_to_nitrogen = ratio(sums.carbon_kg, sums.nitrogen_kg);
  blend.degradable_carbon_to_nitrogen = ratio(sums.degradable_carbon_kg, sums.nitrogen_kg);
  blend.conductivity_s_m = sums.salt_weight / blend.mass_dry_kg;
  for (std::size_t i = 0; i < pool_count; ++i) {
    blend.pool_dry[i] = sums.pool_kg[i] / blend.mass_dry_kg;
    blend.pool_rate_20c_per_s[i] = sums.pool_kg[i] > 0.0 ? sums.pool_rate[i] / sums.pool_kg[i] : 0.0;
  }
  set_habit(blend, sums);
  set_density(blend, density);
  return blend;
}

Blend at_moisture(const Blend& blend, double moisture_wet, const ParticleDensity& density) {
  check_moisture(moisture_wet);
  Blend changed = blend;
  changed.moisture_wet = moisture_wet;
  changed.mass_wet_kg = blend.mass_dry_kg / (1.0 - moisture_wet);
  set_density(changed, density);
  return changed;
}

Blend soaked_to(const Blend& blend, double moisture_wet) {
  return blend.moisture_wet >= moisture_wet ? blend : at_moisture(blend, moisture_wet);
}

double free_air_space(double bulk_density_kg_m3, double moisture_wet, double ash_dry, const ParticleDensity& density) {
  const double dry = 1.0 - moisture_wet;
  const double filled = moisture_wet / density.water_kg_m3 + dry * (1.0 - ash_dry) / density.organic_kg_m3 +
                        dry * ash_dry / density.mineral_kg_m3;
  return std::max(0.0, 1.0 - bulk_density_kg_m3 * filled);
}

double water_to_add_kg(const Blend& blend, double moisture_wet) {
  check_moisture(moisture_wet);
  return blend.mass_dry_kg / (1.0 - moisture_wet) - blend.mass_wet_kg;
}

}  // namespace stillheap::material
