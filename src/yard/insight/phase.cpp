#include "yard/insight/phase.hpp"

#include <algorithm>
#include <limits>
#include <map>
#include <utility>

#include "core/base/constants.hpp"

namespace stillheap::insight {
namespace {

constexpr double clearly_warmer_k = 2.0;  // chosen: what two readings of one place may differ by chance

/// Follows the heap's days one after another.
class Follower {
 public:
  Follower(const PhaseLimits& limits, const std::vector<rules::HeatDay>& twin, rules::SelfHeating heat)
      : limits_(limits), twin_(twin), heat_(std::move(heat)) {}

  void take(const HeapDay& day) {
    if (!previous_) seen_from_start_ = day.time_s <= limits_.gap_s;
    note_gap(day);
    note_cool(day);
    settle(wanted(day), day);
    if (previous_) highest_c_ = std::max(highest_c_, std::min(day.celsius, previous_->celsius));
    previous_ = day;
  }
  [[nodiscard]] Phase now() const { return steps_.empty() ? Phase::unknown : steps_.back().phase; }
  [[nodiscard]] std::vector<PhaseStep> steps() const { return steps_; }
  [[nodiscard]] int agreeing() const { return agreeing_; }

 private:
  void note_gap(const HeapDay& day) {
    if (!previous_ || day.time_s - previous_->time_s <= limits_.gap_s) return;
    if (now() != Phase::unknown) steps_.push_back({Phase::unknown, previous_->time_s, previous_->celsius});
    seen_from_start_ = false;
    agreeing_ = 0;
    cool_since_s_.reset();
    cool_days_ = 0;
  }

  void note_cool(const HeapDay& day) {
    if (day.celsius >= limits_.cool_below_c) {
      // In curing, small relapses up to the upper limit are the hysteresis; the count of cool days starts anew.
      cool_since_s_.reset();
      cool_days_ = 0;
      return;
    }
    if (!cool_since_s_) cool_since_s_ = day.time_s;
    ++cool_days_;
  }

  /// The rest that has lasted its two weeks on that day; nothing when none has or the outside is not known.
  [[nodiscard]] const rules::Rest* resting(const HeapDay& now) const {
    const double day = now.time_s / constant::seconds_per_day;
    for (const rules::Rest& rest : heat_.rests) {
      if (rest.begin_day + rules::rest_days <= day && day <= rest.end_day) return &rest;
    }
    return nullptr;
  }

  [[nodiscard]] bool cool_for_good(const HeapDay& day) const {
    if (!twin_.empty()) return resting(day) != nullptr && (was_hot_ || day.time_s >= limits_.may_start_cool_s);
    // One that was watched from the start and never warmed has not begun: it is no curing heap.
    const bool may_have_been_warm = !seen_from_start_ || highest_c_ > limits_.cool_below_c;
    const bool had_its_heat = was_hot_ || (may_have_been_warm && day.time_s >= limits_.may_start_cool_s);
    return had_its_heat && cool_since_s_ && day.time_s - *cool_since_s_ >= limits_.cool_time_s &&
           cool_days_ >= limits_.cool_days;
  }

  [[nodiscard]] Phase wanted(const HeapDay& day) const {
    if (day.celsius >= limits_.hot_from_c) return Phase::hot;
    if (cool_for_good(day)) return Phase::curing;
    switch (now()) {
      case Phase::hot:
        return day.celsius < limits_.hot_until_c ? Phase::cooling : Phase::hot;
      case Phase::curing:
        return day.celsius > curing_until_c(day) ? Phase::cooling : Phase::curing;
      case Phase::cooling:
        return Phase::cooling;
      case Phase::starting:
        return day.celsius <= highest_c_ - limits_.fall_k ? Phase::cooling : Phase::starting;
      case Phase::unknown:
        break;
    }
    if (was_hot_) return Phase::cooling;
    // The heat may have come and gone unseen: then nothing can be said until it is hot or has long been cool.
    return seen_from_start_ ? Phase::starting : Phase::unknown;
  }

  [[nodiscard]] double curing_until_c(const HeapDay& day) const {
    if (twin_.empty()) return limits_.cool_until_c;
    return rules::at_day(twin_, day.time_s / constant::seconds_per_day).hottest_c + limits_.warm_again_k;
  }

