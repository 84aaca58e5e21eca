#include "present/sheet/measure_table.hpp"

#include <algorithm>
#include <cmath>

#include "core/quantity/retold.hpp"
#include "present/draw/table.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

using forecast::Sensitivity;
using forecast::Unknown;

constexpr double shows_as_none = 0.005;

std::string share_words(const forecast::Banded& share) {
  if (share.middle < shows_as_none && share.high < shows_as_none) return "none seen";
  return percent(share.middle) + " (" + percent_span(share) + ")";
}

std::vector<std::string> row_of(const Unknown& one, UnitSystem units) {
  std::vector<std::string> cells{one.how.empty() ? one.what : one.what + ": " + quantity::retold(one.how, units)};
  for (const forecast::Banded& share : one.share) cells.push_back(share_words(share));
  cells.push_back(one.how.empty() ? "cannot be measured beforehand" : percent(one.mean_narrowing));
  return cells;
}

bool shows_nothing(const Unknown& one) {
  return std::all_of(one.share.begin(), one.share.end(),
                     [](const forecast::Banded& share) { return share.high < shows_as_none; });
}

std::vector<std::string> unexplained_row(const Sensitivity& all) {
  std::vector<std::string> cells{"inputs acting together, and what so few runs do not show"};
  for (const auto& answer : all.answers) cells.push_back(percent(answer.unexplained));
  cells.emplace_back("");
  return cells;
}

}  // namespace

void draw_measure_table(Flow& flow, const plan::VesselPlan& vessel, UnitSystem units) {
  const Sensitivity& all = vessel.forecast.sensitivity;
  if (all.answers.empty()) {
    if (!all.why_none.empty()) flow.paragraph("Not told here: " + all.why_none + ".", style::note);
    return;
  }
  Table table;
  table.heading = "What to measure first: who owes the spread of the answers";
  table.size_pt = 8.5;
  table.columns = {{.head = "Measure, and how", .fixed_pt = 0.40 * flow.width()}};
  for (const auto& answer : all.answers) table.columns.push_back({.head = answer.name});
  table.columns.push_back({.head = "Bands narrower by, mean", .strong = true});
  std::string quiet;
  for (const Unknown& one : all.unknowns) {
    if (shows_nothing(one)) {
      quiet += (quiet.empty() ? "" : "; ") + one.what;
    } else {
      table.rows.push_back({row_of(one, units)});
    }
  }
  table.rows.push_back({unexplained_row(all)});
  draw_table(flow, table);
  flow.paragraph(
      "Each share is what an answer's variance would fall by on average if that alone were known, with the 10th to "
      "90th percentile over runs drawn again (first-order indices from a sparse polynomial fit to the " +
          std::to_string(vessel.forecast.members) +
          " runs of the band). What a test leaves of the doubt is chosen. Readings from the heap's first weeks narrow "
          "what no test reaches." +
          (quiet.empty() ? "" : " No share was seen of: " + quiet + "."),
      style::note);
}

}  // namespace stillheap::sheet
