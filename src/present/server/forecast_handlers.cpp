#include <algorithm>

#include "core/base/date.hpp"
#include "model/forecast/checkpoint.hpp"
#include "present/server/forecast_json.hpp"
#include "present/server/guard.hpp"
#include "present/server/handlers.hpp"
#include "present/server/site_edits.hpp"
#include "yard/record/read.hpp"

namespace stillheap::server {
namespace {

constexpr std::size_t draft_rows = 200;   // of the history, chosen: quick to send
constexpr std::size_t chart_rows = 1100;  // chosen: three a day over a year

Json progress_json(const Progressed& one) {
  Json json = {{"id", one.id},
               {"state", word(one.state)},
               {"share", one.share},
               {"doing", one.doing},
               {"grid", one.grid == forecast::Grid::draft ? "draft" : "standard"}};
  json.update(problems_json(one.problems));
  return json;
}

/// What a fill in the records says of itself, as a change of the site file.
Change change_of_fill(const ServerContext& context, const record::Store& store, const std::string& id) {
  const auto fill = record::current<record::Fill>(store, id);
  if (!fill) throw NotThere{"no fill with this id stands in the records"};
  const auto vessel = record::current<record::Vessel>(store, fill->vessel_id);
  Change change;
  change.design = vessel ? vessel->design : std::string{};
  if (change.design.empty() && context.site.vessels.size() == 1) change.design = context.site.vessels.front().name;
  if (change.design.empty()) {
    throw InputError("vessel", "has no design in the records", "correct it to name a vessel of the site file");
  }
  change.moisture_wet = fill->moisture_wet;
  change.start_date = date::to_iso(record::local_day(fill->filled_at, record::here()));
  return change;
}

/// What is asked for, and what the readings of the fill taught, where it names one.
struct Asked {
  Change change;
  forecast::OwnReadings own;
};

Asked asked_of(ServerContext& context, const Json& json) {
  if (json.contains("fill") && json["fill"].is_string()) {
    const auto store = context.stores.take();
    const std::string id = json["fill"].get<std::string>();
    Asked asked{change_of_fill(context, *store, id), {}};
    const vessel::Design& design = named_design(context.site, asked.change.design);
    asked.own = (*context.own)(*record::current<record::Fill>(*store, id), design);
    return asked;
  }
  if (!json.contains("change")) throw InputError("forecast", "names no fill and no change", "give one of them");
  return {read_change(json["change"]), {}};
}

Progressed ready_one(ServerContext& context, const Request& ask) {
  auto found = context.forecasts.look(ask.named.at("forecast"));
  if (!found || found->state != OrderState::ready) throw NotThere{"this forecast is not ready, or no longer kept"};
  return *found;
}

}  // namespace

Response draft(ServerContext& context, const Request& ask) {
  const Case what = make_case(context.site, read_change(body_json(ask)));
  const std::string signed_in = cookie(ask, session_cookie);
  Json json;
  const auto end = context.drafts.run(signed_in.empty() ? ask.address : signed_in, [&](const auto& goes_on) {
    const plan::Progress progress = [&](double, const std::string&) { return goes_on(); };
    const plan::VesselPlan plan = forecast_case(what, *context.weather, forecast::Grid::draft, 0, progress);
    json = layout_json(plan);
    json["forecast"] = outcome_json(plan, draft_rows);
    tell_in(context.site.units, json);
  });
  if (end == DraftTurns::End::done) return answer(json);
  if (end == DraftTurns::End::overtaken) {
    return problem(409, "draft", "was overtaken by a newer one of yours", "look at the newer one");
  }
  return problem(503, "draft", "has to wait: many others are being made", "send it again in a minute");
}

Response propose_site(ServerContext& context, const Request& ask) {
  const Change change = read_change(body_json(ask));
  const std::filesystem::path& file = context.site.file;
  const std::string before = site::read_site_text(file);
  const std::string after = site::edited(before, edits_of(context.site, change), file);
  (void)site::read_site(file, {}, after);  // what it would be refused for is told now
  Json lines = Json::array();
  for (const site::DiffLine& one : site::differing_lines(before, after)) {
    lines.push_back(Json{{"sign", std::string(1, one.sign)}, {"text", one.text}});
  }
  return answer({{"file", file.filename().string()}, {"text", after}, {"lines", lines}});
}

Response order_forecast(ServerContext& context, const Request& ask) {
  const Json json = body_json(ask);
  if (!json.is_object()) throw InputError("forecast", "is no object", "send a JSON object");
  const std::string grid = json.value("grid", Json("draft")) == Json("standard") ? "standard" : "draft";
  const Asked asked = asked_of(context, json);
  Order order{make_case(context.site, asked.change), context.weather,
              grid == "standard" ? forecast::Grid::standard : forecast::Grid::draft, context.site.members,
              grid + text_of(asked.change) + std::to_string(forecast::print_of(asked.own))};
  order.what.own = asked.own;
  return answer(progress_json(context.forecasts.ask(std::move(order))), 202);
}

Response get_forecast(ServerContext& context, const Request& ask) {
  const auto found = context.forecasts.look(ask.named.at("forecast"));
  if (!found) throw NotThere{"this forecast is no longer kept; ask for it again"};
  Json json = progress_json(*found);
  if (found->result) {
    json.update(layout_json(*found->result));
    json["follows_readings"] = !found->result->own.draws.empty();
    json["forecast"] = outcome_json(*found->result, chart_rows);
    tell_in(context.site.units, json);
  }
  return answer(json);
}

Response stop_forecast(ServerContext& context, const Request& ask) {
  if (!context.forecasts.stop(ask.named.at("forecast"))) throw NotThere{"there is no such forecast"};
  return answer({{"stopped", true}});
}

Response get_inside(ServerContext& context, const Request& ask) {
  return answer(inside_json(ready_one(context, ask).result->forecast));
}

Response send_inside(ServerContext& context, const Request& ask) {
  const auto field = std::find_if(fields().begin(), fields().end(),
                                  [&](const Field& one) { return one.name == ask.named.at("field"); });
  if (field == fields().end()) throw NotThere{"there is no such field"};
  Response made;
  made.type = "application/octet-stream";
  made.body = inside_bytes(ready_one(context, ask).result->forecast, *field);
  return made;
}

}  // namespace stillheap::server
