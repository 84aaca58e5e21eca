#include "yard/insight/readiness.hpp"

#include <algorithm>
#include <map>

#include "core/base/constants.hpp"
#include "domain/rules/caution_words.hpp"
#include "domain/rules/harvest.hpp"
#include "domain/rules/worms.hpp"
#include "yard/insight/maturity.hpp"

namespace stillheap::insight {
namespace {

namespace worms = rules::worms;
namespace harvest = rules::harvest;

constexpr const char* practice = "common practice, no source";
constexpr double day_s = constant::seconds_per_day;

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
    if (sample.value >= worms::most_c) {
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
  statement.rule = {celsius(worms::least_c),     " or more now, and below ", celsius(worms::most_c),    " for ",
                    lasting(limits.worm_time_s), ", read at least every ",   lasting(limits.worm_gap_s)};
  statement.source = std::string(worms::source);
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
    const bool long_enough = spell->end_s - spell->begin_s >= limits.worm_time_s;
    point.answer = long_enough && last->value >= worms::least_c ? Answer::yes : Answer::no;
  } else {
    point.answer = now_s - last->time_s > limits.worm_gap_s ? Answer::unknown : Answer::no;
  }
  statement.text = point.answer == Answer::yes    ? Phrase{"This place has cooled."}
                   : last->value < worms::least_c ? Phrase{"This place is too cold for worms."}
                   : point.answer == Answer::no   ? Phrase{"This place has not been cool for long enough."}
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

ReadyPoint heat_ended(const PhaseAnswer& phase) {
  ReadyPoint point;
  point.statement = phase.statement;
  point.statement.id = "worms-heat-ended";
  point.statement.rule = {"self-heating is over"};
  if (phase.now != Phase::unknown) point.answer = phase.now == Phase::curing ? Answer::yes : Answer::no;
  return point;
}

/// Moisture or oxygen at the last fresh readings of all places; nothing read: unknown.
ReadyPoint within(std::span<const Track> tracks, Sensed sensed, double least, double most, double now_s,
                  const ReadinessLimits& limits) {
  const bool water = sensed == Sensed::moisture;
  ReadyPoint point;
  Statement& statement = point.statement;
  statement.id = water ? "worms-moisture" : "worms-air";
  statement.source = std::string(worms::source);
  statement.rule = water ? Phrase{share(least), " to ", share(most), " of the wet mass at every place read"}
                         : Phrase{"oxygen ", share(least), " or more by volume at every place read"};
  for (const Track& track : tracks) {
    if (track.sensed != sensed) continue;
    const auto last = last_fresh(track, now_s, limits.fresh_other_s);
    if (!last) continue;
    if (point.answer == Answer::unknown) point.answer = Answer::yes;
    if (last->value < least || last->value > most) point.answer = Answer::no;
    if (!statement.reading.empty()) statement.reading.emplace_back("; ");
    append(statement.reading, name_of(track.spot));
    append(statement.reading, {": ", share(last->value), water ? " moisture, " : " oxygen, ", moment(last->time_s)});
    statement.time_s = std::max(statement.time_s, last->time_s);
  }
  if (statement.reading.empty()) statement.reading = {water ? "moisture not read lately" : "oxygen not read lately"};
  const char* no = water ? "It is too dry or too wet for worms." : "There is too little air for worms.";
  statement.text = {point.answer == Answer::no ? no : water ? "Moisture." : "Air."};
  return point;
}

ReadyPoint no_frost_ahead(double coldest_c, double now_s) {
  ReadyPoint point;
  point.answer = coldest_c >= 0.0 ? Answer::yes : Answer::no;
  point.statement.id = "worms-frost";
  point.statement.text = {point.answer == Answer::yes ? "No frost is to be expected." : "Frost is to be expected."};
  point.statement.reading = {"coldest day of the next ", lasting(worms::frost_free_days * day_s),
                             " by the site's weather: ", celsius(coldest_c)};
  point.statement.rule = {"no day of the next ", lasting(worms::frost_free_days * day_s), " with a mean below ",
                          celsius(0.0)};
  point.statement.source = "chosen";
  point.statement.time_s = now_s;
  return point;
}

ReadyPoint cured(const PhaseAnswer& phase, double now_s) {
  ReadyPoint point;
  point.statement.id = "harvest-cured";
  point.statement.rule = {"curing for at least ", lasting(harvest::curing_days * day_s)};
  point.statement.source = practice;
  point.statement.time_s = now_s;
  point.statement.reading = phase.statement.reading;
  if (phase.now == Phase::unknown) {
    point.statement.text = {"Whether the heap has cured cannot be told from the readings."};
    return point;
  }
  const double cured_s = phase.now == Phase::curing ? now_s - phase.steps.back().since_s : 0.0;
  point.answer = cured_s >= harvest::curing_days * day_s ? Answer::yes : Answer::no;
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

ReadyPoint stable(std::span<const LabValue> tests) {
  ReadyPoint point;
  Statement& statement = point.statement;
  statement.id = "harvest-stable";
  statement.rule = {"self-heating less than ", kelvin(harvest::stable_rise_k), " over the room (class IV or V)"};
  statement.source =
      "TMECC 05.08-D; Brinton et al. 1995 (not yet checked against the text); class IV as the least: chosen";
  const LabValue* test = last_test(tests, "self_heating_rise", "K");
  if (test == nullptr) {
    statement.text = {"Stability has not been tested."};
    statement.reading = {"no laboratory test self_heating_rise in K"};
    statement.next = "Have a self-heating test made, or make one in an insulated flask; note it in K.";
    return point;
  }
  point.answer = test->value < harvest::stable_rise_k ? Answer::yes : Answer::no;
  statement.text = {point.answer == Answer::yes ? "The compost is stable." : "The compost still heats by itself."};
  statement.reading = {"self-heating ", kelvin(test->value), ", sampled ", moment(test->time_s)};
  statement.time_s = test->time_s;
  return point;
}

ReadyPoint clean(std::span<const LabValue> tests) {
  ReadyPoint point;
  Statement& statement = point.statement;
  statement.id = "harvest-germs";
  statement.rule = {
      "no test above its limit: fecal coliform below 1000 MPN/g dry, salmonella below 3 MPN/4 g dry, none found in 25 "
      "g (the "
      "rule itself asks for one of the first two alone)"};
  statement.source =
      "40 CFR 503.32(a)(3)(i), read in 15A NCAC 02T .1106(a)(2), written for sewage sludge: a yardstick, no permit; "
      "any "
      "failed test means no: chosen";
  std::map<std::string, double> values, european;
  for (const QualityLimit& limit : quality_limits()) {
    if (limit.standard != Standard::pathogens && limit.standard != Standard::european_germs) continue;
    if (const LabValue* test = last_test(tests, limit.key, limit.unit)) {
      (limit.standard == Standard::pathogens ? values : european)[test->key] = test->value;
      statement.time_s = test->time_s;
    }
  }
  if (values.empty() && european.empty()) {
    statement.text = {"Germs have not been tested."};
    statement.reading = {"no laboratory test fecal_coliform or salmonella in the standard's unit"};
    statement.next = "Send a sample, or treat the compost as raw.";
    statement.caution =
        "Untested compost may carry germs: gloves, washed hands, and the intervals before harvest for raw manure "
        "(7 CFR 205.203(c)(1)) or whatever the local rule asks.";
    return point;
  }
  std::vector<Finding> findings = check_quality(Standard::pathogens, values);
  const bool by_rule = passes(Standard::pathogens, findings);
  const std::vector<Finding> more = check_quality(Standard::european_germs, european);
  findings.insert(findings.end(), more.begin(), more.end());
  point.answer = none_failed(findings) ? Answer::yes : Answer::no;
  statement.text = {point.answer == Answer::yes ? "Every test for germs made is below its limit."
                    : by_rule
                        ? "A test for germs failed: not ready, although one passing test meets the rule's own words."
                        : "A test for germs failed."};
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

namespace {

void name_the_points(Readiness& ready) {
  for (const ReadyPoint& point : ready.points) {
    if (!ready.statement.reading.empty()) ready.statement.reading.emplace_back("; ");
    append(ready.statement.reading, point.statement.reading);
  }
}

/// Whether moisture alone is not known.
bool only_water_unread(const Readiness& ready) {
  return std::all_of(ready.points.begin(), ready.points.end(), [](const ReadyPoint& point) {
    return point.answer == Answer::yes || (point.statement.id == "worms-moisture" && point.answer == Answer::unknown);
  });
}

/// Why not, in the words of the first point that says no.
Phrase why_not(const Readiness& ready) {
  for (const ReadyPoint& point : ready.points) {
    if (point.answer != Answer::no) continue;
    Phrase words = {"Not ready for worms yet. "};
    append(words, point.statement.text);
    return words;
  }
  return {"Not ready for worms yet."};
}

}  // namespace

Readiness ready_for_worms(std::span<const Track> tracks, double now_s, const PhaseAnswer& phase, const Outside& outside,
                          const ReadinessLimits& limits) {
  Readiness ready;
  ready.points.push_back(old_enough(now_s, worms::earliest_day * day_s, "worms-age", "chosen"));
  if (!outside.twin.empty()) ready.points.push_back(heat_ended(phase));
  bool any = false;
  for (const Track& track : tracks) {
    if (track.sensed != Sensed::temperature) continue;
    any = true;
    ready.points.push_back(cool_at(track, now_s, limits));
  }
  ready.points.push_back(
      within(tracks, Sensed::moisture, worms::least_moisture_wet, worms::most_moisture_wet, now_s, limits));
  const ReadyPoint air = within(tracks, Sensed::oxygen, worms::least_oxygen, 1.0, now_s, limits);
  if (air.answer != Answer::unknown) ready.points.push_back(air);  // few can read it
  if (outside.coldest_ahead_c) ready.points.push_back(no_frost_ahead(*outside.coldest_ahead_c, now_s));
  ready.answer = all_of(ready.points);
  if (!any) ready.answer = std::min(ready.answer, Answer::unknown);
  Statement& statement = ready.statement;
  statement.id = "ready-worms";
  statement.time_s = now_s;
  statement.rule = {"self-heating over, every probe position from ",
                    celsius(worms::least_c),
                    " to below ",
                    celsius(worms::most_c),
                    " for ",
                    lasting(limits.worm_time_s),
                    ", ",
                    lasting(worms::earliest_day * day_s),
                    " since filling, moisture ",
                    share(worms::least_moisture_wet),
                    " to ",
                    share(worms::most_moisture_wet),
                    ", air, and no frost ahead"};
  statement.source = std::string(worms::source);
  name_the_points(ready);
  switch (ready.answer) {
    case Answer::yes:
      statement.weight = Severity::due;
      statement.text = {"Ready for worms, as far as the probes reach."};
      statement.next = std::string(worms::place) + " Go on reading weekly.";
      statement.caution = std::string(worms::caution) + " " + std::string(rules::words::arm);
      break;
    case Answer::no:
      statement.text = why_not(ready);
      break;
    case Answer::unknown:
      statement.text = {"Whether it is ready for worms cannot be told: a position has no fresh reading."};
      statement.next = "Read the temperature at every probe position.";
      if (any && only_water_unread(ready)) {
        statement.weight = Severity::due;
        statement.text = {"Cool enough for worms, but how wet it is has not been read lately."};
        statement.next = "Squeeze a handful from a hand's depth: unless a few drops come, water first. Then: " +
                         std::string(worms::place);
        statement.caution = std::string(worms::caution) + " " + std::string(rules::words::arm);
      }
      break;
  }
  return ready;
}

Readiness ready_for_harvest(const PhaseAnswer& phase, std::span<const LabValue> tests, double now_s) {
  Readiness ready;
  ready.points.push_back(old_enough(now_s, harvest::least_age_days * day_s, "harvest-age", practice));
  ready.points.push_back(cured(phase, now_s));
  ready.points.push_back(stable(tests));
  ready.points.push_back(clean(tests));
  ready.answer = all_of(ready.points);
  Statement& statement = ready.statement;
  statement.id = "ready-harvest";
  statement.time_s = now_s;
  for (const harvest::Criterion& one : harvest::criteria) {
    if (!statement.rule.empty()) statement.rule.emplace_back("; ");
    statement.rule.emplace_back(std::string(one.words));
  }
  statement.source = "see the points";
  name_the_points(ready);
  if (ready.answer == Answer::yes) {
    statement.weight = Severity::due;
    statement.text = {"Ready for harvest."};
    statement.next = "Look and smell first: " + std::string(harvest::criteria[2].words) +
                     ". Then harvest; note volume and where it goes.";
    statement.caution =
        "Open the cage from the top down and stand aside of the joint: mesh springs and a steep face can slump. " +
        std::string(rules::words::mask);
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
