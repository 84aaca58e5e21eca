#include "planning/study/findings.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "core/base/error.hpp"

namespace stillheap::study {
namespace {

constexpr std::array weighed{Goal{"longest_air_path_m", false, "longest air path"},
                             Goal{"share_3_days_above_55", true, "share 3 days above 55 degC"},
                             Goal{"water_put_on_kg_m3", false, "water for each volume filled"},
                             Goal{"cool_day", false, "day of cooling"}};
constexpr std::size_t hot = 1;  ///< place of the hot share among them

using Marks = std::array<double, weighed.size()>;  ///< less is better in all

Marks marks_of(const CaseRow& run) {
  Marks marks{};
  for (std::size_t g = 0; g < weighed.size(); ++g) {
    const double value = run.numbers[measure_index(weighed[g].measure)].middle;
    marks[g] = weighed[g].more_is_better ? -value : value;
    if (std::isnan(value)) marks[g] = std::numeric_limits<double>::infinity();
  }
  return marks;
}

bool beats(const Marks& one, const Marks& other) {
  bool better = false;
  for (std::size_t g = 0; g < one.size(); ++g) {
    if (one[g] > other[g]) return false;
    better = better || one[g] < other[g];
  }
  return better;
}

void add_runs(const CaseResult& result, const Case& one, Findings& findings) {
  CaseRow run{result.number, result.state, result.reason, "", one.values, {}};
  for (const KindNumbers& kind : result.kinds) {
    run.vessel = kind.vessel;
    run.numbers = kind.numbers;
    findings.rows.push_back(run);
  }
  if (!result.kinds.empty()) return;
  constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
  run.numbers.assign(measures().size(), {unknown, unknown, unknown});
  findings.rows.push_back(run);
}

void describe(const std::vector<Case>& cases, Findings& findings) {
  for (const Case& one : cases) {
    try {
      const site::Site site = site_of(findings.study, one);
      findings.site_name = site.name;
      findings.start_date = site.start_date;
      findings.units = site.units;
      findings.days = site.forecast_days;
      findings.members = site.members;
      return;
    } catch (const InputError&) {  // impossible; the next one knows as well
    }
  }
}

}  // namespace

std::span<const Goal> goals() noexcept { return weighed; }

std::vector<std::size_t> front_of(const std::vector<CaseRow>& runs) {
  std::vector<std::pair<Marks, std::size_t>> all;
  for (std::size_t i = 0; i < runs.size(); ++i) {
    if (runs[i].state == State::done) all.emplace_back(marks_of(runs[i]), i);
  }
  // Whoever beats a run stands before it in this order, and is beaten only by those before: the best so far are enough.
  std::sort(all.begin(), all.end());
  std::vector<std::pair<Marks, std::size_t>> best;
  for (const auto& one : all) {
    if (std::none_of(best.begin(), best.end(), [&](const auto& other) { return beats(other.first, one.first); }))
      best.push_back(one);
  }
  std::sort(best.begin(), best.end(), [](const auto& a, const auto& b) {
    return std::pair(a.first[hot], a.second) < std::pair(b.first[hot], b.second);
  });
  std::vector<std::size_t> front;
  front.reserve(best.size());
  for (const auto& one : best) front.push_back(one.second);
  return front;
}

Findings gather(const Folder& folder, const Study& study, const std::vector<Case>& cases) {
  Findings findings;
  findings.study = study;
  findings.cases = cases.size();
  for (const Case& one : cases) {
    const CaseResult result = read_case_result(folder.result(one.number));
    (result.state == State::done         ? findings.done
     : result.state == State::impossible ? findings.impossible
                                         : findings.failed) += 1;
    findings.cpu_s += result.cpu_s;
    findings.peak_memory_kb = std::max(findings.peak_memory_kb, result.peak_memory_kb);
    add_runs(result, one, findings);
  }
  findings.front = front_of(findings.rows);
  describe(cases, findings);
  return findings;
}

bool has_bands(const Findings& findings) {
  for (const CaseRow& run : findings.rows) {
    for (std::size_t m = 0; m < run.numbers.size(); ++m) {
      const forecast::Banded& one = run.numbers[m];
      if (measures()[m].banded && (one.low < one.middle || one.high > one.middle)) return true;
    }
  }
  return false;
}

std::optional<Reach> reach_of(const std::vector<CaseRow>& runs, std::size_t measure) {
  std::optional<Reach> reach;
  for (const CaseRow& run : runs) {
    const double value = run.numbers[measure].middle;
    if (std::isnan(value)) continue;
    reach = reach ? Reach{std::min(reach->low, value), std::max(reach->high, value)} : Reach{value, value};
  }
  return reach;
}

}  // namespace stillheap::study
