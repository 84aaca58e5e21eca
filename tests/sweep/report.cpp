#include "report.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace stillheap::sweep {
namespace {

std::string ends_of(const std::vector<Judged>& all) {
  std::map<std::string, std::pair<int, int>> reasons;  // how many, and an example
  for (const Judged& one : all) {
    const Verdict& v = one.verdict;
    const std::string kind = !v.faults.empty()        ? "FAULT"
                             : v.end == End::finished ? "finished"
                             : v.end == End::stopped  ? "stopped: " + v.reason.substr(0, v.reason.find(" on day"))
                                                      : "refused: " + v.reason;
    auto& [count, example] = reasons[kind];
    if (count++ == 0) example = one.number;
  }
  std::string text;
  for (const auto& [kind, seen] : reasons)
    text += fmt::format("  {:5}  {} (first: {})\n", seen.first, kind, seen.second);
  return text;
}

template <class Value>
std::string worst_of(const std::vector<Judged>& all, const char* name, Value&& value) {
  const auto worst = std::max_element(
      all.begin(), all.end(), [&](const Judged& a, const Judged& b) { return value(a.verdict) < value(b.verdict); });
  return fmt::format("  {:<34} {:>12.4g}   case {}\n", name, 1.0 * value(worst->verdict), worst->number);
}

}  // namespace

int faults_of(const std::vector<Judged>& all) {
  return static_cast<int>(
      std::count_if(all.begin(), all.end(), [](const Judged& one) { return !one.verdict.faults.empty(); }));
}

std::string table_of(const std::vector<Judged>& all, std::uint64_t seed) {
  int again = 0, steps = 0;
  double cpu_s = 0.0;
  for (const Judged& one : all) again += one.drawn_again, steps += one.verdict.steps, cpu_s += one.verdict.cpu_s;
  std::string text = fmt::format("{} cases, seed {}, {} steps, {:.0f} s of CPU; {} site files drawn again\n",
                                 all.size(), seed, steps, cpu_s, again);
  text += ends_of(all);
  text += worst_of(all, "balance error, solids", [](const Verdict& v) { return v.worst.solids; });
  text += worst_of(all, "balance error, oxygen", [](const Verdict& v) { return v.worst.oxygen; });
  text += worst_of(all, "balance error, water", [](const Verdict& v) { return v.worst.water; });
  text += worst_of(all, "balance error, energy", [](const Verdict& v) { return v.worst.energy; });
  text += worst_of(all, "balance error, salt", [](const Verdict& v) { return v.worst.salt; });
  text += worst_of(all, "balance error, dry air", [](const Verdict& v) { return v.worst.dry_air; });
  text += worst_of(all, "hottest [degC]", [](const Verdict& v) { return v.hottest_c; });
  text += worst_of(all, "below the coldest air [K]", [](const Verdict& v) { return v.below_air_k; });
  text += worst_of(all, "beyond the physical floor [K]",
                   [](const Verdict& v) { return v.steps > 0 ? -v.above_floor_k : -1e3; });
  text += worst_of(all, "steps", [](const Verdict& v) { return v.steps; });
  text += worst_of(all, "slowest [s of CPU]", [](const Verdict& v) { return v.cpu_s; });
  for (const Judged& one : all) {
    for (const std::string& fault : one.verdict.faults) text += fmt::format("case {}: {}\n", one.number, fault);
    if (!one.verdict.faults.empty()) text += fmt::format("  again: sweep --seed {} --only {}\n", seed, one.number);
  }
  return text;
}

}  // namespace stillheap::sweep
