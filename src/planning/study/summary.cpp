#include <fmt/format.h>

#include <algorithm>

#include "planning/study/findings.hpp"

namespace stillheap::study {
namespace {

constexpr std::size_t most_listed = 20;  // chosen: a screen

const Measure& measure(std::string_view name) { return measures()[measure_index(name)]; }

std::string value_words(const Findings& findings, const CaseRow& run, std::string_view name) {
  const forecast::Banded& one = run.numbers[measure_index(name)];
  const auto words = [&](double value) { return shown(measure(name), value, findings.units); };
  std::string middle = words(one.middle);
  if (!(one.low < one.middle || one.high > one.middle)) return middle;
  return middle + " (" + words(one.low) + " to " + words(one.high) + ')';
}

std::string counts_line(const Findings& findings) {
  std::string line = fmt::format("{}: {} cases of {}, {} done", findings.study.file.filename().string(), findings.cases,
                                 findings.site_name.empty() ? "no site" : findings.site_name, findings.done);
  if (findings.impossible > 0) line += fmt::format(", {} impossible", findings.impossible);
  if (findings.failed > 0) line += fmt::format(", {} failed", findings.failed);
  return line + fmt::format("; {} days ahead, {}.\n", findings.days,
                            findings.members > 1 ? fmt::format("{} runs a band", findings.members) : "no band");
}

std::string reach_lines(const Findings& findings) {
  std::string text = "Over all runs:\n";
  for (const Goal& goal : goals()) {
    const std::optional<Reach> reach = reach_of(findings.rows, measure_index(goal.measure));
    text += fmt::format("  {}: ", goal.words);
    text += reach ? shown(measure(goal.measure), reach->low, findings.units) + " to " +
                        shown(measure(goal.measure), reach->high, findings.units) + '\n'
                  : std::string("none\n");
  }
  return text;
}

std::string run_line(const Findings& findings, const CaseRow& run) {
  std::string line = fmt::format("  case {}, {}:", run.number, run.vessel);
  for (std::size_t a = 0; a < run.values.size(); ++a)
    line += fmt::format("{} {} = {}", a == 0 ? "" : ",", findings.study.axes[a].key, run.values[a]);
  for (const Goal& goal : goals()) line += fmt::format("; {} {}", goal.words, value_words(findings, run, goal.measure));
  return line + '\n';
}

std::string front_lines(const Findings& findings) {
  if (findings.front.empty()) return "No run came to its end.\n";
  std::string text = fmt::format("No other run beats these in all four ({} of {}), most hot mass first:\n",
                                 findings.front.size(), findings.rows.size());
  for (std::size_t i = 0; i < std::min(most_listed, findings.front.size()); ++i)
    text += run_line(findings, findings.rows[findings.front[i]]);
  if (findings.front.size() > most_listed)
    text += fmt::format("  and {} more: see runs.csv\n", findings.front.size() - most_listed);
  return text;
}

std::string reason_lines(const Findings& findings) {
  std::string text;
  std::size_t told = 0;
  for (const CaseRow& run : findings.rows) {
    if (run.state == State::done) continue;
    if (++told > most_listed) continue;
    text += fmt::format("  case {} {}: {}\n", run.number, name_of(run.state), run.reason);
  }
  if (told > most_listed) text += fmt::format("  and {} more: see runs.csv\n", told - most_listed);
  return text.empty() ? text : "Not done:\n" + text;
}

}  // namespace

std::string summary_text(const Findings& findings) {
  return counts_line(findings) + reach_lines(findings) + front_lines(findings) + reason_lines(findings) +
         "A forecast is no proof: build one, measure it, and let the forecast learn before building many.\n";
}

}  // namespace stillheap::study
