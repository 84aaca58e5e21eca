#include "model/physics/temperature_response.hpp"

#include <algorithm>
#include <cmath>

namespace stillheap::physics {

double two_exponential_response(double celsius) noexcept {
  return std::max(0.0, std::pow(1.066, celsius - 20.0) - std::pow(1.21, celsius - 60.0));
}

}  // namespace stillheap::physics
