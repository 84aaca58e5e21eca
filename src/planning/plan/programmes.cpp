#include "planning/plan/programmes.hpp"

#include <algorithm>

#include "core/base/error.hpp"
#include "model/forecast/checkpoint.hpp"
#include "planning/plan/forecast_step.hpp"
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
std::optional<water::Programme> programme_for(const site::Site& of_all, const std::string& name, const Filling& filling,
                                              const std::stop_token& stop) {
  const site::Site site = site_of_filling(of_all, filling);
  const auto design = std::find_if(site.vessels.begin(), site.vessels.end(),
                                   [&](const vessel::Design& one) { return one.name == name; });
  if (design == site.vessels.end()) throw InputError("vessel", "= \"" + name + "\" is not in the site file", "");
  const VesselPlan vessel = vessel_of_filling(site, *design, filling);
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

Programmes::Wanted Programmes::wanted_of(const vessel::Design& design, const Filling& filling) const {
  if (!filling.own.draws.empty()) {
    const std::string taught = std::to_string(forecast::print_of(filling.own));
    return {{design.name, filling.date, taught}, filling};
  }
  const std::optional<date::Day> filled = date::parse_iso(filling.date);
  const std::string day = filled ? date::to_iso(beginning(site_, *filled)) : filling.date;
  return {{design.name, day, ""}, Filling{day, {}, {}}};
}

Programmes::Known* Programmes::find(const Key& key) {
  const std::scoped_lock lock(mutex_);
  const auto found = known_.find(key);
  return found == known_.end() ? nullptr : &found->second;
}

void Programmes::work_out(const Wanted& wanted, const std::stop_token& stop) {
  const std::scoped_lock turn(turn_);
  if (find(wanted.key) != nullptr) return;
  Known made;
  try {
    made.programme = programme_for(site_, wanted.key[0], wanted.filling, stop);
  } catch (const InputError& error) {
    made.refusal = error;
  }
  const std::scoped_lock lock(mutex_);
  if (made.programme || made.refusal) known_.emplace(wanted.key, std::move(made));
}

const water::Programme& Programmes::of(const vessel::Design& design, const Filling& filling) {
  const Wanted wanted = wanted_of(design, filling);
  if (find(wanted.key) == nullptr) work_out(wanted, {});
  const Known& known = *find(wanted.key);
  if (known.refusal) throw InputError(*known.refusal);
  return *known.programme;
}

const water::Programme* Programmes::ready(const vessel::Design& design, const Filling& filling) {
  const Wanted wanted = wanted_of(design, filling);
  if (const Known* known = find(wanted.key)) {
    if (known->refusal) throw InputError(*known->refusal);
    return &*known->programme;
  }
  const std::scoped_lock lock(mutex_);
  const auto same = [&](const Wanted& one) { return one.key == wanted.key; };
  if (std::none_of(wanted_.begin(), wanted_.end(), same)) wanted_.push_back(wanted);
  if (!worker_.joinable()) worker_ = std::jthread([this](const std::stop_token& stop) { work_behind(stop); });
  more_.notify_one();
  return nullptr;
}

void Programmes::work_behind(const std::stop_token& stop) {
  while (true) {
    Wanted wanted;
    {
      std::unique_lock lock(mutex_);
      if (!more_.wait(lock, stop, [this] { return !wanted_.empty(); })) return;
      wanted = wanted_.front();
    }
    try {
      work_out(wanted, stop);
    } catch (const std::exception& fault) {  // a fault of ours: the programme is not there, the records still are
      const std::scoped_lock lock(mutex_);
      known_.emplace(wanted.key,
                     Known{std::nullopt, InputError("water programme", fault.what(), "run: stillheap check")});
    }
    if (stop.stop_requested()) return;
    const std::scoped_lock lock(mutex_);
    wanted_.pop_front();
  }
}

}  // namespace stillheap::plan
