#include "domain/vessel/ground.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"
#include "domain/vessel/base.hpp"

namespace stillheap::vessel {
namespace {

constexpr double poisson_ratio = 0.3;  // chosen: drained soils lie between 0.2 and 0.4

bool is_round(const Design& design) { return design.footprint == Footprint::round; }

double half_width_m(const Design& design) {
  return 0.5 * (is_round(design) ? design.diameter_m : std::min(design.length_m, design.width_m));
}

}  // namespace

int bearer_count(double length_m, double spacing_m) noexcept {
  return static_cast<int>(std::ceil(length_m / spacing_m - 1e-9)) + 1;
}

double kern_m(const Design& design) noexcept {
  return is_round(design) ? half_width_m(design) / 4.0 : half_width_m(design) / 3.0;
}

double edge_over_mean(const Design& design, double stray_m) noexcept { return 1.0 + stray_m / kern_m(design); }

double disc_settling_m(double pressure_pa, double radius_m, double stiffness_pa, double poisson) noexcept {
  return 2.0 * pressure_pa * radius_m * (1.0 - poisson * poisson) / stiffness_pa;
}

Ground ground_of(const Design& design, double weight_n, const GroundChoices& choices) {
  Ground ground;
  const double area_m2 = footprint_area_m2(design);
  const double mean_pa = weight_n / area_m2;
  if (!design.bearers.empty()) {
    ground.bearers = static_cast<int>(design.bearers.size());
    const std::vector<double> places = bearer_places_m(design);
    for (std::size_t i = 1; i < places.size(); ++i) {
      ground.bearer_spacing_m = std::max(ground.bearer_spacing_m, places[i] - places[i - 1]);
    }
    ground.bearer_width_m = design.bearers.front().width_m;
    ground.bearer_pressure_pa = mean_pa * bearer_over_mean(design);
  }
  ground.middle_height_m = design.base_gap_m + 0.5 * design.fill_height_m;
  ground.tilt_edge = kern_m(design) / ground.middle_height_m;
  ground.tilt_over = half_width_m(design) / ground.middle_height_m;
  ground.edge_pressure_pa = mean_pa * edge_over_mean(design, choices.tilt_allowed * ground.middle_height_m);
  if (choices.stiffness_pa > 0.0) {
    const double radius_m = std::sqrt(area_m2 / constant::pi);  // a disc of the same area
    ground.settling_m = disc_settling_m(mean_pa, radius_m, choices.stiffness_pa, poisson_ratio);
  }
  return ground;
}

}  // namespace stillheap::vessel
