#pragma once
#include <span>
#include <string_view>
#include <vector>

#include "domain/rules/worms.hpp"
#include "yard/insight/outside.hpp"
#include "yard/insight/phrase.hpp"
#include "yard/insight/track.hpp"

/// The phase a heap is in, from its temperatures alone.
namespace stillheap::insight {

enum class Phase { unknown, starting, hot, cooling, curing };
[[nodiscard]] std::string_view name_of(Phase phase) noexcept;

/// Limits of the phases. Going into a phase asks for another temperature than falling out of it, and for more than one
/// day's word, so that a noisy or single odd reading changes nothing.
struct PhaseLimits {
  /// Hot from here on. Source: an agricultural ministry's table of compost temperatures (Manitoba Agriculture,
  /// "Compost Elements"): 43 to 65 degC acceptable; 45 degC chosen within it as where heat-loving microbes take over.
  double hot_from_c = 45.0;
  double hot_until_c = 40.0;  ///< hot no more below this; 40 CFR 257 appendix II part A counts 40 degC and above
  double cool_below_c = rules::worms::most_c;  ///< only where the outside air is not known
  double cool_until_c = 30.0;                  ///< curing no more above this, the outside not known; chosen
  double warm_again_k = 6.0;                   ///< curing no more so far above the twin; chosen
  double cool_time_s = 7 * 86400.0;            ///< so long below cool_below_c before it counts as for good; chosen
  int cool_days = 3;                           ///< read on at least so many days within it; chosen
  double fall_k = 10.0;                    ///< so far below its highest a heap that was never hot is cooling; chosen
  int days_to_agree = 2;                   ///< days read in a row that must say the same; chosen
  double probe_counts_s = 3 * 86400.0;     ///< a probe's word holds so long when others are read; chosen
  double gap_s = 10 * 86400.0;             ///< nothing read for longer: what it was before tells no more; chosen
  double may_start_cool_s = 28 * 86400.0;  ///< a heap never hot is not curing before; chosen
};

/// The heap's temperature on one day that was read: the warmest probe's, as a heap is hot where it is hottest.
struct HeapDay {
  double time_s = 0.0;
  double celsius = 0.0;
  std::size_t track = 0;  ///< which probe's, counted in the span given
};
[[nodiscard]] std::vector<HeapDay> heap_days(std::span<const Track> tracks, double now_s,
                                             const PhaseLimits& limits = {});

struct PhaseStep {
  Phase phase{};
  double since_s = 0.0;  ///< the day on which the readings first said so
  double reading_c = 0.0;
};

struct PhaseAnswer {
  Phase now = Phase::unknown;
  std::vector<PhaseStep> steps;  ///< in order of time; unknown stretches (gaps) stand among them
  Statement statement;           ///< of the phase now
};

/// Tracks of other kinds than temperature are passed over.
/// Curing begins where self-heating ends: rules::self_heating against the twin where the outside is known, else below
/// the fixed limit, which takes summer air for heat.
[[nodiscard]] PhaseAnswer phase_of(std::span<const Track> tracks, double now_s, const PhaseLimits& limits = {},
                                   const Outside& outside = {});

/// Whether any step was hot.
[[nodiscard]] bool was_hot(const PhaseAnswer& answer) noexcept;

}  // namespace stillheap::insight
