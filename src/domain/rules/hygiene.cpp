#include "domain/rules/hygiene.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <limits>

#include "core/base/constants.hpp"
#include "core/base/error.hpp"

namespace stillheap::rules {
namespace {

constexpr double no_limit = std::numeric_limits<double>::infinity();
constexpr double day_s = constant::seconds_per_day;
constexpr double organic_low_c = (131.0 - 32.0) / 1.8;   // 131 degF
constexpr double organic_high_c = (170.0 - 32.0) / 1.8;  // 170 degF

constexpr std::string_view further_reduction =
    "40 CFR 503 appendix B, part B.1 (composting); same limits read in 40 CFR 257 appendix II, part B";
constexpr std::string_view organic_production = "7 CFR 205.203(c)(2)";

constexpr std::string_view sludge_yardstick =
    "written for sewage sludge: a yardstick here, no permit; whether air that moves by itself counts as aeration is "
    "for "
    "the authority";

constexpr HoldRule rules[] = {
    {"static-aerated-55", "static aerated pile or within-vessel", further_reduction, 55.0, no_limit, 3.0 * day_s, 0.0,
     no_limit, Method::static_aerated_or_in_vessel, 0, sludge_yardstick},
    {"windrow-55", "windrow", further_reduction, 55.0, no_limit, 15.0 * day_s, 0.0, no_limit, Method::windrow, 5,
     "written for sewage sludge: a yardstick here, no permit"},
    {"organic-static-aerated", "organic production, in-vessel or static aerated pile", organic_production,
     organic_low_c, organic_high_c, 3.0 * day_s, 25.0, 40.0, Method::static_aerated_or_in_vessel, 0,
     "whether air that moves by itself counts as aeration is for the certifier"},
    {"organic-windrow", "organic production, windrow", organic_production, organic_low_c, organic_high_c, 15.0 * day_s,
     25.0, 40.0, Method::windrow, 5, ""},
};

constexpr std::string_view fertilising_products =
    "Regulation (EU) 2019/1009, annex II part II, CMC 3 (not yet checked against the text)";
constexpr std::string_view animal_by_products =
    "Regulation (EU) 142/2011, annex V chapter III section 1 (not yet checked against the text)";

constexpr HoldRule european(std::string_view id, double low_c, double days) {
  return {id,
          "European fertilising products",
          fertilising_products,
          low_c,
          no_limit,
          days * day_s,
          0.0,
          no_limit,
          Method::turned_or_forced_air,
          0,
          "asks for regular turning or forced aeration, so a heap that is neither turned nor blown does not meet it"};
}

constexpr HoldRule further_rules[] = {
    european("europe-70", 70.0, 3.0),
    european("europe-65", 65.0, 5.0),
    european("europe-60", 60.0, 7.0),
    european("europe-55", 55.0, 14.0),
    {"animal-by-products-70", "animal by-products, composted", animal_by_products, 70.0, no_limit, 3600.0, 0.0,
     no_limit, Method::approved_plant, 0,
     "asks for pieces of at most 12 mm and a plant approved for it, with a closed reactor that cannot be by-passed; "
     "kitchen "
     "scraps and manure of one's own yard may fall under national rules instead"},
};

// The time and temperature equation, 40 CFR 503.32(a)(3)(ii)(A).
constexpr double equation_exponent_per_k = 0.14;
constexpr double equation_least_c = 50.0;

template <typename... Values>
std::string text(const char* form, Values... values) {
  char line[400];
  std::snprintf(line, sizeof line, form, values...);
  return line;
}

std::string rule_sentence(const HoldRule& rule) {
  std::string words = std::string(rule.name) + ": " + text("%.0f degC or more", rule.low_c);
  if (std::isfinite(rule.high_c)) words += text(" and at most %.1f degC", rule.high_c);
  words += rule.duration_s < day_s ? text(" for %.0f h without a break", rule.duration_s / 3600.0)
                                   : text(" for %.0f days without a break", rule.duration_s / day_s);
  if (rule.least_turnings > 0) words += text(", turned at least %d times while hot", rule.least_turnings);
  if (std::isfinite(rule.most_carbon_to_nitrogen)) {
    words += text(", starting at C:N %.0f to %.0f", rule.least_carbon_to_nitrogen, rule.most_carbon_to_nitrogen);
  }
  if (!rule.applies.empty()) words += " (" + std::string(rule.applies) + ")";
  return words;
}

std::string hold_reading(const HoldRule& rule, const Stretch& longest, const Circumstances& circumstances) {
  std::string words =
      text("longest unbroken hold %.1f h of %.0f h asked", longest.length_s() / 3600.0, rule.duration_s / 3600.0);
  if (rule.least_turnings > 0) {
    words += text("; turned %d times of %d asked", circumstances.turnings, rule.least_turnings);
  }
  if (std::isfinite(rule.most_carbon_to_nitrogen)) {
    const bool noted = circumstances.carbon_to_nitrogen > 0.0;
    words += noted ? text("; C:N %.1f", circumstances.carbon_to_nitrogen) : "; C:N not noted";
  }
  if (circumstances.method != rule.method)
    words += "; the rule is for another way of composting, so it is not met here";
  return words;
}

bool conditions_met(const HoldRule& rule, const Circumstances& circumstances) {
  return circumstances.method == rule.method && circumstances.turnings >= rule.least_turnings &&
         circumstances.carbon_to_nitrogen >= rule.least_carbon_to_nitrogen &&
         circumstances.carbon_to_nitrogen <= rule.most_carbon_to_nitrogen;
}

/// Integral of 10^(a T) dt over one straight segment that lies wholly at or above the least temperature.
double lethality_of_segment(double from_c, double to_c, double step_s) {
  const auto rate = [](double celsius) { return 1.0 / required_hold_s(celsius); };
  const double spread = equation_exponent_per_k * std::log(10.0) * (to_c - from_c);
  if (std::abs(spread) < 1e-6) return step_s * rate(0.5 * (from_c + to_c));  // series of the line below
  return step_s * (rate(to_c) - rate(from_c)) / spread;
}

}  // namespace

std::span<const HoldRule> hold_rules() noexcept { return rules; }

std::span<const HoldRule> further_hold_rules() noexcept { return further_rules; }

const HoldRule& hold_rule(std::string_view id) {
  std::string known;
  for (const HoldRule& rule : rules) {
    if (rule.id == id) return rule;
    known += (known.empty() ? "" : ", ") + std::string(rule.id);
  }
  for (const HoldRule& rule : further_rules) {
    if (rule.id == id) return rule;
    known += ", " + std::string(rule.id);
  }
  throw InputError("hygiene rule", "\"" + std::string(id) + "\" is not known", "use one of " + known);
}

Verdict judge(const HoldRule& rule, const History& history, const Circumstances& circumstances) {
  Verdict verdict{std::string(rule.id), rule_sentence(rule), "", std::string(rule.source), false, std::nullopt, {}};
  verdict.longest = longest_within(history, rule.low_c, rule.high_c).value_or(Stretch{});
  verdict.reading = hold_reading(rule, verdict.longest, circumstances);
  if (!conditions_met(rule, circumstances)) return verdict;
  for (const Stretch& stretch : stretches_within(history, rule.low_c, rule.high_c)) {
    if (stretch.length_s() < rule.duration_s) continue;
    verdict.met = true;
    verdict.met_at_s = stretch.begin_s + rule.duration_s;
    break;
  }
  return verdict;
}

double fractional_lethality(const History& history) {
  double sum = 0.0;
  for (std::size_t i = 1; i < history.size(); ++i) {
    double from_c = history[i - 1].celsius;
    double to_c = history[i].celsius;
    double step_s = history[i].time_s - history[i - 1].time_s;
    if (step_s > widest_gap_s || std::max(from_c, to_c) < equation_least_c) continue;
    if (std::min(from_c, to_c) < equation_least_c) {
      const double hot_share = (std::max(from_c, to_c) - equation_least_c) / std::abs(to_c - from_c);
      step_s *= hot_share;
      (from_c < to_c ? from_c : to_c) = equation_least_c;
    }
    sum += lethality_of_segment(from_c, to_c, step_s);
  }
  return sum;
}

std::vector<Verdict> judge_all(const History& history, const Circumstances& circumstances) {
  std::vector<Verdict> verdicts;
  for (const HoldRule& rule : rules) {
    if (rule.method == circumstances.method) verdicts.push_back(judge(rule, history, circumstances));
  }
  verdicts.push_back(judge_time_temperature(history, circumstances));
  for (const HoldRule& rule : further_rules) verdicts.push_back(judge(rule, history, circumstances));
  verdicts.push_back(judge_significant_reduction(history));
  verdicts.push_back(judge_vector_attraction(history));
  return verdicts;
}

}  // namespace stillheap::rules
