#pragma once
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "yard/insight/phase.hpp"
#include "yard/insight/track.hpp"

/// Whether a heap is ready for worms and for harvest, point by point.
namespace stillheap::insight {

enum class Answer { no, unknown, yes };
[[nodiscard]] std::string_view name_of(Answer answer) noexcept;

/// One laboratory value as the record has it.
struct LabValue {
  std::string key;  ///< "conductivity"
  double value = 0.0;
  std::string unit;
  std::string method;
  double time_s = 0.0;  ///< of sampling, since filling; before filling below zero
  bool of_lot = false;  ///< of a feedstock that went in, not of the heap
};

struct ReadinessLimits {
  double worm_below_c = worm_limit_c;     ///< common practice, no source
  double worm_time_s = 7 * 86400.0;       ///< chosen: what "for good" is taken to mean
  double worm_gap_s = 8 * 86400.0;        ///< chosen: read at least weekly within it
  double worm_earliest_s = 28 * 86400.0;  ///< chosen: a cool start may still heat up
  double harvest_age_s = 274 * 86400.0;   ///< nine months; common practice, no source
  double curing_s = 30 * 86400.0;         ///< after cooling; common practice, no source
  double stable_rise_k = 20.0;            ///< self-heating class IV or V: below; Brinton et al. 1995, from memory
};

/// One point of a readiness, with its own answer.
struct ReadyPoint {
  Answer answer = Answer::unknown;
  Statement statement;
};

struct Readiness {
  Answer answer = Answer::unknown;  ///< yes when every point is yes; no when one is no
  std::vector<ReadyPoint> points;
  Statement statement;
};

/// Worms: every probe position below 26.7 degC for a week, none above since, and not in the first weeks.
[[nodiscard]] Readiness ready_for_worms(std::span<const Track> tracks, double now_s,
                                        const ReadinessLimits& limits = {});

/// Harvest: cured after cooling, old enough, and tests of stability and germs. A test that was not made leaves the
/// answer unknown, never yes.
[[nodiscard]] Readiness ready_for_harvest(const PhaseAnswer& phase, std::span<const LabValue> tests, double now_s,
                                          const ReadinessLimits& limits = {});

/// What the laboratory values say by the public standards of maturity.hpp: metals, pathogens, a specification, the
/// class of self-heating ("self_heating_rise", K), the germination index ("germination_index", %). The last value of
/// each key counts. A value in another unit than the standard's is named and not judged.
[[nodiscard]] std::vector<Statement> judge_tests(std::span<const LabValue> tests);

/// Salt before and after: first conductivity of the heap or of its lots against the heap's last. Nothing with fewer
/// than two. Values are compared only when unit and method agree; else the statement says why not.
[[nodiscard]] std::optional<Statement> salt_change(std::span<const LabValue> tests);

}  // namespace stillheap::insight
