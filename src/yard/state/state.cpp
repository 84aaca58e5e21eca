#include "yard/state/state.hpp"

#include <algorithm>
#include <set>

#include "yard/state/inputs.hpp"
#include "yard/state/material_points.hpp"
#include "yard/state/outside.hpp"

namespace stillheap::yard {
namespace {

constexpr double solids_when_not_noted = 0.4;  // chosen: far above the 7 % the rule asks for, as all solid heaps are

insight::ProbeView view_of(const std::vector<insight::Track>& tracks, const vessel::Design* design) {
  insight::ProbeView view;
  if (design == nullptr) return view;
  for (const insight::Track& track : tracks) view.probes.push_back(probe_point(*design, track.spot));
  const bool any = std::any_of(view.probes.begin(), view.probes.end(), [](const auto& one) { return one.has_value(); });
  if (any) view.material = material_points(*design);  // else no share can be told
  return view;
}

rules::Circumstances circumstances_of(const record::Fill& fill) {
  rules::Circumstances circumstances;
  circumstances.carbon_to_nitrogen = fill.carbon_to_nitrogen.value_or(0.0);  // 0 meets no rule that asks for it
  circumstances.solids_wet = fill.moisture_wet ? 1.0 - *fill.moisture_wet : solids_when_not_noted;
  return circumstances;
}

std::optional<double> last_event_s(const record::VesselGlance& glance, record::EventKind kind) {
  const auto found = glance.events.find(kind);
  if (found == glance.events.end()) return std::nullopt;
  return since_filling_s(found->second.at, glance.fill->filled_at);
}

std::vector<record::LabTest> tests_of_lots(const record::Store& store, const std::string& fill_id) {
  std::set<std::string> lots;
  for (const record::LotUse& use : record::of_fill<record::LotUse>(store, fill_id)) lots.insert(use.lot_id);
  std::vector<record::LabTest> tests;
  if (lots.empty()) return tests;
  for (const record::LabTest& test : record::all<record::LabTest>(store)) {
    if (lots.count(test.lot_id) > 0) tests.push_back(test);
  }
  return tests;
}

}  // namespace

const vessel::Design* design_of(const record::Vessel& vessel, const site::Site* site) {
  if (site == nullptr) return nullptr;
  for (const std::string& name : {vessel.design, vessel.name}) {
    for (const vessel::Design& design : site->vessels) {
      if (!name.empty() && design.name == name) return &design;
    }
  }
  if (vessel.design.empty() && site->vessels.size() == 1) return &site->vessels.front();
  return nullptr;
}

namespace {

constexpr double freezing_c = 0.5;             // chosen: a probe's error above the freezing point
constexpr double frost_fresh_s = 3 * 86400.0;  // a temperature speaks for now that long, as in the alerts

bool is_frozen(std::span<const insight::Track> tracks, double now_s, const insight::Outside& outside) {
  if (outside.today_c && *outside.today_c < 0.0) return true;
  return std::any_of(tracks.begin(), tracks.end(), [&](const insight::Track& track) {
    if (track.sensed != insight::Sensed::temperature) return false;
    const auto last = insight::last_fresh(track, now_s, frost_fresh_s);
    return last && last->value <= freezing_c;
  });
}

void settle_advice(VesselState& state, bool frozen) {
  insight::Advice advice{std::move(state.alerts), std::move(state.worms), std::move(state.harvest), {}, false};
  insight::settle(advice, frozen);
  state.alerts = std::move(advice.alerts);
  state.worms = std::move(advice.worms);
  state.harvest = std::move(advice.harvest);
  state.no_sprinkling = std::move(advice.no_sprinkling);
  state.hands_off = advice.hands_off;
}

VesselState state_of_tracks(const record::VesselGlance& glance, std::vector<insight::Track> tracks,
                            std::span<const record::LabTest> tests, std::span<const record::LabTest> lot_tests,
                            const vessel::Design* design, record::Instant at, const insight::Outside& outside) {
  const record::Instant filled_at = glance.fill->filled_at;
  const double now_s = since_filling_s(at, filled_at);
  VesselState state;
  state.glance = glance;
  state.at = at;
  state.tracks = std::move(tracks);
  state.phase = insight::phase_of(state.tracks, now_s, {}, outside);
  state.hygiene =
      insight::heap_hygiene(state.tracks, view_of(state.tracks, design), circumstances_of(*glance.fill), now_s);
  state.alerts = insight::alerts_of({state.tracks, now_s, state.phase.now, state.phase.steps,
                                     design == nullptr || !design->channels.empty(),
                                     last_event_s(glance, record::EventKind::channel_cleared)});
  state.worms_are_in = glance.events.count(record::EventKind::worms_in) > 0;
  state.worms = insight::ready_for_worms(state.tracks, now_s, state.phase, outside);
  std::vector<insight::LabValue> values = lab_values(tests, lot_tests, filled_at);
  values.erase(std::remove_if(values.begin(), values.end(), [&](const auto& value) { return value.time_s > now_s; }),
               values.end());
  state.harvest = insight::ready_for_harvest(state.phase, values, now_s);
  state.tests = insight::judge_tests(values);
  state.salt = insight::salt_change(values);
  settle_advice(state, is_frozen(state.tracks, now_s, outside));
  return state;
}

}  // namespace

VesselState state_from(const record::VesselGlance& glance, std::span<const record::Reading> readings,
                       std::span<const record::LabTest> tests, std::span<const record::LabTest> lot_tests,
                       const vessel::Design* design, record::Instant at, const insight::Outside& outside) {
  return state_of_tracks(glance, tracks_of(readings, glance.fill->filled_at), tests, lot_tests, design, at, outside);
}

VesselState state_of(const record::Store& store, const record::VesselGlance& glance, const Setting& setting,
                     record::Instant at) {
  const std::string& fill_id = glance.fill->mark.thing;
  const record::Instant filled_at = glance.fill->filled_at;
  const auto series = record::series_rows(store, fill_id, filled_at, at + std::chrono::seconds{1});
  const auto tests = record::of_fill<record::LabTest>(store, fill_id);
  return state_of_tracks(glance, tracks_of(series, filled_at), tests, tests_of_lots(store, fill_id),
                         design_of(glance.vessel, setting.site), at, outside_of(setting, filled_at, at));
}

const insight::RuleFinding* best_rule(const VesselState& state) noexcept {
  const auto met = [](const insight::RuleFinding& finding) {
    return std::count_if(finding.probes.begin(), finding.probes.end(),
                         [](const insight::ProbeVerdict& probe) { return probe.verdict.met; });
  };
  const insight::RuleFinding* best = nullptr;
  for (const insight::RuleFinding& finding : state.hygiene) {
    if (met(finding) > 0 && (best == nullptr || met(finding) > met(*best))) best = &finding;
  }
  return best;
}

}  // namespace stillheap::yard
