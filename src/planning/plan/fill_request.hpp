#pragma once
#include <optional>
#include <string>

#include "model/forecast/request.hpp"
#include "planning/plan/plan.hpp"

namespace stillheap::plan {

/// What is known of one filling beyond the site file.
struct Filling {
  std::string date;                    ///< ISO
  std::optional<double> moisture_wet;  ///< as noted; nothing: as the site file wants it
  forecast::OwnReadings own{};         ///< what its readings taught
};

/// Lets a site be planned for a moisture, also one that its limits forbid: whoever names one knows them.
void aim_at_moisture(site::Site& site, double moisture_wet);

/// The site file as it stands for a filling.
[[nodiscard]] site::Site site_of_filling(site::Site site, const Filling& filling);

/// The vessel of a filling, without a forecast. Throws InputError when no blend meets the limits.
[[nodiscard]] VesselPlan vessel_of_filling(const site::Site& site_of_filling, const vessel::Design& design,
                                           const Filling& filling);

/// What the engine is asked for a filling before anything was read of it, on the draft grid, with sprinkling by itself.
[[nodiscard]] forecast::Request fill_request(const site::Site& site, const vessel::Design& design,
                                             const Filling& filling, int days);

}  // namespace stillheap::plan
