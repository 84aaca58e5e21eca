#include "present/server/forecast_json.hpp"

#include <algorithm>
#include <cmath>

#include "domain/material/blend.hpp"
#include "domain/material/ranges.hpp"
#include "model/forecast/output.hpp"
#include "planning/plan/plan_json.hpp"
#include "present/server/section_json.hpp"

namespace stillheap::server {
namespace {

// Ranges of the bytes (chosen): wider than what is met; values outside are held at the ends.
constexpr Field field_table[] = {
    {"temperature_c", -20.0, 90.0, &forecast::Snapshot::temperature_c},
    {"oxygen_share", 0.0, 0.21, &forecast::Snapshot::oxygen},
    {"moisture_wet", 0.0, 1.0, &forecast::Snapshot::moisture_wet},
};

double to_digits(double value, double unit) { return std::round(value / unit) * unit; }

Json channels_json(const std::vector<vessel::Channel>& channels) {
  Json list = Json::array();
  for (const vessel::Channel& one : channels) {
    list.push_back(Json{{"x_m", one.centre.x_m}, {"y_m", one.centre.y_m}, {"diameter_m", one.diameter_m}});
  }
  return list;
}

std::string_view word(material::Standing standing) {
  switch (standing) {
    case material::Standing::too_low:
      return "too_low";
    case material::Standing::low:
      return "low";
    case material::Standing::preferred:
      return "preferred";
    case material::Standing::high:
      return "high";
    case material::Standing::too_high:
      return "too_high";
  }
  return "";
}

/// The blend's numbers beside what handbooks ask of them. An end that no handbook sets is null.
Json gauges_json(const material::Blend& soaked) {
  Json list = Json::array();
  const auto add = [&](const char* key, double value, const material::StartingRange& range) {
    if (!std::isfinite(value)) return;
    list.push_back(Json{{"key", key},
                        {"value", value},
                        {"low", number(range.low)},
                        {"preferred_low", number(range.preferred_low)},
                        {"preferred_high", number(range.preferred_high)},
                        {"high", number(range.high)},
                        {"standing", word(material::judge(value, range))},
                        {"source", range.source}});
  };
  add("carbon_to_nitrogen", soaked.carbon_to_nitrogen, material::carbon_to_nitrogen_range());
  add("moisture", soaked.moisture_wet, material::moisture_range());
  add("free_air_space", soaked.free_air_space, material::free_air_space_range());
  add("conductivity", soaked.conductivity_s_m, material::conductivity_range());
  return list;
}

Json blend_json(const plan::VesselPlan& plan) {
  const material::Blend& soaked = plan.blend_soaked;
  Json parts = Json::array();
  for (const material::Part& part : plan.blend_as_delivered.parts) {
    parts.push_back(Json{{"id", part.feedstock.id}, {"name", part.feedstock.name}, {"mass_wet_kg", part.mass_wet_kg}});
  }
  Json warnings = Json::array();
  for (const Warning& one : material::check_ranges(soaked)) {
    warnings.push_back(Json{{"where", one.where}, {"what", one.what}, {"source", one.source}});
  }
  return {{"parts", parts},
          {"moisture_wet", number(soaked.moisture_wet)},
          {"carbon_to_nitrogen", number(soaked.carbon_to_nitrogen)},
          {"degradable_carbon_to_nitrogen", number(soaked.degradable_carbon_to_nitrogen)},
          {"free_air_space", number(soaked.free_air_space)},
          {"bulk_density_kg_m3", number(soaked.bulk_density_kg_m3)},
          {"conductivity_s_m", number(soaked.conductivity_s_m)},
          {"volume_m3", number(soaked.volume_m3)},
          {"warnings", warnings},
          {"gauges", gauges_json(soaked)}};
}

Json fill_json(const fill::FillPlan& fill) {
  return {{"pails", fill.pails},
          {"lifts", fill.lifts},
          {"lift_height_m", number(fill.lift_height_m)},
          {"people_hours", number(fill.people_hours)},
          {"hours", number(fill.hours)},
          {"soak_water_kg", number(fill.soak.water_taken_kg)},
          {"soak_batches", fill.soak.batches},
          {"pail_mass_kg", number(fill.pail_mass_kg)},
          {"pail_limit_kg", number(fill.pail_limit_kg)},
          {"steps", fill.steps}};
}

using Rows = std::vector<forecast::HistoryRow>;

struct Column {
  const char* name;
  double forecast::HistoryRow::*value;
  double unit;  ///< rounded to
  Rows forecast::Result::*rows = &forecast::Result::history;
};
constexpr Column columns[] = {
    {"day", &forecast::HistoryRow::day, 0.001},
    {"outside_c", &forecast::HistoryRow::outside_c, 0.01},
    {"mean_c", &forecast::HistoryRow::mean_c, 0.01},
    {"core_c", &forecast::HistoryRow::core_c, 0.01},
    {"core_low_c", &forecast::HistoryRow::core_c, 0.01, &forecast::Result::history_low},
    {"core_high_c", &forecast::HistoryRow::core_c, 0.01, &forecast::Result::history_high},
    {"hottest_c", &forecast::HistoryRow::hottest_c, 0.01},
    {"coldest_c", &forecast::HistoryRow::coldest_c, 0.01},
    {"lowest_oxygen", &forecast::HistoryRow::lowest_oxygen, 0.0001},
    {"mean_oxygen", &forecast::HistoryRow::mean_oxygen, 0.0001},
    {"mean_moisture_wet", &forecast::HistoryRow::mean_moisture_wet, 0.0001},
    {"moisture_low_wet", &forecast::HistoryRow::mean_moisture_wet, 0.0001, &forecast::Result::history_low},
    {"moisture_high_wet", &forecast::HistoryRow::mean_moisture_wet, 0.0001, &forecast::Result::history_high},
    {"height_m", &forecast::HistoryRow::height_m, 0.0001},
};

Json history_json(const forecast::Result& result, std::size_t most_rows) {
  const std::size_t step = std::max<std::size_t>(1, (result.history.size() + most_rows - 1) / most_rows);
  Json all = Json::object();
  for (const Column& column : columns) {
    Json values = Json::array();
    const Rows& rows = result.*(column.rows);
    for (std::size_t i = 0; i < rows.size(); i += step) {
      values.push_back(number(to_digits(rows[i].*(column.value), column.unit)));
    }
    all[column.name] = std::move(values);
  }
  return all;
}

}  // namespace

Json design_json(const vessel::Design& design) {
  const bool round = design.footprint == vessel::Footprint::round;
  return {{"name", design.name},
          {"count", design.count},
          {"shape", round ? "round" : "rectangular"},
          {"diameter_m", design.diameter_m},
          {"length_m", design.length_m},
          {"width_m", design.width_m},
          {"height_m", design.height_m},
          {"fill_height_m", design.fill_height_m},
          {"wall_open", design.wall == vessel::Wall::open},
          {"base_open", design.base_open},
          {"base_gap_m", design.base_gap_m},
          {"material_m3", vessel::material_volume_m3(design)},
          {"channels", channels_json(design.channels)}};
}

Json layout_json(const plan::VesselPlan& plan) {
  const vessel::AirPath& path = plan.air_path;
  Json better = nullptr;
  if (plan.suggestion) {
    better = Json{{"words", plan.suggestion->words},
                  {"longest_air_path_m", plan.suggestion->path.length_m},
                  {"channels", channels_json(plan.suggestion->channels)}};
  }
  Json notes = Json::array();
  for (const vessel::Clash& clash : plan.warnings) notes.push_back(vessel::describe(clash));
  return {{"design", design_json(plan.design)},
          {"air_path",
           {{"length_m", number(path.length_m)},
            {"x_m", number(path.where.x_m)},
            {"y_m", number(path.where.y_m)},
            {"height_m", number(path.height_m)},
            {"limited_by_height", path.limited_by_height}}},
          {"better_channels", better},
          {"notes", notes},
          {"blend", blend_json(plan)},
          {"fill", fill_json(plan.fill)},
          {"line",
           {{"flow_m3_s", number(plan.line_flow.total_flow_m3_s)},
            {"uniformity", number(plan.line_flow.christiansen_uniformity)}}}};
}

Json maybe(const std::optional<double>& value) { return value ? number(*value) : Json(nullptr); }

Json outcome_json(const plan::VesselPlan& plan, std::size_t most_rows) {
  const Json all = forecast::to_json(plan.forecast);
  return {{"summary", all.at("summary")},
          {"solved", all.at("solved")},
          {"stopped", all.at("stopped")},
          {"assumptions", all.at("assumptions")},
          {"history", history_json(plan.forecast, most_rows)},
          {"water_programme", Json(plan::programme_json(plan))},
          {"section", section_json(plan.forecast, vessel::across_m(plan.design))},
          {"end_state", plan::words_of(plan::end_state(plan.forecast.summary))},
          {"worms",
           {{"early_day", maybe(plan.worms.early_day)},
            {"day", maybe(plan.worms.day)},
            {"late_day", maybe(plan.worms.late_day)},
            {"why_none", plan.worms.why_none}}},
          {"harvest",
           {{"early_day", number(plan.harvest.early_day)},
            {"late_day", number(plan.harvest.late_day)},
            {"cooled_in_forecast", plan.harvest.cooled_in_forecast}}}};
}

std::span<const Field> fields() noexcept { return field_table; }

Json inside_json(const forecast::Result& result) {
  Json points = Json::array();
  for (const Point& point : result.mesh.points) {
    points.push_back({to_digits(point.x_m, 1e-5), to_digits(point.y_m, 1e-5)});
  }
  Json days = Json::array();
  Json levels = Json::array();
  for (const forecast::Snapshot& one : result.snapshots) {
    days.push_back(to_digits(one.day, 0.001));
    Json heights = Json::array();
    for (const double height_m : one.level_m) heights.push_back(to_digits(height_m, 1e-4));
    levels.push_back(std::move(heights));
  }
  Json list = Json::array();
  for (const Field& one : field_table) list.push_back(Json{{"name", one.name}, {"low", one.low}, {"high", one.high}});
  return {{"points_m", points},
          {"triangles", result.mesh.triangles},
          {"days", days},
          {"levels_m", levels},
          {"fields", list}};
}

std::string inside_bytes(const forecast::Result& result, const Field& field) {
  std::string bytes;
  for (const forecast::Snapshot& one : result.snapshots) {
    for (const float value : one.*(field.values)) {
      const double share = std::clamp((static_cast<double>(value) - field.low) / (field.high - field.low), 0.0, 1.0);
      bytes.push_back(static_cast<char>(static_cast<unsigned char>(std::lround(share * 255.0))));
    }
  }
  return bytes;
}

}  // namespace stillheap::server
