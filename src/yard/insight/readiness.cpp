#include "yard/insight/readiness.hpp"

#include <algorithm>
#include <map>

#include "yard/insight/maturity.hpp"

namespace stillheap::insight {
namespace {

constexpr const char* practice = "common practice, no source";

Answer all_of(const std::vector<ReadyPoint>& points) {
  Answer answer = points.empty() ? Answer::unknown : Answer::yes;
  for (const ReadyPoint& point : points) answer = std::min(answer, point.answer);
  return answer;
}

/// How long one position has been below the limit, up to its last reading, without a gap or a reading above.
struct CoolSpell {
  double begin_s = 0.0;
  double end_s = 0.0;
  double warmest_c = 0.0;
  Sample last;
};

std::optional<CoolSpell> cool_spell(const Track& track, double now_s, const ReadinessLimits& limits) {
  std::optional<CoolSpell> spell;
  for (const Sample& sample : track.samples) {
    if (sample.time_s > now_s) break;
    if (sample.value >= limits.worm_below_c) {
      spell.reset();
      continue;
    }
    if (!spell || sample.time_s - spell->end_s > limits.worm_gap_s) {
      spell = CoolSpell{sample.time_s, sample.time_s, sample.value, sample};
    }
    spell->end_s = sample.time_s;
    spell->warmest_c = std::max(spell->warmest_c, sample.value);
    spell->last = sample;
  }
  if (spell && now_s - spell->end_s > limits.worm_gap_s) return std::nullopt;
  return spell;
}

std::optional<Sample> last_of(const Track& track, double now_s) {
  return last_fresh(track, now_s, std::max(now_s, 0.0));
}

ReadyPoint cool_at(const Track& track, double now_s, const ReadinessLimits& limits) {
  ReadyPoint point;
  Statement& statement = point.statement;
  statement.id = "worms-cool";
  statement.rule = {"below ",
                    celsius(limits.worm_below_c),
                    " for ",
                    lasting(limits.worm_time_s),
                    ", read at least every ",
                    lasting(limits.worm_gap_s)};
  statement.source = "limit: common practice, no source; how long: chosen";
  const std::optional<Sample> last = last_of(track, now_s);
  statement.reading = name_of(track.spot);
  if (!last) {
    append(statement.reading, {": not read yet"});
    return point;
  }
  statement.time_s = last->time_s;
  append(statement.reading, {": ", celsius(last->value), ", ", moment(last->time_s)});
  if (const auto spell = cool_spell(track, now_s, limits)) {
    append(statement.reading, {"; cool since ", moment(spell->begin_s), ", at most ", celsius(spell->warmest_c)});
    point.answer = spell->end_s - spell->begin_s >= limits.worm_time_s ? Answer::yes : Answer::no;
  } else {
    point.answer = now_s - last->time_s > limits.worm_gap_s ? Answer::unknown : Answer::no;
  }
  statement.text = point.answer == Answer::yes  ? Phrase{"This place has cooled."}
                   : point.answer == Answer::no ? Phrase{"This place has not been cool for long enough."}
                                                : Phrase{"This place has not been read lately."};
  return point;
}

ReadyPoint old_enough(double now_s, double least_s, const char* id, const char* source) {
  ReadyPoint point;
  point.answer = now_s >= least_s ? Answer::yes : Answer::no;
  point.statement.id = id;
  point.statement.text = {now_s >= least_s ? "The heap is old enough." : "The heap is too young."};
  point.statement.reading = {"filled ", lasting(now_s), " ago"};
  point.statement.rule = {"at least ", lasting(least_s), " after filling"};
  point.statement.source = source;
  point.statement.time_s = now_s;
  return point;
}

ReadyPoint cured(const PhaseAnswer& phase, double now_s, const ReadinessLimits& limits) {
  ReadyPoint point;
  point.statement.id = "harvest-cured";
  point.statement.rule = {"curing for at least ", lasting(limits.curing_s)};
  point.statement.source = practice;
  point.statement.time_s = now_s;
  point.statement.reading = phase.statement.reading;
  if (phase.now == Phase::unknown) {
    point.statement.text = {"Whether the heap has cured cannot be told from the readings."};
    return point;
  }
  const double cured_s = phase.now == Phase::curing ? now_s - phase.steps.back().since_s : 0.0;
  point.answer = cured_s >= limits.curing_s ? Answer::yes : Answer::no;
  point.statement.text = {"The heap is ", std::string(name_of(phase.now)), ", curing for ", lasting(cured_s), "."};
  return point;
}

const LabValue* last_test(std::span<const LabValue> tests, std::string_view key, std::string_view unit) {
  const LabValue* last = nullptr;
  for (const LabValue& test : tests) {
    if (test.of_lot || test.key != key || test.unit != unit) continue;
    if (last == nullptr || test.time_s >= last->time_s) last = &test;
  }
  return last;
}

ReadyPoint stable(std::span<const LabValue> tests, const ReadinessLimits& limits) {
  ReadyPoint point;
  Statement& statement = point.statement;
  statement.id = "harvest-stable";
  statement.rule = {"self-heating less than ", kelvin(limits.stable_rise_k), " over the room (class IV or V)"};
  statement.source = "TMECC 05.08-D; Brinton et al. 1995 (from memory); class IV as the least: chosen";
  const LabValue* test = last_test(tests, "self_heating_rise", "K");
  if (test == nullptr) {
    statement.text = {"Stability has not been tested."};
    statement.reading = {"no laboratory test self_heating_rise in K"};
    statement.next = "Have a self-heating test made, or make one in an insulated flask; note it in K.";
    return point;
  }
  point.answer = test->value < limits.stable_rise_k ? Answer::yes : Answer::no;
  statement.text = {point.answer == Answer::yes ? "The compost is stable." : "The compost still heats by itself."};
  statement.reading = {"self-heating ", kelvin(test->value), ", sampled ", moment(test->time_s)};
  statement.time_s = test->time_s;
  return point;
}

ReadyPoint clean(std::span<const LabValue> tests) {
  ReadyPoint point;
  Statement& statement = point.statement;
  statement.id = "harvest-germs";
  statement.rule = {"fecal coliform below 1000 MPN/g dry, or salmonella below 3 MPN/4 g dry"};
  statement.source = "40 CFR 503.32(a)(3)(i); read in 15A NCAC 02T .1106(a)(2)";
  std::map<std::string, double> values;
  for (const QualityLimit& limit : quality_limits()) {
    if (limit.standard != Standard::pathogens) continue;
    if (const LabValue* test = last_test(tests, limit.key, limit.unit)) {
      values[test->key] = test->value;
      statement.time_s = test->time_s;
    }
  }
  if (values.empty()) {
    statement.text = {"Germs have not been tested."};
    statement.reading = {"no laboratory test fecal_coliform or salmonella in the standard's unit"};
    statement.next = "Send a sample, or treat the compost as raw.";
    statement.caution =
        "Untested compost may carry germs: gloves, washed hands, and the intervals before harvest for raw manure "
        "(7 CFR 205.203(c)(1)) or whatever the local rule asks.";
    return point;
  }
  const std::vector<Finding> findings = check_quality(Standard::pathogens, values);
  point.answer = passes(Standard::pathogens, findings) ? Answer::yes : Answer::no;
  statement.text = {point.answer == Answer::yes ? "Germs are below the limit." : "Germs are over the limit."};
  for (const Finding& finding : findings) {
    append(statement.reading, {statement.reading.empty() ? "" : "; ", finding.words});
  }
  return point;
}

}  // namespace

std::string_view name_of(Answer answer) noexcept {
  constexpr std::string_view names[] = {"no", "unknown", "yes"};
  return names[static_cast<std::size_t>(answer)];
}

Readiness ready_for_worms(std::span<const Track> tracks, double now_s, const ReadinessLimits& limits) {
  Readiness ready;
  ready.points.push_back(old_enough(now_s, limits.worm_earliest_s, "worms-age", "chosen"));
  bool any = false;
  for (const Track& track : tracks) {
    if (track.sensed != Sensed::temperature) continue;
    any = true;
    ready.points.push_back(cool_at(track, now_s, limits));
  }
  ready.answer = all_of(ready.points);
  if (!any) ready.answer = std::min(ready.answer, Answer::unknown);
  Statement& statement = ready.statement;
  statement.id = "ready-worms";
  statement.time_s = now_s;
  statement.rule = {"every probe position below ",
                    celsius(limits.worm_below_c),
                    " for ",
                    lasting(limits.worm_time_s),
                    ", and ",
                    lasting(limits.worm_earliest_s),
                    " since filling"};
  statement.source = "limit: common practice, no source; how long: chosen";
  for (const ReadyPoint& point : ready.points) {
    if (!statement.reading.empty()) statement.reading.emplace_back("; ");
    append(statement.reading, point.statement.reading);
  }
  switch (ready.answer) {
    case Answer::yes:
      statement.weight = Severity::due;
      statement.text = {"Ready for worms, as far as the probes reach."};
      statement.next = "Put the worms in, near the wall first; go on reading weekly.";
      break;
    case Answer::no:
      statement.text = {"Not ready for worms yet."};
      break;
    case Answer::unknown:
      statement.text = {"Whether it is ready for worms cannot be told: a position has no fresh reading."};
      statement.next = "Read the temperature at every probe position.";
      break;
  }
  return ready;
}

Readiness ready_for_harvest(const PhaseAnswer& phase, std::span<const LabValue> tests, double now_s,
                            const ReadinessLimits& limits) {
  Readiness ready;
  ready.points.push_back(old_enough(now_s, limits.harvest_age_s, "harvest-age", practice));
  ready.points.push_back(cured(phase, now_s, limits));
  ready.points.push_back(stable(tests, limits));
  ready.points.push_back(clean(tests));
  ready.answer = all_of(ready.points);
  Statement& statement = ready.statement;
  statement.id = "ready-harvest";
  statement.time_s = now_s;
  statement.rule = {"old enough, cured, stable and below the limits for germs"};
  statement.source = "see the points";
  for (const ReadyPoint& point : ready.points) {
    if (!statement.reading.empty()) statement.reading.emplace_back("; ");
    append(statement.reading, point.statement.reading);
  }
  if (ready.answer == Answer::yes) {
    statement.weight = Severity::due;
    statement.text = {"Ready for harvest."};
    statement.next = "Harvest; note volume and where it goes.";
    statement.caution =
        "Open the cage from the top down and stand aside of the joint: mesh springs and a steep face can slump. Dust "
        "mask for dry compost.";
  } else if (ready.answer == Answer::no) {
    statement.text = {"Not ready for harvest yet."};
  } else {
    statement.text = {"Old and cool enough, but a test is missing: not known to be ready for harvest."};
    statement.weight = Severity::due;
    statement.next = "Have the missing tests made.";
    const bool aged = ready.points[0].answer == Answer::yes && ready.points[1].answer == Answer::yes;
    if (!aged) statement.text = {"Whether it is ready for harvest cannot be told: readings are missing."};
  }
  return ready;
}

}  // namespace stillheap::insight
