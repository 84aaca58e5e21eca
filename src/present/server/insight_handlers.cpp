#include <algorithm>

#include "present/server/handlers.hpp"
#include "present/server/json.hpp"
#include "yard/record/due.hpp"
#include "yard/record/read.hpp"
#include "yard/state/state_json.hpp"

namespace stillheap::server {
namespace {

/// Sentences come in the units asked for, else in those of the site file.
yard::Reader reader_of(const ServerContext& context, const Request& ask) {
  const auto asked = ask.query.find("units");
  if (asked == ask.query.end()) return {context.site.units, record::here()};
  return {asked->second == "us" ? UnitSystem::us : UnitSystem::metric, record::here()};
}

/// The glance of one fill, of one that has ended too.
record::VesselGlance glance_of(const record::Store& store, const std::string& fill_id) {
  const auto fill = record::current<record::Fill>(store, fill_id);
  if (!fill) throw NotThere{"no fill with this id stands in the records"};
  record::VesselGlance glance;
  glance.vessel = record::current<record::Vessel>(store, fill->vessel_id).value_or(record::Vessel{});
  glance.fill = *fill;
  glance.last = record::last_readings(store, fill->mark.thing);
  for (const record::Event& one : record::of_fill<record::Event>(store, fill->mark.thing)) {
    glance.events.insert_or_assign(one.kind, one);
  }
  return glance;
}

/// Vessels whose water programme is being worked out: what is asked of them is not known yet.
int count_waiting_for_water(const std::vector<record::VesselGlance>& vessels, const record::WaterLookup& water,
                            date::Day today) {
  return static_cast<int>(std::count_if(vessels.begin(), vessels.end(), [&](const record::VesselGlance& one) {
    const auto asked = one.fill ? water(one, today) : std::nullopt;
    return asked && asked->waits;
  }));
}

}  // namespace

Response get_today(ServerContext& context, const Request& ask) {
  const auto store = context.stores.take();
  const record::Instant now = record::now();
  const yard::Reader reader = reader_of(context, ask);
  const auto states = context.states.states(*store, context.setting, now);
  const auto vessels = record::yard(*store);
  // counted first: a programme that comes between is then told as waiting, and asked for once more, never left out
  const int waits = count_waiting_for_water(vessels, context.rhythm.water, record::local_day(now, reader.zone));
  const auto due = record::due_list(vessels, record::all<record::DueDay>(*store), now, reader.zone, context.rhythm);
  Json tasks = Json::array();
  for (const yard::Task& one : yard::tasks_of(states, due, reader)) tasks.push_back(Json(yard::to_json(one)));
  Json phases = Json::array();
  for (const yard::VesselState& one : states) {
    const record::Fill& fill = *one.glance.fill;
    phases.push_back(Json{{"fill", fill.mark.thing},
                          {"phase", insight::name_of(one.phase.now)},
                          {"text", yard::words(one.phase.statement.text, reader, fill.filled_at)}});
  }
  return answer({{"tasks", tasks}, {"phases", phases}, {"water_waits", waits}});
}

Response get_state(ServerContext& context, const Request& ask) {
  const auto store = context.stores.take();
  const record::VesselGlance glance = glance_of(*store, ask.named.at("fill"));
  const yard::VesselState state = yard::state_of(*store, glance, context.setting, record::now());
  return answer(Json(yard::to_json(state, reader_of(context, ask))));
}

}  // namespace stillheap::server
