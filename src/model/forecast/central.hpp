#pragma once
#include "domain/material/blend.hpp"
#include "model/forecast/prior.hpp"
#include "model/physics/parameters.hpp"

namespace stillheap::forecast {

/// The model's constants for one blend before any heap was looked at: those that belong to materials taken from it, the
/// rest as they stand. A blend that was not mixed from materials (zeros in its habit) leaves all as they stand.
[[nodiscard]] physics::Parameters material_parameters(const material::Blend& blend) noexcept;

/// The constants of the middle line: those of the materials, moved by what published heaps taught (prior.hpp).
[[nodiscard]] physics::Parameters central_parameters(const material::Blend& blend,
                                                     std::span<const PriorDraw> draws = prior_draws()) noexcept;

/// Constants moved by a shift of the learned ones.
[[nodiscard]] physics::Parameters moved_by(physics::Parameters parameters, const Shift& shift) noexcept;

/// A constant so many deviations of its row off where it stands.
[[nodiscard]] double shifted(const physics::ParameterRow& row, double value, double deviations) noexcept;

}  // namespace stillheap::forecast
