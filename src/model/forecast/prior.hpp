#pragma once
#include <array>
#include <span>

#include "domain/material/blend.hpp"
#include "model/physics/parameters.hpp"

/// What published heaps taught of the model's constants, by class of material (docs/decisions/0010-conditioning.md).
/// All counts in deviations of the constant's row in `physics::parameter_rows()`, off the value of the blend's
/// materials.
namespace stillheap::forecast {

/// The constants that were learned.
inline constexpr std::array<double physics::Parameters::*, 9> learned_constants{
    &physics::Parameters::rate_factor,       &physics::Parameters::temperature_most_c,
    &physics::Parameters::particle_size_m,   &physics::Parameters::holding_capacity,
    &physics::Parameters::moisture_half_wet, &physics::Parameters::oxygen_half_percent,
    &physics::Parameters::film_factor,       &physics::Parameters::cool_factor_10k,
    &physics::Parameters::height_per_solids};

/// One value for each of `learned_constants`.
using Shift = std::array<double, learned_constants.size()>;

/// One draw of what was learned: a shift for each class of material.
using PriorDraw = std::array<Shift, material::kind_count>;

/// Equally weighted joint draws, a power of two of them. Written by tools/condition/score.
[[nodiscard]] std::span<const PriorDraw> prior_draws() noexcept;

/// The shift of a blend: that of its classes by their shares, of the starting uptake for rates and temperatures, of the
/// dry mass for air, water and settling. Zeros for a blend that was not mixed from materials.
[[nodiscard]] Shift shift_of(const material::Blend& blend, const PriorDraw& draw) noexcept;

/// Mean of the draws: where the middle line stands.
[[nodiscard]] Shift mean_shift(const material::Blend& blend, std::span<const PriorDraw> draws = prior_draws()) noexcept;

/// What is left to each single heap: the deviation by which it may stand off what its classes share. One for a
/// blend that was not mixed from materials, of which nothing was learned.
[[nodiscard]] Shift deviation_of_one_heap(const material::Blend& blend) noexcept;

/// Place of a learned constant among the parameter rows.
[[nodiscard]] std::size_t row_of_learned(std::size_t learned) noexcept;

}  // namespace stillheap::forecast
