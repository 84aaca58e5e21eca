#include <algorithm>

#include "present/draw/table.hpp"
#include "present/sheet/pages.hpp"

namespace stillheap::sheet {
namespace {

/// "vessel.lining.resistance" and "model: decay" are grouped by what stands before the first dot or colon.
std::string group_of(const std::string& topic) { return topic.substr(0, topic.find_first_of(".:")); }

void findings(Flow& flow, const plan::Plan& plan) {
  Table table;
  table.heading = "Findings of the first sheet, with the rule behind each";
  table.size_pt = 8.5;
  table.row_padding_pt = 2.0;
  table.columns = {{.head = "Where", .strong = true}, {.head = "Finding"}, {.head = "Source"}};
  for (const Warning& warning : plan.warnings) table.rows.push_back({{warning.where, warning.what, warning.source}});
  draw_table(flow, table);
}

}  // namespace

void assumptions_page(Flow& flow, const plan::Plan& plan) {
  flow.start_sheet("Assumptions and defaults",
                   "every value the site file left open, and every simplification of the model");
  Assumptions all = plan.assumptions;  // the one list of everything
  std::vector<std::string> groups;
  for (const Assumption& one : all) {
    if (std::find(groups.begin(), groups.end(), group_of(one.topic)) == groups.end())
      groups.push_back(group_of(one.topic));
  }
  const auto rank = [&groups](const Assumption& one) {
    return std::find(groups.begin(), groups.end(), group_of(one.topic)) - groups.begin();
  };
  std::stable_sort(all.begin(), all.end(), [&](const Assumption& a, const Assumption& b) { return rank(a) < rank(b); });
  Table table;
  table.heading = "Assumptions and defaults, with the source of each";
  table.size_pt = 8.5;
  table.row_padding_pt = 2.0;
  table.columns = {{.head = "Topic", .strong = true}, {.head = "Value or simplification"}, {.head = "Source"}};
  for (const Assumption& one : all) table.rows.push_back({{one.topic, one.value, one.source}});
  findings(flow, plan);
  if (table.rows.empty()) {
    flow.paragraph("Nothing was left open.");
    return;
  }
  draw_table(flow, table);
}

}  // namespace stillheap::sheet
