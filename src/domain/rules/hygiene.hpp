#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "domain/rules/history.hpp"

/// Time and temperature rules of public standards, judged on a temperature history. A met rule is a reading,
/// not a permit: each rule speaks of all of the material, and local codes say which one binds.
namespace stillheap::rules {

/// How a heap gets its air. A static heap with passive air counts as `static_aerated_or_in_vessel` here, as the nearest
/// the rules name; whether it counts for an authority is the authority's word.
enum class Method { static_aerated_or_in_vessel, windrow, turned_or_forced_air, approved_plant };

/// A rule of the kind "between these temperatures for so long without a break".
struct HoldRule {
  std::string_view id;
  std::string_view name;
  std::string_view source;
  double low_c = 0.0;
  double high_c = 0.0;  ///< infinite when the rule has no upper limit
  double duration_s = 0.0;
  double least_carbon_to_nitrogen = 0.0;  ///< of the starting blend
  double most_carbon_to_nitrogen = 0.0;   ///< infinite when the rule has none
  Method method{};
  int least_turnings = 0;      ///< during the hold
  std::string_view applies{};  ///< what the rule was written for and what else it asks; may be empty
};

/// The rules as rows of data, static ones first.
[[nodiscard]] std::span<const HoldRule> hold_rules() noexcept;

/// Rows beside those of hold_rules, for other ways of composting: told so that nobody takes them for met.
[[nodiscard]] std::span<const HoldRule> further_hold_rules() noexcept;

/// The row with this id, of either table. Throws InputError listing the ids.
[[nodiscard]] const HoldRule& hold_rule(std::string_view id);

/// What is known of the run beside its temperatures.
struct Circumstances {
  Method method = Method::static_aerated_or_in_vessel;
  int turnings = 0;                 ///< while hot
  double carbon_to_nitrogen = 0.0;  ///< of the starting blend, from total carbon
  double solids_wet = 0.4;          ///< dry matter, kg/kg wet
};

/// A rule beside its reading.
struct Verdict {
  std::string rule_id;
  std::string rule;     ///< the rule in one sentence
  std::string reading;  ///< what was found, with units, and what is missing if not met
  std::string source;
  bool met = false;
  std::optional<double> met_at_s;  ///< the first moment at which the hold had lasted long enough
  Stretch longest;                 ///< the longest hold; zero length when there is none
};

/// Judges one hold rule.
[[nodiscard]] Verdict judge(const HoldRule& rule, const History& history, const Circumstances& circumstances);

/// Holding time that the time and temperature equation asks for: D = 131,700,000 / 10^(0.14 T) days, for at
/// least 7 % solids and at least 50 degC. Source: 40 CFR 503.32(a)(3)(ii)(A), equation 2.
[[nodiscard]] double required_hold_s(double celsius) noexcept;

/// Judges the time and temperature equation: met when some temperature from 50 degC up was kept without a break for its
/// holding time and for at least 20 minutes. Every temperature counts: each hold between two readings is searched
/// exactly, so the work grows with the readings, not with their square.
[[nodiscard]] Verdict judge_time_temperature(const History& history, const Circumstances& circumstances);

/// Judges the lesser rule for composting: 40 degC or more for 5 days without a break, and within them more than
/// 55 degC for 4 hours without a break (the rule says "for four hours"; unbroken is the stricter reading).
/// Source: 40 CFR 257 appendix II part A; 40 CFR 503 appendix B part A has the same limits.
[[nodiscard]] Verdict judge_significant_reduction(const History& history);

/// Judges the rule against flies and vermin: 14 days or longer above 40 degC, their mean above 45 degC.
/// Source: 40 CFR 503.33(b)(5), from memory.
[[nodiscard]] Verdict judge_vector_attraction(const History& history);

/// Integral of dt / D(T) over all time at 50 degC and above, exact on the straight lines between readings.
/// An engineering convention; the rule itself asks for one unbroken hold, so this proves nothing alone.
[[nodiscard]] double fractional_lethality(const History& history);

/// The one list of rules, for readings and forecasts alike: those of hold_rules for this method, the time and
/// temperature equation, the further hold rules, and the two lesser rules.
[[nodiscard]] std::vector<Verdict> judge_all(const History& history, const Circumstances& circumstances);

/// Whether a rule speaks of compost free of germs; the lesser ones (fewer germs, fewer flies) do not.
[[nodiscard]] bool counts_as_hygiene(std::string_view rule_id) noexcept;

}  // namespace stillheap::rules
