#pragma once
#include <optional>
#include <string>

#include "planning/plan/plan.hpp"
#include "planning/site/site.hpp"
#include "present/server/json.hpp"

/// What somebody wants to try at the planning table: the site file with a few things changed.
namespace stillheap::server {

/// The vessel of this name in the site file. Throws InputError when there is none.
[[nodiscard]] const vessel::Design& named_design(const site::Site& site, const std::string& name);

/// Everything not given stays as the site file has it.
struct Change {
  std::string design;  ///< name of a vessel of the site file
  std::optional<double> diameter_m, length_m, width_m, height_m, fill_height_m;
  std::optional<std::vector<vessel::Channel>> channels;
  std::optional<std::map<std::string, double>> shares;  ///< by mass as delivered, any common scale
  std::optional<double> moisture_wet;
  std::optional<double> most_water_kg_day;
  std::optional<std::string> start_date;  ///< ISO
};

/// Reads one; throws InputError naming every key that cannot be.
[[nodiscard]] Change read_change(const Json& json);
/// The same change always as the same text.
[[nodiscard]] std::string text_of(const Change& change);

/// A change worked into the site: what is to be planned and forecast.
struct Case {
  site::Site site;
  vessel::Design design;
  double moisture_wet = 0.0;
  material::Blend as_delivered;
  std::optional<double> most_water_kg_day;
  forecast::OwnReadings own{};  ///< of a fill of the records
};

/// Throws InputError for a vessel or feedstock that is not in the site file, clashing channels, and sizes that cannot
/// be.
[[nodiscard]] Case make_case(const site::Site& site, const Change& change);

/// Air path, loads, blend, fill and water line: no forecast yet.
[[nodiscard]] plan::VesselPlan plan_case(const Case& what);

/// The same with its forecast. Throws RunError when progress asks to stop.
[[nodiscard]] plan::VesselPlan forecast_case(const Case& what, const weather::Series& weather, forecast::Grid grid,
                                             int members, const plan::Progress& progress);

}  // namespace stillheap::server
