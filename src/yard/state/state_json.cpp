#include "yard/state/state_json.hpp"

#include <chrono>
#include <cmath>
#include <nlohmann/json.hpp>

#include "core/quantity/retold.hpp"

namespace stillheap::yard {
namespace {

using nlohmann::json;

std::string utc(double time_s, record::Instant filled_at) {
  return record::to_utc_text(filled_at + std::chrono::seconds{std::llround(time_s)});
}

json phase_json(const insight::PhaseAnswer& phase, const Reader& reader, record::Instant filled_at) {
  json steps = json::array();
  for (const insight::PhaseStep& step : phase.steps) {
    steps.push_back({{"phase", insight::name_of(step.phase)},
                     {"since", utc(step.since_s, filled_at)},
                     {"reading_c", step.reading_c}});
  }
  return {{"now", insight::name_of(phase.now)},
          {"steps", steps},
          {"statement", to_json(phase.statement, reader, filled_at)}};
}

json hygiene_json(const insight::RuleFinding& finding, const Reader& reader, record::Instant filled_at) {
  json probes = json::array();
  for (const insight::ProbeVerdict& probe : finding.probes) {
    const rules::Verdict& verdict = probe.verdict;
    json line = {{"place", words(insight::name_of(probe.spot), reader, filled_at)},
                 {"met", verdict.met},
                 {"met_at", nullptr},
                 {"longest_s", verdict.longest.length_s()},
                 {"reading", quantity::retold(verdict.reading, reader.units)}};
    if (verdict.met_at_s) line["met_at"] = utc(*verdict.met_at_s, filled_at);
    probes.push_back(std::move(line));
  }
  json spoken = nullptr;
  if (finding.spoken) spoken = {{"near", finding.spoken->near}, {"as_deep", finding.spoken->as_deep}};
  return {{"rule", finding.rule_id},
          {"met_at_every_probe", finding.met_at_every_probe},
          {"share_spoken_for", spoken},
          {"probes", probes},
          {"statement", to_json(finding.statement, reader, filled_at)}};
}

json ready_json(const insight::Readiness& ready, const Reader& reader, record::Instant filled_at) {
  json points = json::array();
  for (const insight::ReadyPoint& point : ready.points) {
    points.push_back(
        {{"answer", insight::name_of(point.answer)}, {"statement", to_json(point.statement, reader, filled_at)}});
  }
  return {{"answer", insight::name_of(ready.answer)},
          {"points", points},
          {"statement", to_json(ready.statement, reader, filled_at)}};
}

json list_json(const std::vector<insight::Statement>& statements, const Reader& reader, record::Instant filled_at) {
  json list = json::array();
  for (const insight::Statement& one : statements) list.push_back(to_json(one, reader, filled_at));
  return list;
}

}  // namespace

json to_json(const insight::Statement& statement, const Reader& reader, record::Instant filled_at) {
  return {{"id", statement.id},
          {"weight", insight::name_of(statement.weight)},
          {"text", words(statement.text, reader, filled_at)},
          {"reading", words(statement.reading, reader, filled_at)},
          {"rule", words(statement.rule, reader, filled_at)},
          {"source", quantity::retold(statement.source, reader.units)},
          {"next", quantity::retold(statement.next, reader.units)},
          {"caution", quantity::retold(statement.caution, reader.units)},
          {"at", utc(statement.time_s, filled_at)}};
}

json to_json(const VesselState& state, const Reader& reader) {
  const record::Instant filled_at = state.glance.fill->filled_at;
  json hygiene = json::array();
  for (const insight::RuleFinding& finding : state.hygiene) {
    hygiene.push_back(hygiene_json(finding, reader, filled_at));
  }
  return {{"phase", phase_json(state.phase, reader, filled_at)},
          {"alerts", list_json(state.alerts, reader, filled_at)},
          {"hygiene", hygiene},
          {"worms", ready_json(state.worms, reader, filled_at)},
          {"harvest", ready_json(state.harvest, reader, filled_at)},
          {"tests", list_json(state.tests, reader, filled_at)},
          {"salt", state.salt ? to_json(*state.salt, reader, filled_at) : json(nullptr)}};
}

json to_json(const Task& task) {
  return {{"weight", insight::name_of(task.weight)},
          {"vessel", task.vessel},
          {"fill", task.fill_id},
          {"id", task.id},
          {"what", task.what},
          {"why", task.why},
          {"rule", task.rule},
          {"source", task.source},
          {"caution", task.caution},
          {"since", record::to_utc_text(task.since)},
          {"entry", task.entry_id}};
}

}  // namespace stillheap::yard
