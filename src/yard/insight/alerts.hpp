#pragma once
#include <optional>
#include <span>
#include <vector>

#include "domain/rules/moisture.hpp"
#include "yard/insight/phase.hpp"
#include "yard/insight/track.hpp"

/// What the readings warn of. Each alert is a row of alert_rules with the reading that set it off.
namespace stillheap::insight {

/// Limits of the alerts. Sources stand with the rules.
struct AlertLimits {
  double heats_by_s = 7 * 86400.0;  ///< a heap is hot by then
  double too_hot_c = 70.0;          ///< as in rules::caution_limit
  double act_c = (185.0 - 32.0) / 1.8;
  double fire_words_c = 75.0;        ///< from here on unread moisture counts as dry: chosen
  double fire_moisture_wet = 0.45;   ///< as in rules::caution_limit
  double fall_k = 15.0;              ///< from one day to the next
  double fall_from_c = 40.0;         ///< only falls from above count
  double short_hot_s = 3 * 86400.0;  ///< the hot phase lasts longer
  double dry_wet = rules::moisture::dry_wet;
  double soaked_wet = rules::moisture::soaked_wet;
  double low_oxygen = 0.05;
  double high_carbon_dioxide = 0.16;
  double fair_oxygen = 0.10;      ///< a place with this much shows that the heap as a whole gets air
  double young_s = 60 * 86400.0;  ///< readings are wanted daily while young, then weekly
  double read_again_young_s = rules::widest_gap_s;
  double read_again_old_s = 8 * 86400.0;
  double fresh_heat_s = 3 * 86400.0;     ///< a temperature speaks for now that long
  double danger_stands_s = 12 * 3600.0;  ///< a cooler reading clears a heap that may burn from so much later on: chosen
  double danger_ends_s = 14 * 86400.0;   ///< and nothing read there again for so long: chosen
  double fresh_other_s = 14 * 86400.0;   ///< moisture and gas
  double side_by_side_s = 2 * 86400.0;   ///< two places are compared when read within
};

/// The heap as the alerts see it. Times count since filling.
struct HeapView {
  std::span<const Track> tracks;
  double now_s = 0.0;
  Phase phase = Phase::unknown;
  std::span<const PhaseStep> steps;
  bool has_channels = true;
  std::optional<double> channel_cleared_s;  ///< last time
};

/// A rule without a reading: what docs/rules.md lists.
struct AlertRule {
  const char* id;
  Severity weight;
  Phrase rule;
  const char* source;
  const char* next;
  std::string caution;
  Watering watering = Watering::none;
  const char* water = "";  ///< what it asks of the water, beside `next`
};
[[nodiscard]] std::vector<AlertRule> alert_rules(const AlertLimits& limits = {});

/// The alerts that the readings up to now set off, most pressing first. A dangerous reading counts alone, without
/// waiting for a second one; the first thing to do is then to read again.
[[nodiscard]] std::vector<Statement> alerts_of(const HeapView& heap, const AlertLimits& limits = {});

}  // namespace stillheap::insight
