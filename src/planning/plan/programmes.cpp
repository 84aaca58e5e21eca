#include "planning/plan/programmes.hpp"

#include <algorithm>

#include "core/base/error.hpp"
#include "planning/plan/blend_step.hpp"
#include "planning/plan/count_step.hpp"
#include "planning/plan/forecast_step.hpp"
#include "planning/plan/vessel_step.hpp"
#include "planning/plan/water_step.hpp"

namespace stillheap::plan {
namespace {

/// The day a programme begins on for a vessel filled on `filled`.
date::Day beginning(const site::Site& site, date::Day filled) {
  const date::Day half = date::half_month_after(filled, 0).first;
  const date::Day planned = date::parse_iso(site.start_date).value_or(half);
  if (date::half_month_of(planned) != date::half_month_of(filled)) return half;
  return half + (planned - date::half_month_after(planned, 0).first);
}

/// Nothing when it was stopped on the way.
std::optional<water::Programme> programme_for(site::Site site, const std::string& name, const std::string& start,
                                              const std::stop_token& stop) {
  site.start_date = start;
  const auto design = std::find_if(site.vessels.begin(), site.vessels.end(),
                                   [&](const vessel::Design& one) { return one.name == name; });
  if (design == site.vessels.end()) throw InputError("vessel", "= \"" + name + "\" is not in the site file", "");
  const Recipe recipe = choose_recipe(site, starting_counts(site));
  const VesselPlan vessel =
      plan_vessel(site, *design, scaled_to(recipe, vessel::material_volume_m3(*design)), recipe.moisture_wet);
  const weather::Series weather = weather_of(site);
  const forecast::Result found = forecast_engine()(finding_request(request_for(site, weather, vessel)),
                                                   [&](double, const std::string&) { return !stop.stop_requested(); });
  if (found.stopped_by_user) return std::nullopt;
  return programme_from(found, site, weather, vessel);
}

}  // namespace

Programmes::Programmes(site::Site site) : site_(std::move(site)) {}

Programmes::~Programmes() {
  worker_.request_stop();
  if (worker_.joinable()) worker_.join();
}

Programmes::Key Programmes::key_of(const vessel::Design& design, date::Day filled) const {
  return {design.name, date::to_iso(beginning(site_, filled))};
}

Programmes::Known* Programmes::find(const Key& key) {
  const std::scoped_lock lock(mutex_);
  const auto found = known_.find(key);
  return found == known_.end() ? nullptr : &found->second;
}

void Programmes::work_out(const Key& key, const std::stop_token& stop) {
  const std::scoped_lock turn(turn_);
  if (find(key) != nullptr) return;
  Known made;
  try {
    made.programme = programme_for(site_, key.first, key.second, stop);
  } catch (const InputError& error) {
    made.refusal = error;
  }
  const std::scoped_lock lock(mutex_);
  if (made.programme || made.refusal) known_.emplace(key, std::move(made));
}

const water::Programme& Programmes::of(const vessel::Design& design, date::Day filled) {
  const Key key = key_of(design, filled);
  if (find(key) == nullptr) work_out(key, {});
  const Known& known = *find(key);
  if (known.refusal) throw InputError(*known.refusal);
  return *known.programme;
}

const water::Programme* Programmes::ready(const vessel::Design& design, date::Day filled) {
  const Key key = key_of(design, filled);
  if (const Known* known = find(key)) {
    if (known->refusal) throw InputError(*known->refusal);
    return &*known->programme;
  }
  const std::scoped_lock lock(mutex_);
  if (std::find(wanted_.begin(), wanted_.end(), key) == wanted_.end()) wanted_.push_back(key);
  if (!worker_.joinable()) worker_ = std::jthread([this](const std::stop_token& stop) { work_behind(stop); });
  more_.notify_one();
  return nullptr;
}

void Programmes::work_behind(const std::stop_token& stop) {
  while (true) {
    Key key;
    {
      std::unique_lock lock(mutex_);
      if (!more_.wait(lock, stop, [this] { return !wanted_.empty(); })) return;
      key = wanted_.front();
    }
    try {
      work_out(key, stop);
    } catch (const std::exception& fault) {  // a fault of ours: the programme is not there, the records still are
      const std::scoped_lock lock(mutex_);
      known_.emplace(key, Known{std::nullopt, InputError("water programme", fault.what(), "run: stillheap check")});
    }
    if (stop.stop_requested()) return;
    const std::scoped_lock lock(mutex_);
    wanted_.pop_front();
  }
}

}  // namespace stillheap::plan
