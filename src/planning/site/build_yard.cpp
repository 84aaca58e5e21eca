#include <cmath>

#include "core/base/date.hpp"
#include "planning/site/build.hpp"

namespace stillheap::site {
namespace {

void build_goal(Reader& reader, const Section& section, Site& site) {
  if (section.present) (void)exactly_one(reader, section, "compost", "vessels");
  site.goal.compost_m3 = maybe_amount(section, "compost");
  if (given(section, "vessels")) site.goal.vessels = whole(reader, section, "vessels");
  if (given(section, "ready_by")) site.goal.ready_by = word(reader, section, "ready_by");
  const auto ready = date::parse_iso(site.goal.ready_by);
  const auto start = date::parse_iso(site.start_date);
  if (ready && start && *ready <= *start) {
    refuse(reader, section, "ready_by", "is not after the first fill on " + site.start_date,
           "give a later day, or set site.first_fill earlier");
  }
  site.wanted_air_path_m = amount(reader, section, "longest_air_path");
}

/// Printed as a code: what no browser opens would be found out by the vessel.
void build_page_address(Reader& reader, const Section& section, Site& site) {
  if (!given(section, "page")) return;
  constexpr std::size_t longest = 200;  // chosen: a code that is still read at 5 cm
  site.page = word(reader, section, "page");
  const std::size_t slashes = site.page.find("://");
  const std::string scheme = site.page.substr(0, slashes == std::string::npos ? 0 : slashes);
  const bool whole = (scheme == "http" || scheme == "https") && site.page.size() > slashes + 3 &&
                     site.page.size() <= longest && site.page.find_first_of(" \t\"<>#") == std::string::npos;
  if (!whole) {
    refuse(reader, section, "page", "is no address of a page",
           "write it as serve --lan prints it, \"https://192.168.1.20:8340\"");
  }
  while (site.page.ends_with('/')) site.page.pop_back();
}

}  // namespace

void build_yard(Reader& reader, const Document& document, Site& site) {
  const Section& yard = only_block(document, "site").own;
  site.name = word(reader, yard, "name");
  site.units = word(reader, yard, "units") == "us" ? UnitSystem::us : UnitSystem::metric;
  reader.units = site.units;
  site.currency = word(reader, yard, "currency");
  site.start_date = word(reader, yard, "first_fill");
  build_page_address(reader, yard, site);
  const Section& place = only_block(document, "place").own;
  site.place.latitude_rad = amount(reader, place, "latitude");
  site.place.longitude_rad = amount(reader, place, "longitude");
  site.place.elevation_m = amount(reader, place, "elevation");
  site.soil_bearing_pa = maybe_amount(place, "soil_bearing").value_or(0.0);
  build_goal(reader, only_block(document, "goal").own, site);
}

void build_forecast(Reader& reader, const Document& document, Site& site) {
  const Block& block = only_block(document, "forecast");
  site.forecast_days = whole(reader, block.own, "days");
  const std::string grid = word(reader, block.own, "grid");
  site.grid = grid == "draft"  ? forecast::Grid::draft
              : grid == "fine" ? forecast::Grid::fine
                               : forecast::Grid::standard;
  site.members = whole(reader, block.own, "members");
  if (given(block.own, "picture_days")) site.picture_days = numbers(reader, block.own, "picture_days");
  const Section& section = part(block, "forecast.surfaces");
  forecast::Surfaces& surfaces = site.surfaces;
  surfaces.lining_flow_resistance_pa_s_m = amount(reader, section, "lining");
  surfaces.cover_flow_resistance_pa_s_m = amount(reader, section, "cover");
  surfaces.closed_wall_resistance_m2k_w = amount(reader, section, "closed_wall");
  surfaces.emissivity = amount(reader, section, "emissivity");
  surfaces.sun_absorptance = amount(reader, section, "sun_taken_up");
  surfaces.base_blocked_share = amount(reader, section, "base_blocked");
  surfaces.shade_share = amount(reader, section, "shade");
}

}  // namespace stillheap::site
