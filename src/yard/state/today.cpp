#include "yard/state/today.hpp"

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>

#include "core/quantity/retold.hpp"
#include "domain/rules/caution_words.hpp"
#include "domain/rules/planned_work.hpp"

namespace stillheap::yard {
namespace {

using insight::Severity;
using insight::Statement;

Task task_of(const Statement& statement, const VesselState& state, const Reader& reader) {
  const record::Instant filled_at = state.glance.fill->filled_at;
  Task task;
  task.weight = statement.weight;
  task.vessel = state.glance.vessel.name;
  task.fill_id = state.glance.fill->mark.thing;
  task.id = statement.id;
  task.what = quantity::retold(statement.next, reader.units);
  task.why = words(statement.text, reader, filled_at) + " Reading: " + words(statement.reading, reader, filled_at);
  task.rule = words(statement.rule, reader, filled_at);
  task.source = quantity::retold(statement.source, reader.units);
  task.caution = quantity::retold(statement.caution, reader.units);
  task.since = filled_at + std::chrono::seconds{std::llround(statement.time_s)};
  return task;
}

struct DueWords {
  const char* id;
  const char* rule;
  const char* source;
  std::string_view caution;  ///< where it can hurt someone
};

/// In the order of record::DueKind. The numbers of the rhythm stand in each reason.
constexpr std::array due_words{
    DueWords{"due-forms-out", "forms come out after a day", "chosen", rules::words::pull},
    DueWords{"due-sprinkle", "sprinkle by the water programme, daily where there is none", "common practice, no source",
             rules::words::mist},
    DueWords{"due-reading", "read daily while young, then weekly", "chosen", rules::words::scald},
    DueWords{"due-planned", "set by the plan", "plan.json", ""},
};

Task task_of(const record::Due& due) {
  const DueWords& about = due_words.at(static_cast<std::size_t>(due.kind));
  return {Severity::due, due.vessel,   due.fill_id,
          about.id,      due.what,     due.why,
          about.rule,    about.source, std::string(about.caution),
          due.since,     due.entry_id, due.ahead};
}

/// What the readings say against a planned day of a heap that is filled.
bool speaks_against(const record::Due& due, const VesselState& state) {
  const auto begins = [&](const rules::PlannedWork& work) { return due.what.starts_with(work.opening); };
  if (begins(rules::sprinkle_work)) return state.no_sprinkling.has_value();
  if (due.ahead) return false;
  if (begins(rules::worm_work)) return state.worms.answer == insight::Answer::no;
  return begins(rules::harvest_work) && state.harvest.answer == insight::Answer::no;
}

/// A danger at one vessel of a kind silences the kind's day; anything less must be so at all of them.
bool is_plan_silenced(const record::Due& due, const std::vector<VesselState>& states) {
  if (due.vessel.empty()) return false;
  std::vector<const VesselState*> meant;
  for (const VesselState& state : states) {
    const record::Vessel& vessel = state.glance.vessel;
    if (vessel.design == due.vessel || vessel.name == due.vessel) meant.push_back(&state);
  }
  const auto any = [&](const auto& test) { return std::any_of(meant.begin(), meant.end(), test); };
  if (any([](const VesselState* state) { return state->hands_off; })) return true;
  return !meant.empty() && !any([&](const VesselState* state) { return !speaks_against(due, *state); });
}

/// What the heap's own state forbids: water where it is soaked, frozen or told otherwise; any work but reading where it
/// may burn.
bool is_silenced(const record::Due& due, const std::vector<VesselState>& states) {
  using record::DueKind;
  if (due.kind == DueKind::planned) return is_plan_silenced(due, states);
  if (due.kind != DueKind::sprinkle && due.kind != DueKind::forms_out) return false;
  return std::any_of(states.begin(), states.end(), [&](const VesselState& state) {
    if (state.glance.fill->mark.thing != due.fill_id) return false;
    return state.hands_off || (due.kind == DueKind::sprinkle && state.no_sprinkling);
  });
}

void add_statements(std::vector<Task>& tasks, const VesselState& state, const Reader& reader) {
  const auto add = [&](const Statement& statement) {
    if (statement.weight >= Severity::due && !statement.next.empty())
      tasks.push_back(task_of(statement, state, reader));
  };
  for (const Statement& alert : state.alerts) {
    if (alert.id != "readings-missing") add(alert);  // the record's own list has the reading that is due
  }
  for (const Statement& test : state.tests) add(test);
  if (!state.worms_are_in) add(state.worms.statement);
  add(state.harvest.statement);
}

/// Of what is due: the heap's own work first, plan days after it, those still to come last.
int place_of(const Task& task) { return task.ahead ? 2 : task.entry_id.empty() ? 0 : 1; }

}  // namespace

std::vector<VesselState> states_of_yard(const record::Store& store, const Setting& setting, record::Instant at) {
  std::vector<VesselState> states;
  for (const record::VesselGlance& glance : record::yard(store, at)) {
    if (glance.fill) states.push_back(state_of(store, glance, setting, at));
  }
  return states;
}

std::vector<Task> tasks_of(const std::vector<VesselState>& states, const std::vector<record::Due>& due,
                           const Reader& reader) {
  std::vector<Task> tasks;
  for (const VesselState& state : states) add_statements(tasks, state, reader);
  for (const record::Due& one : due) {
    if (!is_silenced(one, states)) tasks.push_back(task_of(one));
  }
  std::stable_sort(tasks.begin(), tasks.end(), [](const Task& a, const Task& b) {
    if (a.weight != b.weight) return a.weight > b.weight;
    return std::pair{place_of(a), a.since} < std::pair{place_of(b), b.since};
  });
  return tasks;
}

std::vector<Task> today(const record::Store& store, const Setting& setting, record::Instant at, const Reader& reader,
                        const record::Rhythm& rhythm) {
  const auto due =
      record::due_list(record::yard(store, at), record::all<record::DueDay>(store), at, reader.zone, rhythm);
  return tasks_of(states_of_yard(store, setting, at), due, reader);
}

}  // namespace stillheap::yard
