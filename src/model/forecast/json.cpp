#include <cmath>
#include <nlohmann/json.hpp>

#include "core/base/whole_file.hpp"
#include "model/forecast/odds.hpp"
#include "model/forecast/output.hpp"

namespace stillheap::forecast {
namespace {

using Json = nlohmann::ordered_json;

Json number(double value) { return std::isfinite(value) ? Json(value) : Json(nullptr); }

Json number(const std::optional<double>& value) { return value ? number(*value) : Json(nullptr); }

Json banded(const Banded& value) {
  return {{"middle", number(value.middle)}, {"low", number(value.low)}, {"high", number(value.high)}};
}

Json place(const Place3& value) {
  return {{"x_m", number(value.plan.x_m)}, {"y_m", number(value.plan.y_m)}, {"height_m", number(value.height_m)}};
}

Json heat_json(const Summary& s) {
  return {{"peak_temperature_c", banded(s.peak_temperature_c)},
          {"peak_day", banded(s.peak_day)},
          {"peak_place", place(s.peak_place)},
          {"above_55_c_mass_mean_days", banded(s.days_above_55_mass_mean)},
          {"mass_3_days_in_a_row_above_55_c_share", banded(s.share_3_days_above_55)},
          {"cool_day",
           {{"middle", number(s.cool_day)}, {"low", number(s.cool_day_low)}, {"high", number(s.cool_day_high)}}},
          {"members_that_cool_share", number(s.cool_share_of_members)},
          {"heated", s.heated},
          {"warm_again_day", number(s.warm_again_day)},
          {"degradable_left_share", banded(s.degradable_left)}};
}

Json oxygen_json(const Summary& s) {
  return {{"lowest_oxygen_share", banded(s.lowest_oxygen)},
          {"lowest_oxygen_place", place(s.lowest_oxygen_place)},
          {"lowest_oxygen_day", banded(s.lowest_oxygen_day)},
          {"most_mass_below_5_percent_oxygen_share", banded(s.most_mass_below_5_oxygen)},
          {"any_below_5_percent_oxygen_days", banded(s.days_any_below_5_oxygen)},
          {"peak_uptake_g_kg_h", banded(s.peak_uptake_g_kg_h)}};
}

Json water_json(const Summary& s) {
  return {{"driest_moisture_wet", banded(s.driest_moisture_wet)},
          {"wettest_moisture_wet", banded(s.wettest_moisture_wet)},
          {"mean_moisture_end_wet", banded(s.mean_moisture_end_wet)},
          {"water_sprinkled_kg", banded(s.water_sprinkled_kg)},
          {"water_rain_kg", banded(s.water_rain_kg)},
          {"water_put_on_kg", banded(s.water_put_on_kg)},
          {"water_evaporated_kg", banded(s.water_evaporated_kg)},
          {"water_drained_kg", banded(s.water_drained_kg)},
          {"water_made_kg", banded(s.water_made_kg)}};
}

Json end_json(const Summary& s) {
  return {{"solids_lost_share", banded(s.solids_lost)},
          {"height_lost_share", banded(s.height_lost)},
          {"finished_mass_kg", banded(s.finished_mass_kg)},
          {"finished_volume_m3", banded(s.finished_volume_m3)},
          {"salt_concentration_ratio", banded(s.salt_concentration_ratio)},
          {"salt_leached_share", banded(s.salt_leached_share)}};
}

Json summary_json(const Summary& summary) {
  Json all = Json::object();
  for (const Json& part : {heat_json(summary), oxygen_json(summary), water_json(summary), end_json(summary)})
    all.update(part);
  all["odds"] = to_json(summary.odds);
  return all;
}

Json conservation_json(const Conservation& c) {
  return {{"solids", number(c.solids)}, {"oxygen", number(c.oxygen)}, {"water", number(c.water)},
          {"energy", number(c.energy)}, {"salt", number(c.salt)},     {"dry_air", number(c.dry_air)}};
}

Json months_json(const Result& r) {
  Json months = Json::array();
  for (std::size_t i = 0; i < r.evaporated_kg_s.size(); ++i) {
    const auto band = [i](const auto& middle, const auto& low, const auto& high) {
      return banded({middle[i], low[i], high[i]});
    };
    const MonthlyMeans& low = r.months_low;
    const MonthlyMeans& high = r.months_high;
    months.push_back({{"month", i + 1},
                      {"evaporated_net_kg_s", band(r.evaporated_kg_s, low.evaporated_kg_s, high.evaporated_kg_s)},
                      {"drained_kg_s", band(r.drained_kg_s, low.drained_kg_s, high.drained_kg_s)},
                      {"salt_out_kg_s", band(r.salt_out_kg_s, low.salt_out_kg_s, high.salt_out_kg_s)}});
  }
  return months;
}

Json unknown_json(const Sensitivity& all, const Unknown& one) {
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

Json sensitivity_json(const Sensitivity& all) {
  Json answers = Json::array(), unknowns = Json::array();
  for (const auto& answer : all.answers) {
    answers.push_back(
        {{"answer", answer.name}, {"runs", answer.runs}, {"unexplained_share", number(answer.unexplained)}});
  }
  for (const Unknown& one : all.unknowns) unknowns.push_back(unknown_json(all, one));
  return {{"method",
           "first-order variance shares by a sparse polynomial chaos expansion of the ensemble's runs; the band of a "
           "share is how well it is known, from runs drawn again"},
          {"why_none", all.why_none.empty() ? Json(nullptr) : Json(all.why_none)},
          {"answers", answers},
          {"unknowns", unknowns}};
}

Json assumptions_json(const Assumptions& assumptions) {
  Json list = Json::array();
  for (const Assumption& a : assumptions)
    list.push_back({{"topic", a.topic}, {"value", a.value}, {"source", a.source}});
  return list;
}

}  // namespace

Json to_json(const std::vector<Odds>& odds) {
  Json list = Json::array();
  for (const Odds& one : odds) {
    Json row = {{"event", event_id(one.event)}, {"share", number(one.share)}, {"in_ten", in_ten(one)}};
    if (one.event == Event::heating_ends_between_days)
      row.update({{"from_day", number(one.from_day)}, {"to_day", number(one.to_day)}});
    list.push_back(row);
  }
  return list;
}

Json to_json(const Result& result) {
  return {{"schema_version", forecast_schema_version},
          {"units",
           "SI; _c is degrees Celsius; _share and _wet are 0 to 1, _wet of the wet mass, oxygen by volume of the gas; "
           "_day is days since filling; conservation errors are shares of what moved; months run January to December"},
          {"stopped", result.stopped ? Json(*result.stopped) : Json(nullptr)},
          {"stopped_by_user", result.stopped_by_user},
          {"summary", summary_json(result.summary)},
          {"what_to_measure_first", sensitivity_json(result.sensitivity)},
          {"conservation_error", conservation_json(result.summary.conservation)},
          {"monthly_means", months_json(result)},
          {"solved",
           {{"what", result.solved},
            {"cells_full", result.cells_full},
            {"cells_solved", result.cells_solved},
            {"steps", result.steps},
            {"members", result.members}}},
          {"assumptions", assumptions_json(result.assumptions)}};
}

void write_forecast_json(const Result& result, const std::filesystem::path& file) {
  // Text that is not UTF-8 (a name typed by the user) gets a replacement character rather than no file at all.
  write_whole_file(file, to_json(result).dump(2, ' ', false, Json::error_handler_t::replace) + "\n");
}

}  // namespace stillheap::forecast
