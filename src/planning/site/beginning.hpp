#pragma once
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "core/quantity/quantity.hpp"
#include "domain/weather/rough.hpp"

namespace stillheap::site {

/// What is said of a yard that has no site file yet. What is not asked stays as the starter has it.
struct Beginning {
  struct Material {
    std::string like;                ///< id of a typical feedstock
    std::optional<double> stock_m3;  ///< loose; none: as much as is needed
    double share_by_volume = 0.0;    ///< any common scale; 0 for all: the blend is searched
  };
  UnitSystem units = UnitSystem::metric;
  std::string name;
  std::string first_fill;  ///< ISO date
  double latitude_deg = 0.0, longitude_deg = 0.0, elevation_m = 0.0;
  weather::Extremes climate;
  std::vector<Material> materials;
  std::optional<int> vessels;        ///< exactly one of the two
  std::optional<double> compost_m3;  ///< a year
};

/// The starter with these values put in, its comments kept. `file` is for messages.
/// Throws InputError when a material is not a typical feedstock; all else is judged when the text is read.
[[nodiscard]] std::string beginning_text(const Beginning& beginning, const std::filesystem::path& file);

}  // namespace stillheap::site