  void settle(Phase next, const HeapDay& day) {
    if (next == now()) {
      agreeing_ = 0;
      pending_ = Phase::unknown;
      return;
    }
    if (next != pending_ || agreeing_ == 0) {
      pending_ = next;
      agreeing_ = 0;
      pending_since_ = day;
    }
    ++agreeing_;
    const int asked = next == Phase::curing ? 1 : limits_.days_to_agree;  // curing has waited its days already
    if (agreeing_ < asked) return;
    double since_s = pending_since_.time_s;
    if (next == Phase::curing) since_s = twin_.empty() ? *cool_since_s_ : rest_begin_s(pending_since_);
    steps_.push_back({next, since_s, pending_since_.celsius});
    was_hot_ = was_hot_ || next == Phase::hot;
    agreeing_ = 0;
    pending_ = Phase::unknown;
  }

  [[nodiscard]] double rest_begin_s(const HeapDay& day) const {
    const rules::Rest* rest = resting(day);
    return rest == nullptr ? day.time_s : rest->begin_day * constant::seconds_per_day;
  }

  const PhaseLimits& limits_;
  const std::vector<rules::HeatDay>& twin_;
  rules::SelfHeating heat_;
  std::vector<PhaseStep> steps_;
  std::optional<HeapDay> previous_;
  std::optional<double> cool_since_s_;
  int cool_days_ = 0;
  Phase pending_ = Phase::unknown;
  HeapDay pending_since_;
  int agreeing_ = 0;
  double highest_c_ = -std::numeric_limits<double>::infinity();
  bool was_hot_ = false;
  bool seen_from_start_ = false;
};

rules::SelfHeating heat_of(const std::vector<HeapDay>& days, const std::vector<rules::HeatDay>& twin,
                           const PhaseLimits& limits) {
  std::vector<rules::HeatDay> heap;
  heap.reserve(days.size());
  for (const HeapDay& one : days) heap.push_back({one.time_s / constant::seconds_per_day, one.celsius, one.celsius});
  const bool seen_late = !days.empty() && days.front().time_s > limits.gap_s;
  return rules::self_heating(heap, twin, seen_late);
}

Phrase rule_of(Phase phase, const PhaseLimits& limits, bool outside_known) {
  switch (phase) {
    case Phase::starting:
      return {"not yet ", celsius(limits.hot_from_c), " on ", number(limits.days_to_agree), " days read in a row"};
    case Phase::hot:
      return {"warmest probe at ",
              celsius(limits.hot_from_c),
              " or more on ",
              number(limits.days_to_agree),
              " days read in a row, and not yet below ",
              celsius(limits.hot_until_c),
              " since"};
    case Phase::cooling:
      return {"was hot and fell below ", celsius(limits.hot_until_c),  ", or fell ",         kelvin(limits.fall_k),
              " below its highest, on ", number(limits.days_to_agree), " days read in a row"};
    case Phase::curing:
      if (outside_known) {
        return {"warmest probe within ",
                kelvin(rules::near_twin_k),
                " of a heap that makes no heat for ",
                lasting(rules::rest_days * constant::seconds_per_day),
                " (the site file's outside air, smoothed as slowly as a heap follows it), and not more than ",
                kelvin(limits.warm_again_k),
                " above it since"};
      }
      return {"outside air not known: warmest probe below ",
              celsius(limits.cool_below_c),
              " for ",
              lasting(limits.cool_time_s),
              ", read on ",
              number(limits.cool_days),
              " days or more, and not above ",
              celsius(limits.cool_until_c),
              " since"};
    case Phase::unknown:
      break;
  }
  return {"a phase asks for ", number(limits.days_to_agree),
          " days read that agree, from the start on, the last no older than ", lasting(limits.gap_s)};
}

/// How a heap that was never hot stands: it may warm, or not at all.
Phrase starting_text(const std::vector<HeapDay>& days) {
  const double gained_k = days.back().celsius - days.front().celsius;
  if (gained_k >= clearly_warmer_k) return {"The heap has not been hot yet; it is warming."};
  return {"The heap has not been hot yet, and it is no warmer than on the first day read."};
}

Phrase text_of(Phase phase, double since_s, const std::vector<HeapDay>& days) {
  switch (phase) {
    case Phase::starting:
      return starting_text(days);
    case Phase::hot:
      return {"The heap is hot, since ", moment(since_s), "."};
    case Phase::cooling:
      return {"The heap is cooling, since ", moment(since_s), "."};
    case Phase::curing:
      return {"The heap is curing: cool since ", moment(since_s), "."};
    case Phase::unknown:
      break;
  }
  return {"The phase cannot be told from the readings."};
}

Phrase reading_of(std::span<const Track> tracks, const std::vector<HeapDay>& days, bool stale) {
  if (days.empty()) return {"no temperature read yet"};
  const HeapDay& last = days.back();
  Phrase phrase = {stale ? "last read long ago: " : "warmest: "};
  append(phrase, name_of(tracks[last.track].spot));
  append(phrase, {", ", celsius(last.celsius), " (the day's median), ", moment(last.time_s), "; ",
                  number(static_cast<double>(days.size())), days.size() == 1 ? " day read" : " days read"});
  return phrase;
}

}  // namespace

std::string_view name_of(Phase phase) noexcept {
  constexpr std::string_view names[] = {"unknown", "starting", "hot", "cooling", "curing"};
  return names[static_cast<std::size_t>(phase)];
}

std::vector<HeapDay> heap_days(std::span<const Track> tracks, double now_s, const PhaseLimits& limits) {
  std::map<int, std::vector<std::pair<std::size_t, DayValue>>> by_day;
  for (std::size_t i = 0; i < tracks.size(); ++i) {
    if (tracks[i].sensed != Sensed::temperature) continue;
    for (const DayValue& value : daily_medians(tracks[i], now_s)) by_day[value.day].emplace_back(i, value);
  }
  std::vector<HeapDay> days;
  std::map<std::size_t, DayValue> latest;  // of each probe
  for (const auto& [day, values] : by_day) {
    HeapDay heap{0.0, -std::numeric_limits<double>::infinity(), 0};
    for (const auto& [track, value] : values) {
      latest[track] = value;
      heap.time_s = std::max(heap.time_s, value.time_s);
    }
    for (const auto& [track, value] : latest) {
      if (heap.time_s - value.time_s > limits.probe_counts_s || value.median <= heap.celsius) continue;
      heap.celsius = value.median;
      heap.track = track;
    }
    days.push_back(heap);
  }
  return days;
}

PhaseAnswer phase_of(std::span<const Track> tracks, double now_s, const PhaseLimits& limits, const Outside& outside) {
  const std::vector<HeapDay> days = heap_days(tracks, now_s, limits);
  Follower follower(limits, outside.twin, heat_of(days, outside.twin, limits));
  for (const HeapDay& day : days) follower.take(day);
  PhaseAnswer answer;
  answer.steps = follower.steps();
  const bool stale = !days.empty() && now_s - days.back().time_s > limits.gap_s;
  if (stale && follower.now() != Phase::unknown) {
    answer.steps.push_back({Phase::unknown, days.back().time_s, days.back().celsius});
  }
  answer.now = answer.steps.empty() ? Phase::unknown : answer.steps.back().phase;
  answer.statement.id = "phase-" + std::string(name_of(answer.now));
  answer.statement.text = text_of(answer.now, answer.steps.empty() ? 0.0 : answer.steps.back().since_s, days);
  answer.statement.reading = reading_of(tracks, days, stale);
  answer.statement.rule = rule_of(answer.now, limits, !outside.twin.empty());
  answer.statement.source = "chosen within published temperature ranges (docs/rules.md)";
  answer.statement.time_s = days.empty() ? now_s : days.back().time_s;
  if (answer.now == Phase::unknown) answer.statement.next = "Read the temperature at every probe position.";
  return answer;
}

bool was_hot(const PhaseAnswer& answer) noexcept {
  return std::any_of(answer.steps.begin(), answer.steps.end(),
                     [](const PhaseStep& step) { return step.phase == Phase::hot; });
}

}  // namespace stillheap::insight
