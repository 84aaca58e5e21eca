#include <algorithm>

#include "core/quantity/retold.hpp"
#include "present/draw/table.hpp"
#include "present/sheet/batch_record.hpp"
#include "yard/state/words.hpp"

namespace stillheap::sheet {
namespace {

bool met_anywhere(const insight::RuleFinding& finding) {
  return std::any_of(finding.probes.begin(), finding.probes.end(), [](const auto& one) { return one.verdict.met; });
}

void add_rule(Table& table, const insight::RuleFinding& finding, const yard::Reader& reader,
              record::Instant filled_at) {
  const auto words = [&](const insight::Phrase& phrase) { return yard::words(phrase, reader, filled_at); };
  table.rows.push_back(
      {{words(finding.statement.rule) + " (" + quantity::retold(finding.statement.source, reader.units) + ")"},
       RowKind::group});
  for (const insight::ProbeVerdict& probe : finding.probes) {
    const std::optional<double>& at_s = probe.verdict.met_at_s;
    const std::string when = at_s ? words({insight::moment(*at_s)}) : std::string{};
    table.rows.push_back({{words(insight::name_of(probe.spot)), probe.verdict.met ? "met" : "not met", when,
                           quantity::retold(probe.verdict.reading, reader.units)}});
  }
}

}  // namespace

void draw_hygiene(Flow& flow, const yard::VesselState& state, const BatchTables& tables) {
  if (state.hygiene.empty()) return;
  const yard::Reader reader{tables.units, tables.zone};
  const record::Instant filled_at = state.glance.fill->filled_at;
  Table table;
  table.heading = "Hygiene by named rules, on what the probes read";
  table.size_pt = 8.5;
  table.columns = {{.head = "Place"}, {.head = "Verdict", .strong = true}, {.head = "Met at"}, {.head = "Found"}};
  for (const insight::RuleFinding& finding : state.hygiene) add_rule(table, finding, reader, filled_at);
  draw_table(flow, table);
  for (const insight::RuleFinding& finding : state.hygiene) {
    if (met_anywhere(finding)) flow.paragraph(yard::words(finding.statement.text, reader, filled_at));
  }
  flow.paragraph(state.hygiene.front().statement.caution);
}

}  // namespace stillheap::sheet
