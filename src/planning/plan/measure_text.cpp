#include "planning/plan/measure_text.hpp"

#include <algorithm>
#include <cmath>

#include "core/quantity/retold.hpp"

namespace stillheap::plan {
namespace {

constexpr std::size_t most_lines = 3;
constexpr double worth_it = 0.01;  // chosen: a band narrower by less than this is no reason to measure

std::string whole_percent(double share) { return std::to_string(std::lround(100.0 * share)); }

}  // namespace

std::string strongest_share(const forecast::Sensitivity& all, const forecast::Unknown& one) {
  const auto most = std::max_element(one.share.begin(), one.share.end(),
                                     [](const auto& a, const auto& b) { return a.middle < b.middle; });
  if (most == one.share.end() || most->middle < 0.005) return "";
  return whole_percent(most->middle) + " % (" + whole_percent(most->low) + " to " + whole_percent(most->high) +
         " %) of the spread of " + all.answers[static_cast<std::size_t>(most - one.share.begin())].name;
}

std::string measure_text(const VesselPlan& vessel, UnitSystem units) {
  const forecast::Sensitivity& all = vessel.forecast.sensitivity;
  if (all.answers.empty()) return all.why_none.empty() ? "" : "    measure first: " + all.why_none + ".\n";
  std::string text;
  std::size_t lines = 0;
  for (const forecast::Unknown& one : all.unknowns) {
    const std::string share = strongest_share(all, one);
    if (one.how.empty()) {
      if (!share.empty()) text += "      out of reach beforehand: " + one.what + ", " + share + ".\n";
      continue;
    }
    if (lines == most_lines || one.mean_narrowing < worth_it || share.empty()) continue;
    ++lines;
    text += "      " + std::to_string(lines) + ". " + one.what + ": causes " + share +
            "; measured, the bands narrow by " + whole_percent(one.mean_narrowing) +
            " % on average. How: " + quantity::retold(one.how, units) + ".\n";
  }
  if (lines == 0) text = "      nothing that can be measured beforehand stands out.\n" + text;
  return "    what to measure first:\n" + text;
}

}  // namespace stillheap::plan
