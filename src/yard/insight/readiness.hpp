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
  double worm_time_s = 7 * 86400.0;     ///< chosen: so long below their warm limit at every position
  double worm_gap_s = 8 * 86400.0;      ///< chosen: read at least weekly within it
  double fresh_other_s = 14 * 86400.0;  ///< chosen: moisture and oxygen, as AlertLimits
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

/// Worms: not in the first weeks; self-heating over (where the outside is known); every probe position below the warm
/// limit for a week and not below the cold one now; wet enough, air enough where it was read, and no frost ahead where
/// the outside is known. Limits: rules::worms.
[[nodiscard]] Readiness ready_for_worms(std::span<const Track> tracks, double now_s, const PhaseAnswer& phase,
                                        const Outside& outside = {}, const ReadinessLimits& limits = {});

/// Harvest: the list of rules::harvest. Look and smell nobody can read off a record: they stand in what to do next. A
/// test that was not made leaves the answer unknown, never yes; one failed test for germs makes it no.
[[nodiscard]] Readiness ready_for_harvest(const PhaseAnswer& phase, std::span<const LabValue> tests, double now_s);

/// What the laboratory values say by the public standards of maturity.hpp: metals, pathogens, a specification, the
/// class of self-heating ("self_heating_rise", K), the germination index ("germination_index", %). The last value of
/// each key counts. A value in another unit than the standard's is named and not judged.
[[nodiscard]] std::vector<Statement> judge_tests(std::span<const LabValue> tests);

/// Salt before and after: first conductivity of the heap or of its lots against the heap's last. Nothing with fewer
/// than two. Values are compared only when unit and method agree; else the statement says why not.
[[nodiscard]] std::optional<Statement> salt_change(std::span<const LabValue> tests);

}  // namespace stillheap::insight
