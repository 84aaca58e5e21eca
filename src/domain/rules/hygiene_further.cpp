#include <algorithm>
#include <cstdio>
#include <limits>

#include "core/base/constants.hpp"
#include "domain/rules/hygiene.hpp"

namespace stillheap::rules {
namespace {

constexpr double day_s = constant::seconds_per_day;
constexpr double no_limit = std::numeric_limits<double>::infinity();

// 40 CFR 257 appendix II part A.
constexpr std::string_view significant_reduction_id = "significant-reduction-40";
constexpr std::string_view vector_attraction_id = "vector-attraction-45";
constexpr double lesser_c = 40.0;
constexpr double lesser_s = 5.0 * day_s;
constexpr double lesser_peak_c = 55.0;
constexpr double lesser_peak_s = 4.0 * 3600.0;

// 40 CFR 503.33(b)(5), from memory.
constexpr double vector_least_c = 40.0;
constexpr double vector_mean_c = 45.0;
constexpr double vector_s = 14.0 * day_s;

/// A history's limits count "or more"; a rule that says "exceeds" asks for more than its own rounding too.
double above(double limit_c) { return limit_c + 1e-6; }

template <typename... Values>
std::string text(const char* form, Values... values) {
  char line[400];
  std::snprintf(line, sizeof line, form, values...);
  return line;
}

/// Cuts stretches out of a history, one after another in order of time: every reading is passed once.
class Cutter {
 public:
  explicit Cutter(const History& history) : history_(history) {}

  History next(const Stretch& stretch) {
    History part;
    while (at_ + 1 < history_.size() && history_[at_ + 1].time_s < stretch.begin_s) ++at_, ++readings_visited;
    for (std::size_t i = at_; i + 1 < history_.size() && history_[i].time_s <= stretch.end_s; ++i, ++readings_visited) {
      const Reading& from = history_[i];
      const Reading& to = history_[i + 1];
      const double begin_s = std::max(from.time_s, stretch.begin_s);
      const double end_s = std::min(to.time_s, stretch.end_s);
      if (end_s < begin_s || from.time_s == to.time_s) continue;
      const auto value_at = [&](double time_s) {
        return from.celsius + (to.celsius - from.celsius) * (time_s - from.time_s) / (to.time_s - from.time_s);
      };
      part.push_back({begin_s, value_at(begin_s)});
      part.push_back({end_s, value_at(end_s)});
    }
    return part;
  }

 private:
  const History& history_;
  std::size_t at_ = 0;
};

double integral_k_s(const History& history) {
  double sum = 0.0;
  for (std::size_t i = 1; i < history.size(); ++i) {
    sum += 0.5 * (history[i].celsius + history[i - 1].celsius) * (history[i].time_s - history[i - 1].time_s);
  }
  return sum;
}

}  // namespace

Verdict judge_significant_reduction(const History& history) {
  Verdict verdict{std::string(significant_reduction_id),
                  "processes to significantly reduce pathogens, composting: 40 degC or more for 5 days without a "
                  "break, more than 55 degC for 4 "
                  "hours of them",
                  "never held 40 degC",
                  "40 CFR 257 appendix II part A; same limits in 40 CFR 503 appendix B part A",
                  false,
                  std::nullopt,
                  {}};
  Cutter cutter(history);
  for (const Stretch& stretch : stretches_within(history, lesser_c, no_limit)) {
    const auto peaks = stretches_within(cutter.next(stretch), above(lesser_peak_c), no_limit);
    std::optional<double> peak_met_s;
    double longest_peak_s = 0.0;
    for (const Stretch& peak : peaks) {
      longest_peak_s = std::max(longest_peak_s, peak.length_s());
      if (!peak_met_s && peak.length_s() >= lesser_peak_s) peak_met_s = peak.begin_s + lesser_peak_s;
    }
    const bool met = stretch.length_s() >= lesser_s && peak_met_s;
    if (met && !verdict.met) {
      verdict.met = true;
      verdict.met_at_s = std::max(stretch.begin_s + lesser_s, *peak_met_s);
    }
    if (stretch.length_s() <= verdict.longest.length_s() && !(met && verdict.longest.length_s() < lesser_s)) continue;
    verdict.longest = stretch;
    verdict.reading =
        text("longest hold %.1f h of %.0f h asked, of them %.1f h of %.0f h above 55 degC", stretch.length_s() / 3600.0,
             lesser_s / 3600.0, longest_peak_s / 3600.0, lesser_peak_s / 3600.0);
  }
  return verdict;
}

Verdict judge_vector_attraction(const History& history) {
  Verdict verdict{std::string(vector_attraction_id),
                  "vector attraction reduction (flies, rats and mice), aerobic: 14 days or longer above 40 degC, their "
                  "mean above 45 degC",
                  "never above 40 degC",
                  "40 CFR 503.33(b)(5) (not yet checked against the text)",
                  false,
                  std::nullopt,
                  {}};
  Cutter cutter(history);
  for (const Stretch& stretch : stretches_within(history, above(vector_least_c), no_limit)) {
    const History part = cutter.next(stretch);
    const double mean_c = stretch.length_s() > 0.0 ? integral_k_s(part) / stretch.length_s() : 0.0;
    if (stretch.length_s() >= vector_s && mean_c > vector_mean_c && !verdict.met) {
      verdict.met = true;
      verdict.met_at_s = stretch.end_s;  // the mean is that of the whole stretch
    }
    if (stretch.length_s() <= verdict.longest.length_s()) continue;
    verdict.longest = stretch;
    verdict.reading = text("longest time %.1f days of %.0f asked, mean %.1f degC", stretch.length_s() / day_s,
                           vector_s / day_s, mean_c);
  }
  return verdict;
}

bool counts_as_hygiene(std::string_view rule_id) noexcept {
  return rule_id != significant_reduction_id && rule_id != vector_attraction_id;
}

}  // namespace stillheap::rules
