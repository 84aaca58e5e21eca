#include "planning/plan/check_step.hpp"

#include <array>
#include <optional>

#include "core/base/error.hpp"
#include "model/forecast/run.hpp"
#include "planning/plan/blend_step.hpp"
#include "planning/plan/count_step.hpp"
#include "planning/plan/forecast_step.hpp"
#include "planning/plan/vessel_step.hpp"

namespace stillheap::plan {
namespace {

using Problems = std::vector<Problem>;

/// Words of a lower stage, and the key of the site file they are about.
struct KeyOf {
  std::string_view words, path;
};
constexpr std::array keys_of{KeyOf{"monthly low", "weather.low"},
                             KeyOf{"monthly high", "weather.high"},
                             KeyOf{"monthly humidity", "weather.humidity"},
                             KeyOf{"monthly sun", "weather.sun"},
                             KeyOf{"monthly wind", "weather.wind"},
                             KeyOf{"monthly rain", "weather.rain"},
                             KeyOf{"place, latitude", "place.latitude"},
                             KeyOf{"inside diameter", "water.line.inside_diameter"},
                             KeyOf{"hole diameter", "water.line.hole"},
                             KeyOf{"water line, spacing", "water.line.spacing"},
                             KeyOf{"water line, roughness", "water.line.roughness"},
                             KeyOf{"water line, spray flow", "water.line.spray_flow"},
                             KeyOf{"water supply, pressure", "water.supply.pressure"},
                             KeyOf{"forecast.days", "forecast.days"}};

/// The stages below know no file: their refusals are told with the line of the key they are about, or with that of
/// the section the stage reads. What names a file already (weather files do) stays.
Problem located(const site::Site& site, std::string_view section, Problem problem) {
  const bool names_file = problem.where.starts_with(site.file.string()) ||
                          (!site.weather.file.empty() && problem.where.starts_with(site.weather.file.string()));
  if (names_file) return problem;
  for (const KeyOf& one : keys_of) {
    if (problem.where.find(one.words) == std::string::npos) continue;
    problem.where = site::where(site, one.path) + " (" + problem.where + ')';
    return problem;
  }
  problem.where = site::where(site, section) + " (" + problem.where + ')';
  return problem;
}

/// Does one part of the plan; what it refuses is noted.
template <class Work>
auto tried(const site::Site& site, std::string_view section, Problems& problems, const Work& work)
    -> std::optional<decltype(work())> {
  try {
    return work();
  } catch (const Error& error) {
    for (const Problem& problem : error.problems()) problems.push_back(located(site, section, problem));
    return std::nullopt;
  }
}

void check_flow(const site::Site& site, const water::LineFlow& flow, Problems& problems) {
  if (flow.total_flow_m3_s > 0.0) return;
  problems.push_back({site::where(site, "water.line"), "gives no water at this pressure and flow",
                      "give a stronger supply, larger holes or a wider line"});
}

void check_vessel(const site::Site& site, const vessel::Design& design, const Recipe& recipe,
                  const std::optional<weather::Series>& weather, Problems& problems) {
  const std::string section = "vessel." + design.name;
  VesselPlan plan;
  plan.design = design;
  if (!site.water.by_hand) {
    const auto flow = tried(site, "water.line", problems,
                            [&] { return water::solve_line(line_for(site, design), site.water.supply); });
    if (flow) check_flow(site, *flow, problems);
    if (flow) plan.line_flow = *flow;
  }
  const auto blend =
      tried(site, "blend", problems, [&] { return scaled_to(recipe, vessel::material_volume_m3(design)); });
  if (!blend) return;
  const auto soaked =
      tried(site, "blend.soaked_moisture", problems, [&] { return material::soaked_to(*blend, recipe.moisture_wet); });
  (void)tried(site, section, problems, [&] {
    return fill::plan_fill(design, *blend, recipe.moisture_wet, site.bath, site.practice, site.units);
  });
  if (!soaked || !weather) return;
  plan.blend_soaked = *soaked;
  (void)tried(site, "blend", problems, [&] {
    forecast::check(request_for(site, *weather, plan));
    return true;
  });
}

}  // namespace

Checked check_plan(const site::Site& site) {
  Problems problems;
  auto weather = tried(site, "weather", problems, [&] { return weather_of(site); });
  auto recipe = tried(site, "blend", problems, [&] { return choose_recipe(site, starting_counts(site)); });
  if (recipe) {
    for (const vessel::Design& design : site.vessels) check_vessel(site, design, *recipe, weather, problems);
  }
  if (!problems.empty()) throw InputError(std::move(problems));
  return {std::move(*weather), std::move(*recipe)};
}

}  // namespace stillheap::plan
