#include "planning/study/columns.hpp"

#include <algorithm>

#include "core/base/csv.hpp"

namespace stillheap::study {
namespace {

template <class Value>
Column text_column(const std::vector<CaseRow>& runs, std::string name, std::string help, const Value& value) {
  Column column{std::move(name), "", std::move(help), true, {}, {}};
  for (const CaseRow& run : runs) column.words.push_back(value(run));
  return column;
}

template <class Value>
Column number_column(const std::vector<CaseRow>& runs, std::string name, std::string unit, std::string help,
                     const Value& value) {
  Column column{std::move(name), std::move(unit), std::move(help), false, {}, {}};
  for (const CaseRow& run : runs) column.numbers.push_back(value(run));
  return column;
}

/// As numbers when all values are; else as written.
Column axis_column(const Findings& findings, std::size_t a) {
  const Axis& axis = findings.study.axes[a];
  const std::string help(axis.row->help);
  const bool numbers = std::all_of(findings.rows.begin(), findings.rows.end(),
                                   [&](const CaseRow& run) { return number_of(axis, run.values[a]).has_value(); });
  if (!numbers) return text_column(findings.rows, axis.key, help, [a](const CaseRow& run) { return run.values[a]; });
  const std::string unit = unit_of(axis);
  return number_column(findings.rows, axis.key, unit.empty() ? "1" : unit, help,
                       [&](const CaseRow& run) { return *number_of(axis, run.values[a]); });
}

void add_measure(const Findings& findings, std::size_t m, bool banded, std::vector<Column>& columns) {
  const Measure& measure = measures()[m];
  const std::string name(measure.name), unit(measure.unit), help(measure.help);
  const auto add = [&](const std::string& ending, const std::string& words, double forecast::Banded::*part) {
    columns.push_back(number_column(findings.rows, name + ending, unit, help + words,
                                    [&](const CaseRow& run) { return run.numbers[m].*part; }));
  };
  add("", "", &forecast::Banded::middle);
  if (!banded || !measure.banded) return;
  add("_low", "; 10th percentile of the band", &forecast::Banded::low);
  add("_high", "; 90th percentile of the band", &forecast::Banded::high);
}

}  // namespace

std::vector<Column> columns_of(const Findings& findings) {
  const std::vector<CaseRow>& runs = findings.rows;
  std::vector<Column> columns;
  columns.push_back(
      number_column(runs, "case", "1", "number of the case", [](const CaseRow& run) { return run.number; }));
  columns.push_back(text_column(runs, "vessel", "kind of vessel", [](const CaseRow& run) { return run.vessel; }));
  columns.push_back(text_column(runs, "state", "done, impossible or failed",
                                [](const CaseRow& run) { return std::string(name_of(run.state)); }));
  columns.push_back(text_column(runs, "reason", "why it is not done", [](const CaseRow& run) { return run.reason; }));
  std::vector<bool> best(runs.size(), false);
  for (const std::size_t i : findings.front) best[i] = true;
  std::size_t at = 0;
  columns.push_back(number_column(runs, "unbeaten", "1", "1: no other run beats it in all goals at once",
                                  [&](const CaseRow&) { return best[at++] ? 1.0 : 0.0; }));
  for (std::size_t a = 0; a < findings.study.axes.size(); ++a) columns.push_back(axis_column(findings, a));
  const bool banded = has_bands(findings);
  for (std::size_t m = 0; m < measures().size(); ++m) add_measure(findings, m, banded, columns);
  return columns;
}

std::string runs_csv(const std::vector<Column>& columns) {
  std::vector<std::string> cells;
  for (const Column& column : columns) {
    const bool dotted = column.name.find('.') != std::string::npos && !column.is_text && column.unit != "1";
    cells.push_back(csv::cell(dotted ? column.name + " (" + column.unit + ')' : column.name));
  }
  std::string text = csv::row(cells);
  const std::size_t runs = columns.front().numbers.size();
  for (std::size_t r = 0; r < runs; ++r) {
    cells.clear();
    for (const Column& column : columns)
      cells.push_back(column.is_text ? csv::cell(column.words[r]) : csv::cell(column.numbers[r]));
    text += csv::row(cells);
  }
  return text;
}

}  // namespace stillheap::study
