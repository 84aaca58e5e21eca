#pragma once
#include "domain/material/blend.hpp"
#include "model/physics/parameters.hpp"

namespace stillheap::forecast {

/// The model's constants for one blend: those that belong to materials taken from it, the rest as they stand. A blend
/// that was not mixed from materials (zeros in its habit) leaves all as they stand.
[[nodiscard]] physics::Parameters central_parameters(const material::Blend& blend) noexcept;

}  // namespace stillheap::forecast
