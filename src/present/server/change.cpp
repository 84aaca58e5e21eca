#include "present/server/change.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/date.hpp"
#include "core/base/error.hpp"
#include "core/quantity/retold.hpp"
#include "domain/limits/limits.hpp"
#include "domain/vessel/clash.hpp"
#include "model/forecast/run.hpp"
#include "planning/plan/blend_step.hpp"
#include "planning/plan/count_step.hpp"
#include "planning/plan/fill_request.hpp"
#include "planning/plan/forecast_step.hpp"
#include "planning/plan/vessel_step.hpp"

namespace stillheap::server {
namespace {

using Problems = std::vector<Problem>;

struct NumberKey {
  const char* key;
  std::optional<double> Change::*field;
  const limits::Limit* limit;
};
constexpr NumberKey number_keys[] = {
    {"diameter_m", &Change::diameter_m, &limits::diameter},
    {"length_m", &Change::length_m, &limits::side},
    {"width_m", &Change::width_m, &limits::side},
    {"height_m", &Change::height_m, &limits::height},
    {"fill_height_m", &Change::fill_height_m, &limits::fill_height},
    {"moisture_wet", &Change::moisture_wet, &limits::soaked_moisture},
    {"most_water_kg_day", &Change::most_water_kg_day, &limits::water_a_day},
};

bool read_number(const Json& json, const std::string& key, Change& change, Problems& problems) {
  const auto* row = std::find_if(std::begin(number_keys), std::end(number_keys),
                                 [&](const NumberKey& one) { return key == one.key; });
  if (row == std::end(number_keys)) return false;
  const double value = json.is_number() ? json.get<double>() : std::nan("");
  if (limits::holds(*row->limit, value)) {
    change.*(row->field) = value;
  } else {
    problems.push_back({key, "= " + json.dump() + " does not work", "give " + limits::allowed(*row->limit)});
  }
  return true;
}

void read_channels(const Json& json, Change& change, Problems& problems) {
  if (!json.is_array() || !limits::holds(limits::channels, static_cast<double>(json.size()))) {
    problems.push_back(
        {"channels", "are no list of " + limits::allowed(limits::channels), "give a list of {x_m, y_m, diameter_m}"});
    return;
  }
  std::vector<vessel::Channel> channels;
  for (const Json& one : json) {
    const auto value = [&](const char* key) {
      return one.is_object() && one.contains(key) && one[key].is_number() ? one[key].get<double>() : std::nan("");
    };
    const vessel::Channel channel{{value("x_m"), value("y_m")}, value("diameter_m")};
    if (!limits::holds(limits::channel_diameter, channel.diameter_m) ||
        !limits::holds(limits::channel_place, channel.centre.x_m) ||
        !limits::holds(limits::channel_place, channel.centre.y_m)) {
      problems.push_back({"channels", "hold one that does not work",
                          "give x_m and y_m, each " + limits::allowed(limits::channel_place) + ", and a diameter, " +
                              limits::allowed(limits::channel_diameter)});
      return;
    }
    channels.push_back(channel);
  }
  change.channels = std::move(channels);
}

void read_shares(const Json& json, Change& change, Problems& problems) {
  std::map<std::string, double> shares;
  double sum = 0.0;
  if (json.is_object()) {
    for (const auto& [id, share] : json.items()) {
      shares[id] = share.is_number() ? share.get<double>() : -1.0;
      sum += shares[id];
      if (!(shares[id] >= 0.0)) sum = std::nan("");
    }
  }
  if (!(sum > 0.0) || !std::isfinite(sum)) {
    problems.push_back({"shares", "must not be below 0 and not all 0", "give the mass of each feedstock"});
    return;
  }
  for (auto& [id, share] : shares) share /= sum;
  change.shares = std::move(shares);
}

bool is_date(const std::string& text) {
  const std::optional<date::Day> day = date::parse_iso(text);
  return day && limits::holds(limits::year, date::year_of(*day));
}

bool read_text(const Json& json, const std::string& key, Change& change, Problems& problems) {
  if (key == "design" && json.is_string()) {
    change.design = json.get<std::string>();
  } else if (key == "start_date" && json.is_string() && is_date(json.get<std::string>())) {
    change.start_date = json.get<std::string>();
  } else if (key == "design" || key == "start_date") {
    problems.push_back({key, "= " + json.dump() + " does not work", "give a text; a date as 2025-03-31"});
  } else {
    return false;
  }
  return true;
}

vessel::Design design_of(const site::Site& site, const Change& change) {
  vessel::Design design = named_design(site, change.design);
  design.diameter_m = change.diameter_m.value_or(design.diameter_m);
  design.length_m = change.length_m.value_or(design.length_m);
  design.width_m = change.width_m.value_or(design.width_m);
  design.fill_height_m = change.fill_height_m.value_or(design.fill_height_m);
  design.height_m = change.height_m.value_or(std::max(design.height_m, design.fill_height_m));
  design.panel_width_m = std::max(design.panel_width_m, design.height_m);  // the mesh is bought as high as the cage
  if (change.channels) design.channels = *change.channels;
  return design;
}

void check_design(const vessel::Design& design, UnitSystem units) {
  Problems problems;
  if (design.fill_height_m > design.height_m) {
    problems.push_back({"fill_height_m", "is more than the cage is high", "fill less, or make the cage higher"});
  }
  for (const vessel::Clash& clash : vessel::find_clashes(design)) {
    if (clash.refused)
      problems.push_back(
          {"channels", quantity::retold(vessel::describe(clash), units), "move it, or take a narrower form"});
  }
  if (!problems.empty()) throw InputError(problems);
}

void check_shares(const site::Site& site, const std::map<std::string, double>& shares) {
  for (const auto& [id, share] : shares) {
    const bool known =
        std::any_of(site.offers.begin(), site.offers.end(),
                    [&wanted = id](const material::Offer& offer) { return offer.feedstock.id == wanted; });
    if (!known) throw InputError("shares", "= \"" + id + "\" is not in the site file", "name its feedstocks only");
  }
}

}  // namespace

const vessel::Design& named_design(const site::Site& site, const std::string& name) {
  const auto found = std::find_if(site.vessels.begin(), site.vessels.end(),
                                  [&](const vessel::Design& one) { return one.name == name; });
  if (found == site.vessels.end()) {
    throw InputError("design", "= \"" + name + "\" is not in the site file", "name one of its vessels");
  }
  return *found;
}

Change read_change(const Json& json) {
  if (!json.is_object()) throw InputError("change", "is no object", "send a JSON object");
  Change change;
  Problems problems;
  for (const auto& [key, value] : json.items()) {
    if (value.is_null() || read_number(value, key, change, problems) || read_text(value, key, change, problems)) {
      continue;
    }
    if (key == "channels") {
      read_channels(value, change, problems);
    } else if (key == "shares") {
      read_shares(value, change, problems);
    } else {
      problems.push_back({key, "is not known", "see docs/openapi.json for what can be changed"});
    }
  }
  if (change.design.empty()) problems.push_back({"design", "is missing", "name a vessel of the site file"});
  if (!problems.empty()) throw InputError(problems);
  return change;
}

std::string text_of(const Change& change) {
  Json json = {{"design", change.design}};
  for (const NumberKey& row : number_keys) {
    if (change.*(row.field)) json[row.key] = *(change.*(row.field));
  }
  if (change.shares) json["shares"] = *change.shares;
  if (change.start_date) json["start_date"] = *change.start_date;
  if (change.channels) {
    json["channels"] = Json::array();
    for (const vessel::Channel& one : *change.channels) {
      json["channels"].push_back({one.centre.x_m, one.centre.y_m, one.diameter_m});
    }
  }
  return json.dump();
}

Case make_case(const site::Site& site, const Change& change) {
  Case made{site, design_of(site, change), 0.0, {}, change.most_water_kg_day};
  check_design(made.design, site.units);
  if (change.start_date) made.site.start_date = *change.start_date;
  if (change.moisture_wet) plan::aim_at_moisture(made.site, *change.moisture_wet);
  if (change.shares) {
    check_shares(site, *change.shares);
    made.site.blend.shares_by_mass = *change.shares;
  }
  const plan::Recipe recipe = plan::choose_recipe(made.site, plan::starting_counts(made.site));
  made.moisture_wet = recipe.moisture_wet;
  made.as_delivered = plan::scaled_to(recipe, vessel::material_volume_m3(made.design));
  return made;
}

plan::VesselPlan plan_case(const Case& what) {
  return plan::plan_vessel(what.site, what.design, what.as_delivered, what.moisture_wet);
}

plan::VesselPlan forecast_case(const Case& what, const weather::Series& weather, forecast::Grid grid, int members,
                               const plan::Progress& progress) {
  site::Site site = what.site;
  site.grid = grid;
  site.members = members;
  if (what.most_water_kg_day) site.water.most_reaching_kg_day = *what.most_water_kg_day;
  plan::VesselPlan plan = plan_case(what);
  plan.own = what.own;
  plan::add_forecast(plan, site, weather, plan::forecast_engine(), progress);
  if (plan.forecast.stopped_by_user) throw RunError("", "stopped on request", "nothing was kept");
  return plan;
}

}  // namespace stillheap::server
