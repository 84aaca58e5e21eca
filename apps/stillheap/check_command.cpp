#include <cmath>
#include <cstdio>
#include <memory>
#include <nlohmann/json.hpp>
#include <string>

#include "commands.hpp"
#include "core/base/error.hpp"
#include "domain/vessel/air_path.hpp"
#include "planning/plan/check_step.hpp"
#include "planning/plan/sheet_plan.hpp"
#include "planning/plan/warnings.hpp"
#include "planning/site/site.hpp"
#include "site_path.hpp"

namespace stillheap::app {
namespace {

using nlohmann::json;
using site::Site;

std::string length(const Site& site, double length_m) {
  return quantity::format(length_m, Dimension::length, site.units);
}
std::string share(const Site& site, double part) { return quantity::format(part, Dimension::fraction, site.units); }

std::string size_text(const Site& site, const vessel::Design& design) {
  const std::string height =
      ", " + length(site, design.height_m) + " high, filled to " + length(site, design.fill_height_m);
  if (design.footprint == vessel::Footprint::round)
    return "round, " + length(site, design.diameter_m) + " across" + height;
  return "rectangular, " + length(site, design.length_m) + " by " + length(site, design.width_m) + height;
}

void print_vessel(const Site& site, const vessel::Design& design) {
  std::printf("vessel %s: %d, %s, %s wall\n", design.name.c_str(), design.count, size_text(site, design).c_str(),
              design.wall == vessel::Wall::open ? "open" : "closed");
  std::printf("  material: %s each\n",
              quantity::format(vessel::material_volume_m3(design), Dimension::volume, site.units).c_str());
  if (design.channels.empty()) {
    std::printf("  channels: none\n");
  } else {
    std::printf("  channels: %zu of %s\n", design.channels.size(),
                length(site, design.channels.front().diameter_m).c_str());
  }
  const double path_m = vessel::longest_air_path(design).length_m;
  const bool within = path_m <= site.wanted_air_path_m * (1.0 + 1e-9);
  std::printf("  longest air path: %s, %s the wanted %s\n", length(site, path_m).c_str(),
              within ? "within" : "longer than", length(site, site.wanted_air_path_m).c_str());
}

void print_blend(const Site& site) {
  if (!site.blend.shares_by_mass.empty()) {
    std::printf("blend by mass, as delivered:");
    const char* between = " ";
    for (const auto& [id, part] : site.blend.shares_by_mass) {
      std::printf("%s%s %s", between, share(site, part).c_str(), id.c_str());
      between = ", ";
    }
    std::printf("; soaked to %s moisture\n", share(site, site.blend.moisture_target_wet).c_str());
    return;
  }
  const material::Limits& limits = site.blend.limits;
  std::printf(
      "blend: searched among %zu feedstocks, %s, with C:N %g to %g, moisture %s to %s, free air space %s to %s, "
      "conductivity at most %s\n",
      site.offers.size(), site.blend.objective == material::Objective::least_cost ? "least cost" : "using up stock",
      limits.carbon_to_nitrogen.low, limits.carbon_to_nitrogen.high, share(site, limits.moisture_wet.low).c_str(),
      share(site, limits.moisture_wet.high).c_str(), share(site, limits.free_air_space.low).c_str(),
      share(site, limits.free_air_space.high).c_str(),
      quantity::format(limits.conductivity_max_s_m, Dimension::conductivity, site.units).c_str());
}

/// A site as far as no forecast is needed.
struct Looked {
  Site site;
  Warnings warnings;
};

void print_summary(const Looked& looked) {
  const Site& site = looked.site;
  std::printf("%s: no problem found\n", site.file.c_str());
  std::printf("yard: %s, first fill %s\n", site.name.c_str(), site.start_date.c_str());
  if (site.goal.vessels) std::printf("goal: %d vessels\n", *site.goal.vessels);
  if (site.goal.compost_m3) {
    std::printf("goal: %s of compost a year\n",
                quantity::format(*site.goal.compost_m3, Dimension::volume, site.units).c_str());
  }
  for (const vessel::Design& design : site.vessels) print_vessel(site, design);
  print_blend(site);
  std::printf("%s", plan::warning_lines(looked.warnings).c_str());
  std::printf("defaults used: %zu\n", site.defaults.size());
  for (const Assumption& one : site.defaults) {
    std::printf("  %s = %s (%s)\n", one.topic.c_str(), one.value.c_str(), one.source.c_str());
  }
}

json vessel_json(const vessel::Design& design) {
  json channels = json::array();
  for (const vessel::Channel& channel : design.channels) {
    channels.push_back({{"x_m", channel.centre.x_m}, {"y_m", channel.centre.y_m}, {"diameter_m", channel.diameter_m}});
  }
  const bool round = design.footprint == vessel::Footprint::round;
  return {{"name", design.name},
          {"count", design.count},
          {"shape", round ? "round" : "rectangular"},
          {"across_m", round ? json{design.diameter_m} : json{design.length_m, design.width_m}},
          {"height_m", design.height_m},
          {"fill_height_m", design.fill_height_m},
          {"channels", channels},
          {"material_m3", vessel::material_volume_m3(design)},
          {"longest_air_path_m", vessel::longest_air_path(design).length_m}};
}

json site_json(const Looked& looked) {
  const Site& site = looked.site;
  json vessels = json::array();
  for (const vessel::Design& design : site.vessels) vessels.push_back(vessel_json(design));
  json feedstocks = json::array();
  for (const material::Offer& offer : site.offers) feedstocks.push_back(offer.feedstock.id);
  json defaults = json::array();
  for (const Assumption& one : site.defaults) {
    defaults.push_back({{"topic", one.topic}, {"value", one.value}, {"source", one.source}});
  }
  json warnings = json::array();
  for (const Warning& one : looked.warnings)
    warnings.push_back({{"where", one.where}, {"what", one.what}, {"source", one.source}});
  json blend = {{"shares_by_mass", site.blend.shares_by_mass}, {"soaked_moisture", site.blend.moisture_target_wet}};
  return {{"good", true},         {"site", site.name},        {"first_fill", site.start_date},
          {"vessels", vessels},   {"feedstocks", feedstocks}, {"blend", blend},
          {"warnings", warnings}, {"defaults", defaults},     {"problems", json::array()}};
}

json problems_json(const InputError& error) {
  json problems = json::array();
  for (const Problem& problem : error.problems()) {
    problems.push_back({{"where", problem.where}, {"what", problem.what}, {"mend", problem.mend}});
  }
  return {{"good", false}, {"problems", problems}};
}

/// The site, when it can be read and planned as far as no forecast is needed.
Looked checked_site(const std::string& named) {
  Site site = site::read_site(site_file(named));
  plan::check_plan(site);
  Warnings warnings = plan::plan_for_sheets(site).warnings;
  return {std::move(site), std::move(warnings)};
}

void check(const std::string& named, bool as_json) {
  if (!as_json) return print_summary(checked_site(named));
  try {
    std::printf("%s\n", site_json(checked_site(named)).dump(2).c_str());
  } catch (const InputError& error) {
    std::printf("%s\n", problems_json(error).dump(2, ' ', false, json::error_handler_t::replace).c_str());
    throw;
  }
}

}  // namespace

void add_check(CLI::App& app) {
  struct Options {
    std::string site;
    bool as_json = false;
  };
  const auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand(
      "check",
      "Read a site file; tell what it means, or everything that is wrong and would stop a plan before its forecast");
  command->add_option("SITE", options->site, "Site file, or the folder that holds site.toml")->required();
  command->add_flag("--json", options->as_json, "Print JSON; problems too");
  command->callback([options] { check(options->site, options->as_json); });
}

}  // namespace stillheap::app
