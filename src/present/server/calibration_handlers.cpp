#include <algorithm>
#include <cmath>

#include "planning/plan/fill_request.hpp"
#include "present/server/handlers.hpp"
#include "present/server/json.hpp"
#include "yard/record/read.hpp"
#include "yard/state/state.hpp"

namespace stillheap::server {
namespace {

constexpr std::size_t most_values = 8;  // chosen: those that moved most

struct Pupil {
  record::Fill fill;
  const vessel::Design* design = nullptr;
  std::vector<calibrate::Observation> readings;
};

Pupil pupil_of(ServerContext& context, const Request& ask) {
  const auto store = context.stores.take();
  const auto fill = record::current<record::Fill>(*store, ask.named.at("fill"));
  if (!fill) throw NotThere{"no fill with this id stands in the records"};
  Pupil pupil{*fill, nullptr, {}};
  if (const auto vessel = record::current<record::Vessel>(*store, fill->vessel_id)) {
    pupil.design = yard::design_of(*vessel, &context.site);
  }
  pupil.readings = yard::readings_to_learn(*store, *fill, record::now());
  return pupil;
}

forecast::Request without_readings(const ServerContext& context, const Pupil& pupil) {
  return plan::fill_request(context.site, *pupil.design, yard::filling_of(pupil.fill, record::here()),
                            yard::learned_days);
}

Json band_json(const std::vector<forecast::Banded>& band) {
  Json low = Json::array();
  Json middle = Json::array();
  Json high = Json::array();
  for (const forecast::Banded& one : band) {
    low.push_back(number(one.low));
    middle.push_back(number(one.middle));
    high.push_back(number(one.high));
  }
  return {{"low_c", low}, {"middle_c", middle}, {"high_c", high}};
}

Json outlook_json(const calibrate::Outlook& outlook) {
  const std::optional<forecast::Banded>& cool = outlook.cool_day;
  const auto day = [&](double forecast::Banded::*end) { return cool ? number((*cool).*end) : Json(nullptr); };
  Json json = band_json(outlook.core_c);
  json["misfit_k"] = number(outlook.misfit_k);
  json["cool_day"] = {{"low", day(&forecast::Banded::low)},
                      {"middle", day(&forecast::Banded::middle)},
                      {"high", day(&forecast::Banded::high)}};
  json["cool_share_of_members"] = number(outlook.cool_share_of_members);
  json["never_warm_share"] = number(outlook.never_warm_share);
  return json;
}

Json learned_json(const calibrate::Learned& learned) {
  std::vector<calibrate::LearnedValue> values = learned.values;
  std::stable_sort(values.begin(), values.end(),
                   [](const auto& a, const auto& b) { return std::abs(a.mean) > std::abs(b.mean); });
  values.resize(std::min(values.size(), most_values));
  Json moved = Json::array();
  for (const calibrate::LearnedValue& one : values) {
    moved.push_back(
        Json{{"name", one.name}, {"what", one.what}, {"mean", number(one.mean)}, {"deviation", number(one.deviation)}});
  }
  return {{"readings", learned.readings},         {"observations", learned.observations},
          {"left_out", learned.left_out},         {"follows", learned.follows},
          {"used", !learned.own.draws.empty()},   {"before", outlook_json(learned.before)},
          {"after", outlook_json(learned.after)}, {"moved", moved}};
}

Json taught_json(const CalibrationResult& taught) {
  Json json = {{"state", word(taught.state)},
               {"share", taught.share},
               {"doing", taught.doing},
               {"readings", taught.readings},
               {"learned", taught.learned ? learned_json(*taught.learned) : Json(nullptr)}};
  json.update(problems_json(taught.problems));
  return json;
}

/// Nothing is being learned: what an earlier time kept, or whether it could be learned, and why not.
Json untaught_json(const ServerContext& context, const Pupil& pupil) {
  const auto why = calibrate::too_little(pupil.readings);
  Json json = {{"state", why ? "refused" : "none"},
               {"share", 0.0},
               {"doing", why.value_or("")},
               {"readings", calibrate::core_days(pupil.readings)},
               {"learned", nullptr}};
  json.update(problems_json({}));
  if (pupil.design == nullptr) return json;
  const auto taught = yard::taught_of(record::store_path(context.site.file), pupil.fill,
                                      without_readings(context, pupil), pupil.readings);
  if (!taught) return json;
  const bool of_this_heap = taught->used() || taught->standing == yard::Standing::not_follow;
  if (!of_this_heap) {
    if (!why) json["doing"] = yard::words(*taught, record::here());
    return json;
  }
  json["state"] = word(OrderState::ready);
  json["share"] = 1.0;
  json["doing"] = "";
  json["learned"] = learned_json(taught->kept.learned);
  return json;
}

}  // namespace

Response get_calibration(ServerContext& context, const Request& ask) {
  const Pupil pupil = pupil_of(context, ask);
  const auto taught = context.calibrations.look(pupil.fill.mark.thing);
  // What is over stands in its file, where a correction since shows.
  const bool over = taught && taught->state == OrderState::ready && taught->problems.empty();
  return answer(taught && !over ? taught_json(*taught) : untaught_json(context, pupil));
}

Response order_calibration(ServerContext& context, const Request& ask) {
  Pupil pupil = pupil_of(context, ask);
  calibrate::LearnOptions options;
  options.last_day = yard::learned_days;
  if (const auto why = calibrate::too_little(pupil.readings, options)) {
    throw InputError("calibration", *why, "go on reading the core daily; until then the forecast stands as it is");
  }
  if (pupil.design == nullptr) {
    throw InputError("calibration", "the vessel has no design of the site file", "correct it to name one");
  }
  forecast::Request request = without_readings(context, pupil);
  const calibrate::Basis basis = calibrate::basis_of(request, pupil.readings);
  const auto keep = [&context, fill = pupil.fill, basis](const calibrate::Learned& learned) {
    yard::keep_learned(record::store_path(context.site.file), fill, basis, learned, record::now());
  };
  CalibrationJob lesson{pupil.fill.mark.thing, std::move(request), std::move(pupil.readings), options, keep};
  return answer(taught_json(context.calibrations.ask(std::move(lesson))), 202);
}

Response stop_calibration(ServerContext& context, const Request& ask) {
  if (!context.calibrations.stop(ask.named.at("fill"))) throw NotThere{"nothing is being learned for this fill"};
  return answer({{"stopped", true}});
}

}  // namespace stillheap::server
