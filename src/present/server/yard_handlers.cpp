#include <set>

#include "core/quantity/retold.hpp"
#include "domain/limits/limits.hpp"
#include "domain/rules/cautions.hpp"
#include "domain/vessel/air_path.hpp"
#include "planning/plan/caution_step.hpp"
#include "present/server/addresses.hpp"
#include "present/server/entry_json.hpp"
#include "present/server/forecast_json.hpp"
#include "present/server/handlers.hpp"
#include "yard/record/read.hpp"
#include "yard/state/yard_facts.hpp"

namespace stillheap::server {
namespace {

Json feedstocks_json(const site::Site& site) {
  Json list = Json::array();
  for (const material::Offer& offer : site.offers) {
    const material::Feedstock& one = offer.feedstock;
    list.push_back(Json{{"id", one.id},
                        {"name", one.name},
                        {"moisture_wet", number(one.moisture_wet)},
                        {"carbon_to_nitrogen", number(one.carbon_dry / one.nitrogen_dry)},
                        {"stock_kg", offer.stock_kg ? number(*offer.stock_kg) : Json(nullptr)}});
  }
  return list;
}

/// Cautions for the yard as a whole; what is not known of a fill counts as if it were so.
Json cautions_json(const site::Site& site) {
  rules::Conditions conditions;
  conditions.drinking_water_supply = site.water.drinking_water && !site.water.by_hand;
  conditions.has_manure = true;
  conditions.may_carry_weedkiller = true;
  if (site.soil_bearing_pa > 0.0) conditions.soil_bearing_pa = site.soil_bearing_pa;
  for (const vessel::Design& design : site.vessels) {
    conditions.brim_height_m = std::max(conditions.brim_height_m, design.height_m);
    if (plan::is_slender(design)) conditions.slender.push_back(design.name);
  }
  conditions.vessels = static_cast<int>(site.vessels.size());
  Json list = Json::array();
  for (const rules::Warned& one : rules::select_cautions(conditions)) {
    list.push_back(Json{
        {"work", rules::name_of(one.place)}, {"text", quantity::retold(one.text, site.units)}, {"source", one.source}});
  }
  return list;
}

/// What a laboratory value is judged by, each key once.
Json lab_keys_json() {
  Json list = Json::array();
  std::set<std::string> named;
  for (const auto& one : yard::lab_keys()) {
    if (named.insert(one.key).second) list.push_back(Json{{"key", one.key}, {"unit", one.unit}});
  }
  return list;
}

/// What the page may plan and note: the table that the site file and the records are judged by.
Json limits_json() {
  Json json = Json::object();
  for (const limits::Limit* one : limits::all()) {
    json[std::string(one->name)] = {{"least", limits::least(*one)},
                                    {"least_itself", one->least_itself},
                                    {"most", limits::most(*one)},
                                    {"unit", limits::unit(*one)}};
  }
  return json;
}

Json heat_limits_json() {
  const yard::HeatLimits heat = yard::heat_limits();
  return {{"fire", heat.fire_c}, {"too_hot", heat.too_hot_c}, {"hot", heat.hot_c}, {"warm", heat.warm_c}};
}

Json names_json() {
  Json measures = Json::array();
  for (const record::MeasureInfo& one : record::measures()) {
    measures.push_back(Json{{"key", one.key},
                            {"unit", one.unit},
                            {"least", one.least},
                            {"most", one.most},
                            {"usual_least", one.usual_least},
                            {"usual_most", one.usual_most}});
  }
  Json events = Json::array();
  for (const record::EventInfo& one : record::event_kinds()) {
    events.push_back(Json{{"key", one.key}, {"words", one.words}});
  }
  return {{"measures", measures}, {"event_kinds", events}, {"lab_keys", lab_keys_json()}};
}

Json glance_json(const record::VesselGlance& one, UnitSystem units) {
  Json last = Json::array();
  for (const record::Reading& reading : one.last) {
    Json json = to_json(reading);
    json["place_words"] = record::words(reading.place, units);
    last.push_back(std::move(json));
  }
  Json events = Json::array();
  for (const auto& [kind, event] : one.events) events.push_back(to_json(event));
  return {{"vessel", to_json(one.vessel)},
          {"fill", one.fill ? to_json(*one.fill) : Json(nullptr)},
          {"last_readings", last},
          {"last_events", events}};
}

}  // namespace

Response get_site(ServerContext& context, const Request&) {
  const site::Site& site = context.site;
  Json designs = Json::array();
  for (const vessel::Design& design : site.vessels) {
    Json json = design_json(design);
    json["longest_air_path_m"] = number(vessel::longest_air_path(design).length_m);
    designs.push_back(std::move(json));
  }
  Json json = {{"name", site.name},
               {"units", site.units == UnitSystem::us ? "us" : "metric"},
               {"start_date", site.start_date},
               {"wanted_air_path_m", site.wanted_air_path_m},
               {"vessels_wanted", site.goal.vessels ? Json(*site.goal.vessels) : Json(nullptr)},
               {"designs", designs},
               {"feedstocks", feedstocks_json(site)},
               {"shares_by_mass", site.blend.shares_by_mass},
               {"moisture_target_wet", site.blend.moisture_target_wet},
               {"cautions", cautions_json(site)},
               {"limits", limits_json()},
               {"heat_limits_c", heat_limits_json()}};
  json.update(names_json());
  return answer(json);
}

Response get_addresses(House& house, const Request&) {
  return answer({{"addresses", phone_addresses(house.door().safety, house.door().port)}});
}

Response get_yard(ServerContext& context, const Request&) {
  const auto store = context.stores.take();
  Json vessels = Json::array();
  for (const record::VesselGlance& one : record::yard(*store)) vessels.push_back(glance_json(one, context.site.units));
  return answer({{"now_s", record::now().time_since_epoch().count()}, {"vessels", vessels}});
}

}  // namespace stillheap::server
