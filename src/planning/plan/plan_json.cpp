#include "planning/plan/plan_json.hpp"

#include <cmath>

#include "core/base/date.hpp"
#include "domain/vessel/base.hpp"
#include "model/forecast/output.hpp"
#include "planning/plan/shopping.hpp"
#include "planning/plan/water_step.hpp"
#include "planning/water/fittings.hpp"
#include "planning/water/words.hpp"

namespace stillheap::plan {
namespace {

Json number(double value) { return std::isfinite(value) ? Json(value) : Json(nullptr); }

Json optional_number(const std::optional<double>& value) { return value ? number(*value) : Json(nullptr); }

Json banded(const forecast::Banded& value) {
  return {{"low", number(value.low)}, {"middle", number(value.middle)}, {"high", number(value.high)}};
}

template <typename List, typename ToJson>
Json list(const List& items, ToJson to_one) {
  Json all = Json::array();
  for (const auto& item : items) all.push_back(to_one(item));
  return all;
}

Json design_json(const vessel::Design& design) {
  Json json = {{"name", design.name},
               {"count", design.count},
               {"footprint", design.footprint == vessel::Footprint::round ? "round" : "rectangular"},
               {"diameter_m", design.diameter_m},
               {"length_m", design.length_m},
               {"width_m", design.width_m},
               {"height_m", design.height_m},
               {"fill_height_m", design.fill_height_m},
               {"wall", design.wall == vessel::Wall::open ? "open" : "closed"},
               {"base_open", design.base_open},
               {"material_volume_m3", vessel::material_volume_m3(design)}};
  json["channels"] = list(design.channels, [](const vessel::Channel& channel) {
    return Json{{"x_m", channel.centre.x_m},
                {"y_m", channel.centre.y_m},
                {"diameter_m", channel.diameter_m},
                {"base_covered_share", number(channel.base_covered_share)}};
  });
  const bool along_x = vessel::slats_along_x(design);
  json["bearers"] = list(design.bearers, [along_x](const vessel::Slat& bearer) {
    return Json{{"middle_m", along_x ? bearer.from.x_m : bearer.from.y_m},
                {"length_m", distance_m(bearer.from, bearer.to)},
                {"width_m", bearer.width_m}};
  });
  json["seats"] = static_cast<int>(vessel::seats_of(design).size());
  json["form_length_m"] = vessel::form_length_m(design);
  return json;
}

Json air_path_json(const VesselPlan& vessel) {
  Json json = {{"length_m", number(vessel.air_path.length_m)},
               {"plan_length_m", number(vessel.air_path.plan_length_m)},
               {"x_m", number(vessel.air_path.where.x_m)},
               {"y_m", number(vessel.air_path.where.y_m)},
               {"height_m", number(vessel.air_path.height_m)}};
  json["suggestion"] = vessel.suggestion ? Json(vessel.suggestion->words) : Json(nullptr);
  return json;
}

Json loads_json(const vessel::Loads& loads) {
  return {{"mass_wet_kg", number(loads.mass_wet_kg)},
          {"weight_n", number(loads.weight_n)},
          {"base_pressure_pa", number(loads.base_pressure_pa)},
          {"ground_pressure_pa", number(loads.ground_pressure_pa)},
          {"side_pressure_pa", number(loads.side_pressure_pa)},
          {"hoop_tension_n_m", number(loads.hoop_tension_n_m)},
          {"wire_stress_pa", number(loads.wire_stress_pa)},
          {"wire_safety", loads.wire_safety > 0.0 ? number(loads.wire_safety) : Json(nullptr)},
          {"tie_force_n", number(loads.tie_force_n)},
          {"side_force_n_m", number(loads.side_force_n_m)},
          {"bearers", loads.ground.bearers},
          {"bearer_spacing_m", number(loads.ground.bearer_spacing_m)},
          {"bearer_width_m", number(loads.ground.bearer_width_m)},
          {"bearer_pressure_pa", number(loads.ground.bearer_pressure_pa)},
          {"lean_lifts_edge", number(loads.ground.tilt_edge)},
          {"lean_goes_over", number(loads.ground.tilt_over)},
          {"edge_pressure_pa", number(loads.ground.edge_pressure_pa)},
          {"ground_settling_m", loads.ground.settling_m > 0.0 ? number(loads.ground.settling_m) : Json(nullptr)}};
}

Json blend_json(const material::Blend& blend) {
  Json json = {{"mass_wet_kg", number(blend.mass_wet_kg)},
               {"mass_dry_kg", number(blend.mass_dry_kg)},
               {"volume_m3", number(blend.volume_m3)},
               {"moisture_wet", number(blend.moisture_wet)},
               {"carbon_to_nitrogen", number(blend.carbon_to_nitrogen)},
               {"degradable_carbon_to_nitrogen", number(blend.degradable_carbon_to_nitrogen)},
               {"ash_dry", number(blend.ash_dry)},
               {"conductivity_s_m", number(blend.conductivity_s_m)},
               {"bulk_density_kg_m3", number(blend.bulk_density_kg_m3)},
               {"free_air_space", number(blend.free_air_space)}};
  json["parts"] = list(blend.parts, [](const material::Part& part) {
    return Json{{"id", part.feedstock.id}, {"name", part.feedstock.name}, {"mass_wet_kg", number(part.mass_wet_kg)}};
  });
  return json;
}

Json fill_json(const fill::FillPlan& fill) {
  return {{"pails", fill.pails},
          {"lifts", fill.lifts},
          {"lift_height_m", number(fill.lift_height_m)},
          {"people_hours", number(fill.people_hours)},
          {"hours", number(fill.hours)},
          {"clock_s", number(fill.clock_s)},
          {"baths_for_a_day", fill.baths_for_a_day},
          {"inoculum_kg", number(fill.inoculum_kg)},
          {"soak",
           {{"batches", fill.soak.batches},
            {"water_taken_kg", number(fill.soak.water_taken_kg)},
            {"water_to_draw_kg", number(fill.soak.water_to_draw_kg)},
            {"time_s", number(fill.soak.time_s)}}},
          {"steps", fill.steps}};
}

Json line_json(const VesselPlan& vessel) {
  if (vessel.programme.way.by_hand) return nullptr;
  return {{"holes", vessel.line_flow.holes},
          {"total_flow_m3_s", number(vessel.line_flow.total_flow_m3_s)},
          {"inlet_pressure_pa", number(vessel.line_flow.inlet_pressure_pa)},
          {"christiansen_uniformity", number(vessel.line_flow.christiansen_uniformity)},
          {"low_quarter_uniformity", number(vessel.line_flow.low_quarter_uniformity)},
          {"flow_variation", number(water::flow_variation(vessel.line_flow))},
          {"supply_limits", vessel.line_flow.supply_limits}};
}

Json water_json(const VesselPlan& vessel) {
  return {{"line", line_json(vessel)},
          {"drain_conductivity_s_m", number(vessel.drain_conductivity_s_m)},
          {"programme", programme_json(vessel)}};
}

const char* setting_name(water::Setting setting) {
  switch (setting) {
    case water::Setting::runs:
      return "runs";
    case water::Setting::enough:
      return "enough";
    case water::Setting::frost:
      return "frost";
  }
  return "";
}

Json row_json(const VesselPlan& vessel, std::size_t index) {
  const water::Row& row = vessel.programme.rows[index];
  const std::optional<forecast::Banded> known = drained_in(vessel, index);
  const forecast::Banded drained = known.value_or(forecast::Banded{});
  const double salt_g_kg = drained_salt_g_kg(vessel);
  const forecast::Banded salt{drained.middle * salt_g_kg, drained.low * salt_g_kg, drained.high * salt_g_kg};
  return {{"first_day", date::to_iso(row.first)},
          {"last_day", date::to_iso(row.last)},
          {"setting", setting_name(row.setting)},
          {"says",
           {{"metric", water::setting_text(vessel.programme, row, UnitSystem::metric)},
            {"us", water::setting_text(vessel.programme, row, UnitSystem::us)}}},
          {"every_days", row.every_days},
          {"steps", row.steps},
          {"run_s", vessel.programme.way.by_hand ? Json(nullptr) : number(water::run_s(vessel.programme, row))},
          {"runs", row.runs},
          {"run_let_out_kg", number(row.run_kg)},
          {"run_reaching_kg", number(row.run_reaching_kg)},
          {"lost_kg", number(row.lost_kg)},
          {"rain_kg", number(row.rain_kg)},
          {"rain_credited_kg", number(row.rain_credited_kg)},
          {"drained_kg_day", known ? banded(drained) : Json(nullptr)},
          {"salt_out_g_day", known ? banded(salt) : Json(nullptr)}};
}

Json verdict_json(const rules::Verdict& verdict) {
  return {{"rule", verdict.rule_id}, {"met", verdict.met},         {"met_at_s", optional_number(verdict.met_at_s)},
          {"says", verdict.rule},    {"reading", verdict.reading}, {"source", verdict.source}};
}

Json unknown_json(const forecast::Sensitivity& all, const forecast::Unknown& one) {
  Json answers = Json::array();
  for (std::size_t a = 0; a < all.answers.size(); ++a) {
    answers.push_back({{"answer", all.answers[a].name},
                       {"variance_share", banded(one.share[a])},
                       {"band_narrows_share", number(one.narrowing[a])}});
  }
  return {{"what", one.what},
          {"how", one.how.empty() ? Json(nullptr) : Json(one.how)},
          {"band_narrows_mean_share", number(one.mean_narrowing)},
          {"answers", answers}};
}

Json measure_json(const forecast::Sensitivity& all) {
  return {{"why_none", all.why_none.empty() ? Json(nullptr) : Json(all.why_none)},
          {"unexplained_share",
           list(all.answers,
                [](const auto& answer) {
                  return Json{{"answer", answer.name}, {"runs", answer.runs}, {"share", number(answer.unexplained)}};
                })},
          {"unknowns", list(all.unknowns, [&](const forecast::Unknown& one) { return unknown_json(all, one); })}};
}

Json outlook_json(const VesselPlan& vessel) {
  const forecast::Summary& summary = vessel.forecast.summary;
  return {{"peak_temperature_c", banded(summary.peak_temperature_c)},
          {"peak_day", banded(summary.peak_day)},
          {"cool_day", optional_number(summary.cool_day)},
          {"cool_day_low", optional_number(summary.cool_day_low)},
          {"cool_day_high", optional_number(summary.cool_day_high)},
          {"share_3_days_above_55", banded(summary.share_3_days_above_55)},
          {"lowest_oxygen", banded(summary.lowest_oxygen)},
          {"driest_moisture_wet", banded(summary.driest_moisture_wet)},
          {"solids_lost", banded(summary.solids_lost)},
          {"finished_volume_m3", banded(summary.finished_volume_m3)},
          {"finished_mass_kg", banded(summary.finished_mass_kg)},
          {"odds", forecast::to_json(summary.odds)},
          {"what_to_measure_first", measure_json(vessel.forecast.sensitivity)},
          {"hygiene_core", list(vessel.hygiene.core, verdict_json)},
          {"hygiene_coldest", list(vessel.hygiene.coldest, verdict_json)},
          {"core_lethality_convention", number(vessel.hygiene.core_lethality)},
          {"heated", summary.heated},
          {"degradable_left", banded(summary.degradable_left)},
          {"end_state", words_of(end_state(summary))},
          {"worms_early_day", optional_number(vessel.worms.early_day)},
          {"worms_day", optional_number(vessel.worms.day)},
          {"worms_late_day", optional_number(vessel.worms.late_day)},
          {"worms_why_none", vessel.worms.why_none},
          {"harvest_early_day", number(vessel.harvest.early_day)},
          {"harvest_late_day", number(vessel.harvest.late_day)}};
}

Json vessel_json(const VesselPlan& vessel) {
  return {{"design", design_json(vessel.design)},
          {"air_path", air_path_json(vessel)},
          {"loads", loads_json(vessel.loads)},
          {"loads_waterlogged", loads_json(vessel.loads_waterlogged)},
          {"blend_as_delivered", blend_json(vessel.blend_as_delivered)},
          {"blend_soaked", blend_json(vessel.blend_soaked)},
          {"fill", fill_json(vessel.fill)},
          {"water", water_json(vessel)},
          {"outlook", outlook_json(vessel)}};
}

Json priced_json(const PricedPiece& line) {
  return {{"what", line.piece.what},
          {"use", line.piece.use},
          {"count", line.count},
          {"length_m", line.piece.length_m},
          {"width_m", line.piece.width_m},
          {"diameter_m", line.piece.diameter_m},
          {"amount", number(line.amount)},
          {"amount_unit", line.amount_unit},
          {"stock", line.stock},
          {"priced", line.priced},
          {"cost", line.priced ? number(line.cost) : Json(nullptr)}};
}

Json stock_json(const cut::Stock& stock) {
  return {{"length_m", stock.length_m},
          {"width_m", stock.width_m > 0.0 ? Json(stock.width_m) : Json(nullptr)},
          {"at_hand", stock.at_hand ? Json(*stock.at_hand) : Json(nullptr)},
          {"by_length", stock.by_length}};
}

Json cut_json(const cut::StockPiece& piece) {
  Json placed = list(piece.pieces, [](const cut::Placed& one) {
    return Json{
        {"part", one.want}, {"x_m", one.x_m}, {"y_m", one.y_m}, {"along_m", one.along_m}, {"across_m", one.across_m}};
  });
  return {{"stock", piece.stock}, {"used_m", piece.used_m}, {"parts", placed}};
}

Json sums_json(const cut::JobCuts& cuts) {
  return {{"pieces_of_stock", cuts.pieces.size()},
          {"waste_share", number(cuts.waste_share)},
          {"gap_share", number(cuts.gap_share)},
          {"cost", cuts.priced ? number(cuts.cost) : Json(nullptr)},
          {"note", cuts.note.empty() ? Json(nullptr) : Json(cuts.note)}};
}

Json material_json(const MaterialCuts& material) {
  Json json = {{"what", material.job.what}, {"for", material.job.key}};
  json["parts"] = list(material.cuts.parts, [](const cut::Part& part) {
    return Json{{"what", part.what}, {"length_m", part.length_m}, {"width_m", part.width_m}, {"count", part.count}};
  });
  json["stock"] = list(material.job.stock, stock_json);
  json["sums"] = sums_json(material.cuts);
  json["cuts"] = list(material.cuts.pieces, cut_json);
  json["other_sizes"] = list(material.others, [](const OtherSize& other) {
    const bool ring = other.diameter_m > 0.0;
    return Json{{"stock", stock_json(other.stock)},
                {"sums", sums_json(other.cuts)},
                {"ring_diameter_m", ring ? number(other.diameter_m) : Json(nullptr)},
                {"brim_m", ring ? number(other.height_m) : Json(nullptr)},
                {"filling_m3", ring ? number(other.volume_m3) : Json(nullptr)}};
  });
  return json;
}

Json costs_json(const Plan& plan) {
  return {{"currency", plan.site.currency},
          {"material_cost", number(plan.material_cost)},
          {"material_lines_priced", material_sum(plan).priced},
          {"material_lines", material_sum(plan).lines},
          {"labour_cost", number(plan.labour_cost)},
          {"labour_hours", number(plan.labour_hours)},
          {"labour", list(plan.labour, [](const LabourLine& line) {
             return Json{{"what", line.what}, {"hours", number(line.hours)}, {"cost", number(line.cost)}};
           })}};
}

Json site_json(const site::Site& site) {
  // The file's name only: plans travel, and where they were made is nobody's business.
  return {{"name", site.name},
          {"file", site.file.filename().string()},
          {"units", site.units == UnitSystem::metric ? "metric" : "us"},
          {"start_date", site.start_date},
          {"goal",
           {{"compost_m3", optional_number(site.goal.compost_m3)},
            {"vessels", site.goal.vessels ? Json(*site.goal.vessels) : Json(nullptr)},
            {"ready_by", site.goal.ready_by}}}};
}

Json half_months_json(const supply::Outcome& outcome) {
  const supply::YardPlan& year = outcome.plan;
  Json parts = Json::array();
  for (int ahead = 0; ahead < supply::parts(outcome.wish.year); ++ahead) {
    const std::size_t p = supply::part_shown(outcome, ahead);
    const supply::HalfMonth when = supply::half_month_after(outcome.start, ahead);
    parts.push_back({{"first_day", date::to_iso(when.first)},
                     {"last_day", date::to_iso(when.last)},
                     {"fillings", year.fills[p]},
                     {"harvests", year.harvests[p]},
                     {"places_taken", year.busy[p]},
                     {"wanted_m3", number(outcome.wish.wanted_m3[p])},
                     {"short_m3", number(year.short_m3[p])},
                     {"spare_m3", number(year.spare_m3[p])},
                     {"in_store_at_end_m3", number(year.stock_m3[p])},
                     {"hours", number(year.hours[p])}});
  }
  return parts;
}

Json yard_plan_json(const supply::Outcome& outcome, UnitSystem units) {
  const supply::YardPlan& year = outcome.plan;
  const auto maybe = [](const std::optional<int>& count) { return count ? Json(*count) : Json(nullptr); };
  Json stays = list(outcome.stays, [](const supply::Stay& stay) {
    return Json{{"place", stay.place + 1},
                {"year", stay.year},
                {"filled_in", stay.fill},
                {"harvested_in", stay.harvest},
                {"free_in", stay.free}};
  });
  return {
      {"vessel", outcome.vessel},
      {"meets_what_is_wanted", outcome.met},
      {"places", {{"low", maybe(outcome.places_low)}, {"middle", year.places}, {"high", maybe(outcome.places_high)}}},
      {"fillings_a_year", year.fills_a_year},
      {"yield_m3", number(outcome.wish.yield_m3)},
      {"harvest_days", number(outcome.wish.harvest_days)},
      {"busiest_hours", number(year.busiest_hours)},
      {"busiest_hours_bound", number(year.busiest_bound_hours)},
      {"proven", year.places_proven && year.fills_proven && year.store_proven},
      {"half_months", half_months_json(outcome)},
      {"stays", stays},
      {"short", supply::short_lines(outcome, units)},
      {"ways_out",
       list(outcome.ways_out, [&](const supply::Way& way) { return supply::way_text(outcome, way, units); })}};
}

Json calendar_json(const CalendarEntry& entry) {
  return {{"date", entry.date}, {"latest_date", entry.latest_date}, {"vessel", entry.vessel}, {"what", entry.what}};
}
Json caution_json(const Caution& one) { return {{"place", one.place}, {"text", one.text}, {"source", one.source}}; }
Json warning_json(const Warning& one) { return {{"where", one.where}, {"what", one.what}, {"source", one.source}}; }
Json assumption_json(const Assumption& one) {
  return {{"topic", one.topic}, {"value", one.value}, {"source", one.source}};
}

Json counts_json(const Plan& plan) {
  return {{"low", plan.vessels_needed_low}, {"middle", plan.vessels_needed}, {"high", plan.vessels_needed_high}};
}

}  // namespace

Json programme_json(const VesselPlan& vessel) {
  const water::Programme& programme = vessel.programme;
  Json rows = Json::array();
  for (std::size_t i = 0; i < programme.rows.size(); ++i) rows.push_back(row_json(vessel, i));
  const water::Way& way = programme.way;
  return {{"by", way.by_hand ? "hand" : "line"},
          {"application_efficiency", number(way.efficiency)},
          {"leaching_share", number(way.leaching_share)},
          {"step_s", way.by_hand ? Json(nullptr) : number(way.step_s)},
          {"step_let_out_kg", number(way.step_kg)},
          {"let_out_kg", number(water::let_out_kg(programme))},
          {"reaching_kg", number(water::reaching_kg(programme))},
          {"limits", {{"metric", programme_limits(vessel)}, {"us", programme_limits(vessel)}}},
          {"half_months", rows}};
}

Json to_json(const Plan& plan) {
  return {{"schema", "stillheap plan"},
          {"schema_version", plan_schema_version},
          {"site", site_json(plan.site)},
          {"vessels_needed", counts_json(plan)},
          {"finished_m3_a_year", banded(plan.finished_m3)},
          {"blend_was_found", plan.blend_was_found},
          {"vessels", list(plan.vessels, vessel_json)},
          {"feedstocks", list(plan.feedstock_shopping, priced_json)},
          {"cutting", list(plan.cutting, material_json)},
          {"shopping", list(plan.shopping, priced_json)},
          {"costs", costs_json(plan)},
          {"calendar", list(plan.calendar, calendar_json)},
          {"yard_plan", plan.supply ? yard_plan_json(*plan.supply, plan.site.units) : Json(nullptr)},
          {"cautions", list(plan.cautions, caution_json)},
          {"warnings", list(plan.warnings, warning_json)},
          {"assumptions", list(plan.assumptions, assumption_json)}};
}

Json summary_json(const Plan& plan) {
  return {{"schema", "stillheap summary"},
          {"schema_version", plan_schema_version},
          {"site", site_json(plan.site)},
          {"vessels_needed", counts_json(plan)},
          {"finished_m3_a_year", banded(plan.finished_m3)},
          {"vessels", list(plan.vessels,
                           [](const VesselPlan& vessel) {
                             return Json{{"name", vessel.design.name},
                                         {"count", vessel.design.count},
                                         {"outlook", outlook_json(vessel)}};
                           })},
          {"costs", costs_json(plan)},
          {"warnings", list(plan.warnings, warning_json)}};
}

std::string to_text(const Json& json) {
  return json.dump(2, ' ', false, nlohmann::json::error_handler_t::replace) + "\n";
}

}  // namespace stillheap::plan
