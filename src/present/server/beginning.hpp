#pragma once
#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "planning/plan/plan.hpp"
#include "planning/site/beginning.hpp"
#include "present/server/json.hpp"

/// A yard that is begun in the page: what was said, and the site file and first vessel that come of it.
namespace stillheap::server {

/// What was said; sizes that were left out are the starter's.
struct BeginningWish {
  site::Beginning yard;
  std::optional<double> diameter_m, fill_height_m;
};

/// Reads one. Throws InputError naming, as a site file does, every key that is missing or cannot be, with what is
/// allowed in the units that were chosen.
[[nodiscard]] BeginningWish read_beginning(const Json& json);

enum class Mix { given, found, even };  ///< found: by the linear programme; even: it found none

/// What would be written, and the first vessel planned from it, without a forecast.
struct BegunSite {
  std::string text;
  site::Site site;
  plan::VesselPlan plan;
  Mix mix = Mix::given;
  std::map<std::string, double> shares_by_volume;
  std::vector<Problem> no_mix;  ///< why none was found
};

/// The starter with the wish put in: the vessel in its wanted sizes, with more channels where the air path would be too
/// long; without any share the mix is searched. Nothing is written. Throws InputError for what the site file would be
/// refused for, named by its key alone.
[[nodiscard]] BegunSite begin_site(const BeginningWish& wish, const std::filesystem::path& file);

}  // namespace stillheap::server
